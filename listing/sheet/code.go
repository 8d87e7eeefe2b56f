package sheet

import (
	"fmt"
	"net/url"

	"rsc.io/qr"

	"slabfolio/listing/report"
)

// quietZone is the empty border that ISO/IEC 18004 asks for, in modules.
const quietZone = 4

// codeSide is the code on the label with its quiet zone, in millimetres.
const codeSide = 36.0

// labelCode draws the QR code into a square of the given side, quiet zone
// included, as filled rectangles: one for each run of dark modules in a row.
func (d *doc) labelCode(x, y, side float64) error {
	code, err := qr.Encode(codeText(d.r), qr.M)
	if err != nil { // more text than a code holds: the serial alone is enough
		code, err = qr.Encode(d.r.Public.Serial, qr.M)
	}
	if err != nil {
		return fmt.Errorf("QR code: %w", err)
	}
	module := side / float64(code.Size+2*quietZone)
	d.pdf.SetFillColor(0, 0, 0)
	for row := range code.Size {
		for col := 0; col < code.Size; col++ {
			run := 0
			for col+run < code.Size && code.Black(col+run, row) {
				run++
			}
			if run > 0 {
				d.pdf.Rect(x+float64(col+quietZone)*module, y+float64(row+quietZone)*module, float64(run)*module, module, "F")
				col += run
			}
		}
	}
	return nil
}

// codeText is what the QR code says: where the listing is, or who the piece is.
func codeText(r *report.Report) string {
	p := &r.Public
	if r.BaseURL != "" {
		if u, err := url.JoinPath(r.BaseURL, p.Serial); err == nil {
			return u
		}
	}
	s := p.Serial + "\n" + p.Title
	if p.Maker != nil && p.Maker.Name != "" {
		s += "\n" + p.Maker.Name
	}
	return s
}
