package figure

import (
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %v, want %v within %v", what, got, want, tol)
	}
}

func TestSharedCausesAddStraightOthersByRootSumSquare(t *testing.T) {
	a, b := PlusMinus(10, 3, "slab"), PlusMinus(20, 4, "slab")
	low, high := a.Plus(b).Range()
	near(t, "shared low", low, 23, 1e-12)
	near(t, "shared high", high, 37, 1e-12)
	low, high = a.Plus(PlusMinus(20, 4, "base")).Range()
	near(t, "independent low", low, 25, 1e-12)
	near(t, "independent high", high, 35, 1e-12)
}

func TestWhatTwoPartsSwapCancels(t *testing.T) {
	share := PlusMinus(0.2, 0.05, "share")
	resin := share.Scale(100)
	rest := Sure(1).Minus(share).Scale(100)
	low, high := resin.Plus(rest).Range()
	near(t, "low", low, 100, 1e-12)
	near(t, "high", high, 100, 1e-12)
}

func TestProductAndQuotientToFirstOrder(t *testing.T) {
	// Relative doubts of independent factors add by root sum square.
	p := PlusMinus(2, 0.02, "a").Times(PlusMinus(5, 0.1, "b"))
	_, high := p.Range()
	near(t, "product", high-10, 10*math.Hypot(0.01, 0.02), 1e-12)
	q := PlusMinus(10, 0.1, "a").Over(PlusMinus(5, 0.1, "b"))
	low, _ := q.Range()
	near(t, "quotient", 2-low, 2*math.Hypot(0.01, 0.02), 1e-12)
	same := PlusMinus(10, 1, "a")
	low, high = same.Over(same).Range()
	near(t, "a/a low", low, 1, 1e-12)
	near(t, "a/a high", high, 1, 1e-12)
}

func TestLopsidedDoubtKeepsItsSides(t *testing.T) {
	d := Within(8800, 7400, 8900, "bronze").Minus(Sure(0))
	low, high := d.Range()
	near(t, "low", low, 7400, 1e-9)
	near(t, "high", high, 8900, 1e-9)
	low, high = Sure(10000).Minus(d).Range()
	near(t, "mirrored low", low, 1100, 1e-9)
	near(t, "mirrored high", high, 2600, 1e-9)
}

func TestFigureIsOrderedAndNeverNegative(t *testing.T) {
	f := PlusMinus(1, 5, "x").Figure("kg", "rule", "source")
	if f.Low != 0 || f.Value != 1 || f.High != 6 {
		t.Errorf("got %+v", f)
	}
}

func TestLargestNamesTheCauseThatMovesMost(t *testing.T) {
	d := PlusMinus(1, 1, "a").Plus(PlusMinus(1, 3, "b")).Plus(PlusMinus(1, 2, "c"))
	if got := d.Largest(2); len(got) != 2 || got[0] != "b" || got[1] != "c" {
		t.Errorf("Largest(2) = %v", got)
	}
}

// The largest causes come first, by the farther of their two edges.
func TestLargestByTheFartherEdge(t *testing.T) {
	d := Within(10, 9, 11, "even").Plus(Within(0, -5, 0.1, "down")).Plus(Within(0, -0.2, 3, "up"))
	if got := d.Largest(3); len(got) != 3 || got[0] != "down" || got[1] != "up" || got[2] != "even" {
		t.Errorf("%v, want down, up, even", got)
	}
	if got := d.Largest(1); len(got) != 1 || got[0] != "down" {
		t.Errorf("%v, want down alone", got)
	}
}
