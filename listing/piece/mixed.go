package piece

import (
	"cmp"
	"fmt"

	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/units"
)

// checkMixed doubts a top of which one of length and width has a unit and the other
// has none and is read in one of another system: 40 beside 45 cm, read in inches, or 72
// beside 36 in, read in centimetres.
func checkMixed(d *decoder, w *Written, p *Piece) {
	o := &p.Top.Outline
	outline := w.Key("top").Key("outline")
	long, wide := outline.Key("length"), outline.Key("width")
	if !o.Length.Set() || !o.Width.Set() || long == nil || wide == nil || !long.Single || !wide.Single || bare(long.Text) == bare(wide.Text) {
		return
	}
	without, with := long, wide
	if bare(wide.Text) {
		without, with = wide, long
	}
	unit := units.UnitIn(with.Text)
	wider := o.Width.V > o.Length.V
	if !wider && unit.Metric() == d.units.Metric() {
		return
	}
	message := fmt.Sprintf("%s has no unit and is read in %s, beside %s", without.Text, d.units, with.Text)
	if wider {
		message += ": the top comes out wider than it is long"
	}
	d.doubt("outline.mixed-units", without.At, message, fmt.Sprintf("write %s %s if that is meant, or the unit behind it that is", without.Text, cmp.Or(unit, d.units)))
}

// usual is what the workshop's country measures furniture in, where nobody said what
// the workshop does and bare lengths, which count as inches, can be meant in it; else "".
func (d Defaults) usual() units.System {
	if u := units.UsualIn(d.Country); d.Units == "" && u.Metric() {
		return u
	}
	return ""
}

// checkUnsaid doubts the first length without a unit where neither file says the unit
// and the workshop's country measures in another than inches.
func checkUnsaid(d *decoder, w *Written, usual units.System, p *Piece) {
	if usual == "" || p.Units.Set() {
		return
	}
	if path, first := bareLength(w, pieceKeys, ""); first != nil {
		d.doubt("spec.units-unsaid", first.At, fmt.Sprintf("%s: %s has no unit, and neither workshop.yaml nor this file says which one you measure in, so it counts as inches", path, yamltext.Shorten(first.Text)),
			fmt.Sprintf("write units: %s into workshop.yaml if that is meant, or units: in if it is right", usual))
	}
}

// bareLength is the first length of a spec that is written as a number alone; nil where
// there is none.
func bareLength(w *Written, keys []Key, path string) (string, *Written) {
	for _, k := range w.Keys {
		key := find(keys, k.Name)
		if key == nil {
			continue
		}
		at := KeyPath(path, k.Name)
		for _, v := range append([]*Written{k.Value}, k.Value.Items...) {
			if (key.Type == typeLength || key.Type == typeSizes) && v.Single && bare(v.Text) {
				return at, v
			}
			if p, first := bareLength(v, key.Keys, at); first != nil {
				return p, first
			}
		}
		if key.Type == typePoints && len(k.Value.Items) > 0 {
			for _, xy := range k.Value.Items[0].Items {
				if xy.Single && bare(xy.Text) {
					return at, xy
				}
			}
		}
	}
	return "", nil
}

// bare reports whether a length, or sizes with a cross between them, are written
// without a unit.
func bare(text string) bool {
	a, errA := units.ParseSizes(text, units.Inches)
	b, errB := units.ParseSizes(text, units.Millimetres)
	return errA == nil && errB == nil && a[0] != b[0]
}
