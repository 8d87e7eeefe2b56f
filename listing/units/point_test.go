package units

import "testing"

// A point needs a figure on one side of it at least; a second point belongs to no
// number.
func TestPointsOfNumbers(t *testing.T) {
	for _, c := range []struct {
		whole, behind string
		n             float64
		ok            bool
	}{{"12", "", 12, true}, {"", "5", 0.5, true}, {"12", "50", 12.5, true}, {"", "", 0, false}, {"1", "2.3", 0, false}} {
		n, _, fault := decimal(c.whole, c.behind)
		if (fault.problem == "") != c.ok || n != c.n {
			t.Errorf("%q, point, %q is %v (%q), want %v", c.whole, c.behind, n, fault.problem, c.n)
		}
	}
}
