package chart

import (
	"math"
	"slices"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/pixel"
	"slabfolio/imaging/spare"
)

// A field is a patch of even colour in a photo.
type field struct {
	x, y float64 // its middle
	size float64 // square root of its area
}

// Limits of the search.
const (
	leastSide  = 5.0 // pixels of a patch
	mostShare  = 0.2 // of the photo's shorter side that a patch's side may be
	leastSeen  = 15  // patches of 24 that have to be found by themselves
	mostSeeds  = 160
	mostUneven = 0.16 // of a patch's own light: what is less even is covered, or no patch
)

// roughness is how far the neighbours of each pixel stand off its colour at most, in
// the sRGB code that the eye judges by; 255 at the photo's edge.
func roughness(m *pixel.Image) []uint8 {
	enc := colour.EncodeTable()
	w := m.W
	code := spare.Take[uint8](len(m.Pix))
	defer spare.Give(code)
	for i, v := range m.Pix {
		code[i] = enc[v]
	}
	out := make([]uint8, w*m.H)
	for i := range out {
		out[i] = 255
	}
	if w < 3 {
		return out
	}
	n := 3 * (w - 2) // values between the ends of a row
	for y := 1; y < m.H-1; y++ {
		i := 3 * (y*w + 1)
		at, left, right := code[i:][:n], code[i-3:][:n], code[i+3:][:n]
		above, below := code[i-3*w:][:n], code[i+3*w:][:n]
		most := 0
		to := out[y*w+1:][:w-2]
		for k, c := range at {
			v := int(c)
			most = max(most, abs(v-int(left[k])), abs(v-int(right[k])), abs(v-int(above[k])), abs(v-int(below[k])))
			if k%3 == 2 {
				to[k/3], most = uint8(most), 0
			}
		}
	}
	return out
}

func abs(v int) int { return max(v, -v) }

// fields are the calm places of about square form: those whose roughness is limit or
// less.
func fields(m *pixel.Image, rough []uint8, limit uint8) (all []field) {
	seen := make([]bool, len(rough))
	most := mostShare * float64(min(m.W, m.H))
	var stack []int
	for start, v := range rough {
		if v > limit || seen[start] {
			continue
		}
		stack, seen[start] = append(stack[:0], start), true
		var n, sx, sy, sxx, syy, sxy float64
		for len(stack) > 0 {
			i := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			x, y := float64(i%m.W), float64(i/m.W)
			n, sx, sy, sxx, syy, sxy = n+1, sx+x, sy+y, sxx+x*x, syy+y*y, sxy+x*y
			for _, d := range [4]int{1, -1, m.W, -m.W} {
				if k := i + d; rough[k] <= limit && !seen[k] {
					seen[k] = true
					stack = append(stack, k)
				}
			}
		}
		f := field{sx/n + 0.5, sy/n + 0.5, math.Sqrt(n)}
		if f.size < leastSide || f.size > most {
			continue
		}
		// A filled rectangle of sides a, b has the variances a²/12 and b²/12 along
		// its axes, so that 12·√(their product) is its area.
		vx, vy, vxy := sxx/n-sx/n*sx/n, syy/n-sy/n*sy/n, sxy/n-sx/n*sy/n
		det := vx*vy - vxy*vxy
		mean, half := (vx+vy)/2, math.Hypot((vx-vy)/2, vxy)
		if det <= 0 || n < 0.75*12*math.Sqrt(det) || mean+half > 4*(mean-half) {
			continue
		}
		all = append(all, f)
	}
	return all
}

// A cell is a place of a grid of fields.
type cell struct{ i, j int }

// gridFrom is the grid that grows from a field along two steps: each neighbour is
// looked for where those found before it foretell it.
func gridFrom(all []field, seed int, u, v [2]float64) map[cell]int {
	grid := map[cell]int{{0, 0}: seed}
	used := map[int]bool{seed: true}
	todo := []cell{{0, 0}}
	for len(todo) > 0 {
		c := todo[0]
		todo = todo[1:]
		from := all[grid[c]]
		for k, d := range [4]cell{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			next := cell{c.i + d.i, c.j + d.j}
			if _, done := grid[next]; done || abs(next.i) > 6 || abs(next.j) > 6 {
				continue
			}
			step := u
			if k > 1 {
				step = v
			}
			s := float64(d.i + d.j)
			x, y := from.x+s*step[0], from.y+s*step[1]
			if before, ok := grid[cell{c.i - d.i, c.j - d.j}]; ok {
				x, y = 2*from.x-all[before].x, 2*from.y-all[before].y
			}
			if at := near(all, used, x, y, 0.28*math.Hypot(step[0], step[1]), from.size); at >= 0 {
				grid[next], used[at] = at, true
				todo = append(todo, next)
			}
		}
	}
	return grid
}

// near is the field nearest a place that is about as large as size, or -1.
func near(all []field, used map[int]bool, x, y, within, size float64) int {
	at := -1
	for i, f := range all {
		if d := math.Hypot(f.x-x, f.y-y); d < within && !used[i] && f.size > 0.55*size && f.size < 1.8*size {
			at, within = i, d
		}
	}
	return at
}

// neighbours are steps from a field to those beside it, nearest first.
func neighbours(all []field, seed int) (steps [][2]float64) {
	s := all[seed]
	for i, f := range all {
		d := math.Hypot(f.x-s.x, f.y-s.y)
		if i != seed && d > 0.9*s.size && d < 2.4*s.size && f.size > 0.6*s.size && f.size < 1.7*s.size {
			steps = append(steps, [2]float64{f.x - s.x, f.y - s.y})
		}
	}
	slices.SortStableFunc(steps, func(a, b [2]float64) int {
		switch x, y := math.Hypot(a[0], a[1]), math.Hypot(b[0], b[1]); {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	return steps[:min(len(steps), 5)]
}

// grids are the grids of fields in a photo, those of most fields first.
func grids(all []field) (found []map[cell]int) {
	step := max(len(all)/mostSeeds, 1)
	for seed := 0; seed < len(all); seed += step {
		near := neighbours(all, seed)
		for a := range near {
			for b := range near[:a] {
				u, v := near[b], near[a]
				lu, lv := math.Hypot(u[0], u[1]), math.Hypot(v[0], v[1])
				cross := u[0]*v[1] - u[1]*v[0]
				if math.Abs(cross) < 0.75*lu*lv || lv > 1.5*lu {
					continue
				}
				if cross < 0 { // v clockwise of u, as y is of x in a photo
					u, v = v, u
				}
				if g := gridFrom(all, seed, u, v); len(g) >= leastSeen {
					found = append(found, g)
				}
			}
		}
	}
	slices.SortStableFunc(found, func(a, b map[cell]int) int { return len(b) - len(a) })
	return found[:min(len(found), 8)]
}
