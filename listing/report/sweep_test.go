package report

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// A drawn spec is one that a maker might write: its text, what was read from it,
// and the report of it.
type drawnSpec struct {
	text   string
	piece  *piece.Piece
	shop   *piece.Workshop
	report *Report
}

// drawSpec draws a spec of sensible sizes from a seed: every kind, finish and
// country, tops of wood and of wood and resin, with and without what is optional.
// Whoever adds a key to the spec adds it here.
func drawSpec(seed int) (text string, shop *piece.Workshop) {
	r := rand.New(rand.NewPCG(uint64(seed), 500))
	one := func(of ...string) string { return of[r.IntN(len(of))] }
	some := func(share float64) bool { return r.Float64() < share }
	kind := piece.Kinds[seed%len(piece.Kinds)]
	metric := some(0.5)
	inch := func(lo, hi float64) string { // a length, in the maker's own units
		v := lo + (hi-lo)*r.Float64()
		if metric {
			return fmt.Sprintf("%.0f mm", v*25.4)
		}
		return units.Length(v * 25.4).Plain(units.Inches)
	}
	kg := func(lo, hi float64) string {
		v := lo + (hi-lo)*r.Float64()
		if metric {
			return fmt.Sprintf("%.1f kg", v)
		}
		return fmt.Sprintf("%.1f lb", v/units.KilogramsPerPound)
	}
	size := map[string][6]float64{ // length, width, height of the base; low and high of each, in
		"desk": {48, 72, 24, 34, 27, 29}, "dining table": {48, 108, 30, 44, 27, 29}, "coffee table": {30, 56, 16, 32, 13, 17}, "console table": {36, 66, 10, 18, 27, 31},
		"side table": {14, 26, 14, 24, 16, 26}, "bench": {36, 70, 11, 17, 15, 17}, "stool": {12, 18, 12, 16, 16, 26}, "shelf": {24, 60, 7, 12, 30, 70},
		"serving board": {12, 28, 6, 12, 0, 0}, "wall panel": {20, 70, 12, 40, 0, 0}, "other": {16, 60, 12, 40, 10, 40},
	}[kind]
	var b strings.Builder
	say := func(format string, a ...any) { fmt.Fprintf(&b, format+"\n", a...) }
	say("serial: SW-%03d\ntitle: Drawn %s\nkind: %s\nfinished: 2026-0%d-1%d\nunits: %s", seed, kind, kind, 1+r.IntN(9), r.IntN(9), map[bool]string{true: one("mm", "cm"), false: "in"}[metric])
	if some(0.2) {
		say("quantity: %d", 2+r.IntN(5))
	}
	say("top:")
	switch outline := one("rectangle", "rectangle", "widths", "round"); {
	case outline == "round" && kind != "bench" && kind != "shelf" && kind != "console table":
		say("  outline: {diameter: %s}", inch(size[2], size[3]))
	case outline == "widths":
		w := inch(size[2], size[3])
		say("  outline: {length: %s, widths: [%s, %s, %s]}", inch(size[0], size[1]), w, w, w)
	default:
		say("  outline: {length: %s, width: %s}", inch(size[0], size[1]), inch(size[2], size[3]))
	}
	say("  thickness: %s", inch(0.75, 2.5))
	say("  wood:")
	for range 1 + r.IntN(8)/7 {
		say("    - species: %s", one("wych-elm", "black-walnut", "european-oak", "white-oak", "spalted european-beech", "figured black walnut", "monkeypod", "olive", "sheesham", "african-padauk", "silver birch", "london plane", "yew", "european-ash burl"))
		if some(0.7) {
			say("      moisture: {reading: %.1f %%, meter: %s}", 6+10*r.Float64(), one("pin", "pinless"))
		}
		if some(0.5) {
			say("      cut: %s", piece.Cuts[r.IntN(len(piece.Cuts))])
		}
		if some(0.3) {
			say("      grain: %s", piece.Grains[r.IntN(len(piece.Grains))])
		}
		if some(0.5) {
			say("      origin: {country: %s}", one("GB", "US", "DE", "FR", "AU", "NL"))
		}
	}
	resin := some(0.45)
	if resin {
		area := one("6 %", "18 %", "40 %", "100 %")
		say("  resin: {area: %s, colour: smoke grey, pours: %d}", area, 1+r.IntN(4))
		if some(0.3) && area != "100 %" {
			say("  across_wood: %s", inch(size[2]*0.5, size[2]*0.9))
		}
	}
	if some(0.2) {
		say("  channels: [{section: 1 1/2 x 1/2 x 1/8 in, length: %s, count: 3}]", inch(size[2]*0.5, size[2]*0.8))
	}
	standing := kind != "serving board" && kind != "wall panel" && !(kind == "shelf" && some(0.7))
	if standing && some(0.92) {
		say("base:\n  material: %s\n  height: %s", one("steel", "steel", "white-oak", "aluminium"), inch(size[4], size[5]))
		if some(0.8) {
			say("  weight: %s", kg(3, 25))
		}
		if some(0.85) {
			k := 0.6 + 0.6*r.Float64()
			say("  footprint: {length: %s, width: %s}", inch(size[0]*k, size[0]*k), inch(size[2]*k, size[2]*k))
		}
		switch {
		case some(0.2):
			say("  fixing: %s", one("glued and dowelled", "buttons in slots", "bolted from below"))
		case some(0.7):
			say("  fixing: {method: bolts, bolt: %s, count: 6, holes: %s, slot: %s, across: %s}", one("M8", "1/4 in", "M6"), piece.Holes[r.IntN(len(piece.Holes))], inch(0.4, 0.7), inch(size[2]*0.4, size[2]*0.8))
		}
	}
	if standing && some(0.3) {
		say("parts:\n  - {name: drawer, material: %s, count: 1, size: [%s, %s, %s], walls: %s, below_top: %s}", one("black-walnut", "cocobolo", "plywood-birch"), inch(12, 20), inch(8, 12), inch(3, 4), inch(0.4, 0.5), inch(4, 5))
	}
	if family := append([]string{""}, piece.FinishFamilies...)[seed%(1+len(piece.FinishFamilies))]; family != "" {
		say("finish: {family: %s, product: tin %d, coats: %d}", family, seed, 1+r.IntN(3))
	}
	if some(0.4) {
		say("weighed: %s", kg(8, 60))
	}
	if some(0.5) {
		say("price: {amount: 900, currency: EUR}")
	}
	if some(0.6) {
		say("delivery: {ships_to: [%s]}", one("GB", "US", "DE", "GB, IE", "US, CA", "FR, DE, NL", "JP"))
	}
	if some(0.7) {
		say("packing: {how: %s, legs: %q}", piece.PackingHow[r.IntN(len(piece.PackingHow))], one("on", "off"))
	}
	if some(0.1) && kind != "serving board" && kind != "wall panel" && kind != "shelf" {
		say("seats: %d", 1+r.IntN(6))
	}
	shop = &piece.Workshop{Name: piece.Of("Ostrel Yard"), Country: piece.Of(one("", "GB", "US", "DE", "FR", "AU", "JP"))}
	if some(0.4) {
		shop.Region = piece.Region{HeatingSeasonRH: piece.Of(units.Percent(25 + 15*r.Float64())), SummerRH: piece.Of(units.Percent(50 + 25*r.Float64()))}
	}
	return b.String(), shop
}

