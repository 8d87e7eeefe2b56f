package report

import (
	"math"
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

func with(t *testing.T, change func(*piece.Piece)) *Report {
	t.Helper()
	p := parse(t, "testdata/console.yaml")
	change(p)
	return build(t, p, nil)
}

func said(r *Report, code string) (piece.Finding, bool) {
	i := slices.IndexFunc(r.Findings, func(f piece.Finding) bool { return f.Code == code })
	if i < 0 {
		return piece.Finding{}, false
	}
	return r.Findings[i], true
}

// A protected wood is found wherever it is in the piece, known density or not.
func TestProtectedWoodsAnywhere(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*piece.Piece)
		rank   piece.Rank
		public string
	}{
		"top, no density":  {func(p *piece.Piece) { p.Top.Wood[0].Species = piece.Of("sheesham") }, piece.Note, "Dalbergia sissoo"},
		"base":             {func(p *piece.Piece) { p.Base.Material = piece.Of("brazilian rosewood") }, piece.Doubt, "Dalbergia nigra"},
		"part":             {func(p *piece.Piece) { p.Parts[0].Material = piece.Of("padauk") }, piece.Note, "Pterocarpus soyauxii"},
		"a part's name":    {func(p *piece.Piece) { p.Parts[1].Name = piece.Of("cocobolo pulls") }, piece.Note, "Dalbergia retusa"},
		"a material":       {func(p *piece.Piece) { p.Materials[0].Product = piece.Of("veneer of monkey puzzle") }, piece.Doubt, "Araucaria araucana"},
		"name of several":  {func(p *piece.Piece) { p.Parts[0].Material = piece.Of("mahogany") }, piece.Note, ""},
		"not the wood":     {func(p *piece.Piece) { p.Materials[0].Product = piece.Of("mahogany stain") }, "", ""},
		"sounds like one":  {func(p *piece.Piece) { p.Parts[0].Material = piece.Of("santos rosewood") }, "", ""},
		"a spalted one":    {func(p *piece.Piece) { p.Top.Wood[0].Species = piece.Of("figured bubinga") }, piece.Note, "Guibourtia tessmannii"},
		"of its own name":  {func(p *piece.Piece) { p.Top.Wood[0].Species = piece.Of("Dalbergia tucurensis") }, piece.Note, "Dalbergia tucurensis"},
		"not one of these": {func(p *piece.Piece) {}, "", ""},
	} {
		r := with(t, c.change)
		f, ok := said(r, "wood.listed")
		if ok != (c.rank != "") || f.Rank != c.rank {
			t.Errorf("%s: %+v", name, f)
		}
		if public := strings.Join(r.Listed, ", "); public != c.public {
			t.Errorf("%s: the buyer reads of %q, want %q", name, public, c.public)
		}
		first := slices.ContainsFunc(r.Public.Cautions, func(p Paragraph) bool {
			return p.ID == "caution.cites.first" && strings.Contains(p.Text, "inside most countries a sale needs papers too")
		})
		if first != (c.rank == piece.Doubt) {
			t.Errorf("%s: words of Appendix I: %v", name, first)
		}
	}
	f, _ := said(with(t, func(p *piece.Piece) { p.Parts[0].Material = piece.Of("cocobolo") }), "wood.listed")
	if !strings.Contains(f.Message, "22 lb (10 kg)") || !strings.Contains(f.Remedy, "check the current one") {
		t.Errorf("the small-weight exemption: %+v", f)
	}
}

