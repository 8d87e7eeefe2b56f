package colour

import "math"

// cubeNodes is the number of nodes to a side of a cube, so that the nodes of
// profiles' own tables of 9, 17 and 33 fall on nodes of ours.
const cubeNodes = 33

// A cube is a table over RGB device space of sRGB code values, not clipped,
// 1 = 65536, in which rows are looked up by tetrahedral interpolation.
type cube struct{ node [][3]int32 }

// newCube fills the table from the engine.
func newCube(p *profile) *cube {
	const n = cubeNodes
	c := &cube{node: make([][3]int32, n*n*n)}
	i := 0
	for r := range n {
		for g := range n {
			for b := range n {
				v := p.code([4]float64{float64(r) / (n - 1), float64(g) / (n - 1), float64(b) / (n - 1)})
				c.node[i] = codes(v)
				i++
			}
		}
	}
	return c
}

func codes(v [3]float64) [3]int32 {
	var out [3]int32
	for i := range out {
		out[i] = int32(math.Round(min(max(v[i], -4), 4) * 65536))
	}
	return out
}

// decode17 takes code values (1 = 65536, beyond is clipped) to 16-bit linear.
var decode17 = tableOnce(65537, func(i int) uint16 { return scale16(Decode(float64(i) / 65536)) })

// rows returns the row transform.
func (c *cube) rows(s deviceScale) func([]uint16) {
	const n = cubeNodes
	lin := decode17()
	// pos is the place of each device value: node<<16 + fraction of 65536.
	pos := make([]uint32, s.size())
	for i := range pos {
		pos[i] = uint32(math.Round(float64(min(i, int(s))) / float64(s) * (n - 1) * 65536))
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