// sweepRules read every sentence of a drawn piece for what contradicts another, or
// the spec, or the figures. Each returns what it found.
var sweepRules = map[string]func(drawnSpec) []string{
	"whole sentences":         wholeSentences,
	"the maker's units first": makersUnitsFirst,
	"movement":                movementAgrees,
	"fixings":                 fixingsAgree,
	"seats and knees":         seatsAgree,
	"tipping":                 tippingAgrees,
	"protected woods":         protectedAgree,
}

const sweeps = 500

// Five hundred specs, drawn from fixed seeds, read by every rule.
func TestSweepOfDrawnSpecs(t *testing.T) {
	if testing.Short() {
		t.Skip("500 reports")
	}
	kinds, count := map[string]int{}, map[string]int{}
	for n := range 2 * sweeps {
		seed := n / 2
		text, shop := drawSpec(seed)
		if n%2 == 1 { // the specs of the other sweep, read by these rules
			var yaml string
			text, yaml = careSpec(seed)
			shop = workshop(t, yaml)
		}
		p, findings := piece.ParsePiece("piece.yaml", []byte(text), piece.Defaults{Units: shop.Units.V})
		for _, f := range findings {
			if f.Rank == piece.Fault {
				t.Fatalf("seed %d: %s\n%s", seed, f.Message, text)
			}
		}
		s := drawnSpec{text: text, piece: p, shop: shop, report: build(t, p, shop)}
		kinds[p.Kind.V]++
		rules := maps.Clone(sweepRules)
		for name, rule := range careRules { // what the other sweep reads, on these pieces too
			rules[name] = func(s drawnSpec) []string {
				if wrong := rule(sweepCase{s.piece, s.shop, s.report}); wrong != "" {
					return []string{wrong}
				}
				return nil
			}
		}
		for name, rule := range rules {
			for _, wrong := range rule(s) {
				if count[name]++; count[name] <= 3 { // the first few tell enough
					t.Errorf("seed %d, a %s, %s: %s\n%s", seed, p.Kind.V, name, wrong, text)
				}
			}
		}
	}
	for name, n := range count {
		t.Errorf("%s: %d faults in all", name, n)
	}
	if len(kinds) != len(piece.Kinds) {
		t.Errorf("kinds drawn: %v", kinds)
	}
}

