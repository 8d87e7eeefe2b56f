package wood

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// A name that is another tree's where the wood grew is asked about, and taken where it is
// that tree's. The ranges and names are those of the floras, from memory.
func TestNamesThatAreOthersElsewhere(t *testing.T) {
	tab, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ said, home, origin, want string }{ // want: the wood, or "?" and one of those asked about
		{"cypress", "GB", "", "?baldcypress"}, {"cypress", "GB", "IT", "?Cupressus"}, {"cypress", "US", "", "baldcypress"}, {"Cypress", "", "US", "baldcypress"}, {"spalted cypress", "GB", "", "?Cupressus"}, {"bald cypress", "GB", "", "baldcypress"},
		{"cedro", "ES", "", "?cedar-of-lebanon"}, {"cedro", "ES", "MA", "?Cedrus atlantica"}, {"cedro", "MX", "", "spanish-cedar"}, {"cedro", "ES", "BR", "spanish-cedar"},
		{"holly", "GB", "", "?Ilex aquifolium"}, {"red gum", "AU", "", "?river-red-gum"}, {"yew", "GB", "", "yew"}, {"yew", "US", "", "?pacific-yew"}, {"yew", "US", "GB", "yew"}, {"hornbeam", "US", "", "?Carpinus caroliniana"},
		{"chêne", "CA", "CA", "?white-oak"}, {"chêne massif", "CA", "CA", "?white-oak"}, {"chêne", "CA", "FR", "european-oak"}, {"chêne", "FR", "", "european-oak"}, {"chêne", "", "", "european-oak"}, {"Eiche", "DE", "US", "?white-oak"}, {"Eiche", "DE", "", "european-oak"}, {"Eiche", "DE", "RU", "european-oak"},
		{"roble", "CL", "", "?Nothofagus"}, {"roble", "MX", "MX", "?Tabebuia"}, {"roble", "ES", "", "european-oak"}, {"nogal", "MX", "MX", "?Juglans pyriformis"}, {"nogal", "ES", "", "european-walnut"}, {"Nussbaum", "DE", "IR", "european-walnut"}, {"noyer", "CA", "", "?black-walnut"},
		{"frêne", "CA", "CA", "?white-ash"}, {"alerce", "CL", "CL", "?Fitzroya"}, {"alerce", "ES", "", "european-larch"}, {"guayacán", "PA", "", "?Handroanthus"}, {"guayacán", "CU", "", "lignum-vitae"},
		{"lime", "US", "", "?basswood"}, {"limewood", "US", "", "?small-leaved-lime"}, {"lime", "US", "GB", "small-leaved-lime"}, {"lime", "GB", "", "small-leaved-lime"}, {"lime", "", "", "small-leaved-lime"}, {"linden", "US", "", "basswood"}, {"linden", "DE", "", "small-leaved-lime"},
		{"Quercus robur", "CA", "CA", "european-oak"}, {"english oak", "US", "US", "european-oak"}, {"european-oak", "US", "", "european-oak"}, {"Teak", "DE", "MM", "teak"},
	} {
		at := tab.AtHome(c.home)
		s, err := at.Resolve(piece.Wood{Species: piece.Value[string]{V: c.said}, Country: piece.Value[string]{V: c.origin}})
		among, asked := strings.CutPrefix(c.want, "?")
		var several *AmbiguousError
		switch {
		case !asked && (err != nil || s.ID != c.want):
			t.Errorf("%s in %q from %q: %s, %v; want %s", c.said, c.home, c.origin, s.ID, err, c.want)
		case asked && (!errors.As(err, &several) || !strings.Contains(err.Error(), among)):
			t.Errorf("%s in %q from %q: taken for %q, %v; want asked, with %s", c.said, c.home, c.origin, s.ID, err, among)
		}
	}
	for name, n := range sharedNames { // each is taken for one of the woods it names, without a country
		if s, err := tab.Lookup(name); err != nil || !slices.Contains(n.others, s.ID) {
			t.Errorf("%s: %s, %v", name, s.ID, err)
		}
		for _, id := range n.others {
			if _, known := tab.byID[strings.ReplaceAll(id, "-", " ")]; !known {
				t.Errorf("%s: %s is no wood of the table", name, id)
			}
		}
	}
}
