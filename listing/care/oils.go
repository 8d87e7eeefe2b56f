package care

import (
	"strings"

	"slabfolio/listing/spelling"
)

// An Oil is an oil that a finish names by itself, whatever family it is filed
// under.
type Oil struct {
	Name   string
	Words  []string // as they stand in a product's name
	Dries  bool     // it hardens, and rags wet with it can heat by themselves
	Nut    string   // walnut, tung, nut: what allergies ask for; empty for none
	Source string
}

// OilIn finds the oil that a product names. A varnish over a dark walnut stain
// names none.
func (t Tables) OilIn(product string) (Oil, bool) {
	text := " " + spelling.OneLine(spelling.Plain(product)) + " "
	for _, o := range t.Oils {
		for _, w := range o.Words {
			if strings.Contains(text, " "+w+" ") {
				return o, true
			}
		}
	}
	return Oil{}, false
}

// Of is a family as a product of that name makes it. An oil that dries does so
// under whatever family it is filed, and its days are not the family's: they are
// left out, and it is looked after as an oil.
func (t Tables) Of(f Family, product string) Family {
	o, ok := t.OilIn(product)
	if !ok || !o.Dries || f.Care == "bare" {
		return f
	}
	f.DryingOil = true
	if f.Cure.To == 0 {
		f.Light, f.Undated, f.Source = Span{}, true, o.Source
	}
	if f.Care == "board-oil" {
		f.Care = "oil"
	}
	return f
}

// hardens reports whether anything in the finish becomes hard in time.
func (f Family) hardens() bool { return f.Cure.To > 0 || f.Undated }

// Irritant reports whether the dust of a wood is among those that are known to
// irritate skin, eyes and lungs.
func (t Tables) Irritant(botanical string) bool {
	for _, g := range t.Irritants {
		if strings.HasPrefix(botanical, g+" ") || botanical == g {
			return true
		}
	}
	return false
}

// glossy reports whether a surface shines, so that a polish does it good. A
// flood coat of epoxy shines unless its maker says otherwise.
func (x *writer) glossy() bool {
	s := strings.ToLower(x.in.Sheen)
	if s == "" {
		return x.in.Family != nil && x.in.Family.Care == "epoxy"
	}
	for _, dull := range []string{"semi", "half", "low", "satin", "silk", "mat", "dull", "eggshell", "not ", "no "} {
		if strings.Contains(s, dull) {
			return false
		}
	}
	return strings.Contains(s, "gloss") || strings.Contains(s, "mirror") || strings.Contains(s, "polished")
}

// polishable reports whether fine scratches may be polished out: on a hard and
// glossy film, never on an oiled, waxed or matt one.
func (x *writer) polishable() bool {
	f := x.in.Family
	return f != nil && (f.Care == "epoxy" || f.Care == "film") && x.glossy()
}
