package report

import (
	"slices"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
)

// sale tells what the law of a country usually asks of an offer into it, and
// where the spec does not carry it. Usual; local rules first.
func (b *builder) sale() {
	if v := b.p.Availability.V; v == "sold" || v == "not for sale" {
		return
	}
	b.saleEU()
	b.saleUS()
}

// saleEU asks for what Regulation (EU) 2023/988, article 19, wants shown with an
// offer from a distance.
func (b *builder) saleEU() {
	if b.p.Delivery == nil || !b.shipsTo(european...) {
		return
	}
	at := b.p.Delivery.At
	if s := b.p.Delivery.ShipsTo; len(s) > 0 {
		at = s[0].At
	}
	var lacks []string
	for _, x := range []struct {
		set  bool
		what string
	}{{b.w.Name.V != "", "name"}, {b.w.Address.V != "", "postal address"}, {b.w.Email.V != "" || b.w.Web.V != "", "e-mail or web address"}} {
		if !x.set {
			lacks = append(lacks, x.what)
		}
	}
	if len(lacks) > 0 {
		b.find(piece.Doubt, "sale.eu-contact", at, "it is offered into the EU, where product safety law (EU 2023/988, article 19) usually wants the maker's name, postal and electronic address beside the offer, what identifies the piece, and its warnings in the buyer's language; not given of the workshop: "+spelling.And(lacks),
			"add to workshop.yaml: workshop: {name: …, address: …, email: …}; the rules of the buyer's country come first")
	}
	if home := b.w.Country.V; home != "" && !slices.Contains(european, home) {
		b.find(piece.Note, "sale.eu-person", at, "a maker outside the EU who sells into it usually has to name a responsible person there, with postal and electronic address (EU 2023/988, article 19)",
			"ask a competent adviser who that can be, and write it into the address of workshop.yaml; the rules of the buyer's country come first")
	}
}

// panelWords are the composite woods of 40 CFR 770 as people write them. OSB,
// hardboard and structural plywood stand outside that rule.
var panelWords = []struct{ word, name string }{
	{"plywood", "plywood"}, {"ply", "plywood"}, {"multiplex", "plywood"}, {"mdf", "MDF"}, {"medium density fibreboard", "MDF"}, {"medium density fiberboard", "MDF"},
	{"particleboard", "particle board"}, {"particle board", "particle board"}, {"chipboard", "particle board"},
}

// panels are the composite woods that the piece holds, each once.
func (b *builder) panels() []string {
	var out []string
	add := func(said string) {
		text := " " + spelling.Plain(said) + " "
		for _, p := range panelWords {
			if strings.Contains(text, " "+p.word+" ") && !strings.Contains(text, " structural ") && !slices.Contains(out, p.name) {
				out = append(out, p.name)
			}
		}
	}
	for _, q := range b.p.Parts {
		add(q.Name.V + " " + q.Material.V)
	}
	if s := b.p.Base; s != nil {
		add(s.Style.V + " " + s.Material.V)
	}
	for _, w := range b.p.Top.Wood {
		add(w.Species.V)
	}
	return out
}

// documented reports whether the maker says anywhere that the panels meet the
// American rule: of a part, or of a material that went in.
func (b *builder) documented() bool {
	var said []string
	for _, q := range b.p.Parts {
		said = append(said, q.Name.V, q.Material.V)
	}
	for _, m := range b.p.Materials {
		said = append(said, m.Use.V, m.Product.V, m.Chemistry.V)
	}
	for _, s := range said {
		text := " " + spelling.Plain(s) + " "
		if strings.Contains(text, " tsca ") && !strings.Contains(text, " not ") && !strings.Contains(text, " no ") {
			return true
		}
	}
	return false
}

// saleUS looks at composite wood in what is offered into the US: 40 CFR 770.45
// wants a label on such goods.
func (b *builder) saleUS() {
	panels := b.panels()
	if len(panels) == 0 || !b.shipsTo("US") {
		return
	}
	b.composite, b.compliant = panels, b.documented()
	id := "figures.composite"
	if b.compliant {
		id += "-compliant"
	}
	b.r.Public.Composite = b.words.Say(id, map[string]any{"Panels": b.words.List(b.words.CalledAll("panel", panels))})
	if b.compliant {
		return
	}
	b.find(piece.Doubt, "sale.us-composite", b.p.Top.At, "there is "+spelling.And(panels)+" in it and it is offered into the US: goods with composite wood usually carry a label with the maker's name, month and year, and that they meet TSCA Title VI (40 CFR 770.45); label and listing say what is in it, and not that it complies",
		"ask for the paper of whoever sold the panel and keep it in papers/; then say so, materials: [{use: drawer bottoms, product: \"plywood, TSCA Title VI compliant\"}]; federal and local rules come first")
}
