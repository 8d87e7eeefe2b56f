package tone

import (
	"math"
	"testing"
)

// A backdrop comes to the mean of what agrees with it, weighed by how surely, or
// nearer to the brightest, as far as that one agrees; what does not agree, shows
// no piece or is left as shot has no say. Worked out by hand from the comment of
// company: 1 and 1/2 agree, so the mean of -2 and -1.2 is -2 + 0.8/3, and half of
// the way to the brightest is -1.6.
func TestCompanyOfABackdrop(t *testing.T) {
	sure := view{piece: true, plain: 1, subject: -3, backdrop: -2}
	half, strange, shot, empty := sure, sure, sure, sure
	half.plain = 0.5
	strange.backdrop = -0.5 // much farther from its piece
	shot.asShot = true
	empty.empty = true
	unlit := Treatment{White: [3]float64{1, 1, 1}}
	for _, c := range []struct {
		name      string
		other     view
		level     float64
		aim, sure float64
	}{
		{"as surely plain", sure, -1.2, -1.2, 1},
		{"half as surely, brighter", half, -1.2, -1.6, 0.5},
		{"half as surely, darker", half, -2.8, -2, 0.5},
		{"brighter than any may be made", sure, 0.5, -0.25, 1}, // a quarter of a stop below white is the most
		{"another stage", strange, -1.2, 0, 0},
		{"as shot", shot, -1.2, 0, 0},
		{"empty", empty, -1.2, 0, 0},
	} {
		level := []float64{-2, c.level}
		aim, how := sure.sharedLevel([]view{sure, c.other}, level, []Treatment{unlit, unlit}, 0)
		if math.Abs(aim-c.aim) > 1e-9 || math.Abs(how-c.sure) > 1e-9 {
			t.Errorf("%s: to %.4f, %.2f sure; want %.4f, %.2f", c.name, aim, how, c.aim, c.sure)
		}
	}
}
