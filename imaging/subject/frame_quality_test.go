package subject

import (
	"testing"

	"slabfolio/imaging/frame"
	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/pixel"
)

// held is the share of the piece that the crop keeps, and the area of the crop.
func held(k phototest.Truth, r frame.Result, w, h int) (kept, area float64) {
	const n = phototest.TruthSide
	m := r.Source(w, h)
	in := make([]bool, n*n)
	for i := range 4 * n * n {
		x, y := (float64(i%(2*n))+0.5)/(2*n), (float64(i/(2*n))+0.5)/(2*n)
		if x < r.Crop[0] || y < r.Crop[1] || x > r.Crop[2] || y > r.Crop[3] {
			continue
		}
		u, v := m.Apply(x*float64(w), y*float64(h))
		if a, b := int(u*n/float64(w)), int(v*n/float64(h)); u >= 0 && v >= 0 && a < n && b < n {
			in[b*n+a] = true
		}
	}
	is, both := 0.0, 0.0
	for i, on := range k.Is {
		if on {
			is++
			if in[i] {
				both++
			}
		}
	}
	return both / max(1, is), (r.Crop[2] - r.Crop[0]) * (r.Crop[3] - r.Crop[1])
}

// What the net's sighting changes in the framing of real photos, file by file:
// no crop may lose more than 3 % of a piece, and nothing that was sure before
// may come out otherwise.
func TestQualitySightingsInFrame(t *testing.T) {
	var before, after, right, sure float64
	for _, k := range phototest.Truths(t) {
		m := phototest.Read(t, k.Path, 768)
		was := frame.Find(m, nil)
		var s Sighting
		is := frame.Find(m, &frame.Options{Sight: func() *frame.Sighting {
			s = Find(m)
			return &frame.Sighting{Mask: &pixel.Mask{W: Side, H: Side, Pix: s.Mask}, Certainty: s.Certainty}
		}})
		on := func(r frame.Result) func(x, y float64) bool {
			return func(x, y float64) bool { return r.Mask != nil && r.Mask.At(x, y) != 0 }
		}
		iouWas, _, _ := k.Against(on(was), was.Subject)
		iouIs, _, _ := k.Against(on(is), is.Subject)
		keptWas, areaWas := held(k, was, m.W, m.H)
		keptIs, areaIs := held(k, is, m.W, m.H)
		t.Logf("%-34s %-8s sure %-5v → %-5v  IoU %.2f → %.2f  crop keeps %.3f → %.3f, is %.2f → %.2f of the photo (certainty %.2f)",
			k.Name, k.Kind, was.Sure, is.Sure, iouWas, iouIs, keptWas, keptIs, areaWas, areaIs, s.Certainty)
		if was.Sure {
			before++
		}
		if is.Sure {
			after++
		}
		if is.Sure && !was.Sure {
			sure++
			if keptIs >= 0.97 {
				right++
			}
		}
		if was.Sure && is.Crop != was.Crop {
			t.Errorf("%s: was sure, and its crop moved", k.Name)
		}
		if keptIs < min(0.97, keptWas) {
			t.Errorf("%s: the crop keeps %.3f of the piece, %.3f without the net", k.Name, keptIs, keptWas)
		}
	}
	t.Logf("sure in %.0f photos, with the net in %.0f; of the %.0f it brought, the crop of %.0f keeps 97 %%", before, after, sure, right)
	if right < 0.98*sure || sure < 4 {
		t.Errorf("the net made %.0f photos sure, want 4 at least; %.0f of them keep 97 %% of the piece", sure, right)
	}
}

// How wide all that may be the piece is where its outline is not sure, file by
// file, and that none of those widths costs a piece anything: what of a photo
// lies at either side of it is what a square may leave off.
func TestQualityMayBePiece(t *testing.T) {
	n, narrower, least, worst := 0, 0, 1.0, ""
	wide := 0.0
	for _, k := range phototest.Truths(t) {
		m := phototest.Read(t, k.Path, 768)
		r := frame.Find(m, &frame.Options{AsShot: true, Sight: func() *frame.Sighting {
			s := Find(m)
			return &frame.Sighting{Mask: &pixel.Mask{W: Side, H: Side, Pix: s.Mask}, May: s.May, Certainty: s.Certainty}
		}})
		if r.Sure || r.Grain {
			continue
		}
		_, kept, _ := k.Against(func(x, y float64) bool { return false }, r.May)
		n++
		if wide += r.May[2] - r.May[0]; r.May[2]-r.May[0] < 0.99 {
			narrower++
		}
		if kept < least {
			least, worst = kept, k.Name
		}
		t.Logf("%-34s %-8s from %.2f to %.2f, keeps %.4f", k.Name, k.Kind, r.May[0], r.May[2], kept)
		if r.May[1] != 0 || r.May[3] != 1 {
			t.Errorf("%s: it is cut above or below: %.2f", k.Name, r.May)
		}
	}
	t.Logf("%d photos not sure, %d narrower; %.3f of the width on average; least kept %.4f (%s)", n, narrower, wide/float64(n), least, worst)
	if least < 0.98 || narrower < 10 {
		t.Errorf("%d photos narrower, want 10; least kept %.4f (%s), want 0.98", narrower, least, worst)
	}
}
