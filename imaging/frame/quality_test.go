package frame

import (
	"path/filepath"
	"testing"

	"slabfolio/imaging/internal/phototest"
)

// plainBackdrop names the photos of subject/ that stand before a plain backdrop.
var plainBackdrop = map[string]bool{
	"uw_buddha.png": true, "uw_cat.png": true, "uw_horse.png": true,
	"pcv_setaria_a.png": true, "pcv_setaria_b.png": true,
}

func TestQualitySubject(t *testing.T) {
	images, masks := masked(t)
	for _, plain := range []bool{true, false} {
		var sum [4]float64
		n, worst := 0.0, 1.0
		for i, name := range images {
			if plainBackdrop[filepath.Base(name)] != plain {
				continue
			}
			m := phototest.Read(t, name, 768)
			r := Find(m, nil)
			kept, mask, box := score(r, truth(t, masks[i]))
			area := (r.Crop[2] - r.Crop[0]) * (r.Crop[3] - r.Crop[1])
			t.Logf("%-30s plain %-5v confidence %.2f  kept %.4f  mask IoU %.3f  box IoU %.3f  crop area %.2f", filepath.Base(name), r.Plain, r.Confidence, kept, mask, box, area)
			sum[0], sum[1], sum[2], sum[3] = sum[0]+kept, sum[1]+mask, sum[2]+box, sum[3]+area
			n++
			worst = min(worst, kept)
		}
		t.Logf("plain=%v: kept %.4f (worst %.4f)  mask IoU %.3f  box IoU %.3f  crop area %.2f  of %v photos", plain, sum[0]/n, worst, sum[1]/n, sum[2]/n, sum[3]/n, n)
	}
}
