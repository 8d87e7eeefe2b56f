package report

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"slabfolio/listing/piece"
	"slabfolio/listing/shipping"
	"slabfolio/listing/units"
	"slabfolio/templates"
)

// careSpec draws a spec whose finish, packing, parts and countries are what care,
// lifting, parcels and sale hang on.
func careSpec(seed int) (text, shop string) {
	r := rand.New(rand.NewPCG(uint64(seed), 77))
	one := func(of ...string) string { return of[r.IntN(len(of))] }
	some := func(share float64) bool { return r.Float64() < share }
	num := func(lo, hi float64) string {
		return strconv.FormatFloat(math.Round(lo+(hi-lo)*r.Float64()), 'f', -1, 64)
	}
	kind := piece.Kinds[seed%len(piece.Kinds)]
	size := map[string][6]float64{"desk": {1200, 1800, 550, 900, 680, 740}, "dining table": {1200, 2900, 700, 1100, 690, 740}, "coffee table": {700, 1400, 400, 800, 330, 430}, "console table": {900, 1600, 250, 450, 690, 790},
		"side table": {350, 650, 350, 600, 400, 650}, "bench": {900, 1800, 280, 430, 380, 430}, "stool": {300, 450, 300, 400, 400, 650}, "shelf": {600, 1500, 180, 300, 700, 1800},
		"serving board": {300, 700, 150, 300, 0, 0}, "wall panel": {500, 1800, 300, 1000, 0, 0}, "other": {400, 1500, 300, 1000, 250, 1000}}[kind]
	var b strings.Builder
	say := func(format string, a ...any) { fmt.Fprintf(&b, format+"\n", a...) }
	say("serial: SC-%03d\ntitle: Drawn\nkind: %s\nfinished: 2026-0%d-1%d", seed, kind, 1+r.IntN(9), r.IntN(9))
	say("top:\n  outline: {length: %s mm, width: %s mm}\n  thickness: %s mm\n  wood: {species: %s, moisture: 9 %%}", num(size[0], size[1]), num(size[2], size[3]), num(18, 70),
		one("european-oak", "iroko", "black-walnut", "european-ash", "teak", "hard-maple"))
	if some(0.5) {
		say("  resin: {area: %s, colour: blue, pours: 2}", one("8 %", "25 %", "100 %"))
	}
	if kind != "serving board" && kind != "wall panel" && (kind != "shelf" || some(0.3)) {
		say("base:\n  style: %s\n  material: steel\n  weight: %s kg\n  height: %s mm\n  footprint: {length: %s mm, width: %s mm}", one("two welded frames", "two u-legs", "pedestal", "four tapered legs"), num(2, 45), num(size[4], size[5]), num(size[0]*.6, size[0]), num(size[2]*.6, size[2]))
		switch r.IntN(5) {
		case 0:
			say("  fixing: glued and dowelled")
		case 1:
			say("  fixing: %s", one("screwed", "wooden buttons that let it move", "bolted through slots", "not meant to move"))
		case 2:
			say("  fixing: {method: threaded inserts, bolt: M8, count: 8, holes: %s}", one("slotted", "round", "oversize", "fixed"))
		}
	}
	var parts []string
	for _, p := range []string{"{name: drawer, material: european-oak, size: [400 mm, 250 mm, 90 mm], walls: 12 mm, below_top: 100 mm}", "{name: back panel, material: birch plywood, size: [600 mm, 300 mm, 9 mm]}",
		"{name: inlay, material: mdf, size: [300 mm, 200 mm, 9 mm]}", "{name: glass shelf, material: glass, size: [600 mm, 200 mm, 6 mm]}", "{name: toughened glass pane, material: glass, size: [300 mm, 200 mm, 6 mm]}"} {
		if kind != "serving board" && some(0.15) {
			parts = append(parts, p)
		}
	}
	if len(parts) > 0 {
		say("parts: [%s]", strings.Join(parts, ", "))
	}
	if some(0.93) {
		say("finish: {family: %s, coats: %d%s%s}", piece.FinishFamilies[r.IntN(len(piece.FinishFamilies))], 1+r.IntN(5),
			one("", ", product: tin 3", ", product: tin 3", `, product: "walnut oil, cold-pressed"`, ", product: hemp oil", ", product: mineral oil", ", product: nut oil", ", product: the good balm"),
			one("", ", sheen: matt", ", sheen: satin", ", sheen: high gloss", ", sheen: semi-gloss", ", last_coat: 2025-11-03"))
	}
	if some(0.5) {
		say("weighed: %s", one(num(2, 90)+" kg", num(5, 800)+" lb", "700 lb", "31.4 kg"))
	}
	say("availability: %s", one("in stock", "made to order", "sold"))
	if some(0.7) {
		say("delivery: {ships_to: [%s]}", one("GB", "US", "DE, FR", "US, DE", "JP", "GB, IE"))
	}
	switch r.IntN(6) {
	case 0:
		say("packing: {packages: [{name: top, size: [1500 mm, 600 mm, 200 mm], weighed: 41 kg}, {name: legs and drawer, size: [800 mm, 500 mm, 200 mm]%s}]}", one("", ", weighed: 12 kg", ", weighed: 9 kg"))
	case 1:
	default:
		say("packing: {how: %s, legs: %q%s}", piece.PackingHow[r.IntN(4)], piece.LegsTravel[r.IntN(3)], one("", ", crate: plywood", ", crate: battens", ", crate: osb"))
	}
	return b.String(), "workshop: {name: Ostrel Yard" + one("", ", country: GB", ", country: US", ", country: DE") + one("", ", address: 4 Kiln Lane, email: a@b.example", ", address: 4 Kiln Lane") + "}\nunits: " + one("in", "cm", "mm") + "\n"
}

