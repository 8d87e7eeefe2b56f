package tone

import (
	"math"
	"testing"
)

// A backdrop comes to the mean of what agrees with it, weighed by how surely, or
// nearer to the brightest, as far as that one agrees; what does not agree, shows
// no piece or is left as shot has no say. Worked out by hand from the comment of
// sharedLevel: 1 and 1/2 agree, so the mean of -2 and -1.2 is -2 + 0.8/3, and half of
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

// Two photos show one backdrop as surely as the least sure sign of it says. Each
// sign alone is put halfway between its two limits, and beyond them.
func TestSameBackdrop(t *testing.T) {
	one := view{piece: true, plain: 1, subject: -3, backdrop: -2, uneven: 0.2}
	with := func(change func(*view)) view { v := one; change(&v); return v }
	for _, c := range []struct {
		name  string
		other view
		want  float64
	}{
		{"the same", one, 1},
		{"no piece told apart", with(func(v *view) { v.piece = false }), 0},
		{"less surely plain", with(func(v *view) { v.plain = 0.4 }), 0.4},
		{"lit out of the dark", with(func(v *view) { v.dark = 0.3 }), 0.7},
		{"a tint at the first limit", with(func(v *view) { v.backTint[0] = 0.05 }), 1},
		{"a tint between", with(func(v *view) { v.backTint[1] = 0.075 }), 0.5},
		{"a tint at the second limit", with(func(v *view) { v.backTint[0] = 0.10 }), 0},
		{"as far from its piece within a stop", with(func(v *view) { v.backdrop = -1; v.subject = -3 }), 1},
		{"farther by 1.1 stops", with(func(v *view) { v.backdrop = -0.9 }), 0.5},
		{"farther by 1.2 stops", with(func(v *view) { v.backdrop = -0.8 }), 0},
		{"brighter, with its piece", with(func(v *view) { v.backdrop, v.subject = 0, -1 }), 1},
		{"uneven by 1.8 stops more", with(func(v *view) { v.uneven = 0.25*math.Exp2(1.8) - 0.05 }), 0.5},
		{"more even by 1.8 stops", with(func(v *view) { v.uneven = 0.25*math.Exp2(-1.8) - 0.05 }), 0.5},
		{"uneven by 1.9 stops more", with(func(v *view) { v.uneven = 0.25*math.Exp2(1.9) - 0.05 }), 0},
	} {
		unlit := Treatment{White: [3]float64{1, 1, 1}}
		for _, got := range []float64{sameBackdrop(one, c.other, unlit, unlit), sameBackdrop(c.other, one, unlit, unlit)} {
			if math.Abs(got-c.want) > 1e-9 {
				t.Errorf("%s: %.3f, want %.3f", c.name, got, c.want)
			}
		}
	}
	lamp := Treatment{White: [3]float64{math.Exp2(-0.3), 1, 1}}
	if got := sameBackdrop(one, with(func(v *view) { v.backTint[0] = 0.3 }), Treatment{White: [3]float64{1, 1, 1}}, lamp); math.Abs(got-1) > 1e-9 {
		t.Errorf("a backdrop by a lamp that is balanced away: %.3f, want 1", got)
	}
}

// A channel counts as clipped from nine tenths of full scale on, in both ways of
// writing that: from there a sensor's own curve is no longer straight (common
// practice, no source).
func TestNearFull(t *testing.T) {
	if nearFull != 0.9 || nearFull16 != math.Floor(nearFull*65535) {
		t.Errorf("near full is %v and %d of 65535", nearFull, nearFull16)
	}
}
