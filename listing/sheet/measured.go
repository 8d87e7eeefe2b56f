package sheet

import (
	"slices"

	"slabfolio/listing/report"
)

// A sheet is tried in many ways before it is drawn, and the same words are measured
// in each: what was reckoned once is kept.
type measured struct {
	cleaned map[said]string
	widths  map[said]float64
	wrapped map[wrapping][]string
	notes   map[notesOf]float64
}

// said is a text in a face.
type said struct {
	face face
	text string
}

// wrapping is a text in lines of a width, in thousandths of the type size.
type wrapping struct {
	said
	width float64
}

// notesOf is what the height of a drawing's notes hangs on.
type notesOf struct {
	r     *report.Report
	width float64
}

func newMeasured() *measured {
	return &measured{map[said]string{}, map[said]float64{}, map[wrapping][]string{}, map[notesOf]float64{}}
}

// clean returns a text as a face can draw it.
func (d *doc) clean(f face, s string) string {
	k := said{f, s}
	c, ok := d.known.cleaned[k]
	if !ok {
		c = d.faces[f].clean(s)
		d.known.cleaned[k] = c
	}
	return c
}

// width returns how wide s is set, in millimetres.
func (d *doc) width(st style, s string) float64 {
	k := said{st.face, s}
	w, ok := d.known.widths[k]
	if !ok {
		w = d.faces[st.face].width(d.clean(st.face, s))
		d.known.widths[k] = w
	}
	return w / 1000 * st.size * pt
}

// wrap breaks s into lines of at most width millimetres.
func (d *doc) wrap(st style, s string, width float64) []string {
	k := wrapping{said{st.face, s}, width / pt / st.size * 1000}
	lines, ok := d.known.wrapped[k]
	if !ok {
		lines = d.faces[st.face].wrap(s, k.width)
		d.known.wrapped[k] = lines
	}
	return slices.Clone(lines)
}
