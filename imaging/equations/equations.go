// Package equations solves small systems of linear equations, to the same bits
// on every machine.
package equations

import "math"

// least is the smallest pivot that counts: below it an equation is a sum of the
// others but for rounding.
const least = 1e-12

// Solve solves a system of n equations, each a row of n coefficients and its right
// side, by elimination with row pivots (Golub and Van Loan, Matrix Computations,
// section 3.4; from memory). ok is false where the equations do not settle every
// unknown; those that they do not settle are 0 then. The rows are used up.
func Solve(rows [][]float64) (x []float64, ok bool) {
	n := len(rows)
	ok = true
	for i := range n {
		p := i
		for k := i + 1; k < n; k++ {
			if math.Abs(rows[k][i]) > math.Abs(rows[p][i]) {
				p = k
			}
		}
		rows[i], rows[p] = rows[p], rows[i]
		if math.Abs(rows[i][i]) < least {
			ok = false
			continue
		}
		for k := i + 1; k < n; k++ {
			f := rows[k][i] / rows[i][i]
			for j := i; j <= n; j++ {
				rows[k][j] -= float64(f * rows[i][j])
			}
		}
	}
	x = make([]float64, n)
	for i := n - 1; i >= 0; i-- {
		if math.Abs(rows[i][i]) < least {
			continue
		}
		x[i] = rows[i][n]
		for j := i + 1; j < n; j++ {
			x[i] -= float64(rows[i][j] * x[j])
		}
		x[i] /= rows[i][i]
	}
	return x, ok
}
