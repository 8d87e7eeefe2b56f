package scene

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Whatever is drawn for the training is a piece of furniture in size, and stands
// on the floor or hangs above it.
func TestRandomPieces(t *testing.T) {
	for _, k := range kinds {
		for seed := range uint64(8) {
			r := Random{Rand: rand.New(rand.NewPCG(seed, 1))}
			p := r.piece(k.name)
			lo, hi := bounds(p.Objs)
			size := hi.sub(lo)
			if most := math.Max(size.X, math.Max(size.Y, size.Z)); len(p.Objs) == 0 || !(most > 50 && most < 6000) {
				t.Errorf("%s, seed %d: %d objects, %.0f mm long", k.name, seed, len(p.Objs), most)
			}
			if !(lo.Z > -60) {
				t.Errorf("%s, seed %d: reaches %.0f mm below the floor", k.name, seed, -lo.Z)
			}
			if p.R <= 0 {
				t.Errorf("%s, seed %d: a footprint of %.0f mm", k.name, seed, p.R)
			}
		}
	}
}
