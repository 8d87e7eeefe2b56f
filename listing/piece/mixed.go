package piece

import (
	"fmt"
	"strings"

	"slabfolio/listing/units"
)

// checkMixed doubts a top that is wider than long where one of the two has a unit and
// the other has none: 72 beside 36 in, meant in centimetres or in inches.
func checkMixed(d *decoder, w *Written, p *Piece) {
	o := &p.Top.Outline
	if !o.Length.Set() || !o.Width.Set() || o.Width.V <= o.Length.V {
		return
	}
	outline := w.Key("top").Key("outline")
	long, wide := outline.Key("length"), outline.Key("width")
	if long == nil || wide == nil || !long.Single || !wide.Single || bare(long.Text) == bare(wide.Text) {
		return
	}
	without, with := long, wide
	if bare(wide.Text) {
		without, with = wide, long
	}
	unit := strings.TrimLeft(with.Text, "0123456789./ ")
	d.doubt("outline.mixed-units", without.At, fmt.Sprintf("%s has no unit and is read in %s, beside %s: the top comes out wider than it is long", without.Text, d.units, with.Text),
		fmt.Sprintf("write %s %s if that is meant, or the unit behind it that is", without.Text, unit))
}

// bare reports whether a length is written as a number alone.
func bare(text string) bool {
	a, errA := units.ParseLength(text, units.Inches)
	b, errB := units.ParseLength(text, units.Millimetres)
	return errA == nil && errB == nil && a != b
}
