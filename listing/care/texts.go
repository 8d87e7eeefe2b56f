package care

import (
	"strconv"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
	"slabfolio/templates"
)

// A Paragraph is one piece of care or one caution: Text is the phrase ID with
// this piece's own figures put in.
type Paragraph struct{ ID, Group, Head, Text string }

// Input is what the texts of a piece depend on.
type Input struct {
	Kind        string
	Family      *Family              // as its product makes it; nil when no finish is given
	Product     string               // as the maker wrote it
	Sheen       string               // as the maker wrote it
	Sheet       *piece.FinishProduct // the workshop's entry for it, if there is one
	Food        string               // what the maker documents of food on the finish; empty for nothing
	ResinFood   string               // the same of the resin
	Dates       Dates
	Finished    piece.Date // the day the piece was done
	Resin       bool
	AllResin    bool // the top holds no wood to speak of
	ResinEpoxy  bool
	ResinHeat   units.Celsius // heat deflection from the workshop's entry; 0 takes the usual range
	ResinBy     piece.Date    // the resin is hard by then at the latest; zero when not known
	Glass       bool
	Materials   []string // what else is in it, in the order of the spec: leather, fabric, cord, cane, stone, glass
	Drawer      bool
	HasBase     bool
	EndGrain    bool   // its face is end grain, which has no direction across the grain
	Outdoors    bool   // it stands in the open, so nothing is said of rooms
	FixingsMove bool   // top and base are joined by fixings that let the wood move
	Settles     string // how far its wood still shrinks once from a wet reading, for people; empty when it is dry
	Reading     string // that reading: "14.5 %"
	WoodMoves   string // seasonal movement for people, both systems: "3 mm (⅛ in)"; empty when not known
	WeightText  string // "31 kg (69 lb)", as it stands everywhere else
	WeightKg    float64
	Lift        string // who lifts it: one, one-with-care, two, more, machine; empty when not known
	LiftOff     string // the same of the heavier of top and base, where the base comes off; else empty
	Protected   []Protected
	Irritant    []string // names for people of the woods whose dust irritates
	Composite   []string // names for people of the panels in it, for a piece that is sold to the US
	Compliant   bool     // the maker documents that they meet the rule for composite wood
	Tips        bool     // a load on its top, or on the end of its seat, can tip it
	OldCoat     bool     // paint or a finish of earlier hands is still on it
	Topples     bool     // tall and narrow: a push at its upper edge can tip it
}

// Protected is a wood of the piece whose trade is regulated.
type Protected struct {
	Wood     string // botanical name
	Appendix string // of CITES: I or II
}

type writer struct {
	t    Tables
	in   Input
	w    *templates.Words
	care []Paragraph
	warn []Paragraph
}

// fahrenheit reports whether the readers measure warmth in degrees Fahrenheit.
func (x *writer) fahrenheit() bool { return x.w.Lang == "en-US" }

// warm is a temperature in both degrees, the readers' own first.
func (x *writer) warm(c units.Celsius) (first, other string) {
	if x.fahrenheit() {
		return c.TextF(), c.TextC()
	}
	return c.TextC(), c.TextF()
}

func (x *writer) say(id string, data map[string]any) string { return x.w.Say(id, data) }

func (x *writer) para(kind, group, variant string, data map[string]any) Paragraph {
	id := kind + "." + group
	if variant != "" {
		id += "." + variant
	}
	head := kind + ".head." + group
	if own := head + "." + variant; x.w.Has(own) {
		head = own
	}
	return Paragraph{ID: id, Group: group, Head: x.say(head, nil), Text: x.say(id, data)}
}

func (x *writer) add(group, variant string, data map[string]any) {
	x.care = append(x.care, x.para("care", group, variant, data))
}

func (x *writer) caution(group, variant string, data map[string]any) {
	x.warn = append(x.warn, x.para("caution", group, variant, data))
}

// Write returns the care and the cautions of a piece, in the order of reading:
// the piece first, then its resin, and what holds for all of it last.
func (t Tables) Write(in Input, w *templates.Words) (care, cautions []Paragraph) {
	x := &writer{t: t, in: in, w: w}
	x.firstWeeks()
	x.daily()
	x.finish()
	x.room()
	x.resin()
	for _, m := range in.Materials {
		x.add("material", m, nil)
	}
	x.handling()
	x.heat()
	x.food()
	x.making()
	for _, p := range in.Protected {
		variant := ""
		if p.Appendix == "I" {
			variant = "first"
		}
		x.caution("cites", variant, map[string]any{"Wood": p.Wood})
	}
	if len(x.warn) > 0 {
		x.caution("rules", "", nil)
	}
	return x.care, x.warn
}