// publicTexts are all sentences that a buyer may read, by where they stand.
func publicTexts(r *Report) map[string]string {
	out := map[string]string{}
	for i, p := range r.Public.Care {
		out[fmt.Sprintf("care %d %s", i, p.ID)] = p.Text
	}
	for i, p := range r.Public.Cautions {
		out[fmt.Sprintf("caution %d %s", i, p.ID)] = p.Text
	}
	if m := r.Public.Movement; m != nil {
		out["movement"] = m.Text
	}
	if s := r.Public.Shipping; s != nil {
		out["shipping"] = s.Text
	}
	return out
}

func wholeSentences(s drawnSpec) (wrong []string) {
	texts := publicTexts(s.report)
	for i, f := range s.report.Findings {
		texts[fmt.Sprintf("finding %d %s", i, f.Code)], texts[fmt.Sprintf("remedy %d %s", i, f.Code)] = f.Message, f.Remedy
	}
	for at, text := range texts {
		for _, bad := range []string{"<no value>", "NaN", "Inf", "%!", "  ", " .", "()", "{{", " 0 mm", " 0 kg", " 0 lb"} {
			if strings.Contains(text, bad) {
				wrong = append(wrong, fmt.Sprintf("%s has %q: %s", at, bad, text))
			}
		}
		if text == "" {
			wrong = append(wrong, at+" is empty")
		}
	}
	return wrong
}

var (
	metricUnit = regexp.MustCompile(`[0-9½¼¾⅛⅜⅝⅞] (mm|cm|kg|N|l)\b`)
	usUnit     = regexp.MustCompile(`[0-9½¼¾⅛⅜⅝⅞] (in|lb|gal|fl oz|lbf)\b`)
	aside      = regexp.MustCompile("\\([^()]*\\)|`[^`]*`")
	example    = regexp.MustCompile(`(density|weighed|weight|area|moisture): [0-9.]+ [a-z/0-9%]+|write [0-9.]+[ \x{a0}](kg|lb|g)\b`) // what to write into the spec
)

// makersUnitsFirst looks at findings: outside brackets stand the maker's units.
func makersUnitsFirst(s drawnSpec) (wrong []string) {
	other := metricUnit
	if s.report.Prefer.Metric() {
		other = usUnit
	}
	for _, f := range s.report.Findings {
		text := f.Message + "; " + f.Remedy
		for range 3 { // brackets within brackets
			text = aside.ReplaceAllString(text, "")
		}
		text = example.ReplaceAllString(text, "")
		if m := other.FindString(text); m != "" {
			wrong = append(wrong, fmt.Sprintf("%q in %s: %s; %s", m, f.Code, f.Message, f.Remedy))
		}
	}
	return wrong
}

func movementAgrees(s drawnSpec) (wrong []string) {
	r, m := s.report, s.report.Public.Movement
	told := false
	for _, p := range r.Public.Care {
		told = told || p.Group == "movement"
	}
	f, known := r.Figures["movement.across_mm"]
	allResin := len(s.piece.Top.Resin) > 0 && s.piece.Top.Resin[0].Area.V >= 100
	read := 0.0
	for _, w := range s.piece.Top.Wood {
		if w.Moisture != nil {
			read = max(read, float64(w.Moisture.Reading.V))
		}
	}
	_, wet := said(r, "wood.wet")
	switch {
	case m == nil && told:
		wrong = append(wrong, "care tells of a movement that is not known")
	case allResin && (m != nil || told || known):
		wrong = append(wrong, "a top of resin alone moves")
	case m != nil && m.Across < f.Value:
		wrong = append(wrong, fmt.Sprintf("up to %g mm, and %g mm are reckoned", m.Across, f.Value))
	case m != nil && m.FromMC > m.ToMC:
		wrong = append(wrong, "the dry season is the humid one")
	case m != nil && strings.Contains(m.Text, "was read at") && (!wet || read < 12):
		wrong = append(wrong, fmt.Sprintf("read at %g %% and told as wet: %s", read, m.Text))
	case wet && read < 12:
		wrong = append(wrong, fmt.Sprintf("read at %g %% and a doubt", read))
	}
	return wrong
}

