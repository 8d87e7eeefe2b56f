package weight

import (
	"math"
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/figure"
	"slabfolio/listing/geometry"
	"slabfolio/listing/piece"
	"slabfolio/listing/units"
	"slabfolio/listing/wood"
)

const inch = 25.4

func tables(t testing.TB) Tables {
	t.Helper()
	return Tables{woods(t), materials(t)}
}

func woods(t testing.TB) *wood.Table {
	t.Helper()
	w, err := wood.Load()
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func length(v float64) piece.Value[units.Length] { return piece.Of(units.Length(v)) }

// board is a plain walnut top, 54 x 16 x 1 5/8 in, read at 8 % with pins.
func board() *piece.Piece {
	p := &piece.Piece{}
	p.Top.Outline = piece.Outline{Length: length(54 * inch), Width: length(16 * inch)}
	p.Top.Thickness = length(1.625 * inch)
	p.Top.Wood = []piece.Wood{{Species: piece.Of("black-walnut"), Moisture: &piece.Moisture{Reading: piece.Of[units.Percent](8), Meter: piece.Of("pin")}}}
	return p
}

// outlineOf returns the outline that a test's piece says.
func outlineOf(p *piece.Piece) (*geometry.Outline, error) {
	o := p.Top.Outline
	var points [][2]float64
	for _, q := range o.Points {
		points = append(points, [2]float64{float64(q.X), float64(q.Y)})
	}
	var widths []float64
	for _, w := range o.Widths {
		widths = append(widths, float64(w.V))
	}
	switch {
	case points != nil:
		return geometry.Traced(points)
	case widths != nil:
		return geometry.FromWidths(float64(o.Length.V), widths)
	case o.Diameter.Set():
		return geometry.Circle(float64(o.Diameter.V))
	}
	return geometry.Rectangle(float64(o.Length.V), float64(o.Width.V))
}

func estimate(t testing.TB, p *piece.Piece) Estimate {
	t.Helper()
	return estimateWith(t, p, tables(t))
}

func estimateWith(t testing.TB, p *piece.Piece, tab Tables) Estimate {
	t.Helper()
	o, err := outlineOf(p)
	if err != nil {
		t.Fatal(err)
	}
	return Of(Input{Piece: p, Outline: o}, tab)
}

func has(e Estimate, rank piece.Rank, code string) bool {
	for _, f := range e.Findings {
		if f.Code == code && f.Rank == rank {
			return true
		}
	}
	return false
}

func TestPlainBoardByHand(t *testing.T) {
	e := estimate(t, board())
	// 54 x 16 x 1.625 in = 1404 in3 = 23.0074 l. Walnut, Gb 0.51, S0 12.8 %:
	// S8 = 12.8 x (1 - 8/30) = 9.3867 %, G8 = 0.51/0.906133 = 0.56283,
	// x 1.08 x 1000 = 607.86 kg/m3, so 13.985 kg. Wood Handbook eqs. 4-7 to 4-12.
	if e.Total == nil || len(e.Parts) != 1 {
		t.Fatalf("%+v", e)
	}
	near(t, "volume", e.TopVolume.Value, 23.0074, 1e-3)
	near(t, "kg", e.Total.Value, 13.985, 2e-3)
	near(t, "density", e.Parts[0].Density, 607.86, 0.02)
	near(t, "wood area", e.WoodArea.Value, 0.557418, 1e-6)
	// Between trees 16.45 %, two points of moisture about 1.2 %, thickness
	// 1/32 in in 1 5/8 (1.92 %), length and width 0.12 and 0.39 %.
	rel := (e.Total.High - e.Total.Value) / e.Total.Value
	near(t, "high side", rel, math.Sqrt(0.1645*0.1645+0.0118*0.0118+0.0192*0.0192+0.0041*0.0041), 0.001)
	if len(e.Findings) != 0 || len(e.Absent) != 0 {
		t.Errorf("findings %v, absent %v", e.Findings, e.Absent)
	}
}

func TestThicknessAloneMovesTheRange(t *testing.T) {
	thin, thick := board(), board()
	thin.Top.Thickness = length(12)
	thick.Top.Thickness = length(62)
	a, b := estimate(t, thin).Total, estimate(t, thick).Total
	ra, rb := (a.High-a.Low)/a.Value, (b.High-b.Low)/b.Value
	if ra < rb*1.02 {
		t.Errorf("a board of 12 mm has a range of %.4f of its weight, one of 62 mm %.4f: a reading to half a millimetre counts for more in the thin one", ra, rb)
	}
	coarse := board()
	coarse.Top.Thickness = length(41.3) // to a tenth: a finer reading of the same board
	c := estimate(t, coarse).Total
	if d := estimate(t, board()).Total; c.High-c.Value >= d.High-d.Value {
		t.Error("a finer reading does not narrow the range")
	}
}

func TestAssumedMoistureIsMoreInDoubt(t *testing.T) {
	read, silent := board(), board()
	silent.Top.Wood[0].Moisture = nil
	a, b := estimate(t, read).Total, estimate(t, silent).Total
	near(t, "same value at 8 %", a.Value, b.Value, 1e-9)
	if b.High-b.Low <= a.High-a.Low {
		t.Error("an assumed moisture is not more in doubt than a reading")
	}
}

func TestRiverByAreaVolumeAndMixed(t *testing.T) {
	p := board()
	p.Top.Resin = []piece.Resin{{Area: piece.Of[units.Percent](18)}}
	e := estimate(t, p)
	// 18 % of 23.007 l is 4.141 l of casting epoxy at 1110 kg/m3.
	near(t, "resin volume", e.ResinVolume.Value, 4.1413, 1e-3)
	near(t, "resin kg", e.Parts[1].Kg, 4.5969, 1e-3)
	near(t, "wood kg", e.Parts[0].Kg, 13.985*0.82, 2e-3)
	near(t, "resin area", e.ResinArea.Value, 0.557418*0.18, 1e-6)
	near(t, "share", e.ResinShare.Value, 0.18, 1e-9)
	near(t, "volumes", e.ResinVolume.Value+e.WoodVolume.Value, e.TopVolume.Value, 1e-9)

	p.Top.Resin = []piece.Resin{{Volume: piece.Of[units.Volume](3.9), Density: piece.Of[units.Density](1100)}}
	e = estimate(t, p)
	near(t, "by volume", e.Parts[1].Kg, 3.9*1.1, 1e-9)

	p.Top.Resin = []piece.Resin{{Mixed: piece.Amount{Mass: piece.Of[units.Mass](6)}, LeftOver: piece.Amount{Mass: piece.Of[units.Mass](0.4)}}}
	e = estimate(t, p)
	r := e.Parts[1]
	near(t, "by what was mixed", r.Kg, 5.6*0.725, 1e-9) // 15 to 40 % lost
	if r.Low > 5.6*0.605 || r.High < 5.6*0.845 || r.High > 6 {
		t.Errorf("range %v..%v does not hold 60 to 85 %% of what was mixed", r.Low, r.High)
	}
	byVolume := board()
	byVolume.Top.Resin = []piece.Resin{{Mixed: piece.Amount{Volume: piece.Of[units.Volume](5.6)}, LeftOver: piece.Amount{Volume: piece.Of[units.Volume](0.3)}}}
	e = estimate(t, byVolume)
	near(t, "by the litre", e.Parts[1].Kg, 5.3*1.08*0.725, 1e-9) // liquid epoxy 1080 kg/m3
	// The photo's share counts where the spec says no amount.
	photo := board()
	photo.Top.Resin = []piece.Resin{{Colour: piece.Of("smoke")}}
	o, _ := outlineOf(photo)
	e = Of(Input{Piece: photo, Outline: o, ResinShare: &figure.Figure{Value: 0.2, Low: 0.19, High: 0.21}}, tables(t))
	near(t, "share from the photo", e.ResinShare.Value, 0.2, 1e-9)
	e = Of(Input{Piece: photo, Outline: o}, tables(t))
	if e.Total != nil || e.Absent["weight"] == "" {
		t.Error("a resin without an amount has a weight")
	}
}

func TestMixedIsHeldAgainstTheGeometry(t *testing.T) {
	for name, c := range map[string]struct {
		mixed float64
		rank  piece.Rank
		code  string
	}{
		"far too little": {3.0, piece.Doubt, "weight.resin-more-than-mixed"},
		"barely":         {4.1, piece.Note, "weight.resin-more-than-mixed"},
		"as it goes":     {5.6, "", ""},
		"far too much":   {9.5, piece.Doubt, "weight.resin-much-less-than-mixed"},
	} {
		p := board()
		p.Top.Resin = []piece.Resin{{Area: piece.Of[units.Percent](18), Mixed: piece.Amount{Volume: piece.Of[units.Volume](units.Volume(c.mixed))}}}
		e := estimate(t, p)
		if c.code == "" && len(e.Findings) != 0 || c.code != "" && !has(e, c.rank, c.code) {
			t.Errorf("%s: %+v", name, e.Findings)
		}
	}
	p := board()
	p.Top.Resin = []piece.Resin{{Volume: piece.Of[units.Volume](30)}}
	if e := estimate(t, p); !has(e, piece.Doubt, "weight.resin-exceeds-top") || e.Total != nil {
		t.Errorf("more resin than top: %+v", e.Findings)
	}
	p.Top.Resin = []piece.Resin{{Area: piece.Of[units.Percent](18), Volume: piece.Of[units.Volume](9)}}
	if e := estimate(t, p); !has(e, piece.Doubt, "weight.resin-contradicts") {
		t.Errorf("volume against area: %+v", e.Findings)
	}
}

func TestPourDepth(t *testing.T) {
	p := board()
	p.Top.Thickness = length(80)
	p.Top.Resin = []piece.Resin{{Area: piece.Of[units.Percent](18), Pours: piece.Of(1)}}
	if !has(estimate(t, p), piece.Note, "resin.pour-depth") {
		t.Error("80 mm in one pour is not noted")
	}
	p.Top.Resin[0].Pours = piece.Of(2)
	if has(estimate(t, p), piece.Note, "resin.pour-depth") {
		t.Error("40 mm a pour is noted")
	}
	tab := tables(t)
	tab.Materials = tab.Materials.WithResins([]piece.ResinProduct{{Product: piece.Of("Shallow"), PourDepth: length(20)}})
	p.Top.Resin[0].Material = piece.Of("shallow")
	if !has(estimateWith(t, p, tab), piece.Note, "resin.pour-depth") {
		t.Error("the product's own depth does not count")
	}
}

func TestSeveralWoodsAndResins(t *testing.T) {
	p := board()
	p.Top.Wood = []piece.Wood{
		{Species: piece.Of("black-walnut"), Share: piece.Of[units.Percent](70)},
		{Species: piece.Of("hard-maple"), Share: piece.Of[units.Percent](30)},
	}
	p.Top.Resin = []piece.Resin{{Area: piece.Of[units.Percent](5)}, {Area: piece.Of[units.Percent](3), Material: piece.Of("polyester")}}
	p.Top.Voids = piece.Of[units.Volume](0.5)
	e := estimate(t, p)
	if len(e.Parts) != 4 || e.Parts[0].Role != RoleWood || e.Parts[2].Role != RoleResin {
		t.Fatalf("%+v", e.Parts)
	}
	woodL := 23.0074*0.92 - 0.5
	near(t, "walnut", e.Parts[0].VolumeL, woodL*0.7, 1e-3)
	near(t, "maple", e.Parts[1].VolumeL, woodL*0.3, 1e-3)
	near(t, "polyester", e.Parts[3].Kg, 23.0074*0.03*1.2, 1e-3)
	sum := 0.0
	for _, q := range e.Parts {
		sum += q.Kg
	}
	near(t, "total", e.Total.Value, sum, 1e-9)
}

func TestWeighedTopBeatsTheEstimate(t *testing.T) {
	p := board()
	p.Top.Weighed = piece.Of[units.Mass](14.6)
	p.Finish = &piece.Finish{Family: piece.Of("varnish")}
	e := estimate(t, p)
	near(t, "total", e.Total.Value, 14.6, 1e-9)
	if len(e.Parts) != 1 || e.Parts[0].Role != RoleTop || len(e.Findings) != 0 || e.TopVolume == nil {
		t.Errorf("%+v", e)
	}
	if e.Total.High-e.Total.Low > 0.4 {
		t.Errorf("a weighed top is known to %v..%v", e.Total.Low, e.Total.High)
	}
	p.Top.Weighed = piece.Of[units.Mass](20)
	if !has(estimate(t, p), piece.Doubt, "weight.top-outside-range") {
		t.Error("a top far from its estimate raises no doubt")
	}
	p.Top.Wood[0].Species = piece.Of("unheard of")
	if e := estimate(t, p); e.Total == nil || e.Total.Value != 20 {
		t.Error("a weighed top needs no species")
	}
}

func TestSteelBaseFromSections(t *testing.T) {
	p := board()
	p.Base = &piece.Base{Material: piece.Of("steel"), Sections: []piece.Section{
		{Form: "box", Sizes: []units.Length{80, 40, 3}, Length: length(3200), Count: piece.Of(2)},
		{Form: "plate", Sizes: []units.Length{200, 80, 6}, Count: piece.Of(4)},
		{Form: "bar", Sizes: []units.Length{12}, Length: length(600)},
	}}
	e := estimate(t, p)
	// 684 mm2 x 6.4 m + 4 x 96000 mm3 + 113.1 mm2 x 0.6 m = 4.8295 l of steel.
	near(t, "base", e.Base.Value, (684*6400+4*96000+math.Pi*36*600)*1e-9*7850, 1e-6)
	// The three share the density of steel, not the rolling.
	low, _ := e.Base.Low, e.Base.High
	if !(low < e.Base.Value*0.97 && low > e.Base.Value*0.93) {
		t.Errorf("base %v..%v", e.Base.Low, e.Base.High)
	}
	p.Top.Channels = []piece.Section{{Form: "channel", Sizes: []units.Length{38.1, 12.7, 3.175}, Length: length(300), Count: piece.Of(3)}}
	f := estimate(t, p)
	steelL := (38.1*12.7 - (38.1-2*3.175)*(12.7-3.175)) * 900 * 1e-6
	near(t, "channels add steel and take wood", f.Total.Value-e.Total.Value, steelL*(7850-607.86)/1000, 2e-3)
}

func TestBasesSaidOtherwise(t *testing.T) {
	p := board()
	p.Base = &piece.Base{Weight: piece.Of[units.Mass](10.8)}
	near(t, "weighed", estimate(t, p).Base.Value, 10.8, 1e-12)
	p.Base = &piece.Base{Volume: piece.Of[units.Volume](2), Material: piece.Of("black walnut")}
	near(t, "of the top's own wood", estimate(t, p).Base.Value, 2*0.60786, 1e-4)
	p.Base = &piece.Base{Volume: piece.Of[units.Volume](2), Material: piece.Of("walnut")}
	e := estimate(t, p)
	if e.Total != nil || !has(e, piece.Doubt, "weight.material-unknown") || !strings.Contains(e.Findings[0].Message, "european-walnut") {
		t.Errorf("%+v", e.Findings)
	}
	p.Base = &piece.Base{Style: piece.Of("four legs")}
	e = estimate(t, p)
	if e.Total != nil || e.Base != nil || e.Top == nil || !strings.Contains(e.Absent["weight"], "base") {
		t.Errorf("%+v", e.Absent)
	}
}

func TestPartsBySizeWallAndWeight(t *testing.T) {
	p := board()
	p.Parts = []piece.Part{
		{Name: piece.Of("drawer"), Material: piece.Of("black-walnut"), Size: []piece.Value[units.Length]{length(508), length(304.8), length(88.9)}, Walls: length(12.7)},
		{Name: piece.Of("drawer slides"), Weight: piece.Of[units.Mass](1.1)},
		{Name: piece.Of("shelf"), Material: piece.Of("glass"), Count: piece.Of(2), Size: []piece.Value[units.Length]{length(400), length(300), length(6)}},
	}
	e := estimate(t, p)
	box, _ := boxVolume(508, 304.8, 88.9, 12.7)
	near(t, "drawer", e.Parts[1].Kg, box*1e-9*607.86, 1e-3)
	near(t, "slides", e.Parts[2].Kg, 1.1, 1e-12)
	near(t, "glass", e.Parts[3].Kg, 2*0.4*0.3*0.006*2500, 1e-9)
	// Top and drawer are of one wood: their doubts of density add straight.
	for _, s := range e.Sum.Contributions {
		if s.Cause == "density of black-walnut from tree to tree" {
			near(t, "shared cause", s.Up, (e.Parts[0].Kg+e.Parts[1].Kg)*0.16449, 1e-3)
		}
	}
	p.Parts = append(p.Parts, piece.Part{Name: piece.Of("handle")})
	if e := estimate(t, p); e.Total != nil || !has(e, piece.Note, "weight.part-not-known") {
		t.Errorf("a part of unknown weight: %+v", e.Findings)
	}
}

func TestFinishFilm(t *testing.T) {
	p := board()
	p.Finish = &piece.Finish{Family: piece.Of("hardwax-oil"), Coats: piece.Of(2)}
	e := estimate(t, p)
	f := e.Parts[len(e.Parts)-1]
	near(t, "two coats", f.Kg, (2*0.557418+3.556*0.041275)*2*25e-3, 1e-6)
	p.Finish.Family = piece.Of("epoxy-topcoat")
	p.Finish.Coats = piece.Of(1)
	e = estimate(t, p)
	near(t, "flood coat", e.Parts[len(e.Parts)-1].Kg, 0.557418*1.7, 1e-6)
	p.Finish.Family = piece.Of("bare")
	if e = estimate(t, p); len(e.Parts) != 1 {
		t.Error("bare wood has a film")
	}
}

func TestScaleAgainstEstimate(t *testing.T) {
	p := board()
	for _, c := range []struct {
		kg    float64
		doubt bool
	}{{14, false}, {15.5, false}, {17, true}, {10, true}} {
		p.Weighed = piece.Of(units.Mass(c.kg))
		e := estimate(t, p)
		if got := has(e, piece.Doubt, "weight.outside-range"); got != c.doubt {
			t.Errorf("%v kg against %v..%v: doubt %v", c.kg, e.Total.Low, e.Total.High, got)
		}
		if c.doubt && !strings.Contains(e.Findings[0].Remedy, "density of black-walnut") {
			t.Errorf("remedy %q", e.Findings[0].Remedy)
		}
	}
}

// A figure that no density explains is looked at itself: its unit, its point, how many
// pieces stood on the scale (1 lb is 0.45359237 kg).
func TestScaleFarOffTellsOfTheFigure(t *testing.T) {
	p := board()
	fits := estimate(t, p).Total.Value
	for _, c := range []struct {
		kg       float64
		quantity int
		words    string
	}{
		{fits / 0.45359237, 1, "if the scale shows pounds"}, {fits * 0.45359237, 1, "if the scale shows kilograms"}, {fits * 1000, 1, "kilograms or grams"},
		{fits * 10, 1, "a factor of ten"}, {fits * 6, 6, "if all 6 stood on the scale"}, {fits * 30, 1, "the figure and its unit"}, {fits / 40, 1, "the figure and its unit"},
	} {
		p.Weighed, p.Quantity = piece.Of(units.Mass(c.kg)), piece.Of(c.quantity)
		e := estimate(t, p)
		if len(e.Findings) == 0 || !strings.Contains(e.Findings[0].Remedy, c.words) || strings.Contains(e.Findings[0].Remedy, "density") {
			t.Errorf("%.1f kg of %d: %v", c.kg, c.quantity, e.Findings)
		}
	}
}

// 1 US gallon is 3.785411784 l, 128 fl oz; 1 lb is 0.45359237 kg.
func TestMessagesSpeakTheMakersUnits(t *testing.T) {
	inch, metric := &estimator{in: Input{First: units.Inches}}, &estimator{in: Input{First: units.Millimetres}}
	for l, want := range map[float64][2]string{0.15: {"5 fl oz (0.15 l)", "0.15 l (5 fl oz)"}, 4.24: {"1.1 gal (4.2 l)", "4.2 l (1.1 gal)"}, 1: {"0.3 gal (1.0 l)", "1.0 l (0.3 gal)"}} {
		if a, b := inch.inLitres(l), metric.inLitres(l); a != want[0] || b != want[1] {
			t.Errorf("%g l: %q, %q, want %q", l, a, b, want)
		}
	}
	if a, b := inch.kilos(31.4), metric.kilos(31.4); a != "69.2 lb (31.4 kg)" || b != "31.4 kg (69.2 lb)" {
		t.Error(a, b)
	}
	_, err := boxVolume(508, 304.8, 88.9, 203.2)
	if a, b := inch.sayError(err), metric.sayError(err); a != "walls of 8 in leave no room in a box of 20 in x 12 in x 3 1/2 in" || b != "walls of 203.2 mm leave no room in a box of 508 mm x 304.8 mm x 88.9 mm" {
		t.Error(a, b)
	}
	for _, first := range []units.System{units.Inches, units.Millimetres} {
		p := board()
		p.Top.Resin = []piece.Resin{{Area: piece.Of[units.Percent](18), Pours: piece.Of(1)}}
		p.Top.Thickness, p.Weighed = length(80), piece.Of[units.Mass](99)
		o, _ := outlineOf(p)
		for _, f := range Of(Input{Piece: p, Outline: o, First: first}, tables(t)).Findings {
			if pos, other := strings.Index(f.Message, " in ("), strings.Index(f.Message, " mm ("); f.Code == "resin.pour-depth" && (first == units.Inches && pos < 0 || first == units.Millimetres && other < 0) {
				t.Errorf("%s: %s", first, f.Message)
			}
		}
	}
}

// Every resin whose depth of a layer the table knows, met from both sides: half
// a percent over the depth is allowed for the reading, more is noted.
func TestPourDepthOfEveryResin(t *testing.T) {
	tab := tables(t)
	met := 0
	for _, m := range tab.Materials.all {
		if m.PourDepth <= 0 {
			continue
		}
		met++
		for _, pours := range []int{1, 3} {
			p := board()
			p.Top.Resin = []piece.Resin{{Area: piece.Of[units.Percent](18), Pours: piece.Of(pours), Material: piece.Of(m.ID)}}
			p.Top.Thickness = length(m.PourDepth * float64(pours) * 1.004)
			if has(estimate(t, p), piece.Note, "resin.pour-depth") {
				t.Errorf("%s: %d pours of its own depth are noted", m.ID, pours)
			}
			p.Top.Thickness = length(m.PourDepth * float64(pours) * 1.006)
			if !has(estimate(t, p), piece.Note, "resin.pour-depth") {
				t.Errorf("%s: %d pours of 0.6 %% more than its depth are not noted", m.ID, pours)
			}
		}
	}
	if met < 2 {
		t.Errorf("%d resins have a depth", met)
	}
}

// Where the depth of a resin's layer is not known, nothing is said of it, however
// thick the top.
func TestPourDepthThatNobodyKnows(t *testing.T) {
	tab := tables(t)
	untold := *tab.Materials
	untold.all = slices.Clone(untold.all)
	for i := range untold.all {
		untold.all[i].PourDepth = 0
	}
	p := board()
	p.Top.Thickness = length(300)
	p.Top.Resin = []piece.Resin{{Area: piece.Of[units.Percent](18), Pours: piece.Of(1)}}
	if !has(estimateWith(t, p, tab), piece.Note, "resin.pour-depth") {
		t.Fatal("300 mm in one pour is not noted")
	}
	tab.Materials = &untold
	if e := estimateWith(t, p, tab); has(e, piece.Note, "resin.pour-depth") {
		t.Errorf("%+v", e.Findings)
	}
}

// A top of resin alone weighs what its resin weighs, with the steel let into it
// taking its room: 100 % of 54 x 16 x 1 5/8 in is 23.01 l; the wood that the spec
// lists is a doubt, and no reason to say no weight.
func TestTopOfResinAlone(t *testing.T) {
	p := board()
	p.Top.Resin = []piece.Resin{{Area: piece.Of[units.Percent](100), Density: piece.Of[units.Density](1100)}}
	e := estimate(t, p)
	if e.Total == nil || !has(e, piece.Doubt, "weight.no-wood-left") || has(e, piece.Doubt, "weight.resin-exceeds-top") {
		t.Fatalf("%+v", e.Findings)
	}
	const litres = 54 * 16 * 1.625 * inch * inch * inch / 1e6
	near(t, "resin", e.Total.Value, litres*1.1, 1e-6)
	p.Top.Channels = []piece.Section{{Form: "bar", Sizes: []units.Length{38, 6}, Length: length(300), Count: piece.Of(2)}}
	e = estimate(t, p)
	if e.Total == nil {
		t.Fatalf("%+v", e.Absent)
	}
	steel := 2 * 38 * 6 * 300 / 1e6
	near(t, "resin and steel", e.Total.Value, (litres-steel)*1.1+steel*7.85, 0.01)
}
