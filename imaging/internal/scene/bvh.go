package scene

import (
	"cmp"
	"math"
	"slices"
)

// A triangle of the scene, in world coordinates.
type triangle struct {
	a, e1, e2  Vec // a corner and the two edges from it
	n          Vec // geometric normal
	na, nb, nc Vec // corner normals
	object     int32
}

// A node of the tree of bounding boxes; leaves hold triangles [first, first+count).
type node struct {
	lo, hi       Vec
	left, right  int32
	first, count int32
}

// bvh finds the nearest triangle along a ray.
type bvh struct {
	tris  []triangle
	nodes []node
}

// item stands for a triangle while the tree is built.
type item struct {
	lo, hi, mid Vec
	at          int32 // index of the triangle
}

func newItem(t *triangle, at int) *item {
	b, c := t.a.add(t.e1), t.a.add(t.e2)
	return &item{
		lo:  Vec{min(t.a.X, b.X, c.X), min(t.a.Y, b.Y, c.Y), min(t.a.Z, b.Z, c.Z)},
		hi:  Vec{max(t.a.X, b.X, c.X), max(t.a.Y, b.Y, c.Y), max(t.a.Z, b.Z, c.Z)},
		mid: t.a.add(b).add(c), at: int32(at)}
}

// join widens a box by an item.
func (i *item) join(lo, hi Vec) (Vec, Vec) {
	return Vec{min(lo.X, i.lo.X), min(lo.Y, i.lo.Y), min(lo.Z, i.lo.Z)}, Vec{max(hi.X, i.hi.X), max(hi.Y, i.hi.Y), max(hi.Z, i.hi.Z)}
}

func newBVH(tris []triangle) *bvh {
	t := &bvh{}
	if len(tris) == 0 {
		return t
	}
	items := make([]*item, len(tris))
	for i := range tris {
		items[i] = newItem(&tris[i], i)
	}
	t.split(items, 0)
	t.tris = make([]triangle, len(tris))
	for i, it := range items {
		t.tris[i] = tris[it.at]
	}
	return t
}

// split builds the node over items, which begin at place from of the tree's
// triangles, and returns its index. It puts the items in order.
func (t *bvh) split(items []*item, from int) int32 {
	lo, hi := items[0].lo, items[0].hi
	for _, it := range items {
		lo, hi = it.join(lo, hi)
	}
	at := int32(len(t.nodes))
	t.nodes = append(t.nodes, node{lo: lo, hi: hi, first: int32(from), count: int32(len(items))})
	if len(items) <= 4 {
		return at
	}
	left := cheapest(items)
	l := t.split(items[:left], from)
	r := t.split(items[left:], from+left)
	t.nodes[at].left, t.nodes[at].right, t.nodes[at].count = l, r, 0
	return at
}

// cheapest sorts items along the axis, and returns how many of them go left,
// where the two boxes' areas weighed by their triangles come out smallest: the
// surface area heuristic of Goldsmith and Salmon (1987).
func cheapest(items []*item) int {
	best, bestAxis, at := math.Inf(1), 0, len(items)/2
	area := make([]float64, len(items))
	for axis := range 3 {
		along(items, axis)
		lo, hi := items[0].lo, items[0].hi
		for i, it := range items {
			lo, hi = it.join(lo, hi)
			area[i] = half(lo, hi) * float64(i+1)
		}
		last := items[len(items)-1]
		lo, hi = last.lo, last.hi
		for i := len(items) - 1; i > 0; i-- {
			lo, hi = items[i].join(lo, hi)
			if c := area[i-1] + half(lo, hi)*float64(len(items)-i); c < best {
				best, bestAxis, at = c, axis, i
			}
		}
	}
	along(items, bestAxis)
	return at
}

// along sorts items by their middles, and equal ones as they came.
func along(items []*item, axis int) {
	slices.SortFunc(items, func(p, q *item) int {
		return cmp.Or(cmp.Compare(p.mid.axis(axis), q.mid.axis(axis)), cmp.Compare(p.at, q.at))
	})
}

// half is half the surface of a box.
func half(lo, hi Vec) float64 {
	d := hi.sub(lo)
	return d.X*d.Y + d.Y*d.Z + d.Z*d.X
}

// box returns where the ray enters the node's box, or MaxFloat64. Plain comparisons
// are several times as fast here as min and max, which look after NaN.
func (n *node) box(o, inv *Vec, far float64) float64 {
	near, end := (n.lo.X-o.X)*inv.X, (n.hi.X-o.X)*inv.X
	if near > end {
		near, end = end, near
	}
	a, b := (n.lo.Y-o.Y)*inv.Y, (n.hi.Y-o.Y)*inv.Y
	if a > b {
		a, b = b, a
	}
	if a > near {
		near = a
	}
	if b < end {
		end = b
	}
	a, b = (n.lo.Z-o.Z)*inv.Z, (n.hi.Z-o.Z)*inv.Z
	if a > b {
		a, b = b, a
	}
	if a > near {
		near = a
	}
	if b < end {
		end = b
	}
	if end < near || end < 0 || near > far {
		return math.MaxFloat64
	}
	return near
}

// hit returns the distance to the nearest triangle within far, its index (-1
// for none) and the place on it. With any set it stops at the first one found.
func (t *bvh) hit(o, d Vec, far float64, any bool) (dist float64, tri int, u, v float64) {
	tri = -1
	if len(t.nodes) == 0 {
		return far, tri, 0, 0
	}
	inv := Vec{1 / nonzero(d.X), 1 / nonzero(d.Y), 1 / nonzero(d.Z)}
	var stack [64]int32
	var enters [64]float64 // where the ray does, in each box of the stack
	top := 0
	if enters[0] = t.nodes[0].box(&o, &inv, far); enters[0] < math.MaxFloat64 {
		top = 1
	}
	for top > 0 {
		top--
		if enters[top] > far {
			continue // something nearer was found since
		}
		n := &t.nodes[stack[top]]
		if n.count == 0 {
			l, r := t.nodes[n.left].box(&o, &inv, far), t.nodes[n.right].box(&o, &inv, far)
			first, second := n.left, n.right
			if r < l {
				l, r, first, second = r, l, second, first
			}
			if r < math.MaxFloat64 {
				stack[top], enters[top] = second, r
				top++
			}
			if l < math.MaxFloat64 {
				stack[top], enters[top] = first, l
				top++
			}
			continue
		}
		for i := n.first; i < n.first+n.count; i++ {
			if s, a, b, ok := t.tris[i].cross(o, d, far); ok {
				far, tri, u, v = s, int(i), a, b
				if any {
					return far, tri, u, v
				}
			}
		}
	}
	return far, tri, u, v
}

func nonzero(v float64) float64 {
	if v == 0 {
		return 1e-12
	}
	return v
}

// cross is the ray-triangle test of Möller and Trumbore (1997).
func (t *triangle) cross(o, d Vec, far float64) (s, u, v float64, ok bool) {
	p := d.cross(t.e2)
	det := t.e1.dot(p)
	if det > -1e-12 && det < 1e-12 {
		return 0, 0, 0, false
	}
	inv := 1 / det
	q := o.sub(t.a)
	u = q.dot(p) * inv
	if u < 0 || u > 1 {
		return 0, 0, 0, false
	}
	r := q.cross(t.e1)
	v = d.dot(r) * inv
	if v < 0 || u+v > 1 {
		return 0, 0, 0, false
	}
	s = t.e2.dot(r) * inv
	return s, u, v, s > 1e-4 && s < far
}