// A sweepCase is a drawn spec with its report.
type sweepCase struct {
	p *piece.Piece
	w *piece.Workshop
	r *Report
}

// public is every sentence for the buyer, and those of the care card, which are
// short forms of paragraphs by their id.
func (c sweepCase) public() (out []string) {
	data := map[string]any{"Product": "", "Cured": "(a day)"}
	if f := c.r.Public.Finish; f != nil {
		data["Product"] = f.Called()
	}
	for _, p := range append(append([]Paragraph{}, c.r.Public.Care...), c.r.Public.Cautions...) {
		out = append(out, p.Text)
		for _, part := range []string{"do", "not", "renew", "mind"} {
			if id := "card." + part + "." + p.ID; sweepWords.Has(id) {
				out = append(out, sweepWords.Say(id, data))
			}
		}
	}
	if s := c.r.Public.Shipping; s != nil {
		out = append(out, s.Text)
	}
	if m := c.r.Public.Movement; m != nil {
		out = append(out, m.Text)
	}
	return out
}

func (c sweepCase) has(id string) bool {
	return slices.ContainsFunc(append(append([]Paragraph{}, c.r.Public.Care...), c.r.Public.Cautions...), func(p Paragraph) bool { return p.ID == id })
}

func (c sweepCase) family() string {
	if c.p.Finish == nil {
		return ""
	}
	return c.p.Finish.Family.V
}

func (c sweepCase) product() string {
	if c.p.Finish == nil {
		return ""
	}
	return c.p.Finish.Product.V
}

// drying are the families whose rags heat, finishes.md, safety facts.
var drying = []string{"hardwax-oil", "hardwax-oil-2k", "linseed-oil-raw", "linseed-oil-boiled", "tung-oil", "oil-varnish-blend"}

func (c sweepCase) dryingProduct() bool {
	return c.family() != "bare" && (strings.Contains(c.product(), "nut oil") || strings.Contains(c.product(), "hemp oil"))
}

