package tone

import (
	"math"
	"slices"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/pixel"
)

// cast multiplies the channels of a picture, as a wrong white balance does.
func cast(m *pixel.Image, w [3]float64) *pixel.Image {
	p := pixel.New(m.W, m.H)
	for i, v := range m.Pix {
		p.Pix[i] = uint16(math.Min(65535, float64(v)*w[i%3]+0.5))
	}
	return p
}

func samples(set []*pixel.Image) []Sample {
	s := make([]Sample, len(set))
	for i, m := range set {
		s[i] = sample(m)
	}
	return s
}

// exchanged is the plan for p, in the place of photo i of a set, and what it makes of
// it.
func exchanged(set []Sample, i int, p *pixel.Image) (Treatment, *pixel.Image) {
	s := slices.Clone(set)
	s[i] = sample(p)
	t := Plan(s)[i]
	return t, applied(p, t)
}

func plan(set []*pixel.Image) ([]Treatment, []*pixel.Image) {
	ts := Plan(samples(set))
	out := make([]*pixel.Image, len(set))
	for i, m := range set {
		out[i] = applied(m, ts[i])
	}
	return ts, out
}

// sets are the drawn photos of each piece, rightly exposed and balanced.
func sets(t testing.TB) (order []string, by map[string][]phototest.Drawn) {
	by = map[string][]phototest.Drawn{}
	for _, d := range phototest.Draw(t, 360) {
		if by[d.Piece] == nil {
			order = append(order, d.Piece)
		}
		by[d.Piece] = append(by[d.Piece], d)
	}
	return order, by
}

// backdropL is the L* of the true backdrop, median.
func backdropL(d phototest.Drawn, m *pixel.Image) float64 {
	var v []float64
	for i, k := range d.Truth.Mask {
		if k == 0 {
			l, _, _ := phototest.Lab(m.Pix[3*i], m.Pix[3*i+1], m.Pix[3*i+2])
			v = append(v, l)
		}
	}
	slices.Sort(v)
	return v[len(v)/2]
}

func TestQualitySet(t *testing.T) {
	order, by := sets(t)
	evs := []float64{-1.2, 0.6, -0.4}
	whites := [][3]float64{{1.12, 1, 0.86}, {0.95, 1, 1.1}, {1.04, 1, 0.95}}
	for _, name := range order {
		var set []*pixel.Image
		for i, d := range by[name] {
			p, _ := phototest.Push(d.Image, evs[i%3])
			set = append(set, cast(p, whites[i%3]))
		}
		ts, out := plan(set)
		lo, hi := math.Inf(1), math.Inf(-1)
		for i, d := range by[name] {
			l := backdropL(d, out[i])
			// how near the photo came to the drawing without errors
			m, _ := phototest.MeanDeltaE(out[i], d.Image, nil)
			b, _ := phototest.MeanDeltaE(set[i], d.Image, nil)
			t.Logf("%s %-24s detail %-5v gain %+.2f (error %+.2f) white %.2f group %d backdrop L* %.1f; ΔE00 from the truth %.2f, as shot %.2f", name, d.Name, d.Detail, ts[i].EV, evs[i%3], ts[i].White, ts[i].Group, l, m, b)
			if !d.Detail {
				lo, hi = math.Min(lo, l), math.Max(hi, l)
			}
		}
		t.Logf("%s: backdrops agree to %.2f L*", name, hi-lo)
		if hi-lo > 1.5 {
			t.Errorf("%s: backdrops differ by %.2f L*, want ≤ 1.5", name, hi-lo)
		}
	}
}

// One photo of a set pushed comes back to where it was.
func TestQualityPushInSet(t *testing.T) {
	order, by := sets(t)
	known, wants := map[string][]Sample{}, map[string][]*pixel.Image{}
	for _, name := range order {
		for _, d := range by[name] {
			known[name] = append(known[name], sample(d.Image))
		}
		for i, tr := range Plan(known[name]) {
			wants[name] = append(wants[name], applied(by[name][i].Image, tr))
		}
	}
	for _, ev := range []float64{-2, -1, 1, 1.5} {
		var sum, n, worst, free, nf float64
		for _, name := range order {
			for i, want := range wants[name] {
				p, lost := phototest.Push(by[name][i].Image, ev)
				tr, got := exchanged(known[name], i, p)
				d, _ := phototest.MeanDeltaE(want, got, func(k int) bool { return lost[k] })
				clipped := 0
				for _, l := range lost {
					if l {
						clipped++
					}
				}
				if d > 2 {
					t.Logf("%+.1f EV %s %s: ΔE00 %.2f, gain %.2f, %d %% clipped", ev, name, by[name][i].Name, d, tr.EV, clipped*100/len(lost))
				}
				if clipped*100 <= len(lost) {
					free += d
					nf++
				}
				sum, n, worst = sum+d, n+1, math.Max(worst, d)
			}
		}
		t.Logf("pushed %+.1f EV in a set: mean ΔE00 %.3f, worst %.2f, of %v photos; %.3f of the %v not clipped", ev, sum/n, worst, n, free/math.Max(1, nf), nf)
		if free/math.Max(1, nf) > 2 {
			t.Errorf("%+.1f EV: mean ΔE00 %.2f, want ≤ 2.0", ev, free/nf)
		}
	}
}
