package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"slabfolio/listing/assembly"
	"slabfolio/listing/care"
	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// finish resolves the finish and its dates.
func (b *builder) finish() {
	f := b.p.Finish
	b.oldCoats()
	if f == nil {
		b.absent("finish", "no finish is given, so there are no dates and no care for it")
		b.find(piece.Note, "finish.missing", piece.Place{File: b.p.Serial.At.File}, "no finish is given: the buyer will not learn how to clean and renew the piece",
			"add `finish: {family: hardwax-oil, product: …}`, or `family: bare`")
		return
	}
	b.sheet = b.finishProduct(f.Product.V)
	id := f.Family.V
	if id == "" && b.sheet != nil {
		id = b.sheet.Family.V
	}
	if fam, ok := b.t.Care.Family(id); ok {
		fam = b.t.Care.Of(fam, f.Product.V)
		b.family = &fam
	}
	out := &Finish{Family: id, Product: forBuyer(f.Product.V), Coats: f.Coats.V, Sheen: b.words.Called("sheen", f.Sheen.V)}
	b.r.Public.Finish = out
	if b.family == nil {
		b.absent("finish.full_cure_to", "the family of the finish is not known")
		if id == "" {
			b.find(piece.Note, "finish.no-family", f.At, "the finish has no family: sheet and care card say nothing of how to clean and renew it, and when it is hard",
				"write family: with what it is, such as hardwax-oil, varnish or wax; where nobody knows, leave it so and tell the buyer in story what you know")
		}
		return
	}
	out.Name = care.FamilyName(b.words, id)
	last := b.p.Finished.V
	inputs := []string{"finished"}
	if f.LastCoat.Set() {
		last, inputs = f.LastCoat.V, []string{"finish.last_coat"}
	}
	b.dates = care.DatesFor(*b.family, b.sheet, last)
	if done := b.p.Finished.V; b.dates.LightUse != (piece.Date{}) && b.dates.LightUse.Before(done) {
		b.dates.LightUse = done // nobody uses a piece before it is finished
	}
	out.LightUseFrom, out.FullCureFrom, out.FullCureTo = care.ISO(b.dates.LightUse), care.ISO(b.dates.CureFrom), care.ISO(b.dates.CureTo)
	zero := piece.Date{}
	for _, d := range []struct {
		name string
		on   piece.Date
	}{{"finish.light_use_from", b.dates.LightUse}, {"finish.full_cure_from", b.dates.CureFrom}, {"finish.full_cure_to", b.dates.CureTo}} {
		switch {
		case d.on != zero:
		case b.family.Undated:
			b.absent(d.name, "the oil in this finish hardens, and its family does not say in how many days: "+f.Product.V)
			continue
		default:
			b.absent(d.name, "there is nothing in this finish that hardens: "+out.Name)
			continue
		}
		b.keep(d.name, figure.Exact(float64(care.Days(last, d.on)), "days", "days after the last coat", b.dates.Source, inputs...))
	}
	b.newerCoat(f)
	b.oddOil(f)
	b.shelfMarks(f)
	if f.Product.V == "" && id != "bare" {
		remedy := "add `product:` with the name on the tin"
		if used := b.finishUsed(); used != "" {
			remedy = fmt.Sprintf("materials names %q: write it into finish too, which the buyer reads: product: %s", used, used)
		}
		b.find(piece.Note, "finish.no-product", f.At, "the finish has no product: whoever renews it in ten years will not know with what", remedy)
	}
}

// finishSaid are words for a coat, as the use of a material, in the languages of the
// papers (from memory).
var finishSaid = whole(`finish(?:es|ing)?|\pL*oil|varnish|lacquer|wax|shellac|oberfläche|\pL*öl|\pL*lack|\pL*wachs|finition|huile|vernis|cire|acabado|aceite|barniz|cera|afwerking|\pL*olie|\pL*lak|\pL*was`)

// finishUsed is the one product among the materials that is a finish by its use; empty
// where there is none or more than one.
func (b *builder) finishUsed() (product string) {
	for _, m := range b.p.Materials {
		if !finishSaid().MatchString(m.Use.V) || m.Product.V == "" || m.Product.V == product {
			continue
		}
		if product != "" {
			return ""
		}
		product = m.Product.V
	}
	return product
}