var (
	massPair  = regexp.MustCompile(`([\d.]+) (kg|lb|oz) \(([\d.]+) (kg|lb|oz)\)`)
	rangeSaid = regexp.MustCompile(`([\d.]+) (?:kg|lb|oz), between ([\d.]+) and ([\d.]+)`)
	weighs    = regexp.MustCompile(`It weighs (about )?([^()]+) \(([^()]+)\)`)
	handful   = regexp.MustCompile(`\b(three|four|five|six|seven|eight|nine|ten|[3-9]|\d\d+) (people|persons)`)
	someDay   = regexp.MustCompile(`\b(since|by|until|before|Until) (\d{1,2} [A-Z][a-z]+ \d{4})`)
)

// kgOf reads a printed mass, and what its rounding may hide.
func kgOf(number, unit string) (kg, half float64) {
	v, _ := strconv.ParseFloat(number, 64)
	step := 1.0
	if i := strings.IndexByte(number, '.'); i >= 0 {
		step = math.Pow(10, float64(i+1-len(number)))
	} else if unit == "lb" && v < 20 || unit == "kg" && v < 10 {
		step = 0.1 // a decimal that is nought is not printed; an estimate is told in whole kilograms from 10 up
	}
	of := map[string]float64{"kg": 1, "lb": units.KilogramsPerPound, "oz": units.KilogramsPerPound / 16}[unit]
	return v * of, step / 2 * of
}

var sweepWords = func() *templates.Words {
	w, err := templates.Open("en")
	if err != nil {
		panic(err)
	}
	return w
}()

