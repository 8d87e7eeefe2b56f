package report

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"slabfolio/listing/care"
	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
	"slabfolio/listing/wood"
)

// protectedWoods looks for woods whose trade is regulated anywhere in the piece:
// in the top, the base, the parts and the materials that went in, by any name.
func (b *builder) protectedWoods() {
	p := b.p
	for _, w := range p.Top.Wood {
		w.Density, w.SpecificGravity = piece.Value[units.Density]{}, piece.Value[float64]{} // which tell of no tree
		s, err := b.woods.Resolve(w)
		b.protectWood(w.Species.V, w.Species.At, s, err)
	}
	if s := p.Base; s != nil {
		b.protect(s.Material.V, s.Material.At)
		b.protect(s.Style.V, s.Style.At)
		for _, x := range s.Sections {
			b.protect(x.Material.V, x.At)
		}
	}
	for _, q := range p.Parts {
		b.protect(q.Material.V, q.Material.At)
		b.protect(q.Name.V, q.Name.At)
	}
	for _, m := range p.Materials {
		b.protect(m.Product.V, m.Product.At)
		b.protect(m.Use.V, m.Use.At)
	}
	b.origins()
}

// protect notes the regulated woods that a text names, each once for the buyer.
func (b *builder) protect(text string, at piece.Place) {
	s, err := b.woods.Lookup(text)
	b.protectWood(text, at, s, err)
}

// protectWood is protect for a text that was looked up: where it may be several woods, or
// was read as another than the regulated one, that one is a maybe.
func (b *builder) protectWood(text string, at piece.Place, s wood.Species, err error) {
	var several *wood.AmbiguousError
	unsure := errors.As(err, &several)
	for _, l := range b.woods.Protected(text) {
		l.Maybe = l.Maybe || unsure || err == nil && s.ReadFrom != "" && !strings.HasPrefix(s.Botanical, l.Botanical)
		rank := piece.Note
		if l.Appendix == "I" {
			rank = piece.Doubt
		}
		b.find(rank, "wood.listed", at, listingSays(text, l, b.bothMass(l.ExemptKg)), listingRemedy(l))
		if slices.Contains(b.r.Listed, l.Botanical) || l.Maybe {
			continue // which of several it is, the maker has to say first
		}
		b.r.Listed = append(b.r.Listed, l.Botanical)
		b.protected = append(b.protected, care.Protected{Wood: l.Botanical, Appendix: l.Appendix})
	}
}

// listingSays tells what a name in the spec is and where it is listed; weight is
// what is exempt, in words.
func listingSays(text string, l wood.Listing, weight string) string {
	is := "names " + l.Botanical
	switch {
	case l.Maybe:
		is = "may be " + l.Botanical
	case strings.Contains(spelling.Plain(l.Botanical), spelling.Plain(text)):
		is = "is protected"
	}
	says := fmt.Sprintf("%q %s, in Appendix %s of CITES", text, is, l.Appendix)
	if l.Scope != "" {
		says += " (" + l.Scope + ")"
	}
	switch {
	case l.Appendix == "I":
		says += ": commercial trade across borders is barred (article III of the convention), and inside most countries a sale needs papers too"
	case !l.Finished:
		says += ": its entry" + annotated(l) + " names timber such as logs, sawn wood and veneer, so that a finished piece is usually outside it"
	case l.ExemptKg > 0:
		says += fmt.Sprintf(": a piece that crosses a border needs papers, except in a shipment with no more than %s of the wood%s", weight, annotated(l))
	default:
		says += ": a piece that crosses a border needs papers" + annotated(l)
	}
	return says
}

// bothMass writes a mass in both systems, the maker's first.
func (b *builder) bothMass(kg float64) string { return b.massText(kg) + " (" + b.massOther(kg) + ")" }

func annotated(l wood.Listing) string {
	if l.Annotation == "" {
		return ""
	}
	return " (annotation " + l.Annotation + ")"
}

func listingRemedy(l wood.Listing) string {
	check := "the list changes, and this is as we know it (" + l.Source + "); " + wood.ListedSince + ": check the current one by the botanical name, and keep the papers of the wood with the piece"
	switch {
	case l.Maybe:
		return "say which wood it is; " + check
	case l.Appendix == "I":
		return "before you offer it anywhere, ask the CITES authority of your country, with proof of where and when the wood was had; " + check
	}
	return check
}

// origins asks where a wood grew that goes abroad.
func (b *builder) origins() {
	to := b.countriesAbroad()
	if len(to) == 0 {
		return
	}
	var unsaid []string
	var at piece.Place
	for _, w := range b.p.Top.Wood {
		if w.Country.V == "" && w.OriginNote.V == "" {
			if unsaid = append(unsaid, w.Species.V); len(unsaid) == 1 {
				at = w.At
			}
		}
	}
	if len(unsaid) > 0 {
		b.find(piece.Note, "wood.no-origin", at, fmt.Sprintf("it ships to %s, and no origin is given of %s: many countries ask an importer what the wood is by its botanical name, where it grew and that it was felled lawfully", spelling.And(to), spelling.And(unsaid)),
			"add `origin: {country: …}` to the wood, in two letters, and keep the bill of the yard; the rules of both countries decide")
	}
}

// countriesAbroad returns the countries that the piece is offered to and that are not
// in the workshop's own market. Where the workshop stands is not known, one of several
// countries has to be abroad, and none is named for it.
func (b *builder) countriesAbroad() []string {
	if b.p.Delivery == nil {
		return nil
	}
	var to []string
	for _, c := range b.p.Delivery.ShipsTo {
		if market(c.V) != market(b.w.Country.V) && !slices.Contains(to, c.V) {
			to = append(to, c.V)
		}
	}
	if b.w.Country.V == "" && !b.crossesBorder() {
		return nil
	}
	return to
}
