package report

import (
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// A European name of a wood that grew overseas is not printed for the European tree, and
// its maker is asked; so are names of the table that are another tree's elsewhere. From memory.
func TestANameThatIsAnothersElsewhereIsNotPrintedAsSure(t *testing.T) {
	for _, c := range []struct {
		home, wood, name, botanical, code string
		rank                              piece.Rank
	}{
		{"CA", "{species: chêne, origin: {country: CA}}", "Chêne", "", "wood.unknown", piece.Doubt},
		{"GB", "{species: cypress, origin: {country: IT}}", "Cypress", "", "wood.unknown", piece.Doubt},
		{"ES", "{species: cedro}", "Cedro", "", "wood.unknown", piece.Doubt},
		{"US", "{species: cypress}", "Baldcypress", "Taxodium distichum", "wood.unknown", ""},
		{"", "{species: cypress}", "Baldcypress", "Taxodium distichum", "wood.namesake", piece.Note},
		{"DE", "{species: Eiche}", "European oak", "Quercus robur / Q. petraea", "wood.read-as", piece.Note},
	} {
		text := "workshop: {name: Ostrel Yard}\n"
		if c.home != "" {
			text = "workshop: {name: Ostrel Yard, country: " + c.home + "}\n"
		}
		w, _ := piece.ParseWorkshop(piece.WorkshopName, []byte(text))
		r := build(t, spec(t, roundTable+"    - "+c.wood+"\n"), w)
		if m := r.Public.Materials[0]; m.Name != c.name || m.Botanical != c.botanical {
			t.Errorf("%s, %s: %s (%s), want %s (%s)", c.home, c.wood, m.Name, m.Botanical, c.name, c.botanical)
		}
		if f, _ := found(r, c.code); f.Rank != c.rank || c.rank == piece.Doubt && !strings.Contains(f.Remedy, "where it is none of them") {
			t.Errorf("%s, %s: %s %+v, want %q", c.home, c.wood, c.code, f, c.rank)
		}
	}
}

// A regulated wood whose name is another tree's where the wood grew is asked about, and no
// buyer is told that it is that one: larch is alerce in Spain and Fitzroya in Chile, cedro is
// Cedrus in Spain and Cedrela in Mexico. From memory.
func TestAProtectedNamesakeIsAMaybe(t *testing.T) {
	for _, c := range []struct {
		home, wood string
		told       bool
	}{
		{"ES", "{species: cedro}", false}, {"ES", "{species: cedro, density: 560 kg/m3}", false}, {"MX", "{species: cedro}", true}, {"ES", "{species: cedro, origin: {country: BR}}", true},
		{"ES", "{species: alerce}", false}, {"CL", "{species: alerce}", false}, {"CL", "{species: Fitzroya cupressoides, density: 460 kg/m3}", true}, {"DE", "{species: cocobolo}", true},
	} {
		w, _ := piece.ParseWorkshop(piece.WorkshopName, []byte("workshop: {name: Ostrel Yard, country: "+c.home+"}\n"))
		r := build(t, spec(t, roundTable+"    - "+c.wood+"\n"), w)
		if (len(r.Listed) > 0) != c.told {
			t.Errorf("%s, %s: the buyer is told %v", c.home, c.wood, r.Listed)
		}
		if m := r.Public.Materials[0]; !c.told && strings.Contains(m.Botanical, "Cedrela") {
			t.Errorf("%s, %s: printed as %s", c.home, c.wood, m.Botanical)
		}
		if f, said := found(r, "wood.listed"); !said || !c.told && !strings.Contains(f.Message, "may be") {
			t.Errorf("%s, %s: %+v", c.home, c.wood, f)
		}
	}
}