// careRules read what is said of a piece for contradictions. Each returns what
// is wrong, or nothing.
var careRules = map[string]func(c sweepCase) string{
	"no two weights": func(c sweepCase) string {
		for _, s := range c.public() {
			for _, m := range massPair.FindAllStringSubmatch(s, -1) {
				a, ha := kgOf(m[1], m[2])
				b, hb := kgOf(m[3], m[4])
				if math.Abs(a-b) > ha+hb+0.0501 { // the kilograms of a package are kept to a tenth
					return m[0]
				}
			}
			if m := weighs.FindStringSubmatch(s); m != nil {
				lb, kg := c.r.Public.Weight.Text.Values()
				if !(m[2] == lb && m[3] == kg || m[2] == kg && m[3] == lb) {
					return m[0] + " beside " + lb + ", " + kg
				}
				if (m[1] != "") != (c.r.Public.Weight.Weighed == nil) {
					return m[0] + ": about is of what was not weighed"
				}
			}
		}
		if w := c.r.Public.Weight; w != nil && w.Weighed != nil {
			said, half := kgOf(strings.TrimSuffix(w.Text.Kg, " kg"), "kg")
			if strings.Contains(w.Text.Kg, "between") || math.Abs(said-*w.Weighed) > half+1e-9 {
				return w.Text.Kg + " of " + fmt.Sprint(*w.Weighed)
			}
		}
		return ""
	},
	"no washing where water harms": func(c sweepCase) string {
		if all := strings.Join(c.public(), " "); slices.Contains([]string{"wax", "shellac", "nitrocellulose-lacquer"}, c.family()) && regexp.MustCompile(`(?i)warm water|soap and water|wash by hand`).MatchString(all) {
			return all
		}
		return ""
	},
	"no count above six, none in public above two": func(c sweepCase) string {
		for _, s := range c.public() {
			if m := handful.FindString(s); m != "" {
				return m
			}
		}
		if s := c.r.Public.Shipping; s != nil && (s.PeopleToLift > 6 || s.Lift == shipping.Machine && s.PeopleToLift != 0) {
			return fmt.Sprint(s.Lift, s.PeopleToLift)
		}
		return ""
	},
	"no cure claim on what does not cure": func(c sweepCase) string {
		if f := c.family(); f != "bare" && f != "soap" && f != "board-oil" && f != "" {
			return ""
		}
		for _, s := range c.public() {
			if strings.Contains(s, "finish is fully hard") || strings.Contains(s, "fully cured") || strings.Contains(s, "is fully hard. It") {
				return s
			}
		}
		if f := c.r.Public.Finish; f != nil && f.FullCureTo != "" {
			return f.FullCureTo
		}
		return ""
	},
	"nothing that dries is said never to": func(c sweepCase) string {
		if c.dryingProduct() && (c.has("care.first-weeks.ready") || !c.has("caution.rags")) {
			return c.product()
		}
		if (slices.Contains(drying, c.family()) || c.dryingProduct()) != c.has("caution.rags") {
			return c.family() + " " + c.product()
		}
		return ""
	},
	"no polish on oil or matt": func(c sweepCase) string {
		sheen := ""
		if c.p.Finish != nil {
			sheen = c.p.Finish.Sheen.V
		}
		hard := slices.Contains([]string{"varnish", "polyurethane-waterborne", "polyurethane-2k", "conversion-varnish", "epoxy-topcoat"}, c.family())
		for _, s := range c.public() {
			if strings.Contains(s, "plastic polish") && (!hard || sheen != "high gloss" && !(sheen == "" && c.family() == "epoxy-topcoat")) {
				return s
			}
		}
		return ""
	},
	"fixings that move only where they are": func(c sweepCase) string {
		moves := false
		if c.p.Base != nil && c.p.Base.Fixing != nil {
			f := c.p.Base.Fixing
			moves = f.Holes.V == "slotted" || f.Holes.V == "oversize" || strings.Contains(f.Text.V, "let it move") || strings.Contains(f.Text.V, "slots")
		}
		for _, s := range c.public() {
			if strings.Contains(s, "eave the fixings") && !moves {
				return s
			}
		}
		return ""
	},
	"the base comes off only where it does": func(c sweepCase) string {
		all := strings.Join(c.public(), " ")
		if !strings.Contains(all, "base off") {
			return ""
		}
		fast := c.p.Base == nil || c.p.Base.Fixing == nil || strings.Contains(c.p.Base.Fixing.Text.V, "glued")
		if legs := c.p.Packing; fast && (c.p.Base == nil || legs == nil || legs.Legs.V != "off" && legs.Legs.V != "with the top") {
			return all
		}
		return ""
	},
	"dates are true whenever they are read": func(c sweepCase) string {
		for _, s := range c.public() {
			if strings.Contains(s, "still hard") || strings.Contains(s, "not yet") {
				return s
			}
			for _, m := range someDay.FindAllStringSubmatch(s, -1) {
				on, err := time.Parse("2 January 2006", m[2])
				iso := on.Format("2006-01-02")
				if err != nil || m[1] == "since" && iso > c.r.Public.Finished || m[1] != "since" && m[1] != "before" && c.family() != "conversion-varnish" && iso <= c.r.Public.Finished {
					return m[0] + ", finished " + c.r.Public.Finished
				}
			}
		}
		return ""
	},
	"knives": func(c sweepCase) string {
		all := strings.Join(c.public(), " ")
		if regexp.MustCompile(`(?i)cut on `).MatchString(all) && (strings.Contains(all, "for serving") || strings.Contains(all, "Keep knives")) {
			return all
		}
		return ""
	},
	"no finish, no words of one": func(c sweepCase) string {
		for _, s := range c.public() {
			if c.p.Finish == nil && regexp.MustCompile(`\b(finish|finished with|coating|coat)\b`).MatchString(s) {
				return s
			}
		}
		return ""
	},
	"heat, the wood first": func(c sweepCase) string {
		order := ""
		for _, p := range c.r.Public.Cautions {
			if p.Group == "heat" {
				order += strings.TrimPrefix(p.ID, "caution.heat.") + " "
			}
		}
		table := strings.HasSuffix(c.p.Kind.V, "table") || c.p.Kind.V == "desk"
		if table && len(c.p.Top.Resin) > 0 && c.family() != "epoxy-topcoat" && order != "wood resin " && !(c.p.Top.Resin[0].Area.V >= 100 && order == "resin ") {
			return order
		}
		return ""
	},
	"the general caution last, each once": func(c sweepCase) string {
		seen := map[string]bool{}
		for i, p := range c.r.Public.Cautions {
			if seen[p.Text] || (p.ID == "caution.rules") != (i == len(c.r.Public.Cautions)-1) {
				return p.ID
			}
			seen[p.Text] = true
		}
		return ""
	},
	"packages add up to the piece": func(c sweepCase) string {
		k := c.p.Packing
		if k == nil || len(k.Packages) > 0 || c.r.Public.Shipping == nil || len(c.r.Public.Shipping.Packages) == 0 {
			return ""
		}
		net, n := 0.0, 0
		for name, f := range c.r.Figures {
			if strings.HasPrefix(name, "shipping.packages.") && strings.HasSuffix(name, ".net_kg") {
				net, n = net+f.Value, n+1
			}
		}
		if want := c.r.Public.Weight.Shown(); n != len(c.r.Public.Shipping.Packages) || math.Abs(net-want) > 0.011*float64(n) {
			return fmt.Sprintf("%d packages hold %.2f kg of %.2f", n, net, want)
		}
		return ""
	},
	"ranges in order": func(c sweepCase) string {
		texts := c.public()
		if w := c.r.Public.Weight; w != nil {
			texts = append(texts, w.Text.Lb, w.Text.Kg)
		}
		for _, s := range texts {
			for _, m := range rangeSaid.FindAllStringSubmatch(strings.ReplaceAll(s, "\u00a0", " "), -1) {
				var v [3]float64
				for i := range v {
					v[i], _ = strconv.ParseFloat(m[i+1], 64)
				}
				if !(v[1] <= v[0] && v[0] <= v[2] && v[1] < v[2]) {
					return m[0]
				}
			}
		}
		for name, f := range c.r.Figures {
			if !(f.Low <= f.Value && f.Value <= f.High) {
				return fmt.Sprintf("%s: %g in %g to %g", name, f.Value, f.Low, f.High)
			}
		}
		return ""
	},
	"one sum of the packages": func(c sweepCase) string {
		s, f := c.r.Public.Shipping, c.r.Freight
		if f == nil || s == nil || len(s.Packages) == 0 {
			return ""
		}
		m, all := massPair.FindStringSubmatch(s.Text), 0.0
		for _, p := range s.Packages {
			all += p.Gross
		}
		if m == nil || math.Abs(all-f.Gross) > 1e-6 {
			return fmt.Sprintf("%q, %g and %g kg", s.Text, all, f.Gross)
		}
		if kg, half := kgOf(m[1], m[2]); math.Abs(kg-f.Gross) > half+1e-6 {
			return fmt.Sprintf("%q and %g kg", s.Text, f.Gross)
		}
		return ""
	},
	"floor and loading metres": func(c sweepCase) string {
		f := c.r.Freight
		if f == nil {
			return ""
		}
		notes := strings.Join(f.Notes, " ")
		metre, pallet := 1.0, 1.2*0.8/2.4 // of floor, in loading metres
		m := regexp.MustCompile(`takes ([\d.]+) loading metres of a trailer, no more floor than (\d+) EUR`).FindStringSubmatch(notes)
		if american := c.r.Home == "US" || c.r.Home == "CA"; american {
			metre, pallet = 0.3048, 48*40*25.4*25.4/1e6/2.4
			m = regexp.MustCompile(`takes ([\d.]+) linear feet of a trailer, no more floor than (\d+) pallets? of 48 × 40 in`).FindStringSubmatch(notes)
		}
		switch {
		case c.r.Light && m != nil:
			return "told of a parcel that one person carries"
		case c.r.Light:
			return ""
		case m == nil:
			return "not told"
		}
		floor, _ := strconv.ParseFloat(m[1], 64)
		pallets, _ := strconv.ParseFloat(m[2], 64)
		if floor *= metre; pallets*pallet < floor-0.03 || (pallets-1)*pallet > floor+0.03 {
			return m[0]
		}
		return ""
	},
	"one person lifts what the equation has for one": func(c sweepCase) string {
		s := c.r.Public.Shipping
		if s == nil {
			return ""
		}
		limit := max(10, c.r.Figures["lift.one_person_kg"].Value) // up to 10 kg anybody lifts: common practice
		most := c.r.Public.Weight
		for _, p := range s.Packages {
			if s.Lift == shipping.One && p.High > limit+0.06 {
				return fmt.Sprintf("%.1f kg, limit %.1f", p.High, limit)
			}
		}
		if len(s.Packages) == 0 && most != nil && s.Lift == shipping.One && most.Shown() > limit+0.01 {
			return fmt.Sprintf("%.1f kg, limit %.1f", most.Shown(), limit)
		}
		return ""
	},
	"sale": func(c sweepCase) string {
		gone := c.p.Availability.V == "sold"
		var to []string
		if c.p.Delivery != nil {
			for _, v := range c.p.Delivery.ShipsTo {
				to = append(to, v.V)
			}
		}
		eu := slices.Contains(to, "DE") || slices.Contains(to, "IE")
		if _, ok := found(c.r, "sale.eu-contact"); ok != (eu && !gone && (c.w.Address.V == "" || c.w.Email.V == "")) {
			return fmt.Sprintf("EU contact asked: %v", ok)
		}
		us := slices.Contains(to, "US") || len(to) == 0 && c.w.Country.V == "US"
		board := slices.ContainsFunc(c.p.Parts, func(q piece.Part) bool { return strings.Contains(q.Material.V, "plywood") || q.Material.V == "mdf" })
		if got := c.r.Public.Composite != ""; got != (us && board && !gone) || got != c.has("caution.composite") {
			return fmt.Sprintf("composite wood told: %v", got)
		}
		plain := slices.ContainsFunc(c.p.Parts, func(q piece.Part) bool { return q.Name.V == "glass shelf" })
		if _, ok := found(c.r, "glass.not-toughened"); ok != plain {
			return fmt.Sprintf("toughened glass asked: %v", ok)
		}
		return ""
	},
	"food is asked of the maker": func(c sweepCase) string {
		board := c.p.Kind.V == "serving board"
		_, asked := found(c.r, "food.not-documented")
		_, resin := found(c.r, "food.resin-not-documented")
		for _, p := range c.r.Public.Cautions {
			if strings.Contains(p.Text, "not certified") && !(board && (asked || resin)) {
				return p.Text
			}
		}
		if asked != board || resin != (board && len(c.p.Top.Resin) > 0) {
			return c.family()
		}
		return ""
	},
	"whole words": func(c sweepCase) string {
		texts := c.public()
		for _, f := range c.r.Findings {
			texts = append(texts, f.Message, f.Remedy)
		}
		if c.r.Freight != nil {
			texts = append(texts, c.r.Freight.Notes...)
		}
		for _, s := range texts {
			for _, bad := range []string{"<no value>", "NaN", "Inf", "%!", "  ", " .", " ,", "()", "{{", " 0 kg", " 0 lb", "..", "figures.", "caution."} {
				if strings.Contains(s, bad) {
					return s
				}
			}
		}
		return ""
	},
}