// finishProduct finds the workshop's entry for a product, by its name.
func (b *builder) finishProduct(name string) *piece.FinishProduct {
	for i, e := range b.w.Finishes {
		if name != "" && sameName(e.Product.V, name) {
			return &b.w.Finishes[i]
		}
	}
	return nil
}

// sameName compares names as people do: case and spacing do not count.
func sameName(a, b string) bool {
	return strings.EqualFold(spelling.OneLine(a), spelling.OneLine(b))
}

// oddOil tells where the oil that a product names is not what its family is for.
func (b *builder) oddOil(f *piece.Finish) {
	o, ok := b.t.Care.OilIn(f.Product.V)
	switch {
	case !ok:
	case b.family.Undated && !(b.sheet != nil && b.sheet.CureDaysTo.Set()):
		b.find(piece.Doubt, "finish.drying-oil", f.Family.At, fmt.Sprintf("%s dries and hardens, and %s is for what never does: care and the caution on rags follow the oil, and no date can be given", o.Name, b.family.ID),
			"give the days of its sheet in workshop.yaml, finishes: [{product: "+strconv.Quote(f.Product.V)+", family: "+b.family.ID+", light_use: …, cure_from: …, cure_to: …}], or the family that fits")
	case !o.Dries && b.family.Cure.To > 0 && b.family.Care == "oil":
		b.find(piece.Doubt, "finish.never-dries", f.Family.At, fmt.Sprintf("%s never dries, and %s hardens: dates and care may be of something else", o.Name, b.family.ID), "write family: board-oil if there is nothing else in it")
	}
}

// documentedFood is what the maker documents of food on the finish, by a paper that the
// words name; "" for words alone, which no paper repeats.
func (b *builder) documentedFood() string { return documented(b.saidOfFood()) }

// saidOfFood is what the maker writes of food on the finish: the piece's own word, else
// that of the workshop's entry for the product.
func (b *builder) saidOfFood() string {
	switch f := b.p.Finish; {
	case f == nil:
		return ""
	case f.FoodContact.Set():
		return f.FoodContact.V
	case b.sheet != nil:
		return b.sheet.FoodContact.V
	}
	return ""
}

// resinFood is documentedFood of the casting resins of a piece: of all of them, or
// nothing.
func (b *builder) resinFood() string { return documented(b.saidOfResinFood()) }

func (b *builder) saidOfResinFood() string {
	said := ""
	for _, r := range b.p.Top.Resin {
		i := slices.IndexFunc(b.w.Resins, func(e piece.ResinProduct) bool {
			return e.FoodContact.Set() && (sameName(r.Material.V, e.Product.V) || r.Material.V == "" && slices.ContainsFunc(b.resinProducts(), func(n string) bool { return sameName(n, e.Product.V) }))
		})
		if i < 0 {
			return ""
		}
		said = b.w.Resins[i].FoodContact.V
	}
	return said
}

// newerCoat tells that the log has a later coat than the one that the dates of curing are
// counted from. Of a piece that had left before it is worth knowing alone: the papers that
// went with it were right.
func (b *builder) newerCoat(f *piece.Finish) {
	n := b.p.NewestCoat()
	if n == nil || !f.LastCoat.Set() || !f.LastCoat.V.Before(n.Date.V) || b.dates.CureTo == (piece.Date{}) {
		return
	}
	rank := piece.Doubt
	if buyer := b.p.Buyer; buyer != nil && buyer.Delivered.Set() && !n.Date.V.Before(buyer.Delivered.V) {
		rank = piece.Note
	}
	b.find(rank, "finish.newer-coat", n.Date.At, fmt.Sprintf("the log tells of a new coat on %s, and the papers count the curing from last_coat, %s", b.told(n.Date.V), b.told(f.LastCoat.V)),
		fmt.Sprintf("write last_coat: %s in finish if it was one of the whole piece", n.Date.V))
}