func (x *writer) board() bool { return x.in.Kind == "serving board" }

// loose reports whether it is a thing to take in the hand, as far as is known: of no kind
// of furniture and without a base. Nobody puts a trivet on a coaster.
func (x *writer) loose() bool { return x.unnamed() && !x.in.HasBase }

// unnamed reports whether no kind says what the piece is for: a chair, a cabinet or a
// coaster is no table, and nobody is told to use coasters on it.
func (x *writer) unnamed() bool { return x.in.Kind == "other" }

func (x *writer) stands() bool { return x.in.HasBase && !x.board() && x.in.Kind != "wall panel" }

// hardened reports whether the finish was hard when the piece was done.
func (x *writer) hardened() bool {
	d := x.in.Dates.CureTo
	return d != (piece.Date{}) && x.in.Finished != (piece.Date{}) && !x.in.Finished.Before(d)
}

// wax reports whether the finish is wax: it dries, and never is hard.
func (x *writer) wax() bool { return x.in.Family != nil && x.in.Family.Care == "wax" }

// firstWeeks says from when the piece can be used and until when it is to be
// spared, in words that stay true whenever they are read.
func (x *writer) firstWeeks() {
	d := x.in.Dates
	zero := piece.Date{}
	switch {
	case x.hardened():
		x.add("first-weeks", "cured", map[string]any{"To": x.day(d.CureTo), "Wax": x.wax()})
	case d.CureTo != zero:
		variant := "curing"
		switch x.in.Kind {
		case "serving board":
			variant = "curing-board"
		case "wall panel":
			variant = "curing-wall"
		case "bench", "stool":
			variant = "curing-seat"
		}
		if x.unnamed() {
			variant = "curing-loose"
		}
		light := ""
		if d.LightUse != zero && d.LightUse.Before(d.CureTo) {
			light = x.day(d.LightUse)
		}
		room := units.Celsius(x.t.Rules["cure_room"].Value)
		first, other := x.warm(room)
		x.add("first-weeks", variant, map[string]any{"Light": light, "To": x.day(d.CureTo), "Warm": first, "OrWarm": other, "Wax": x.wax()})
	case x.in.Family != nil && x.in.Family.Undated:
		x.add("first-weeks", "drying", map[string]any{"Oil": x.oil()})
	case d.LightUse != zero:
		x.add("first-weeks", "ready", map[string]any{"Light": x.day(d.LightUse)})
	}
	if !x.board() && !x.loose() && !x.in.Outdoors { // what is held in a hand is warm in an hour
		x.add("arrival", "", nil)
	}
}

// day writes a date in words.
func (x *writer) day(d piece.Date) string { return Day(x.w, d) }

// Day writes a date in words as the readers of the language do: "19 September 2026",
// "September 19, 2026".
func Day(w *templates.Words, d piece.Date) string {
	return w.Day(ISO(d))
}

func (x *writer) daily() {
	switch {
	case x.board():
		x.add("daily", "board", nil)
	case x.in.Kind == "wall panel":
		x.add("daily", "panel", nil)
	case x.in.Kind == "shelf":
		x.add("daily", "wall", nil)
	case x.loose():
		x.add("daily", "loose", nil)
	case x.in.Kind == "bench" || x.in.Kind == "stool" || x.unnamed():
		x.add("daily", "seat", nil)
	default:
		x.add("daily", "table", nil)
	}
}

// finish writes cleaning, what to avoid, and renewal; the workshop's own words
// for the product go before ours.
func (x *writer) finish() {
	f := x.in.Family
	if f == nil {
		return
	}
	own := func(v func(*piece.FinishProduct) piece.Value[string]) string {
		if x.in.Sheet == nil || !v(x.in.Sheet).Set() {
			return ""
		}
		return sentence(v(x.in.Sheet).V)
	}
	kind := f.Care
	if x.board() && (kind == "oil" || kind == "bare" || kind == "wax") {
		kind += "-board"
	}
	x.ownOr("clean", kind, own(func(p *piece.FinishProduct) piece.Value[string] { return p.Clean }))
	x.ownOr("avoid", f.Care, own(func(p *piece.FinishProduct) piece.Value[string] { return p.Avoid }))
	if s := own(func(p *piece.FinishProduct) piece.Value[string] { return p.Renew }); s != "" {
		x.add("renew", "own", map[string]any{"Own": s, "Product": x.in.Product})
		return
	}
	variant := f.Care
	switch {
	case f.ID == "tung-oil":
		variant = "oil-coats" // a thin coat a day or three, dry before the next
	case f.Care == "epoxy" && x.board():
		variant += "-board" // no polish where food lies
	case f.Care == "epoxy" && !x.polishable():
		variant += "-matt"
	}
	x.add("renew", variant, map[string]any{"Product": x.product(), "Often": x.often(f.Renew)})
}

