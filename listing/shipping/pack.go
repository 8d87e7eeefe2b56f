package shipping

import (
	"fmt"
	"math"

	"slabfolio/listing/figure"
)

// The ways a piece is packed, as the spec says them.
const (
	Blanket = "blanket-wrapped"
	Carton  = "carton"
	Crate   = "crate"
	OnSkid  = "crate on skid"
	Own     = "own" // the maker's own boxes, as measured
)

// Contents are something to be packed: sizes in millimetres, net weight with range.
type Contents struct {
	Name                  string // "top", "base"; empty for the whole piece
	Length, Width, Height float64
	Kg, LowKg, HighKg     float64
}

// A Panel is the sheet that a crate is made of.
type Panel struct {
	Name                    string
	KgM3, LowKgM3, HighKgM3 float64
	Source                  string
}

// How is the maker's way of packing.
type How struct {
	Way       string  // one of Blanket, Carton, Crate, OnSkid
	Clearance float64 // mm on every side; 0 takes what is customary
	Panel     Panel   // for crates
	Battens   bool    // a light crate: thin ply on battens
}

// A Package is one thing that a carrier takes. Sizes are as built, in
// millimetres; UpInches and UpCentimetres round them.
type Package struct {
	Contents  Contents
	Way       string
	LengthMM  float64
	WidthMM   float64
	HeightMM  float64
	PackingKg float64 // of the packing alone
	GrossKg   float64
	LowKg     float64
	HighKg    float64
	Rule      string  // how the packing was reckoned
	SolidMM   float64 // the thickest solid wood of the packing; 0 where there is none
}

// Pack returns one load in its packing. It returns an error for a way that is
// not known and for a load without a size or a weight.
func (t Tables) Pack(l Contents, h How) (Package, error) {
	if !(l.Length > 0 && l.Width > 0 && l.Height > 0) {
		return Package{}, fmt.Errorf("the size of %s is not known", nameOf(l))
	}
	if !(l.Kg > 0) {
		return Package{}, fmt.Errorf("the weight of %s is not known", nameOf(l))
	}
	var p Package
	var m figure.Uncertain // the packing, kg
	switch h.Way {
	case Blanket:
		p, m = t.blanket(l, h)
	case Carton:
		p, m = t.carton(l, h)
	case Crate, OnSkid:
		if h.Panel.KgM3 <= 0 {
			return Package{}, fmt.Errorf("the density of the crate's panels is not known")
		}
		p, m = t.crate(l, h)
	default:
		return Package{}, fmt.Errorf("no way of packing called %q", h.Way)
	}
	net := figure.Within(l.Kg, l.LowKg, l.HighKg, "weight of "+nameOf(l))
	gross := net.Plus(m)
	p.Contents, p.Way, p.PackingKg, p.GrossKg = l, h.Way, m.Value, gross.Value
	p.LowKg, p.HighKg = gross.Range()
	p.LowKg = math.Max(0, p.LowKg)
	return p, nil
}

func nameOf(l Contents) string {
	if l.Name == "" {
		return "the piece"
	}
	return "the " + l.Name
}

// uncertain is a figure of the trade with its range as one cause of doubt.
func (t Tables) uncertain(id string) figure.Uncertain {
	p := t.Rules[id]
	return figure.Within(p.Value, p.Low, p.High, id)
}

func enlarged(l Contents, by float64) (x, y, z float64) {
	return l.Length + 2*by, l.Width + 2*by, l.Height + 2*by
}

func surfaceM2(x, y, z float64) float64 { return 2 * (x*y + x*z + y*z) / 1e6 }

func (t Tables) clearance(h How, id string) float64 {
	if h.Clearance > 0 {
		return h.Clearance
	}
	return t.rule(id)
}

func (t Tables) blanket(l Contents, h How) (Package, figure.Uncertain) {
	x, y, z := enlarged(l, t.clearance(h, "clearance_blanket"))
	return Package{LengthMM: x, WidthMM: y, HeightMM: z,
		Rule: "surface x weight of blankets"}, t.uncertain("blanket").Scale(surfaceM2(x, y, z))
}

func (t Tables) carton(l Contents, h How) (Package, figure.Uncertain) {
	c := t.clearance(h, "clearance_carton")
	x, y, z := enlarged(l, c+t.rule("carton_wall"))
	board := t.uncertain("carton_board").Scale(surfaceM2(x, y, z)).Times(t.uncertain("carton_overlap"))
	ix, iy, iz := enlarged(l, c)
	gapM3 := (ix*iy*iz - l.Length*l.Width*l.Height) / 1e9
	foam := t.uncertain("foam_pe").Scale(gapM3).Times(t.uncertain("foam_fill"))
	return Package{LengthMM: x, WidthMM: y, HeightMM: z,
		Rule: "double-wall board over the surface, with flaps, and foam in the gap"}, board.Plus(foam)
}

// crate builds a box of panels with a frame along its twelve edges on the
// outside, of 38 x 89 mm or of battens, and runners below it when it stands on a
// skid.
func (t Tables) crate(l Contents, h How) (Package, figure.Uncertain) {
	sheet, edge, side, of := "panel_thickness", "frame", t.rule("frame_side"), "softwood"
	if h.Battens {
		sheet, edge, side, of = "batten_panel", "batten", t.rule("batten_side"), "battens"
	}
	x, y, z := enlarged(l, t.clearance(h, "clearance_crate")+t.rule(sheet))
	panel := figure.Within(h.Panel.KgM3, h.Panel.LowKgM3, h.Panel.HighKgM3, "density of "+h.Panel.Name)
	panels := panel.Times(t.uncertain(sheet)).Scale(surfaceM2(x, y, z) / 1000)
	frame := t.uncertain(edge).Scale(4 * (x + y + z) / 1000)
	all := panels.Plus(frame).Times(t.uncertain("fill"))
	p := Package{LengthMM: x + 2*side, WidthMM: y + 2*side, HeightMM: z + 2*side, SolidMM: side,
		Rule: fmt.Sprintf("panels of %s, area x thickness x density, frame of %s along twelve edges, fixings and foam", h.Panel.Name, of)}
	if h.Way == OnSkid {
		p.HeightMM += t.rule("skid_height")
		p.SolidMM = math.Max(p.SolidMM, t.rule("skid_width"))
		// Two at least, and one more for every further gap that forks fit into.
		runners := math.Max(2, math.Floor(p.WidthMM/(t.rule("skid_gap")+2*t.rule("skid_width")))+1)
		all = all.Plus(t.uncertain("skid_runner").Scale(runners * p.LengthMM / 1000))
		p.Rule += fmt.Sprintf(", %.0f runners below", runners)
	}
	return p, all
}

// OwnPackage is a box that the maker packed: its sizes as measured, and its
// weight as the scale said, between low and high. A weight of 0 is not known.
func OwnPackage(name string, lengthMM, widthMM, heightMM, kg, low, high float64) Package {
	return Package{Contents: Contents{Name: name}, Way: Own, LengthMM: lengthMM, WidthMM: widthMM, HeightMM: heightMM,
		GrossKg: kg, LowKg: low, HighKg: high, Rule: "as the maker measured and weighed it"}
}