func TestOriginOfWoodThatGoesAbroad(t *testing.T) {
	ask := func(own string, to []string, origin string) bool {
		p := parse(t, "testdata/console.yaml")
		p.Top.Wood[0].Country, p.Top.Wood[0].OriginNote = piece.Of(origin), piece.Value[string]{}
		p.Delivery.ShipsTo = nil
		for _, c := range to {
			p.Delivery.ShipsTo = append(p.Delivery.ShipsTo, piece.Of(c))
		}
		_, ok := said(build(t, p, &piece.Workshop{Country: piece.Of(own)}), "wood.no-origin")
		return ok
	}
	for _, c := range []struct {
		own, origin string
		to          []string
		want        bool
	}{{"GB", "", []string{"GB"}, false}, {"GB", "", []string{"GB", "IE"}, true}, {"GB", "GB", []string{"IE"}, false}, {"", "", []string{"US"}, false}, {"", "", []string{"US", "CA"}, true}, {"GB", "", nil, false}} {
		if got := ask(c.own, c.to, c.origin); got != c.want {
			t.Errorf("%+v: %v", c, got)
		}
	}
}

// Wych elm, through-and-through, 16 in (406.4 mm) of which 18 % is resin; its
// shrinkage is 4.6 and 8.3 % (coefficients 0.0015818 and 0.0029288, mean
// 0.0022553). 30 to 55 % at 20 C is 6.17 to 10.06 % (Wood Handbook eq. 4-5), the
// read 14.5 % is 8.3 % from the dry end, by the shrinkage form about 6.3 mm.
func TestBuyerAndMakerReadOfWetWood(t *testing.T) {
	dry := with(t, func(p *piece.Piece) {})
	wet := with(t, func(p *piece.Piece) { p.Top.Wood[0].Moisture.Reading = piece.Of[units.Percent](14.5) })
	if strings.Contains(dry.Public.Movement.Text, "was read") || !strings.Contains(wet.Public.Movement.Text, "Its wood was read at 14.5%") {
		t.Errorf("dry %q, wet %q", dry.Public.Movement.Text, wet.Public.Movement.Text)
	}
	year, way := dry.Figures["movement.across_mm"], wet.Figures["movement.settling_mm"]
	if math.Abs(year.Value-406.4*0.82*0.0022553*3.89) > 0.1 || math.Abs(way.Value-6.3) > 0.2 || way.Value < 2*year.Value {
		t.Errorf("the year %+v, the way %+v", year, way)
	}
	f, ok := said(wet, "wood.wet")
	if !ok || f.Rank != piece.Doubt || !strings.Contains(f.Message, "¼ in (6 mm)") || !strings.Contains(f.Message, "14.5 %") {
		t.Errorf("%+v", f)
	}
	for reading, want := range map[float64]bool{11.9: false, 12: true} {
		r := with(t, func(p *piece.Piece) { p.Top.Wood[0].Moisture.Reading = piece.Of(units.Percent(reading)) })
		if _, ok := said(r, "wood.wet"); ok != want {
			t.Errorf("read at %v %%: doubt %v", reading, ok)
		}
	}
}

// "Up to about" is the upper end of the range, never its middle.
func TestUpToIsTheUpperEnd(t *testing.T) {
	r := with(t, func(p *piece.Piece) {})
	f := r.Figures["movement.across_mm"]
	if math.Abs(r.Public.Movement.Across-f.High) > 0.06 || !strings.Contains(r.Public.Movement.Text, units.Length(f.High).FineUp(units.Inches)) {
		t.Errorf("%+v, %q", f, r.Public.Movement.Text)
	}
}

func TestTopsThatDoNotMoveOrMoveBothWays(t *testing.T) {
	resin := with(t, func(p *piece.Piece) { p.Top.Resin[0].Area = piece.Of[units.Percent](100) })
	if resin.Public.Movement != nil {
		t.Errorf("a top of resin alone: %+v", resin.Public.Movement)
	}
	end := with(t, func(p *piece.Piece) { p.Top.Wood[0].Grain = piece.Of("end grain") })
	l, w := end.Figures["movement.length_mm"], end.Figures["movement.width_mm"]
	if !(l.Value > w.Value && w.Value > 0) || !strings.Contains(end.Public.Movement.Text, "both ways") || math.Abs(end.Public.Movement.Across-l.High) > 0.06 {
		t.Errorf("%+v %+v %q", l, w, end.Public.Movement.Text)
	}
}