func (x *writer) ownOr(group, variant, own string) {
	if own != "" {
		x.add(group, "own", map[string]any{"Own": own})
		return
	}
	x.add(group, variant, nil)
}

// product names what to renew with: the product, or the family where the maker
// gave no product.
func (x *writer) product() string {
	if x.in.Product != "" {
		return x.in.Product
	}
	if id := "care.plain." + x.in.Family.ID; x.w.Has(id) {
		return x.say(id, nil)
	}
	return FamilyName(x.w, x.in.Family.ID)
}

// oil names the oil that a product names.
func (x *writer) oil() string {
	o, _ := x.t.OilIn(x.in.Product)
	return x.w.Called("oil", o.Name)
}

// FamilyName is a family for people: "hardwax oil".
func FamilyName(w *templates.Words, id string) string {
	if w.Has("care.family." + id) {
		return w.Say("care.family."+id, nil)
	}
	return strings.ReplaceAll(id, "-", " ")
}

func (x *writer) often(months Span) string {
	switch {
	case months.From == 0:
		return ""
	case months.To == 0:
		return x.say("care.often.years-more", map[string]any{"From": months.From / 12})
	case months.From >= 12:
		return x.say("care.often.years", map[string]any{"From": months.From / 12, "To": months.To / 12})
	}
	return x.say("care.often.months", map[string]any{"From": months.From, "To": months.To})
}

// sentence makes a maker's note a sentence: a capital first, a full stop last.
func sentence(s string) string {
	s = strings.TrimSpace(s)
	if s == "" {
		return ""
	}
	s = spelling.Capital(s)
	if !strings.ContainsRune(".!?", rune(s[len(s)-1])) {
		s += "."
	}
	return s
}

func (x *writer) room() {
	h := x.t.Rules["humidity"]
	if !x.board() && !x.in.Outdoors {
		x.add("climate", "", map[string]any{"Low": trim(h.Low), "High": trim(h.High)})
	}
	if x.in.WoodMoves != "" && !x.board() {
		variant := "wood"
		if x.in.Resin {
			variant = "wood-and-resin"
		}
		if x.stands() && x.in.FixingsMove {
			variant += "-fixings"
		}
		x.add("movement", variant, map[string]any{"Moves": x.in.WoodMoves, "EndGrain": x.in.EndGrain})
		if x.in.Settles != "" {
			x.add("settling", "", map[string]any{"Moves": x.in.Settles, "Reading": x.in.Reading})
		}
	}
	if x.in.AllResin || x.in.Outdoors {
		return
	}
	if x.holds() {
		x.add("sun", "", nil)
	} else {
		x.add("sun", "plain", nil)
	}
}

// holds reports whether things stand on the piece for days.
func (x *writer) holds() bool {
	return !x.board() && !x.unnamed() && x.in.Kind != "wall panel" && x.in.Kind != "bench" && x.in.Kind != "stool"
}

func trim(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// resinBy is the day by which the resin is hard at the latest, in words; empty
// where that is not known.
func (x *writer) resinBy() string {
	if x.in.ResinBy == (piece.Date{}) {
		return ""
	}
	return x.day(x.in.ResinBy)
}

func (x *writer) resin() {
	if !x.in.Resin {
		return
	}
	if by := x.resinBy(); by != "" && x.in.Kind != "wall panel" { // nothing warm is put on a wall
		x.add("resin-cure", "", map[string]any{"To": by, "Days": trim(x.t.Rules["resin_cure"].High)})
	}
	if x.board() {
		x.add("resin-sun", "board", nil)
	} else {
		x.add("resin-sun", "", nil)
	}
	data := map[string]any{"Polish": x.polishable()}
	switch {
	case x.board():
		x.add("resin-scratch", "board", data)
	case x.holds():
		x.add("resin-scratch", "", data)
	default:
		x.add("resin-scratch", "plain", data)
	}
}
