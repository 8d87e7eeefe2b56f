package wood

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
)

// WithEntries returns the table with a workshop's own woods: one whose id or
// name is in the table replaces what it gives and keeps the rest, any other is
// added. A finding says what cannot be used.
func (t *Table) WithEntries(entries []piece.WoodEntry) (*Table, []piece.Finding) {
	if len(entries) == 0 {
		return t, nil
	}
	n := *t
	n.species, n.own = append([]Species(nil), t.species...), map[string]bool{}
	var found []piece.Finding
	for _, e := range entries {
		id := plainID(e.ID.V)
		if id == "" {
			id = plainID(e.Name.V)
		}
		if id == "" {
			found = append(found, at(e.At, piece.Doubt, "wood.entry-nameless", "a wood of the workshop has neither id nor name and is passed over", "give it a name"))
			continue
		}
		k := -1
		for i, s := range n.species {
			if s.ID == id {
				k = i
			}
		}
		if k < 0 {
			n.species = append(n.species, Species{ID: id, Name: cmp.Or(e.ID.V, id), FSP: t.rule("fibre_saturation"), DensityCov: t.rule("density_cov")})
			k = len(n.species) - 1
		}
		n.species[k], n.own[id] = override(n.species[k], e), true
		if s := n.species[k]; s.BasicSG == 0 && s.DensityAsIs == 0 {
			found = append(found, at(e.At, piece.Doubt, "wood.entry-without-density", fmt.Sprintf("the workshop's wood %s has no density", id), "give its density or its basic specific gravity"))
		}
	}
	n.index()
	return &n, found
}

// override returns s with what a workshop's entry gives.
func override(s Species, e piece.WoodEntry) Species {
	if e.Name.Set() {
		s.Name = e.Name.V
	}
	if e.Botanical.Set() {
		s.Botanical = e.Botanical.V
	}
	if e.Radial.Set() {
		s.Radial, s.CoefR = float64(e.Radial.V), 0
	}
	if e.Tangential.Set() {
		s.Tangential, s.CoefT = float64(e.Tangential.V), 0
	}
	if e.Volumetric.Set() {
		s.Volumetric = float64(e.Volumetric.V)
	}
	switch {
	case e.SpecificGravity.Set():
		s.BasicSG, s.SG12, s.DensityAsIs = e.SpecificGravity.V, 0, 0
	case e.Density.Set() && e.At12:
		s.SG12 = float64(e.Density.V) / 1000 / 1.12
		s.BasicSG, s.DensityAsIs = basicFrom12(s.SG12, s.Volumetric, s.FSP), 0
	case e.Density.Set():
		s.BasicSG, s.SG12, s.DensityAsIs = 0, 0, float64(e.Density.V)
	}
	if e.Stiffness.Set() {
		s.Elastic, s.ElasticFrom = e.Stiffness.V, "workshop.yaml"
	}
	if e.SpecificGravity.Set() || e.Density.Set() || e.Radial.Set() || e.Tangential.Set() || e.Volumetric.Set() {
		own := "workshop.yaml"
		if e.Source.Set() {
			own += ": " + e.Source.V
		}
		s = s.from(own)
	}
	return s
}

// from returns s with a source of its own before the table's.
func (s Species) from(own string) Species {
	if s.Source != "" && s.Source != own {
		own += "; what it does not give: " + s.Source
	}
	s.Source, s.Confidence, s.ReadFields = own, "", ""
	return s
}

// Resolve returns the wood of a spec's line. A density or specific gravity in
// the spec beats the table's; with one of them, a wood that is not in the
// table is taken under its own name, and under its botanical one where the
// list of protected woods has it. Else the error is Lookup's.
func (t *Table) Resolve(w piece.Wood) (Species, error) {
	s, err := t.lookup(w.Species.V, t.Namesake(w).European)
	if err == nil {
		err = t.elsewhere(w.Species.V, s, t.grewIn(w))
	}
	own := w.Density.Set() || w.SpecificGravity.Set()
	if err != nil {
		var unknown *UnknownError
		if !own || !errors.As(err, &unknown) && !ambiguous(err) {
			return Species{}, err
		}
		s = Species{ID: plainID(w.Species.V), Name: w.Species.V, FSP: t.rule("fibre_saturation"), DensityCov: t.rule("density_cov"), Source: "piece.yaml", Botanical: t.listedName(w.Species.V)}
		if several := (*AmbiguousError)(nil); errors.As(err, &several) && several.Beyond != "" {
			s.Botanical = "" // the list's wood of that name may be none of this country
		}
		if s.ID == "" {
			s.ID, s.Name = "wood", "wood"
		}
	}
	if own {
		s = s.from("piece.yaml")
	}
	switch {
	case w.Density.Set():
		s.DensityAsIs, s.BasicSG, s.SG12 = float64(w.Density.V), 0, 0
	case w.SpecificGravity.Set():
		s.BasicSG, s.SG12, s.DensityAsIs = w.SpecificGravity.V, 0, 0
	}
	return s, nil
}

func ambiguous(err error) bool {
	var a *AmbiguousError
	return errors.As(err, &a)
}

// Unknown returns the finding for an error of Resolve or Lookup; false for any
// other error.
func (*Table) Unknown(err error, where piece.Place) (piece.Finding, bool) {
	remedy := "write its botanical name, such as Ulmus glabra, or its common English name; or give its density: 680 kg/m3"
	var a *AmbiguousError
	var u *UnknownError
	switch {
	case errors.As(err, &a):
		remedy = "write " + spelling.Or(a.first())
		if a.Beyond != "" {
			remedy += "; where it is none of them, write its botanical name, and give its density: 680 kg/m3"
		}
	case errors.As(err, &u) && len(u.Parts) > 0:
		remedy = severalRemedy(u.Parts)
	case errors.As(err, &u) && len(u.Slips) > 0:
		remedy = "write " + spelling.Or(u.Slips) + " if that is the wood; else give its density: 680 kg/m3"
	case !errors.As(err, &u):
		return piece.Finding{}, false
	case len(u.Kin) > 0:
		remedy = "give its density: 680 kg/m3 (from a book, or a planed piece weighed and measured), and its shrinkage in workshop.yaml: woods; a wood of the same genus can be far off"
	}
	return at(where, piece.Doubt, "wood.unknown", err.Error(), remedy), true
}

// severalRemedy shows how several woods are written, each with a share that the maker
// knows.
func severalRemedy(parts []string) string {
	var list []string
	for _, p := range parts {
		list = append(list, fmt.Sprintf("{species: %s, share: … %%}", p))
	}
	return "several woods go in a list, each with its share of 100 %: wood: [" + strings.Join(list, ", ") + "]"
}

// plainID writes a name as an id: "Wych elm" as wych-elm.
func plainID(name string) string { return strings.ReplaceAll(spelling.Plain(name), " ", "-") }

func at(p piece.Place, rank piece.Rank, code, message, remedy string) piece.Finding {
	return piece.Finding{Rank: rank, Code: code, File: p.File, Line: p.Line, Column: p.Column, Message: message, Remedy: remedy}
}
