package imaging

import (
	"os"
	"testing"

	"slabfolio/imaging/internal/phototest"
)

// TestQualityShown holds what a photo says of how much of its piece it shows to
// the truth, over all real photos whose subject is known: the whole of it where
// it stays clear of every edge of the photo, and a part where it does not.
func TestQualityShown(t *testing.T) {
	count := map[Extent]int{}
	word := map[Extent]string{Unsaid: "not known", AllOfIt: "all of it", PartOfIt: "a part"}
	const n = phototest.TruthSide
	for _, k := range phototest.Truths(t) {
		data, err := os.ReadFile(k.Path)
		if err != nil {
			t.Fatal(err)
		}
		p, err := Open(Request{Data: data}, &Options{NoMaster: true})
		if err != nil {
			t.Fatal(err)
		}
		most := 0.0
		var side [4]float64
		for i := range n {
			for s, at := range [4]int{i * n, i, i*n + n - 1, (n-1)*n + i} {
				if k.Is[at] {
					side[s] += 1.0 / n
					most = max(most, side[s])
				}
			}
		}
		shown := p.Shown()
		count[shown]++
		t.Logf("%-34s %-7s %-9s takes up %.2f of a side at most", k.Name, k.Kind, word[shown], most)
		if shown == AllOfIt && most > 0 || shown == PartOfIt && most < 0.05 {
			t.Errorf("%s: %s, and the truth takes up %.2f of a side", k.Name, word[shown], most)
		}
		p.Close()
	}
	t.Logf("all of it %d, a part %d, not known %d", count[AllOfIt], count[PartOfIt], count[Unsaid])
	if count[AllOfIt] < 10 || count[PartOfIt] < 2 {
		t.Error("too few are told")
	}
}
