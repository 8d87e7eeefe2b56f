package report

import (
	"strings"
	"testing"
)

// Where the doubt of a weight reaches over a step of the density scale, both classes are
// told, the dearer first; and a story without its full stop does not run into what follows.
func TestClassesOverTheRange(t *testing.T) {
	told := 0
	for _, box := range []string{"0.5 in", "1 in", "1.5 in", "2 in", "2.5 in", "3 in", "3.5 in", "4 in"} {
		r := build(t, spec(t, "serial: A1\ntitle: Board\nkind: serving board\nfinished: 2026-09-18\ntop: {outline: {length: 18 in, width: 12 in}, thickness: 1 1/2 in, wood: {species: hard-maple}}\n"+
			"story: Cut from one plank, and sanded twice\nfinish: {family: board-oil, product: Board oil}\npacking: {how: carton, clearance: "+box+"}\n"), workshop(t, "workshop: {name: Ostrel Yard, country: US}\n"))
		if r.Freight == nil {
			t.Fatalf("%s: no freight: %v", box, r.Absent["freight"])
		}
		if f := r.Figures["freight.density_lb_ft3"]; strings.Contains(r.Freight.Classes, " or ") {
			told++
			light, heavy, _ := strings.Cut(r.Freight.Classes, " or ")
			if light <= heavy && len(light) <= len(heavy) || f.Low >= f.High {
				t.Errorf("%s: class %s of %g to %g", box, r.Freight.Classes, f.Low, f.High)
			}
		}
		if said := r.Public.Texts.Descriptions.Upto1000; !strings.Contains(said, "sanded twice. ") {
			t.Error(said)
		}
	}
	if told == 0 {
		t.Error("no box lay over a step of the scale")
	}
}
