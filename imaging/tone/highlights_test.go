package tone

import (
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/pixel"
)

// everyPhoto names all the real photos of things.
func everyPhoto(t testing.TB) (names []string) {
	dir := phototest.Dir(t)
	for _, g := range []string{"furniture/*.jpg", "subject/*.jpg", "subject/*.png", "exposure/*/*.jpg", "cameras/*.jpg", "measure/*.jpg"} {
		l, err := filepath.Glob(filepath.Join(dir, g))
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range l {
			if !strings.HasSuffix(n, "_mask.png") {
				names = append(names, n)
			}
		}
	}
	return names
}

// coded tells the L*a*b* of a picture's pixels, rounded to the 8 bits of a file.
func coded(m *pixel.Image) func(i int) [3]float64 {
	enc, dec := colour.EncodeTable(), colour.DecodeTable()
	return func(i int) [3]float64 {
		p := m.Pix[3*i : 3*i+3]
		l, a, b := phototest.Lab(dec[enc[p[0]]], dec[enc[p[1]]], dec[enc[p[2]]])
		return [3]float64{l, a, b}
	}
}

// steps are the differences between neighbours, across and down, of the pixels
// that near lists: in all, and in colour alone.
func steps(lab func(i int) [3]float64, w int, near []int) (all, chroma float64) {
	var d, c []float64
	for _, i := range near {
		p := lab(i)
		for _, j := range [2]int{i + 1, i + w} {
			q := lab(j)
			d = append(d, phototest.DeltaE(p[0], p[1], p[2], q[0], q[1], q[2]))
			l := (p[0] + q[0]) / 2
			c = append(c, phototest.DeltaE(l, p[1], p[2], l, q[1], q[2]))
		}
	}
	slices.Sort(d)
	slices.Sort(c)
	return d[len(d)*95/100], c[len(c)*95/100]
}

// nearWhite lists pixels that have a channel above 0.8 of full scale, and whose
// neighbours right and below have too; at most about 4000 of them.
func nearWhite(m *pixel.Image) (near []int) {
	bright := func(i int) bool { return max(m.Pix[3*i], m.Pix[3*i+1], m.Pix[3*i+2]) > 52428 }
	for y := range m.H - 1 {
		for x := range m.W - 1 {
			if i := y*m.W + x; bright(i) && bright(i+1) && bright(i+m.W) {
				near = append(near, i)
			}
		}
	}
	every := len(near)/4000 + 1
	k := 0
	for i := 0; i < len(near); i += every {
		near[k] = near[i]
		k++
	}
	return near[:k]
}

// Whatever the exposure, near-white becomes no more mottled than it was: neither
// in level nor in colour, over every real photo, by 1 ΔE00 at the 95th percentile.
func TestQualityHighlights(t *testing.T) {
	if testing.Short() {
		t.Skip("measuring on the real photos takes a while")
	}
	type worst struct {
		all, chroma   float64
		byAll, byTint string
	}
	evs := []float64{-1, -0.5, -0.3, 1, 2}
	worsts, n := make([]worst, len(evs)), 0
	for _, name := range everyPhoto(t) {
		m := phototest.Read(t, name, 1000)
		near := nearWhite(m)
		if len(near) < 200 {
			continue
		}
		n++
		all0, chroma0 := steps(coded(m), m.W, near)
		line := fmt.Sprintf("%s: as shot %.2f, in colour %.2f;", filepath.Base(name), all0, chroma0)
		for k, ev := range evs {
			all, chroma := steps(coded(applied(m, Treatment{EV: ev, White: [3]float64{1, 1, 1}})), m.W, near)
			line += fmt.Sprintf(" %+.1f EV %+.2f %+.2f", ev, all-all0, chroma-chroma0)
			if w := &worsts[k]; all-all0 > w.all || w.byAll == "" {
				w.all, w.byAll = all-all0, filepath.Base(name)
			}
			if w := &worsts[k]; chroma-chroma0 > w.chroma || w.byTint == "" {
				w.chroma, w.byTint = chroma-chroma0, filepath.Base(name)
			}
			if all-all0 > 1 || chroma-chroma0 > 1 {
				t.Errorf("%s at %+.1f EV: steps of near-white grow from %.2f to %.2f, in colour from %.2f to %.2f ΔE00", filepath.Base(name), ev, all0, all, chroma0, chroma)
			}
		}
		t.Log(line)
	}
	for k, ev := range evs {
		t.Logf("%+.1f EV over %d photos with near-white: p95 of steps grows by %.2f ΔE00 at most (%s), of steps in colour by %.2f (%s)", ev, n, worsts[k].all, worsts[k].byAll, worsts[k].chroma, worsts[k].byTint)
	}
}

// A grey wedge of all 8-bit levels shows no band that it had not: from level 16
// on, the step from one level to the next grows by less than 1 L* up to +2 EV.
// Below that a gain of four is a gain of four.
func TestWedgeHasNoBands(t *testing.T) {
	dec := colour.DecodeTable()
	wedge := pixel.New(256, 1)
	for i := range wedge.Pix {
		wedge.Pix[i] = dec[i/3]
	}
	before := coded(wedge)
	for _, ev := range []float64{-1, -0.5, -0.3, 1, 2} {
		after := coded(applied(wedge, Treatment{EV: ev, White: [3]float64{1, 1, 1}}))
		worst, at := 0.0, 0
		for i := 17; i < 256; i++ {
			d := math.Abs(after(i)[0]-after(i - 1)[0]) - math.Abs(before(i)[0]-before(i - 1)[0])
			if d > worst {
				worst, at = d, i
			}
		}
		t.Logf("%+.1f EV: the step from one level to the next grows by %.2f L* at most, at %d", ev, worst, at)
		if worst > 1 {
			t.Errorf("%+.1f EV: at level %d a step grows by %.2f L*", ev, at, worst)
		}
	}
}
