package report

import (
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// A wood and a material by their names in another language are read, noted, and named in
// the language of the papers.
func TestForeignNamesInTheReport(t *testing.T) {
	r := build(t, spec(t, strings.NewReplacer("SPECIES", "Buche", "material: steel", "material: Stahl").Replace(longBoard)+"parts: [{name: shelf, material: chêne, count: 1, weight: 2 kg}]\n"), nil)
	if got := r.Public.Materials[0]; got.Name != "European beech" || got.Botanical != "Fagus sylvatica" {
		t.Errorf("%+v", got)
	}
	if r.Public.Base.Material != "steel" || r.Public.Parts[0].Material != "European oak" {
		t.Errorf("%+v %+v", r.Public.Base, r.Public.Parts)
	}
	for code, says := range map[string]string{"wood.read-as": "write european-beech", "material.read-as": "write steel-carbon"} {
		if f, ok := found(r, code); !ok || f.Rank != piece.Note || !strings.Contains(f.Remedy, says) {
			t.Errorf("%s: %v %+v", code, ok, f)
		}
	}
}
