package frame

import (
	"path/filepath"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/pixel"
)

// plainBackdrop names the photos of subject/ that stand before a plain backdrop.
var plainBackdrop = map[string]bool{
	"uw_buddha.png": true, "uw_cat.png": true, "uw_horse.png": true,
	"pcv_setaria_a.png": true, "pcv_setaria_b.png": true,
}

// tally adds up scores of one kind of photo.
type tally struct{ kept, mask, box, area, n, worst float64 }

func (s *tally) add(r Result, k *pixel.Mask) (kept, mask, box float64) {
	kept, mask, box = score(r, k)
	s.kept, s.mask, s.box, s.n = s.kept+kept, s.mask+mask, s.box+box, s.n+1
	s.area += (r.Crop[2] - r.Crop[0]) * (r.Crop[3] - r.Crop[1])
	if s.n == 1 || kept < s.worst {
		s.worst = kept
	}
	return kept, mask, box
}

func (s tally) log(t *testing.T, what string) {
	t.Logf("%-34s kept %.4f (worst %.4f)  mask IoU %.3f  box IoU %.3f  crop area %.2f  of %v photos",
		what, s.kept/s.n, s.worst, s.mask/s.n, s.box/s.n, s.area/s.n, s.n)
}

// How much of the subject the crop keeps and how well mask and box fit, on the
// photos with a mask made by others, and on the drawn photos.
func TestQualitySubject(t *testing.T) {
	images, masks := masked(t)
	var plain, busy, odd tally
	for i, name := range images {
		b := filepath.Base(name)
		r := Find(phototest.Read(t, name, 768), nil)
		s := &busy
		switch {
		case b == "pcv_setaria_a.png" || b == "pcv_setaria_b.png":
			s = &odd // the mask marks the leaves alone, not their pot
		case plainBackdrop[b]:
			s = &plain
		}
		kept, mask, box := s.add(r, truth(t, masks[i]))
		t.Logf("%-30s plain %-5v confidence %.2f  kept %.4f  mask IoU %.3f  box IoU %.3f", b, r.Plain, r.Confidence, kept, mask, box)
	}
	plain.log(t, "plain backdrop")
	odd.log(t, "plant in a light box (leaves only)")
	busy.log(t, "busy scene")
	if plain.worst < 0.99 || plain.mask/plain.n < 0.85 || plain.box/plain.n < 0.85 {
		t.Error("plain backdrop: want ≥ 0.99 kept, IoU ≥ 0.85")
	}
	if busy.kept/busy.n < 0.97 || odd.worst < 0.99 {
		t.Error("busy scene: want ≥ 0.97 kept")
	}
}

func TestQualitySubjectDrawn(t *testing.T) {
	var plain, detail tally
	for _, d := range phototest.Draw(t, 360) {
		k := &pixel.Mask{W: d.Truth.W, H: d.Truth.H, Pix: make([]uint8, len(d.Truth.Mask))}
		for i, v := range d.Truth.Mask {
			if v > 127 {
				k.Pix[i] = 255
			}
		}
		r := Find(d.Image, nil)
		s := &plain
		if d.Detail {
			s = &detail
		}
		kept, mask, box := s.add(r, k)
		t.Logf("%s %-24s plain %-5v confidence %.2f  kept %.4f  mask IoU %.3f  box IoU %.3f", d.Piece, d.Name, r.Plain, r.Confidence, kept, mask, box)
	}
	plain.log(t, "drawn, plain backdrop")
	detail.log(t, "drawn, piece fills the frame")
	if plain.worst < 0.99 || plain.mask/plain.n < 0.85 || plain.box/plain.n < 0.85 {
		t.Error("plain backdrop: want ≥ 0.99 kept, IoU ≥ 0.85")
	}
	if detail.kept/detail.n < 0.97 {
		t.Error("piece fills the frame: want ≥ 0.97 kept")
	}
}

// A photo that came out darker gives the same subject.
func TestQualitySameSubjectWhenDarker(t *testing.T) {
	images, _ := masked(t)
	for _, name := range images {
		if !plainBackdrop[filepath.Base(name)] {
			continue
		}
		m := phototest.Read(t, name, 512)
		p, _ := phototest.Push(m, -1.5)
		a, b := Find(m, nil), Find(p, nil)
		for i := range a.Subject {
			if d := a.Subject[i] - b.Subject[i]; d > 0.03 || d < -0.03 {
				t.Errorf("%s: subject %.3f, 1.5 EV darker %.3f", filepath.Base(name), a.Subject, b.Subject)
				break
			}
		}
	}
}
