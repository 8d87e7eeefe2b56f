package tone

import (
	"math"
	"path/filepath"
	"strings"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/pixel"
)

// No real photo is darkened, by itself, as it came or pushed up, unless a lit
// piece on a dark ground; and in none do the bright tones of the frame pass 99 %
// of full scale that were below it.
func TestQualityNothingIsDarkenedOrBurnt(t *testing.T) {
	names, small := realPhotos(t)
	worst, by := 0.0, ""
	for i, m := range small {
		for _, ev := range []float64{-2, 0, 0.5, 1} {
			p, _, tr, out := pushed(names[i], m, ev)
			if tr.EV < 0 && !tr.Dark {
				t.Errorf("%s pushed by %+.1f EV is darkened by %+.2f", names[i], ev, tr.EV)
			}
			burnt := 0
			for k, v := range out.Pix {
				if v > 65535*99/100 && p.Pix[k] <= 65535*99/100 && tr.White == [3]float64{1, 1, 1} {
					burnt++
				}
			}
			if share := float64(burnt) / float64(len(out.Pix)); share > worst {
				worst, by = share, names[i]
			}
		}
	}
	t.Logf("at most %.3f %% of the samples of a photo pass 99 %% of full scale (%s)", 100*worst, by)
	if worst > 0.0005 {
		t.Errorf("%s: %.2f %% of the samples are burnt white", by, 100*worst)
	}
}

// These were harmed once: a dim table before a bright street was darkened, white
// paper on wood too, blue cloth was lit up and the wood before it.
func TestQualityLeftAsTheyAre(t *testing.T) {
	dir := phototest.Dir(t)
	for _, n := range []string{
		"furniture/mei_round_table_dim.jpg", "furniture/mei_workshop_bench.jpg", "furniture/caltech_windsor_chair_0032.jpg",
		"furniture/caltech_windsor_chair_0044.jpg", "furniture/mei_garden_furniture.jpg", "furniture/caltech_chair_0012.jpg",
		"exposure/crusader/3.jpg", "cameras/jsk_iPhone5s_gps_notes.jpg", "subject/davis_camel_00000.jpg",
	} {
		if _, tr := treat(phototest.Read(t, filepath.Join(dir, n), 512)); math.Abs(tr.EV) > 0.05 || tr.Black > 0 || tr.White != [3]float64{1, 1, 1} {
			t.Errorf("%s is changed: %+.2f EV, white %.2f, black %.4f", n, tr.EV, tr.White, tr.Black)
		}
	}
}

// A photo two stops under is lifted and not taken for dark by intent, unless it
// is so already as it came.
func TestQualityUnderexposedIsNoStyle(t *testing.T) {
	names, small := realPhotos(t)
	lifted, n, least, by := 0.0, 0, 9.0, ""
	for i, m := range small {
		_, _, as, _ := pushed(names[i], m, 0)
		_, _, tr, _ := pushed(names[i], m, -2)
		if tr.Dark && !as.Dark {
			t.Errorf("%s two stops under is taken for dark by intent", names[i])
		}
		if as.Dark {
			continue
		}
		lifted, n = lifted+tr.EV-as.EV, n+1
		if tr.EV-as.EV < least {
			least, by = tr.EV-as.EV, names[i]
		}
	}
	t.Logf("two stops under: lifted by %.2f stops more on average over %d photos, by %.2f at least (%s)", lifted/float64(n), n, least, by)
}

// Corrections fade in: a quarter of a stop more or less of exposure never moves
// the result by more than the shares named here, over −2 to +1 stops.
func TestQualityNoSuddenCorrection(t *testing.T) {
	const step = 0.25
	names, small := realPhotos(t)
	var worst, worstE float64
	var by, byE string
	for i, m := range small {
		var before *pixel.Image
		var level float64
		for ev := -2.0; ev <= 1; ev += step {
			_, lost, tr, out := pushed(names[i], m, ev)
			if before != nil {
				// The result may move by as much as the photo, and by what fading in
				// a small lift adds; not by more.
				if jump := math.Abs(tr.EV + ev - level); jump > worst {
					worst, by = jump, names[i]
				}
				if d, _ := phototest.MeanDeltaE(before, out, func(k int) bool { return lost[k] }); d > worstE {
					worstE, byE = d, names[i]
				}
			}
			before, level = out, tr.EV+ev
		}
	}
	t.Logf("a quarter stop of exposure moves a result by %.2f stops at most (%s), by ΔE00 %.2f (%s)", worst, by, worstE, byE)
	if worst > 2*step {
		t.Errorf("%s: a quarter stop moves the result by %.2f stops", by, worst)
	}
}

// Photos before different backdrops have no say in each other: each furniture
// photo gets the same gain in the company of all the others, of all but one, and
// alone.
func TestQualityCompanyOfStrangers(t *testing.T) {
	dir := phototest.Dir(t)
	files, err := filepath.Glob(filepath.Join(dir, "furniture", "*.jpg"))
	if err != nil {
		t.Fatal(err)
	}
	var all []Sample
	for _, n := range files {
		m := phototest.Read(t, n, 384)
		all = append(all, sample(m))
	}
	full := Plan(all)
	worst, by := 0.0, ""
	note := func(i int, a, b Treatment, how string) {
		d := math.Abs(a.EV - b.EV)
		if d > worst {
			worst, by = d, filepath.Base(files[i])+" "+how
		}
		if d > 0.2 {
			t.Errorf("%s %s: %+.2f EV, then %+.2f", filepath.Base(files[i]), how, a.EV, b.EV)
		}
	}
	for i := range all {
		note(i, full[i], Plan(all[i : i+1])[0], "alone")
		rest := append(append([]Sample{}, all[:i]...), all[i+1:]...)
		for k, tr := range Plan(rest) {
			j := k
			if k >= i {
				j++
			}
			note(j, full[j], tr, "without "+strings.TrimSuffix(filepath.Base(files[i]), ".jpg"))
		}
	}
	t.Logf("company moves a photo by %.3f stops at most (%s)", worst, by)
}
