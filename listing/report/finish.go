package report

import (
	"slices"
	"strings"

	"slabfolio/listing/assembly"
	"slabfolio/listing/care"
	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// finish resolves the finish and its dates.
func (b *builder) finish() {
	f := b.p.Finish
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
		b.family = &fam
	}
	out := &Finish{Family: id, Product: f.Product.V, Coats: f.Coats.V, Sheen: f.Sheen.V}
	b.r.Public.Finish = out
	if b.family == nil {
		b.absent("finish.full_cure_to", "the family of the finish is not known")
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
		if d.on == zero {
			b.absent(d.name, "there is nothing in this finish that hardens: "+out.Name)
			continue
		}
		b.keep(d.name, figure.Exact(float64(care.Days(last, d.on)), "days", "days after the last coat", b.dates.Source, inputs...))
	}
	if f.Product.V == "" && id != "bare" {
		b.find(piece.Note, "finish.no-product", f.At, "the finish has no product: whoever renews it in ten years will not know with what", "add `product:` with the name on the tin")
	}
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
	return strings.EqualFold(strings.Join(strings.Fields(a), " "), strings.Join(strings.Fields(b), " "))
}

// texts chooses care and cautions.
func (b *builder) texts() {
	pub := &b.r.Public
	in := care.Input{
		Kind: pub.Kind, Family: b.family, Sheet: b.sheet, Dates: b.dates, HasBase: b.p.Base != nil, Protected: b.protected, Tips: b.tips, Topples: b.topples,
		Resin: len(b.p.Top.Resin) > 0, People: b.lift.People, Aid: b.lift.Aid,
	}
	if b.p.Finish != nil {
		in.Product = b.p.Finish.Product.V
	}
	if in.Resin {
		in.ResinEpoxy, in.ResinHeat = b.resinHeat()
	}
	if pub.Weight != nil {
		kg := b.standing()
		in.WeightKg = kg
		in.WeightText = b.words.Say("figures.both", map[string]any{"First": b.massText(kg), "Second": b.massOther(kg)})
	}
	if m := pub.Movement; m != nil && m.Across >= 0.5 {
		in.WoodMoves = b.smallLength(m.Across)
	}
	for _, p := range b.p.Parts {
		name := strings.ToLower(p.Name.V + " " + p.Material.V)
		in.Glass = in.Glass || strings.Contains(name, "glass")
		in.Drawer = in.Drawer || assembly.IsDrawer(p.Name.V)
	}
	if b.p.Base != nil {
		in.Glass = in.Glass || strings.Contains(strings.ToLower(b.p.Base.Material.V), "glass")
	}
	c, w := b.t.Care.Write(in, b.words)
	pub.Care, pub.Cautions = paragraphs(c), paragraphs(w)
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
