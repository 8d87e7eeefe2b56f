package equations

import (
	"math"
	"testing"
)

// A Hilbert system of order 5 whose right sides are the sums of its rows has the
// solution of ones; a small one with a zero first pivot needs its rows changed
// (arithmetic by hand).
func TestSolve(t *testing.T) {
	var hilbert [][]float64
	for i := range 5 {
		row := make([]float64, 6)
		for j := range 5 {
			row[j] = 1 / float64(i+j+1)
			row[5] += row[j]
		}
		hilbert = append(hilbert, row)
	}
	for _, c := range []struct {
		name string
		rows [][]float64
		want []float64
		ok   bool
	}{
		{"Hilbert's", hilbert, []float64{1, 1, 1, 1, 1}, true},
		{"zero first", [][]float64{{0, 2, 4}, {3, 1, 5}}, []float64{1, 2}, true},
		{"twice the same", [][]float64{{1, 1, 2}, {2, 2, 4}}, []float64{2, 0}, false},
		{"second unknown nowhere", [][]float64{{2, 0, 6}, {0, 0, 0}}, []float64{3, 0}, false},
	} {
		x, ok := Solve(c.rows)
		if ok != c.ok {
			t.Errorf("%s: ok %v, want %v", c.name, ok, c.ok)
		}
		for i := range c.want {
			if math.Abs(x[i]-c.want[i]) > 1e-10 {
				t.Errorf("%s: x%d = %v, want %v", c.name, i, x[i], c.want[i])
			}
		}
	}
}
