package scene

import (
	"math"
	"testing"
)

// The tree must find what trying every triangle finds.
func TestTreeFindsTheNearest(t *testing.T) {
	k := 0
	num := func() float64 { k++; return unit1(k, 5)*200 - 100 }
	vec := func() Vec { return Vec{num(), num(), num()} }
	var m mesh
	for range 400 {
		a := vec()
		m.tri(a, a.add(vec().mul(0.3)), a.add(vec().mul(0.3)))
	}
	all := append(mesh{}, m...)
	tree := newBVH(m)
	met := 0
	for range 2000 {
		o := vec().mul(2)
		d := vec().sub(o).unit()
		best := math.Inf(1)
		for i := range all {
			if s, _, _, ok := all[i].cross(o, d, best); ok {
				best = s
			}
		}
		s, tri, _, _ := tree.hit(o, d, math.Inf(1), false)
		if (tri >= 0) != !math.IsInf(best, 1) || tri >= 0 && s != best {
			t.Fatalf("from %v along %v: tree says %v, every triangle %v", o, d, s, best)
		}
		if _, any, _, _ := tree.hit(o, d, math.Inf(1), true); (any >= 0) != (tri >= 0) {
			t.Fatalf("from %v along %v: shadow ray disagrees", o, d)
		}
		if tri >= 0 {
			met++
		}
	}
	if met < 300 || met > 1900 {
		t.Errorf("%d of 2000 rays met something: no test of both cases", met)
	}
}

// A slab's mesh must be closed: every ray that enters it leaves it again.
func TestSlabMeshIsClosed(t *testing.T) {
	s := Slab{Outline: Widths(900, []float64{300, 340, 310}, 5, 2), Thickness: 45, Log: Log{Wood: Elm, Seed: 1}, LiveNear: 14, LiveFar: 12}
	var all mesh
	for _, o := range s.Objects() {
		all = append(all, o.mesh...)
	}
	for i := range 3000 {
		o := Vec{450, 170, 22}.add(Vec{unit1(i, 1) - 0.5, unit1(i, 2) - 0.5, unit1(i, 3) - 0.5}.unit().mul(2000))
		at := Vec{900 * unit1(i, 4), 60 + 220*unit1(i, 5), 45 * unit1(i, 6)}
		d := at.sub(o).unit()
		crossings := 0
		for k := range all {
			if _, _, _, ok := all[k].cross(o, d, math.Inf(1)); ok {
				crossings++
			}
		}
		if crossings%2 != 0 || crossings == 0 {
			t.Fatalf("a ray through %v crosses the slab %d times", at, crossings)
		}
	}
}

func TestBackdropIsSeamless(t *testing.T) {
	b := Backdrop{Bend: 900, Radius: 700}
	eye := Vec{0, -2000, 1200}
	last := math.NaN()
	for i := range 400 { // sweep the gaze from the floor up the wall
		a := -0.9 + 1.2*float64(i)/400
		dist, n, ok := b.hit(eye, Vec{0, math.Cos(a), math.Sin(a)})
		if !ok {
			t.Fatalf("at %v rad there is no backdrop", a)
		}
		if math.Abs(n.len()-1) > 1e-9 || n.Z < 0 || n.Y > 0 {
			t.Fatalf("at %v rad the normal is %v", a, n)
		}
		if !math.IsNaN(last) && math.Abs(dist-last) > 30 {
			t.Fatalf("at %v rad the distance jumps from %v to %v", a, last, dist)
		}
		last = dist
	}
}