// texts chooses care and cautions.
func (b *builder) texts() {
	b.boardContact()
	b.claimedLoad()
	b.electric()
	pub := &b.r.Public
	in := care.Input{
		Kind: pub.Kind, Family: b.family, Sheet: b.sheet, Food: b.documentedFood(), ResinFood: b.resinFood(), Dates: b.dates, Finished: b.p.Finished.V, HasBase: b.p.Base != nil, FixingsMove: b.fixingsMove(),
		Protected: b.protected, Tips: b.tips, Topples: b.topples, OldCoat: b.oldCoat, Composite: b.composite, Compliant: b.compliant,
		Outdoors: b.outdoors(), EndGrain: b.endGrain(), Resin: len(b.p.Top.Resin) > 0, AllResin: b.allResin(), ResinBy: b.resinBy(), Lift: b.lift.Step, LiftOff: b.liftOff.Step,
	}
	if b.p.Finish != nil {
		in.Product, in.Sheen = forBuyer(b.p.Finish.Product.V), b.p.Finish.Sheen.V
	}
	if in.Resin {
		in.ResinEpoxy, in.ResinHeat = b.resinHeat()
	}
	if w := pub.Weight; w != nil {
		in.WeightKg, in.WeightText = w.Shown(), b.weightBoth(w)
	}
	if m := pub.Movement; m != nil && m.Across >= 0.5 {
		in.WoodMoves, in.Settles, in.Reading = m.Moves, m.settles, m.reading
	}
	for _, m := range pub.Materials {
		if m.Botanical != "" && b.t.Care.Irritant(m.Botanical) && !slices.Contains(in.Irritant, b.words.Inside(m.Name)) {
			in.Irritant = append(in.Irritant, b.words.Inside(m.Name))
		}
	}
	for _, p := range b.p.Parts {
		in.Drawer = in.Drawer || assembly.IsDrawer(p.Name.V)
	}
	in.Glass = b.glass()
	in.Materials = b.otherMaterials(in.Glass)
	c, w := b.t.Care.Write(in, b.words)
	pub.Care, pub.Cautions = paragraphs(c), paragraphs(w)
}

// toughWords say that glass is of a kind that breaks without splinters.
var toughWords = []string{"toughened", "tempered", "safety", "laminated", "esg", "vsg"}

// glass reports whether there is glass in the piece, and asks for toughened glass
// where the spec does not say that it is.
func (b *builder) glass() (any bool) {
	look := func(said string, at piece.Place) {
		words := strings.Fields(spelling.Plain(said))
		if !glassSaid().MatchString(glassFibres().ReplaceAllString(said, " ; ")) {
			return
		}
		any = true
		if !slices.ContainsFunc(words, func(w string) bool { return slices.Contains(toughWords, w) }) {
			b.find(piece.Doubt, "glass.not-toughened", at, "nothing says that the glass is toughened or laminated: plain glass breaks into long splinters", "ask whoever sold it (EN 12150, ASTM C1048), and say so in the part's name: toughened glass shelf")
		}
	}
	for _, p := range b.p.Parts {
		look(p.Name.V+" "+p.Material.V, p.At)
	}
	if s := b.p.Base; s != nil {
		look(s.Style.V+" "+s.Material.V, s.At)
	}
	return any
}

func paragraphs(list []care.Paragraph) []Paragraph {
	out := make([]Paragraph, 0, len(list))
	for _, p := range list {
		out = append(out, Paragraph(p))
	}
	return out
}

// resinHeat says whether the resin is an epoxy, and at what temperature it gives:
// the lowest that the workshop's entries for it name.
func (b *builder) resinHeat() (epoxy bool, heat units.Celsius) {
	epoxy = true
	for _, r := range b.p.Top.Resin {
		names := append([]string{r.Material.V}, b.resinProducts()...)
		if m := strings.ToLower(r.Material.V); strings.Contains(m, "polyurethane") || strings.Contains(m, "polyester") || strings.Contains(m, "acrylic") {
			epoxy = false
		}
		for _, e := range b.w.Resins {
			if !slices.ContainsFunc(names, func(n string) bool { return n != "" && sameName(n, e.Product.V) }) {
				continue
			}
			if e.Heat.Set() && (heat == 0 || e.Heat.V < heat) {
				heat = e.Heat.V
			}
			if c := strings.ToLower(e.Chemistry.V); c != "" && !strings.Contains(c, "epoxy") {
				epoxy = false
			}
		}
	}
	return epoxy, heat
}

// resinProducts are the resins among the materials that went in.
func (b *builder) resinProducts() []string {
	var names []string
	for _, m := range b.p.Materials {
		if strings.Contains(strings.ToLower(m.Use.V), "resin") {
			names = append(names, m.Product.V)
		}
	}
	return names
}
