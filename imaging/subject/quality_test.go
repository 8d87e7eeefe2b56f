package subject

import (
	"testing"

	"slabfolio/imaging/internal/phototest"
)

// tally adds up one kind of photo.
type tally struct {
	n, iou, good  float64
	sure, held    int
	worst         float64
	worstOf       string
	sureWorst     float64
	sureWorstName string
}

func (c *tally) add(k phototest.Truth, iou, kept, times float64, sure bool) {
	if c.n++; c.n == 1 || iou < c.worst {
		c.worst, c.worstOf = iou, k.Name
	}
	c.iou += iou
	if kept >= 0.97 && times <= 1.3 {
		c.good++
	}
	if !sure {
		return
	}
	if c.sure++; c.sure == 1 || kept < c.sureWorst {
		c.sureWorst, c.sureWorstName = kept, k.Name
	}
	if kept >= 0.97 {
		c.held++
	}
}

func (c *tally) log(t *testing.T, what string) {
	t.Logf("%-28s %2.0f photos: IoU %.2f, worst %.2f (%s); box keeps 97 %% and is at most 1.3 times the piece's in %.0f; sure %d, of which %d hold 97 %% (worst %.3f %s)",
		what, c.n, c.iou/c.n, c.worst, c.worstOf, c.good, c.sure, c.held, c.sureWorst, c.sureWorstName)
}

// How well the piece is found in real photos that the net never saw, file by
// file, and what of that is called sure. What is called sure may not be wrong.
func TestQualitySightings(t *testing.T) {
	kinds := map[string]*tally{}
	all := &tally{}
	for _, k := range phototest.Truths(t) {
		s := Find(phototest.Read(t, k.Path, 768))
		iou, kept, times := k.Against(func(x, y float64) bool { return s.Mask[int(y*Side)*Side+int(x*Side)] != 0 }, s.Box)
		sure := s.Certainty >= surely
		if kinds[k.Kind] == nil {
			kinds[k.Kind] = &tally{}
		}
		kinds[k.Kind].add(k, iou, kept, times, sure)
		all.add(k, iou, kept, times, sure)
		t.Logf("%-34s %-8s IoU %.2f  box keeps %.3f, %5.2f times the piece's  certainty %.2f", k.Name, k.Kind, iou, kept, times, s.Certainty)
	}
	kinds["plain"].log(t, "furniture, plain ground")
	kinds["busy"].log(t, "furniture, busy")
	kinds["many"].log(t, "many pieces")
	kinds["surface"].log(t, "wood and nothing else")
	kinds["other"].log(t, "animals, cars, figures")
	all.log(t, "all")
	if all.sure < 16 || float64(all.held) < 0.98*float64(all.sure) {
		t.Errorf("sure in %d photos, of which %d hold 97 %% of the piece; want 16, and 98 %% of them", all.sure, all.held)
	}
	if kinds["surface"].sure+kinds["many"].sure > 0 {
		t.Error("sure of one piece where there is none, or many")
	}
	if c := kinds["plain"]; c.iou/c.n < 0.8 {
		t.Errorf("plain grounds: IoU %.2f, want 0.8", c.iou/c.n)
	}
	if c := kinds["busy"]; c.iou/c.n < 0.68 {
		t.Errorf("busy scenes: IoU %.2f, want 0.68", c.iou/c.n)
	}
}