func fixingsAgree(s drawnSpec) (wrong []string) {
	r := s.report
	between, known := r.Figures["movement.between_fixings_mm"]
	var fix *piece.Fixing
	if s.piece.Base != nil {
		fix = s.piece.Base.Fixing
	}
	for _, f := range r.Findings {
		if strings.HasPrefix(f.Code, "fixing.") && fix == nil {
			wrong = append(wrong, "no fixing, and a finding of one: "+f.Message)
		}
	}
	if !known {
		return wrong
	}
	grainWide := 0.0 // what the whole top's wood moves, at most, over the longest way
	if w, ok := r.Figures["movement.settling_mm"]; ok {
		grainWide = w.High
	}
	grainWide = max(grainWide, r.Figures["movement.across_mm"].High)
	sameGrain := len(r.Movement) == 1
	if sameGrain && grainWide > 0 && between.Value > grainWide*1.5+1 {
		wrong = append(wrong, fmt.Sprintf("between the fixings %g mm, and the whole top %g mm", between.Value, grainWide))
	}
	if f, short := said(r, "fixing.slot-short"); short && float64(fix.Slot.V) > between.High+12 {
		wrong = append(wrong, "a slot that is long enough: "+f.Message)
	}
	return wrong
}

func seatsAgree(s drawnSpec) (wrong []string) {
	kind, pub := s.piece.Kind.V, s.report.Public
	sits := kind == "dining table" || kind == "bench" || s.piece.Seats.Set()
	if pub.Seats > 0 && !sits {
		wrong = append(wrong, fmt.Sprintf("a %s seats %d", kind, pub.Seats))
	}
	if s.piece.Seats.Set() && pub.Seats != s.piece.Seats.V {
		wrong = append(wrong, fmt.Sprintf("the maker says %d, and it seats %d", s.piece.Seats.V, pub.Seats))
	}
	if pub.Dimensions.Knee != nil && kind != "desk" && kind != "dining table" && !s.piece.Seats.Set() {
		wrong = append(wrong, "knee room where nobody sits")
	}
	return wrong
}

func tippingAgrees(s drawnSpec) (wrong []string) {
	r := s.report
	tip := caution("caution.tip.table")(r) || caution("caution.tip.seat")(r)
	base := s.piece.Base
	switch {
	case tip && base == nil && s.piece.Kind.V != "bench" && s.piece.Kind.V != "stool":
		wrong = append(wrong, "nothing stands, and it tips")
	case tip && base != nil && !threeFeet(base.Style.V) && base.FootprintLength.V >= units.Length(*r.Public.Dimensions.Length) && base.FootprintWidth.V >= units.Length(*r.Public.Dimensions.Width):
		wrong = append(wrong, "the feet reach as far as the top, and it tips")
	case caution("caution.tip.wall")(r) && r.Figures["stability.push_n"].Value == 0 && *r.Public.Dimensions.Height < 3*min(*r.Public.Dimensions.Length, *r.Public.Dimensions.Width) &&
		(base.FootprintWidth.V == 0 || *r.Public.Dimensions.Height < 3*min(float64(base.FootprintLength.V), float64(base.FootprintWidth.V))):
		wrong = append(wrong, "to be fixed to a wall, and neither was a push reckoned nor is it three times as high as deep")
	}
	if _, pushed := said(r, "stability.push"); pushed && !caution("caution.tip.wall")(r) {
		wrong = append(wrong, "the maker reads of a push, the buyer does not")
	}
	return wrong
}

func protectedAgree(s drawnSpec) (wrong []string) {
	_, found := said(s.report, "wood.listed")
	if has := strings.Contains(s.text, "sheesham") || strings.Contains(s.text, "padauk") || strings.Contains(s.text, "cocobolo"); has != found {
		wrong = append(wrong, fmt.Sprintf("a protected wood in the spec %v, found %v", has, found))
	}
	if found != (len(s.report.Listed) > 0) {
		wrong = append(wrong, "maker and buyer read of different woods")
	}
	return wrong
}