// By hand: a wall-hung shelf of white oak, 1000 x 250 x 20 mm, 12.3 GPa (12.5 in
// the table for European oak): I = 250 x 8000/12 = 166667 mm4; 37 kg/m of books
// and its own 3.5 kg on 1 m: 5 x 40.5 x 9.80665 x 1e9 / (384 x 12300 x 166667) =
// 2.52 mm. On a base of 800 mm the span is the base's.
func TestShelfBearsARowOfBooks(t *testing.T) {
	shelf := func(change func(*piece.Piece)) *Report {
		return with(t, func(p *piece.Piece) {
			p.Kind, p.Base, p.Parts, p.Top.Resin, p.Top.Channels, p.Top.Overhang = piece.Of("shelf"), nil, nil, nil, nil, piece.Value[units.Length]{}
			p.Top.Weighed, p.Weighed = piece.Of[units.Mass](3.5), piece.Value[units.Mass]{}
			p.Top.Outline = piece.Outline{Length: piece.Of[units.Length](1000), Width: piece.Of[units.Length](250)}
			p.Top.Thickness, p.Top.Wood = piece.Of[units.Length](20), []piece.Wood{{Species: piece.Of("white-oak")}}
			change(p)
		})
	}
	if got := shelf(func(p *piece.Piece) {}).Figures["sag_mm"].Value; math.Abs(got-2.52) > 0.06 {
		t.Errorf("sag %v mm, want 2.52", got)
	}
	between := shelf(func(p *piece.Piece) { p.Top.Overhang = piece.Of[units.Length](100) }).Figures["sag_mm"]
	if want := 2.52 * math.Pow(0.8, 4); math.Abs(between.Value-want) > 0.06 {
		t.Errorf("between fixings 800 mm apart %v mm, want %.2f", between.Value, want)
	}
	f, ok := said(shelf(func(p *piece.Piece) { p.Top.Thickness = piece.Of[units.Length](16) }), "top.sags")
	if !ok || !strings.Contains(f.Message, "a row of books along it (82 lb)") {
		t.Errorf("%+v", f)
	}
}

// All that weighs is in what stands: the masses that tip are those of the piece.
func TestEverythingThatWeighsStands(t *testing.T) {
	for name, change := range map[string]func(*piece.Piece){
		"as it is":        func(p *piece.Piece) {},
		"nothing weighed": func(p *piece.Piece) { p.Weighed, p.Top.Weighed = piece.Value[units.Mass]{}, piece.Value[units.Mass]{} },
		"finish that is heavy": func(p *piece.Piece) {
			p.Top.Weighed, p.Finish.Family = piece.Value[units.Mass]{}, piece.Of("epoxy-topcoat")
		},
		"whole piece on scales": func(p *piece.Piece) { p.Weighed = piece.Of[units.Mass](35) },
	} {
		p := parse(t, "testdata/console.yaml")
		change(p)
		b, err := newBuilder(p, nil, Options{Words: words(t)})
		if err != nil {
			t.Fatal(err)
		}
		b.build()
		kg, _, _ := b.standsAt()
		sum := b.in.TopKg + b.in.BaseKg
		for _, q := range b.in.Parts {
			sum += q.Kg
		}
		if math.Abs(sum-kg) > 1e-6*kg {
			t.Errorf("%s: %.4f kg stand, and the piece is %.4f kg (%v)", name, sum, kg, b.r.Absent)
		}
	}
}

func TestSeatsAreJudgedByASitter(t *testing.T) {
	bench := with(t, func(p *piece.Piece) { p.Kind, p.Base.FootprintLength = piece.Of("bench"), piece.Of[units.Length](900) })
	f, ok := said(bench, "stability.easily-tipped")
	if !ok || !strings.Contains(f.Message, "220 lb") {
		t.Errorf("%+v of %+v", f, bench.Stability)
	}
	if _, ok := said(with(t, func(p *piece.Piece) { p.Base.FootprintLength = piece.Of[units.Length](900) }), "stability.easily-tipped"); ok {
		t.Error("a table is judged as a seat is")
	}
	wide := with(t, func(p *piece.Piece) {
		p.Kind, p.Base.FootprintLength, p.Base.FootprintWidth = piece.Of("bench"), piece.Of[units.Length](1400), piece.Of[units.Length](420)
	})
	if caution("caution.tip.seat")(wide) || !caution("caution.tip.seat")(bench) {
		t.Error("the caution of tipping does not follow what can tip")
	}
}

