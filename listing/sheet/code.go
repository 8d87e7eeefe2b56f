package sheet

import (
	"fmt"
	"math"

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
	d.figure(d.say("code.alt", "Text", codeText(d.r)), func() { d.drawCode(code, x, y, side) })
	return nil
}

// drawCode draws a code into a square of the given side, quiet zone included.
func (d *doc) drawCode(code *qr.Code, x, y, side float64) {
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
}

// listingCode is the code of the listing's address with what it leads to, where the
// listing has an address.
func (d *doc) listingCode(width float64) flow {
	address := d.r.PageAddress()
	if address == "" {
		return nil
	}
	code, err := qr.Encode(address, qr.M)
	if err != nil {
		return nil // longer than a code holds
	}
	const side = 24
	x := d.axis
	rows := math.Ceil(side / d.lineHeight())
	picture := line{height: rows * d.lineHeight(), keep: true, draw: func(top float64) {
		// The quiet zone lets the code's own edge stand on the column's.
		zone := side * quietZone / float64(code.Size+2*quietZone)
		d.figure(d.say("code.alt", "Text", address), func() { d.drawCode(code, x-zone, top-zone+1, side) })
		y := d.baseline(top + 1)
		text := d.say("code.listing", "Photos", len(d.r.Public.Photos))
		d.tagged(d.element("P"), func() {
			lines := d.wrap(d.sized(name), text, width-side)
			for _, l := range lines {
				d.text(x+side-zone, y, d.sized(name), l+" ")
				y += d.lineHeight()
			}
			for _, l := range d.wrap(d.sized(name), address, width-side) {
				d.text(x+side-zone, y, d.sized(name), l)
				y += d.lineHeight()
			}
		})
	}}
	return flow{d.gap(1), picture}
}

// codeText is what the QR code says: where the listing is, or who the piece is.
func codeText(r *report.Report) string {
	p := &r.Public
	if address := r.PageAddress(); address != "" {
		return address
	}
	s := p.Serial + "\n" + p.Title
	if p.Maker != nil && p.Maker.Name != "" {
		s += "\n" + p.Maker.Name
	}
	return s
}
