package report

import (
	"strings"
	"testing"
)

// A base that reaches beyond its top, and a drawer that no top covers, are told of, but
// for a base that is said to spread.
func TestBaseAndDrawerLargerThanTheTop(t *testing.T) {
	for _, c := range []struct{ name, from, to, code, words string }{
		{"longer", "length: 1200, width: 360", "length: 1500, width: 360", "base.wider", "longer than the top"},
		{"wider", "length: 1200, width: 360", "length: 1200, width: 480", "base.wider", "wider"},
		{"turned", "length: 1200, width: 360", "length: 360, width: 1200", "base.wider", "wider"},
		{"a tape's slip", "length: 1200, width: 360", "length: 1420, width: 400", "base.wider", ""},
		{"splayed", "two welded frames, material: steel, weight: 10 kg, height: 700, footprint: {length: 1200, width: 360}", "splayed legs, material: steel, weight: 10 kg, height: 700, footprint: {length: 1500, width: 480}", "base.wider", ""},
		{"a drawer", "\nbase:", "\nparts: [{name: drawer, material: european-oak, size: [600, 500, 90], walls: 12, below_top: 95}]\nbase:", "part.larger-than-top", "600"},
		{"a drawer turned", "\nbase:", "\nparts: [{name: drawer, material: european-oak, size: [350, 600, 90], walls: 12, below_top: 95}]\nbase:", "part.larger-than-top", ""},
	} {
		text := strings.Replace(packed, c.from, c.to, 1)
		if text == packed {
			t.Fatalf("%s: nothing was changed", c.name)
		}
		f, ok := said(build(t, spec(t, text), nil), c.code)
		if ok != (c.words != "") || !strings.Contains(f.Message, c.words) {
			t.Errorf("%s: %v %+v", c.name, ok, f)
		}
		if c.name == "turned" && !strings.Contains(strings.ReplaceAll(f.Remedy, "\u00a0", " "), "footprint: {length: 1200 mm, width: 360 mm}") {
			t.Errorf("%s: %q", c.name, f.Remedy)
		}
	}
}

// What a scale cannot have said gives no findings of how the piece stands, and no force
// is printed as nothing.
func TestAbsurdScaleTipsNothing(t *testing.T) {
	text := strings.Replace(packed, "width: 360}", "width: 120}", 1)
	if _, ok := said(build(t, spec(t, text+"weighed: 24 kg\n"), nil), "stability.push"); !ok {
		t.Fatal("a narrow foot is not told of")
	}
	r := build(t, spec(t, text+"weighed: 0.3 kg\n"), nil)
	for _, f := range r.Findings {
		if strings.HasPrefix(f.Code, "stability.") || strings.Contains(f.Message, " 0 N") {
			t.Errorf("%s: %s", f.Code, f.Message)
		}
	}
	if f, ok := said(r, "weight.outside-range"); !ok || strings.Contains(f.Remedy, "density") {
		t.Errorf("the scale: %+v", f)
	}
	b := builder{r: &Report{}}
	for n, want := range map[float64]string{0.2: "less than 1 N", 3: "less than 1 lbf", 44: "44 N"} {
		if got := b.force(n); !strings.Contains(got, want) {
			t.Errorf("%g N: %q", n, got)
		}
	}
}

// Curing counts from a later coat that the log tells of, and the resin's day is not told
// where the spec knows of a later one. Hardwax oil: 28 days at the latest, resin 30.
func TestLaterCoatAndTheResinsDay(t *testing.T) {
	const finish = "finish: {family: hardwax-oil, product: oil"
	text := strings.Replace(packed, "wood: {", "resin: {area: 10 %}, wood: {", 1)
	card := func(more string) (all string) {
		for _, p := range build(t, spec(t, text+more), nil).Public.Care {
			all += p.ID + ": " + strings.ReplaceAll(p.Text, "\u00a0", " ") + "\n"
		}
		return all
	}
	if c := card(finish + "}\n"); !strings.Contains(c, "29 June 2026") || !strings.Contains(c, "1 July 2026") {
		t.Errorf("as it was finished:\n%s", c)
	}
	again := card(finish + ", last_coat: 2026-09-01}\nlog: [{date: 2026-09-01, did: oiled again}]\n")
	if !strings.Contains(again, "29 September 2026") || strings.Contains(again, "care.resin-cure") {
		t.Errorf("oiled again:\n%s", again)
	}
	if c := card(finish + "}\nbuyer: {delivered: 2026-07-02}\n"); strings.Contains(c, "care.resin-cure") {
		t.Errorf("delivered when the resin was hard:\n%s", c)
	}
	// It left before the later coat, with the earlier one.
	r := build(t, spec(t, text+finish+", last_coat: 2026-09-01}\nlog: [{date: 2026-09-01, did: oiled again}]\npacking: {how: carton}\nbuyer: {delivered: 2026-08-02}\n"), nil)
	if _, early := said(r, "packing.before-cure"); early {
		t.Error("it is said to have left before a coat that it got later was hard")
	}
}

// A base that reaches beyond the top is told of once, and not as an overhang below nought.
func TestBaseWiderIsNoOverhang(t *testing.T) {
	text := strings.NewReplacer("length: 1200, width: 360", "length: 1600, width: 360", "thickness: 40,", "thickness: 40, overhang: 100,").Replace(packed)
	r := build(t, spec(t, text), nil)
	_, wider := said(r, "base.wider")
	if f, overhang := said(r, "top.overhang"); !wider || overhang {
		t.Errorf("wider %v, overhang %q", wider, f.Message)
	}
}
