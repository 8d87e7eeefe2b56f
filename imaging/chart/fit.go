package chart

import (
	"cmp"
	_ "embed"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/equations"
	"slabfolio/imaging/pixel"
)

//go:embed patches.csv
var patchesCSV string

// published are the patches in linear sRGB and in L*a*b*.
var published = sync.OnceValue(func() (p struct {
	lab    [24]colour.Lab
	linear [24][3]float64
}) {
	k := 0
	for line := range strings.Lines(patchesCSV) {
		f := strings.Split(strings.TrimSpace(line), ",")
		if len(f) != 5 || f[0] == "patch" || k == 24 {
			continue
		}
		for i, v := range [3]*float64{&p.lab[k].L, &p.lab[k].A, &p.lab[k].B} {
			fmt.Sscan(f[2+i], v)
		}
		r, g, b := p.lab[k].Linear()
		p.linear[k] = [3]float64{r, g, b}
		k++
	}
	return p
})

// measuredAt measures the patches of a chart that lies in a way and fits its matrix; nil
// where patches are covered or not even.
func measuredAt(m *pixel.Image, w placing, to plane) *Chart {
	var seen [24][3]float64
	var counts [24]bool
	n, odd := 0, 0
	for k, at := range w.at {
		v, uneven, clipped, ok := patch(m, to, at)
		if !ok {
			return nil
		}
		seen[k] = v
		switch {
		case uneven > mostUneven:
			odd++
		case !clipped:
			counts[k] = true
			n++
		}
	}
	if n < leastCount || odd > mostOdd {
		return nil
	}
	fit, ok := fitted(&seen, &counts, -1)
	if !ok {
		return nil
	}
	c := &Chart{Patches: n}
	for k, at := range [4]cell{w.at[0], w.at[5], w.at[23], w.at[18]} {
		p := to.apply(float64(at.i), float64(at.j))
		c.Corners[k] = pixel.Point{X: p[0] / float64(m.W), Y: p[1] / float64(m.H)}
	}
	one := colour.Matrix{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}
	c.Before, _ = patchDifferences(&seen, &counts, one)
	c.After, c.Worst = patchDifferences(&seen, &counts, fit)
	for k := range seen {
		if counts[k] {
			if other, ok := fitted(&seen, &counts, k); ok {
				c.Held += difference(seen[k], k, other, 1) / float64(n)
			}
		}
	}
	c.Matrix = keepingGrey(fit, &seen, &counts)
	return c
}

// patch is the mean linear colour of the middle of a patch, how uneven it is and
// whether any of it is clipped.
func patch(m *pixel.Image, to plane, at cell) (v [3]float64, uneven float64, clipped, ok bool) {
	const half = 0.2 // of the way from patch to patch
	var sum, squares [3]float64
	n := 0.0
	const steps = 7
	for a := range steps {
		for b := range steps {
			p := to.apply(float64(at.i)+half*(2*float64(a)/(steps-1)-1), float64(at.j)+half*(2*float64(b)/(steps-1)-1))
			x, y := int(p[0]), int(p[1])
			if x < 0 || y < 0 || x >= m.W || y >= m.H {
				return v, 0, false, false
			}
			for c := range 3 {
				s := float64(m.Pix[3*(y*m.W+x)+c]) / 65535
				clipped = clipped || s > 0.985
				sum[c] += s
				squares[c] += s * s
			}
			n++
		}
	}
	for c := range 3 {
		v[c] = sum[c] / n
		uneven = math.Max(uneven, math.Sqrt(math.Max(squares[c]/n-v[c]*v[c], 0))/(v[c]+0.03))
	}
	return v, uneven, clipped, true
}

// fitted is the matrix that takes what is seen to what is published, by least
// squares weighed by the slope of L* (Y^-2/3, CIE 15), so that dark patches count
// as the eye counts them. One patch may be left out.
func fitted(seen *[24][3]float64, counts *[24]bool, without int) (colour.Matrix, bool) {
	var ata [3][3]float64
	var atb [3][3]float64 // by row of the matrix
	want := published()
	for k := range seen {
		if !counts[k] || k == without {
			continue
		}
		weight := math.Pow(luma(want.linear[k])+0.01, -4.0/3)
		for i := range 3 {
			for j := range 3 {
				ata[i][j] += weight * seen[k][i] * seen[k][j]
				atb[i][j] += weight * want.linear[k][i] * seen[k][j]
			}
		}
	}
	var out colour.Matrix
	for i := range 3 {
		row, ok := equations.Solve([][]float64{
			{ata[0][0], ata[0][1], ata[0][2], atb[i][0]},
			{ata[1][0], ata[1][1], ata[1][2], atb[i][1]},
			{ata[2][0], ata[2][1], ata[2][2], atb[i][2]},
		})
		if !ok {
			return out, false
		}
		out[i] = [3]float64{row[0], row[1], row[2]}
	}
	return out, true
}

