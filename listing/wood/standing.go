package wood

import (
	"fmt"

	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
)

// Standing returns the density of a spec's wood as it stands, with its water.
// The error is Resolve's, or says that the density is not known.
func (t *Table) Standing(w piece.Wood) (figure.Density, error) {
	s, err := t.Resolve(w)
	if err != nil {
		return figure.Density{}, err
	}
	return s.standing(t.MoistureOf(w.Moisture, s.ID))
}

// StandingBeside is Standing for a wood that is named alone, without a reading:
// where it is also in the top, it is taken as it stands there. The error is
// Lookup's, or says that the density is not known.
func (t *Table) StandingBeside(name string, top []piece.Wood) (figure.Density, error) {
	s, err := t.Lookup(name)
	if err != nil {
		return figure.Density{}, err
	}
	for _, w := range top {
		if r, err := t.Resolve(w); err == nil && r.ID == s.ID {
			return t.Standing(w)
		}
	}
	return s.standing(t.MoistureOf(nil, s.ID))
}

func (s Species) standing(m Moisture) (figure.Density, error) {
	if !s.hasDensity() {
		return figure.Density{}, fmt.Errorf("the density of %s is not known", s.ID)
	}
	f := s.density(m)
	return figure.Density{ID: s.ID, Name: s.Name, KgM3: s.densityUncertain(m), Rule: f.Rule + "; moisture " + m.Rule, Source: f.Source}, nil
}
