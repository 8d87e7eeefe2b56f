package tone

import (
	"fmt"
	"math"
	"path/filepath"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/pixel"
)

// realPhotos are those a maker could have taken: furniture, and photos of
// things from cameras and phones.
func realPhotos(t testing.TB) (names []string, small []*pixel.Image) {
	if testing.Short() {
		t.Skip("measuring on the real photos takes a while")
	}
	dir := phototest.Dir(t)
	for _, g := range []string{"furniture/*.jpg", "subject/*.jpg", "cameras/*P*.jpg"} {
		l, err := filepath.Glob(filepath.Join(dir, g))
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range l {
			if b := filepath.Base(n); b == "exifr_Canon1300D_18MP_dark.jpg" || b == "mei_FLIRVuePro_gps0.jpg" {
				continue // a black frame, a thermal picture
			}
			names = append(names, filepath.Base(n))
			small = append(small, phototest.Read(t, n, 384))
		}
	}
	return names, small
}

// treat plans for one photo alone and applies it to a copy.
func treat(m *pixel.Image) (*pixel.Image, Treatment) {
	t := Plan([]Sample{sample(m)})[0]
	return applied(m, t), t
}

func applied(m *pixel.Image, t Treatment) *pixel.Image {
	p := m.Clone()
	t.Apply(p)
	return p
}

// planned are the treatments that pushed has worked out.
var planned = map[string]Treatment{}

// pushed is a photo pushed by ev stops, which of its pixels clipped, what is
// planned for it alone, and what that makes of it.
func pushed(name string, m *pixel.Image, ev float64) (p *pixel.Image, lost []bool, tr Treatment, out *pixel.Image) {
	p, lost = phototest.Push(m, ev)
	key := fmt.Sprint(name, ev)
	tr, ok := planned[key]
	if !ok {
		tr = Plan([]Sample{sample(p)})[0]
		planned[key] = tr
	}
	return p, lost, tr, applied(p, tr)
}

// A photo pushed by −2 … +1.5 EV comes back. Each by itself, no set to help.
func TestQualityPushAlone(t *testing.T) {
	names, small := realPhotos(t)
	wants, plans := make([]*pixel.Image, len(small)), make([]Treatment, len(small))
	for i, m := range small {
		_, _, plans[i], wants[i] = pushed(names[i], m, 0)
	}
	for _, ev := range []float64{-2, -1, 0.5, 1, 1.5} {
		var sum, all float64
		n, bad, na, retake := 0, 0, 0, 0
		for i, m := range small {
			want, t0 := wants[i], plans[i]
			_, lost, t1, got := pushed(names[i], m, ev)
			clipped := 0
			for _, l := range lost {
				if l {
					clipped++
				}
			}
			if math.Abs(t0.EV-ev) > MaxEV {
				retake++
				continue
			}
			d, _ := phototest.MeanDeltaE(want, got, func(i int) bool { return lost[i] })
			all += d
			na++
			if clipped*100 > len(lost) {
				continue
			}
			if d > 2 {
				bad++
				t.Logf("%+.1f EV %s: ΔE00 %.2f (gain %.2f, then %.2f)", ev, names[i], d, t0.EV, t1.EV)
			}
			sum += d
			n++
		}
		t.Logf("pushed %+.1f EV, alone: mean ΔE00 %.3f of %d photos that the push did not clip (%d above 2.0); %.2f of all %d on their unclipped pixels; %d beyond the limit", ev, sum/float64(max(1, n)), n, bad, all/float64(max(1, na)), na, retake)
		if n > 0 && sum/float64(n) > 2 {
			t.Errorf("pushed %+.1f EV: mean ΔE00 %.2f, want ≤ 2.0", ev, sum/float64(n))
		}
	}
}

// Toning a toned photo changes next to nothing.
func TestQualityIdempotent(t *testing.T) {
	names, small := realPhotos(t)
	var sum float64
	over := 0
	for i, m := range small {
		_, _, t1, once := pushed(names[i], m, 0)
		twice, t2 := treat(once)
		d, _ := phototest.MeanDeltaE(once, twice, nil)
		sum += d
		if d > 0.5 {
			over++
			t.Logf("%s: ΔE00 %.2f (gain %.2f, then %.2f)", names[i], d, t1.EV, t2.EV)
		}
	}
	t.Logf("toned twice: mean ΔE00 %.3f of %d photos, %d above 0.5", sum/float64(len(small)), len(small), over)
	if sum/float64(len(small)) > 0.5 {
		t.Errorf("mean ΔE00 %.2f, want < 0.5", sum/float64(len(small)))
	}
}
