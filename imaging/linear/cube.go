package linear

import (
	"math"

	"slabfolio/imaging/colour"
)

// The numbers of nodes to a side that a cube may have: nodes of profiles' own
// tables of 9, 17 and 33 fall on nodes of both.
const (
	fewNodes  = 33
	manyNodes = 65
)

// A cube is a table over RGB device space of sRGB code values, not clipped,
// 1 = 65536, in which rows are looked up by tetrahedral interpolation.
type cube struct {
	n    int
	node [][3]int32
}

// newCube fills a table from the engine: the larger one where the smaller leaves
// the engine by more than a third of ΔE00 somewhere between its nodes, as it does
// under steep curves.
func newCube(p *profile) *cube {
	c := fillCube(p, fewNodes)
	if c.error(p) > 0.33 {
		c = fillCube(p, manyNodes)
	}
	return c
}

func fillCube(p *profile, n int) *cube {
	c := &cube{n, make([][3]int32, n*n*n)}
	u := 1 / float64(n-1)
	i := 0
	for r := range n {
		for g := range n {
			for b := range n {
				c.node[i] = codes(p.code([4]float64{float64(r) * u, float64(g) * u, float64(b) * u}))
				i++
			}
		}
	}
	return c
}

// error is the largest ΔE00 between table and engine at colours off the nodes,
// clipped to sRGB.
func (c *cube) error(p *profile) float64 {
	worst := 0.0
	for i := range 1000 {
		// A lattice that meets no node: steps of an irrational kind.
		in := [4]float64{frac(0.5 + float64(i)*0.8191725134), frac(0.5 + float64(i)*0.6710436067), frac(0.5 + float64(i)*0.5497004779)}
		at := func(v float64) uint32 { return uint32(v * float64(c.n-1) * 65536) }
		got := tetra(c.node, c.n, at(in[0]), at(in[1]), at(in[2]))
		want := p.to(in)
		var a, b [3]float64
		for k := range 3 {
			a[k] = colour.Decode(float64(min(max(got[k], 0), 65536)) / 65536)
			b[k] = min(max(want[k], 0), 1)
		}
		worst = max(worst, colour.DeltaE2000(colour.LinearToLab(a[0], a[1], a[2]), colour.LinearToLab(b[0], b[1], b[2])))
	}
	return worst
}

func frac(v float64) float64 { return v - math.Floor(v) }

func codes(v [3]float64) [3]int32 {
	var out [3]int32
	for i := range out {
		out[i] = int32(math.Round(min(max(v[i], -4), 4) * 65536))
	}
	return out
}

// decode17 takes code values (1 = 65536, beyond is clipped) to 16-bit linear.
var decode17 = tableOnce(65537, func(i int) uint16 { return colour.Scale16(colour.Decode(float64(i) / 65536)) })

// rows returns the row transform.
func (c *cube) rows(s deviceScale) func([]uint16) {
	n := c.n
	lin := decode17()
	// pos is the place of each device value: node<<16 + fraction of 65536.
	pos := make([]uint32, s.size())
	for i := range pos {
		pos[i] = uint32(math.Round(float64(min(i, int(s))) / float64(s) * float64(n-1) * 65536))
	}
	mask := uint16(len(pos) - 1)
	return func(row []uint16) {
		for ; len(row) >= 3; row = row[3:] {
			d := row[:3:3]
			r, g, b := pos[d[0]&mask], pos[d[1]&mask], pos[d[2]&mask]
			v := tetra(c.node, n, r, g, b)
			d[0], d[1], d[2] = clipCode(lin, v[0]), clipCode(lin, v[1]), clipCode(lin, v[2])
		}
	}
}

func clipCode(lin []uint16, v int64) uint16 {
	return lin[min(max(v, 0), 65536)]
}

// tetra interpolates in a cube of n nodes a side between the four corners of the
// tetrahedron in which the point lies. Places are node<<16 + fraction.
func tetra(node [][3]int32, n int, r, g, b uint32) [3]int64 {
	ir, ig, ib := int(r>>16), int(g>>16), int(b>>16)
	fr, fg, fb := int64(r&65535), int64(g&65535), int64(b&65535)
	base := (ir*n+ig)*n + ib
	// Steps to the next node; none at the far side, where the fraction is 0.
	sr, sg, sb := n*n, n, 1
	if ir == n-1 {
		sr = 0
	}
	if ig == n-1 {
		sg = 0
	}
	if ib == n-1 {
		sb = 0
	}
	// Walk from corner 000 to 111, the longest fraction first.
	var p1, p2 int
	var f1, f2, f3 int64
	switch {
	case fr >= fg && fg >= fb:
		p1, p2, f1, f2, f3 = sr, sr+sg, fr, fg, fb
	case fr >= fb && fb >= fg:
		p1, p2, f1, f2, f3 = sr, sr+sb, fr, fb, fg
	case fb >= fr && fr >= fg:
		p1, p2, f1, f2, f3 = sb, sb+sr, fb, fr, fg
	case fg >= fr && fr >= fb:
		p1, p2, f1, f2, f3 = sg, sg+sr, fg, fr, fb
	case fg >= fb && fb >= fr:
		p1, p2, f1, f2, f3 = sg, sg+sb, fg, fb, fr
	default:
		p1, p2, f1, f2, f3 = sb, sb+sg, fb, fg, fr
	}
	v0, v1, v2, v3 := &node[base], &node[base+p1], &node[base+p2], &node[base+sr+sg+sb]
	w0, w1, w2, w3 := 65536-f1, f1-f2, f2-f3, f3
	var out [3]int64
	for i := range out {
		out[i] = (int64(v0[i])*w0 + int64(v1[i])*w1 + int64(v2[i])*w2 + int64(v3[i])*w3 + 1<<15) >> 16
	}
	return out
}
