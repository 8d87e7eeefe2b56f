package tone

import (
	"math"
	"path/filepath"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/pixel"
)

// lamp is the linear sRGB colour of light of a colour temperature in kelvin, of
// luminance 1: the CIE daylight locus from 4000 K up (CIE 15:2004, equations 3.3
// and 3.4) and, below, Kim's cubic for the Planckian locus (US patent 7024034,
// 2006); both from memory.
func lamp(k float64) [3]float64 {
	var x, y float64
	if k >= 4000 {
		a, b, c, d := -4.6070e9, 2.9678e6, 0.09911e3, 0.244063
		if k > 7000 {
			a, b, c, d = -2.0064e9, 1.9018e6, 0.24748e3, 0.237040
		}
		x = a/(k*k*k) + b/(k*k) + c/k + d
		y = -3*x*x + 2.870*x - 0.275
	} else {
		x = -0.2661239e9/(k*k*k) - 0.2343589e6/(k*k) + 0.8776956e3/k + 0.179910
		y = -0.9549476*x*x*x - 1.37418593*x*x + 2.09137015*x - 0.16748867
	}
	X, Z := x/y, (1-x-y)/y
	return [3]float64{3.2409699*X - 1.5373832 - 0.4986108*Z, -0.9692436*X + 1.8759675 + 0.0415551*Z, 0.0556301*X - 0.2039770 + 1.0569715*Z}
}

// moved is how the channels change when a photo balanced for one temperature was
// taken by a lamp of another, luminance kept.
func moved(from, to float64) (w [3]float64) {
	a, b := lamp(from), lamp(to)
	for k := range w {
		w[k] = b[k] / a[k]
	}
	return w
}

// In a set that shows one backdrop, a photo taken by another lamp comes back to
// its neutral siblings: ΔE00 ≤ 2 on its unclipped pixels. The drawn sets, and
// real photos before neutral backdrops, each with itself mirrored and with a
// part of itself for siblings; lamps 1500 K warmer and colder.
func TestQualityTwoLamps(t *testing.T) {
	dir := phototest.Dir(t)
	sets := lampSets(t, dir)
	var sum, n, worst float64
	by := ""
	for name, set := range sets {
		_, want := plan(set)
		known := samples(set)
		for i := range set {
			if !hasSibling(known, i) {
				continue // nothing to match by
			}
			for _, k := range [][2]float64{{6500, 5000}, {6500, 8000}, {5000, 3500}, {5000, 6500}} {
				p := cast(set[i], moved(k[0], k[1]))
				tr, got := exchanged(known, i, p)
				clipped := func(j int) bool { return max(p.Pix[3*j], p.Pix[3*j+1], p.Pix[3*j+2]) >= 64900 }
				open := 0
				for j := range p.W * p.H {
					if !clipped(j) {
						open++
					}
				}
				if open*2 < p.W*p.H {
					t.Logf("%s photo %d, %.0f K for %.0f K: most of it is clipped", name, i+1, k[1], k[0])
					continue
				}
				d, _ := phototest.MeanDeltaE(want[i], got, clipped)
				b, _ := phototest.MeanDeltaE(want[i], p, clipped)
				t.Logf("%s photo %d, %.0f K for %.0f K: ΔE00 %.2f, as shot %.2f; white %.2f, %+.2f EV", name, i+1, k[1], k[0], d, b, tr.White, tr.EV)
				if name == mauve {
					continue // for the record: its backdrop is not neutral
				}
				sum, n = sum+d, n+1
				if d > worst {
					worst, by = d, name
				}
				if d > 2 {
					t.Errorf("%s photo %d, %.0f K for %.0f K: ΔE00 %.2f, want ≤ 2", name, i+1, k[1], k[0], d)
				}
			}
		}
	}
	t.Logf("two lamps: ΔE00 %.2f on average, %.2f at worst (%s), of %.0f", sum/n, worst, by, n)
}

func lampSets(t *testing.T, dir string) map[string][]*pixel.Image {
	order, by := sets(t)
	out := map[string][]*pixel.Image{}
	for _, name := range order {
		for _, d := range by[name] {
			out[name] = append(out[name], d.Image)
		}
		if len(out[name]) < 2 { // a piece with one photo has no siblings
			out[name] = append(out[name], mirrored(out[name][0]))
		}
	}
	for _, n := range []string{"caltech_chair_0007.jpg", mauve} {
		m := phototest.Read(t, filepath.Join(dir, "furniture", n), 384)
		darker, _ := phototest.Push(mirrored(m), -0.4)
		out[n] = []*pixel.Image{m, darker, m.Cut(m.W/20, m.H/20, m.W*9/10, m.H*9/10)}
	}
	return out
}

// mauve is a photo before a mauve backdrop.
const mauve = "caltech_windsor_chair_0003.jpg"

// hasSibling reports whether photo i and another of the set show a backdrop.
func hasSibling(set []Sample, i int) bool {
	for j, s := range set {
		if j != i && s.Plain {
			return set[i].Plain
		}
	}
	return false
}

func mirrored(m *pixel.Image) *pixel.Image { return pixel.Orient(m, 2) }

// Without siblings, or with siblings whose backdrop is as coloured, a photo of
// wood alone is never balanced, whatever the lamp.
func TestWoodAloneIsNeverNeutral(t *testing.T) {
	dir := phototest.Dir(t)
	var set []*pixel.Image
	for _, n := range []string{"furniture/mate_Wood.jpg", "furniture/jsk_wooden_table_top.jpg"} {
		set = append(set, phototest.Read(t, filepath.Join(dir, n), 384))
	}
	set = append(set, cast(set[1], moved(6500, 5000)), cast(set[0], moved(6500, 8000)))
	ts, _ := plan(set)
	for i, tr := range ts {
		if tr.White != [3]float64{1, 1, 1} {
			t.Errorf("photo %d of wood alone is balanced: %.3f", i+1, tr.White)
		}
	}
}

// The lamps of the tests are those of the standard: D65 is neutral in sRGB (IEC
// 61966-2-1), and warmer light has more red and less blue.
func TestLamps(t *testing.T) {
	for k, v := range lamp(6504) {
		if math.Abs(v-1) > 0.01 {
			t.Errorf("channel %d of 6504 K is %.3f, want 1", k, v)
		}
	}
	if w := lamp(5000); !(w[0] > 1.05 && w[2] < 0.85) {
		t.Errorf("5000 K is %.3f", w)
	}
}
