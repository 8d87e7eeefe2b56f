package sheet

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"testing"

	"slabfolio/listing/drawing"
	"slabfolio/listing/report"
	"slabfolio/listing/units"
	"slabfolio/templates"
)

// Sample reports, from the emptiest to the fullest. Figures are invented; the
// makers of figures have tests of their own.

func ptr(v float64) *float64 { return &v }

func words(t testing.TB) *templates.Words {
	t.Helper()
	w, err := templates.Open("en")
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func options(t testing.TB, pictures ...Picture) *Options {
	return &Options{Words: words(t), Paper: "a4", Prefer: units.Inches, Version: "0.1-test", Pictures: pictures}
}

// drawn is a simple picture of a table, so that a page has something to show.
func drawn(t testing.TB, w, h int) Picture {
	t.Helper()
	size := image.Pt(w, h)
	if p, ok := drawnBefore[size]; ok {
		return p
	}
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			u, v := float64(x)/float64(w), float64(y)/float64(h)
			grey := 225 - 40*v
			c := color.RGBA{uint8(grey), uint8(grey), uint8(grey - 4), 255}
			edge := 0.46 + 0.012*math.Sin(u*17) + 0.008*math.Sin(u*41)
			if u > 0.08 && u < 0.92 && v > edge && v < edge+0.075 {
				ring := 12 * math.Sin(v*220+3*math.Sin(u*9))
				c = color.RGBA{uint8(140 + ring), uint8(96 + ring), uint8(58 + ring), 255}
			}
			for _, leg := range []float64{0.2, 0.77} {
				if u > leg && u < leg+0.025 && v >= edge+0.075 && v < 0.88 {
					c = color.RGBA{40, 40, 42, 255}
				}
			}
			m.SetRGBA(x, y, c)
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 88}); err != nil {
		t.Fatal(err)
	}
	p := Picture{JPEG: b.Bytes(), Width: w, Height: h, Alt: "a table against a grey backdrop"}
	drawnBefore[size] = p
	return p
}

// drawnBefore are the pictures so far; tests of this package run one by one.
var drawnBefore = map[image.Point]Picture{}

