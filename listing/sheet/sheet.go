// Package sheet lays out the PDF documents of a piece: the spec sheet, the care
// card, the workshop label, the certificate and the shipping sheet. It computes nothing: every
// figure comes from the report, every word from the templates.
package sheet

import (
	"fmt"
	"strings"

	"slabfolio/listing/report"
	"slabfolio/listing/units"
	"slabfolio/templates"
)

// A Picture is a photo to be printed. JPEG must have been encoded by us, since
// it is embedded as it is, with whatever it carries. Width and Height are in
// pixels. No two pictures of a document may have one width: gofpdf orders them
// by it, and by nothing else. Sheet refuses such a pair.
type Picture struct {
	JPEG          []byte
	Width, Height int
	Alt, Caption  string
	Name          string // of the photo, for whoever gave it; not printed
}

// Options are what the documents need beside the report.
type Options struct {
	Words    *templates.Words
	Paper    string       // a4 or letter; empty means the report's, then a4
	Prefer   units.System // printed first; empty means the report's, then inches
	Accent   [3]uint8     // sRGB, dark enough to read on white; zero: none
	Pictures []Picture    // the main photo first
	Version  string       // of the tool, for the Producer entry
	Card     Card
}

// A Card is how the care card is made.
type Card struct {
	Size  string // one of cardNames; empty: half the paper
	Sheet bool   // as many as a page of the paper holds, with crop marks
}

// unknownCard says that a care card cannot have a size.
func unknownCard(size string) error {
	return fmt.Errorf("care card of %q is not known; it is one of: %s", size, strings.Join(cardNames, ", "))
}

// Sheet returns the spec sheet for the buyer: photo, name, figures and story,
// then the drawing, the care and the cautions. It has one page or two, and
// goes on to a third rather than lose a word.
func Sheet(r *report.Report, o *Options) ([]byte, error) { return build("sheet", r, o, layoutSheet) }

// Care returns the care card, on one side.
func Care(r *report.Report, o *Options) ([]byte, error) { return build("care", r, o, layoutCare) }

// Label returns the workshop label, A6 or a quarter of a letter: the serial
// large, and a QR code with the address of the listing where there is one; and
// after it the tag for the buyer, with the photo.
func Label(r *report.Report, o *Options) ([]byte, error) { return build("label", r, o, layoutLabel) }

// Certificate returns one page that says who made the piece, of what and when, with
// a line to sign.
func Certificate(r *report.Report, o *Options) ([]byte, error) {
	return build("certificate", r, o, layoutCertificate)
}

// Shipping returns the sheet for whoever asks a carrier for a price. It is
// private: it holds the freight figures.
func Shipping(r *report.Report, o *Options) ([]byte, error) {
	return build("shipping", r, o, layoutShipping)
}

// build draws a document and finishes it to PDF/A-1b.
func build(name string, r *report.Report, o *Options, layout func(*doc) error) ([]byte, error) {
	if r == nil || o == nil || o.Words == nil {
		return nil, fmt.Errorf("lay out %s.pdf: no report or no words given", name)
	}
	d, err := newDoc(name, r, o)
	if err != nil {
		return nil, fmt.Errorf("lay out %s.pdf: %w", name, err)
	}
	if err := layout(d); err != nil {
		return nil, fmt.Errorf("lay out %s.pdf: %w", name, err)
	}
	data, err := d.output()
	if err != nil {
		return nil, fmt.Errorf("write %s.pdf: %w", name, err)
	}
	return data, nil
}