// Sizes in words: a round top has one diameter, unless its base reaches further
// one way; of customary sizes that have no upper end the lower one is said.
func TestSizesInWords(t *testing.T) {
	round := func(long, wide float64) string {
		return with(t, func(p *piece.Piece) {
			p.Kind, p.Top.Resin, p.Top.Channels, p.Top.Overhang = piece.Of("side table"), nil, nil, piece.Value[units.Length]{}
			p.Top.Outline = piece.Outline{Diameter: piece.Of(units.Length(609.6))}
			p.Base.FootprintLength, p.Base.FootprintWidth = piece.Of(units.Length(long)), piece.Of(units.Length(wide))
		}).Public.Dimensions.Text.In
	}
	if got := round(400, 400); got != "24 in across, 30 in high" {
		t.Error(got)
	}
	if got := round(762, 400); got != "30 × 24 × 30 in" {
		t.Error(got)
	}
	low := with(t, func(p *piece.Piece) { p.Kind, p.Parts[0].BelowTop = piece.Of("desk"), piece.Of[units.Length](200) })
	if f, ok := said(low, "size.knee"); !ok || !strings.Contains(f.Message, "at least 24 in (61 cm)") {
		t.Errorf("%+v", f)
	}
}

// A wood's origin is its country, the maker's note, or both.
func TestOriginInWords(t *testing.T) {
	for _, c := range []struct{ country, note, want string }{{"", "", ""}, {"", "felled 2021", "felled 2021"}, {"GB", "", "Great Britain"}, {"GB", "felled 2021", "felled 2021"}} {
		r := with(t, func(p *piece.Piece) {
			p.Top.Wood[0].Country, p.Top.Wood[0].OriginNote = piece.Of(c.country), piece.Of(c.note)
		})
		got := r.Public.Materials[0].Origin
		if c.country == "" && got != c.want || c.country != "" && (got == "" || !strings.Contains(got, c.note) || c.note != "" && got == c.note) {
			t.Errorf("%+v: %q", c, got)
		}
	}
}

// A top that no load tips may still have a drawer that does: the tipping load is
// absent with its reason, the drawer's cases are kept.
func TestDrawerOfATopThatNothingTips(t *testing.T) {
	r := with(t, func(p *piece.Piece) {
		p.Base.FootprintLength, p.Base.FootprintWidth, p.Top.Overhang = piece.Of[units.Length](1400), piece.Of[units.Length](420), piece.Value[units.Length]{}
	})
	if r.Stability == nil || len(r.Stability.Cases) == 0 || r.Absent["stability.tip_load_kg"] == "" || caution("caution.tip.table")(r) || !caution("caution.drawer")(r) {
		t.Errorf("%+v, absent %v", r.Stability, r.Absent)
	}
	for at := range r.Stability.Cases {
		if !strings.HasPrefix(at, "drawer") {
			t.Errorf("%s tips a top that nowhere reaches beyond its feet", at)
		}
	}
	none := with(t, func(p *piece.Piece) {
		p.Parts = nil
		p.Base.FootprintLength, p.Base.FootprintWidth, p.Top.Overhang = piece.Of[units.Length](1400), piece.Of[units.Length](420), piece.Value[units.Length]{}
	})
	if none.Stability != nil || none.Absent["stability"] == "" {
		t.Errorf("%+v", none.Stability)
	}
	if only := with(t, func(p *piece.Piece) {
		p.Top.Wood[0].Country, p.Top.Wood[0].OriginNote = piece.Of("GB"), piece.Value[string]{}
	}).Public.Materials[0].Origin; only == "" || strings.ContainsAny(only, ",;()") {
		t.Errorf("the country alone is written %q", only)
	}
}