// wavy is a live-edge outline: two long edges that wander.
func wavy(length, width float64) [][2]float64 {
	var o [][2]float64
	const n = 40
	for i := range n + 1 {
		x := length * float64(i) / n
		o = append(o, [2]float64{x, 0.02*width + 0.02*width*math.Sin(float64(i)*0.7) + 0.012*width*math.Sin(float64(i)*1.9)})
	}
	for i := n; i >= 0; i-- {
		x := length * float64(i) / n
		o = append(o, [2]float64{x, width*0.975 - 0.03*width*math.Sin(float64(i)*0.45+1) - 0.01*width*math.Sin(float64(i)*1.6)})
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range o {
		lo, hi = min(lo, p[1]), max(hi, p[1])
	}
	for i := range o {
		o[i][1] = (o[i][1] - lo) * width / (hi - lo)
	}
	return o
}

func circle(diameter float64) [][2]float64 {
	var o [][2]float64
	for i := range 180 {
		s, c := math.Sincos(2 * math.Pi * float64(i) / 180)
		o = append(o, [2]float64{diameter / 2 * (1 + c), diameter / 2 * (1 + s)})
	}
	return o
}

func dimensions(length, width, height, thickness float64) *report.Dimensions {
	m := &report.Dimensions{Length: ptr(length), Width: ptr(width), TopThickness: ptr(thickness)}
	sizes := []units.Length{units.Length(length), units.Length(width)}
	if height > 0 {
		m.Height = ptr(height)
		sizes = append(sizes, units.Length(height))
	}
	m.Text = report.Text{In: units.Sizes(units.Inches, sizes...), Cm: units.Sizes(units.Centimetres, sizes...)}
	return m
}

// shortest is a piece of which hardly anything is known.
func shortest() *report.Report {
	return &report.Report{
		Public: report.Public{
			Serial: "OY-0001", Title: "Oak board", Kind: "serving board", Finished: "2026-03-02", Quantity: 1,
			Dimensions: dimensions(420, 180, 0, 22),
			Materials:  []report.Material{{Name: "European oak", Botanical: "Quercus robur", Role: "wood"}},
		},
		Drawing: drawing.Piece{
			Outline: [][2]float64{{0, 0}, {420, 0}, {420, 180}, {0, 180}},
			Length:  420, Width: 180, Thickness: 22, Grain: "along length",
		},
	}
}

var sampleMaker = &report.Maker{
	Name: "Ostrel Yard", Address: "3 Quay Lane, Ostrel, Northshire", Email: "bench@ostrelyard.example",
	Phone: "+44 1632 960042", Web: "https://ostrelyard.example",
}

func paragraph(group, head, text string) report.Paragraph {
	return report.Paragraph{ID: "sample." + group, Group: group, Head: head, Text: text}
}

// usual is a console table as a careful maker describes it.
func usual() *report.Report {
	return &report.Report{
		Public: report.Public{
			Serial: "OY-0142", Title: "Estuary console table", Kind: "console table", Finished: "2026-09-18", Quantity: 1,
			Story: "The two boards came from one wych elm that a February storm laid across the lane below the yard. They were sawn through and through that week and dried for three summers under the north eaves. The river between them follows the true edge of the tree: nothing was trimmed to make it fit.\n\n" +
				"Look along the top in low light and you will see the saw’s last stroke near the left end. We left it, because it is where the log stopped being a log.",
			Found: "An iron fence staple, grown over about ninety years ago, left in place.", Mark: "Burnt into the underside, left rear",
			Dimensions: &report.Dimensions{
				Length: ptr(1371.6), Width: ptr(412.75), Height: ptr(762), TopThickness: ptr(41.275), Knee: ptr(720.725),
				Text: report.Text{In: "54 × 16¼ × 30 in", Cm: "137.2 × 41.3 × 76.2 cm"},
			},
			Weight: &report.Weight{Kg: 31.2, Low: 28.3, High: 34.2, Weighed: ptr(31.4), Text: report.TextWeights{Lb: "69.2 lb", Kg: "31.4 kg"}},
			Movement: &report.Movement{Across: 3.4, FromRH: 35, ToRH: 60, Moves: "3.4 mm (⅛ in)",
				Text: "Between a heated winter room at 35 % humidity and a summer at 60 %, the top grows and shrinks across its width by up to 3.4 mm (⅛ in). The slotted holes in the base let it."},
			Shipping: &report.Shipping{PeopleToLift: 2, Text: "Packed in one crate. Two people carry it in; it passes a doorway 76 cm (30 in) wide.",
				Packages: []report.Package{{Name: "crate", Length: 1540, Width: 580, Height: 930, Gross: 68.4, Low: 62, High: 75, Text: report.Text{In: "60⅝ × 22⅞ × 36⅝ in", Cm: "154 × 58 × 93 cm"}}}},
			Materials: []report.Material{
				{Name: "wych elm", Botanical: "Ulmus glabra", Detail: "through-and-through", Share: 82, Origin: "United Kingdom, storm-felled 2021", Role: "wood"},
				{Name: "epoxy casting resin", Detail: "smoke grey, translucent", Share: 18, Role: "resin"},
				{Name: "steel", Role: "base"},
			},
			Base:   &report.Base{Style: "two welded frames", Material: "steel", Coating: "black powder coat", Feet: "levelling", Fixing: "eight M8 bolts in threaded inserts, slotted holes"},
			Finish: &report.Finish{Family: "hardwax-oil", Name: "hardwax oil", Coats: 2, Sheen: "satin", LightUseFrom: "2026-09-17", FullCureFrom: "2026-09-30", FullCureTo: "2026-10-16"},
			Care: []report.Paragraph{
				paragraph("first-weeks", "The first weeks", "Keep it dry and uncovered until the oil has cured, and set nothing hot or wet on it. Lay a cloth, not plastic, under anything that stands for long."),
				paragraph("daily", "Every day", "Dust with a soft dry cloth. Wipe spills at once; a ring that has dried can be rubbed out with the maintenance oil."),
				paragraph("clean", "Cleaning", "Wipe along the grain with a cloth wrung out in lukewarm water and a little mild soap, then dry."),
				paragraph("avoid", "Avoid", "No scouring pads, no spirit, no ammonia, no steam. Oil-soaked cloths can catch fire by themselves: dry them flat outdoors or keep them under water in a closed tin."),
				paragraph("renew", "Renewing", "When water no longer beads, usually after one or two years, rub in one thin coat of hardwax oil and take off all that stays on the surface within ten minutes."),
				paragraph("climate", "The room", "Wood is at ease between 40 and 60 % humidity. Keep it a hand’s breadth from radiators and out of long sun."),
			},
			Cautions: []report.Paragraph{
				paragraph("lift", "Lifting", "Two people lift it, by the base and never by the resin edge. Bend the knees; keep fingers clear of the floor."),
				paragraph("heat", "Heat", "Resin softens under hot pans and dishes. Use a trivet."),
				paragraph("tip", "Tipping", "Do not sit or lean on the end beyond the frame. Where children climb, fix it to the wall."),
			},
			Guarantee: "Five years on the joints and the resin bond, from the day of delivery.",
			Delivery:  &report.Delivery{Assembly: "Eight bolts, 5 mm key, about twenty minutes."},
			Maker:     sampleMaker,
		},
		Drawing: drawing.Piece{
			Outline: wavy(1371.6, 412.75), Length: 1371.6, Width: 412.75, Thickness: 41.275, ResinShare: 0.18, Grain: "along length",
			Height: 762, BaseHeight: 720.725, Footprint: [2]float64{1117.6, 330.2},
		},
		Freight: &report.Freight{Gross: 68.4, Density: 5.1, Class: "175", Volumetric: 166.2, ByDivisor: map[string]float64{"5000 cm³/kg": 166.2, "6000 cm³/kg": 138.5}, LoadingMetre: 0.37,
			Mode: map[string]string{"the US": "freight: over 150 lb", "Europe": "freight: over 31.5 kg"}, Notes: []string{"The crate stands on its long edge."}},
		BaseURL: "https://ostrelyard.example/pieces/", SolidPacking: true,
	}
}

// fullest is a piece with more of everything than a page can hold.
func fullest() *report.Report {
	r := usual()
	p := &r.Public
	p.Title = "The long table of the ferrymen’s hall, in nine woods from both banks of the river, with a drawer for the log book"
	p.Kind = "dining table"
	p.Quantity = 3
	p.Seats = 12
	for range 3 {
		p.Story += "\n\n" + usual().Public.Story
	}
	p.Materials = nil
	for i := range 40 {
		p.Materials = append(p.Materials, report.Material{Name: fmt.Sprintf("river wood no. %d", i+1), Botanical: "Lignum fluviale", Share: 2.5, Origin: "found on the shore", Role: "wood"})
	}
	for i := range 4 {
		p.Parts = append(p.Parts, report.Part{Name: fmt.Sprintf("drawer %d", i+1), Material: "black walnut", Count: 2, Text: report.Text{In: "20 × 12 × 3½ in", Cm: "50.8 × 30.5 × 8.9 cm"}})
	}
	for i := range 5 {
		p.Care = append(p.Care, paragraph("daily", fmt.Sprintf("Also, no. %d", i+1), usual().Public.Care[3].Text))
	}
	r.Drawing.Parts = []drawing.Part{{Name: "drawer", Length: 508, Width: 305, BelowTop: 95}}
	return r
}

// round is a coffee table with a round top.
func round() *report.Report {
	r := usual()
	p := &r.Public
	p.Serial, p.Title, p.Kind = "OY-0150", "Millpond coffee table", "coffee table"
	p.Dimensions = dimensions(914.4, 914.4, 419.1, 44.45)
	r.Drawing = drawing.Piece{
		Outline: circle(914.4), Round: true, Length: 914.4, Width: 914.4, Thickness: 44.45, ResinShare: 0.35,
		Grain: "along length", Height: 419.1, BaseHeight: 374.65, Footprint: [2]float64{500, 500},
	}
	return r
}

// overallLength is a counter top of 5 m by 0.3 m without a base.
func long() *report.Report {
	r := usual()
	p := &r.Public
	p.Serial, p.Title, p.Kind, p.Story = "OY-0163", "Counter for the boat shed", "shelf", ""
	p.Dimensions = dimensions(5000, 300, 0, 40)
	p.Base = nil
	p.Materials = p.Materials[:1]
	r.Drawing = drawing.Piece{Outline: wavy(5000, 300), Length: 5000, Width: 300, Thickness: 40, Grain: "along length"}
	return r
}

// desk is short enough to have its views drawn side by side at 1:20.
func desk() *report.Report {
	r := usual()
	r.Public.Serial, r.Public.Title, r.Public.Kind = "OY-0171", "Letter desk", "desk"
	r.Public.Dimensions = dimensions(1219, 610, 746, 29)
	for range 2 {
		r.Public.Cautions = append(r.Public.Cautions, usual().Public.Cautions...)
		r.Public.Care = append(r.Public.Care, usual().Public.Care[:2]...)
	}
	r.Drawing = drawing.Piece{
		Outline: [][2]float64{{0, 0}, {1219, 0}, {1219, 610}, {0, 610}}, Length: 1219, Width: 610, Thickness: 29, Grain: "along length",
		Height: 746, BaseHeight: 717, Footprint: [2]float64{1194, 580},
		Parts: []drawing.Part{{Name: "drawer", Length: 580, Width: 425, BelowTop: 89}},
	}
	return r
}

// tiny is one of a batch of small boards.
func tiny() *report.Report {
	r := shortest()
	r.Public.Title, r.Public.Quantity, r.Public.Maker = "Cheese board", 24, sampleMaker
	r.Public.Dimensions = dimensions(90, 60, 0, 12)
	r.Drawing = drawing.Piece{Outline: [][2]float64{{0, 0}, {90, 0}, {90, 60}, {0, 60}}, Length: 90, Width: 60, Thickness: 12, Grain: "end grain"}
	return r
}

// wide is a landscape in many scripts: what the fonts must carry.
func scripts() *report.Report {
	r := usual()
	p := &r.Public
	p.Title = "Bàn gỗ “Cửa sông” — стол Ἑστία Łódź"
	p.Story = "Việt Nam: gỗ hương, mặt bàn dày. Россия: карельская берёза. Ελλάδα: ελιά. Češi, Ťuhýk, Șerban, Ğ, ı, ß, Œ. ½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ 3⁄16 × ± ″ ′ ° – — “ ” ‘ ’ … " +
		"What no font has: 木 😀 \u202eabc\u202c\x07 and a zero\u200bwidth space."
	return r
}

// samples are all of the above by name.
func samples() map[string]*report.Report {
	return map[string]*report.Report{
		"shortest": shortest(), "usual": usual(), "fullest": fullest(), "round": round(),
		"desk": desk(), "long": long(), "tiny": tiny(), "scripts": scripts(),
	}
}