func luma(v [3]float64) float64 { return 0.2126*v[0] + 0.7152*v[1] + 0.0722*v[2] }

// patchDifferences is the mean and the largest difference over the patches, the exposure
// put right first: the chart says nothing of what it ought to be.
func patchDifferences(seen *[24][3]float64, counts *[24]bool, m colour.Matrix) (mean, worst float64) {
	var num, den, n float64
	want := published()
	for k := range seen {
		if counts[k] {
			w := math.Pow(luma(want.linear[k])+0.01, -4.0/3)
			a, b := luma(m.Apply(seen[k])), luma(want.linear[k])
			num, den = num+w*a*b, den+w*a*a
		}
	}
	for k := range seen {
		if counts[k] {
			d := difference(seen[k], k, m, num/math.Max(den, 1e-12))
			mean, worst, n = mean+d, math.Max(worst, d), n+1
		}
	}
	return mean / math.Max(n, 1), worst
}

func difference(seen [3]float64, k int, m colour.Matrix, scale float64) float64 {
	v := m.Apply(seen)
	return colour.DeltaE2000(colour.LinearToLab(scale*v[0], scale*v[1], scale*v[2]), published().lab[k])
}

// keepingGrey scales a matrix so that the greys of the chart keep their light.
func keepingGrey(m colour.Matrix, seen *[24][3]float64, counts *[24]bool) colour.Matrix {
	var before, after float64
	for k := 18; k < 24; k++ {
		if counts[k] {
			before, after = before+luma(seen[k]), after+luma(m.Apply(seen[k]))
		}
	}
	if after <= 0 {
		return m
	}
	for i := range 3 {
		for j := range 3 {
			m[i][j] *= before / after
		}
	}
	return m
}

// A plane is a projective map from cells of a grid to pixels.
type plane [8]float64

func (p plane) apply(i, j float64) [2]float64 {
	d := p[6]*i + p[7]*j + 1
	return [2]float64{(p[0]*i + p[1]*j + p[2]) / d, (p[3]*i + p[4]*j + p[5]) / d}
}

// mapOf fits the map of a grid of fields, without those that stand off it: what
// lies beside a chart may look like a patch.
func mapOf(g map[cell]int, all []field) (plane, bool) {
	for len(g) >= leastSeen {
		p, ok := fittedMap(g, all)
		if !ok {
			return p, false
		}
		off, at := 0.3, cell{}
		for c, i := range g {
			f, q := all[i], p.apply(float64(c.i), float64(c.j))
			if d := math.Hypot(q[0]-f.x, q[1]-f.y) / f.size; d > off || d == off && cmp.Or(c.i-at.i, c.j-at.j) < 0 {
				off, at = d, c
			}
		}
		if off == 0.3 {
			return p, true
		}
		delete(g, at)
	}
	return plane{}, false
}

// fittedMap is the map of a grid by least squares.
func fittedMap(g map[cell]int, all []field) (p plane, ok bool) {
	n := 8
	a := make([][]float64, n)
	for i := range a {
		a[i] = make([]float64, n+1)
	}
	add := func(row [9]float64) {
		for i := range n {
			for j := range n + 1 {
				a[i][j] += row[i] * row[j]
			}
		}
	}
	cells := make([]cell, 0, len(g))
	for c := range g {
		cells = append(cells, c)
	}
	slices.SortFunc(cells, func(a, b cell) int { return cmp.Or(a.i-b.i, a.j-b.j) })
	for _, c := range cells {
		i, j, f := float64(c.i), float64(c.j), all[g[c]]
		add([9]float64{i, j, 1, 0, 0, 0, -i * f.x, -j * f.x, f.x})
		add([9]float64{0, 0, 0, i, j, 1, -i * f.y, -j * f.y, f.y})
	}
	x, ok := equations.Solve(a)
	if !ok {
		return p, false
	}
	return plane(x), true
}