// Five hundred drawn specs, every kind and finish: no two sentences contradict
// each other, by rules that read the words and not the code.
func TestSweepOfCareAndPacking(t *testing.T) {
	faults, seen := map[string]int{}, map[string]bool{}
	for seed := range 500 {
		text, shop := careSpec(seed)
		w := workshop(t, shop)
		p, findings := piece.ParsePiece("piece.yaml", []byte(text), piece.Defaults{Units: w.Units.V})
		for _, f := range findings {
			if f.Rank == piece.Fault {
				t.Fatalf("seed %d: %s\n%s", seed, f.Message, text)
			}
		}
		c := sweepCase{p, w, build(t, p, w)}
		for _, q := range append(append([]Paragraph{}, c.r.Public.Care...), c.r.Public.Cautions...) {
			seen[q.ID] = true
		}
		for name, rule := range careRules {
			if wrong := rule(c); wrong != "" {
				if faults[name]++; faults[name] <= 2 {
					t.Errorf("seed %d, %s: %s\n%s%s", seed, name, wrong, text, shop)
				}
			}
		}
	}
	for name, n := range faults {
		t.Errorf("%s: %d of 500", name, n)
	}
	if len(seen) < 60 {
		t.Errorf("only %d different paragraphs were met", len(seen))
	}
}
