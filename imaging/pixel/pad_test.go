package pixel

import (
	"math"
	"math/rand/v2"
	"testing"
)

// backdrop draws light falling off over a noisy wall.
func backdrop(w, h int) *Image {
	m, rng := New(w, h), rand.New(rand.NewPCG(4, 4))
	for y := range h {
		for x := range w {
			v := 30000 - 20*float64(x) - 10*float64(y) + 400*rng.NormFloat64()
			for c := range 3 {
				m.Pix[(y*w+x)*3+c] = uint16(v * (1 - 0.05*float64(c)))
			}
		}
	}
	return m
}

func TestPadCarriesTheBackdropOn(t *testing.T) {
	m := backdrop(300, 200)
	out := m.Pad(400, 420, 60, 100, nil)
	for y := range m.H {
		for x := range m.W * 3 {
			if out.Row(100 + y)[180+x] != m.Row(y)[x] {
				t.Fatal("the picture itself has changed")
			}
		}
	}
	// Just outside each edge the mean colour is that just inside, and the noise is
	// there too.
	stats := func(x, y, w, h int) (mean, dev float64) {
		n := float64(w * h)
		for j := y; j < y+h; j++ {
			for i := x; i < x+w; i++ {
				mean += float64(out.Pix[(j*out.W+i)*3]) / n
			}
		}
		for j := y; j < y+h; j++ {
			for i := x; i < x+w; i++ {
				dev += math.Pow(float64(out.Pix[(j*out.W+i)*3])-mean, 2) / n
			}
		}
		return mean, math.Sqrt(dev)
	}
	for name, b := range map[string][2][4]int{
		"left": {{50, 190, 10, 20}, {60, 190, 10, 20}}, "right": {{360, 190, 10, 20}, {350, 190, 10, 20}},
		"top": {{200, 90, 20, 10}, {200, 100, 20, 10}}, "bottom": {{200, 300, 20, 10}, {200, 290, 20, 10}},
	} {
		om, od := stats(b[0][0], b[0][1], b[0][2], b[0][3])
		im, id := stats(b[1][0], b[1][1], b[1][2], b[1][3])
		if math.Abs(om-im) > 300 || od < id/2 || od > id*2 {
			t.Errorf("%s: %.0f ± %.0f outside the edge, %.0f ± %.0f inside", name, om, od, im, id)
		}
	}
}

func TestEdgesTellWhatIsNoBackdrop(t *testing.T) {
	all := [4]bool{true, true, true, true}
	paint := func(x0, y0, x1, y1 int) *Image {
		m := backdrop(300, 200)
		for y := y0; y < y1; y++ {
			for x := x0 * 3; x < x1*3; x++ {
				m.Row(y)[x] /= 2
			}
		}
		return m
	}
	calm := backdrop(300, 200).Edges(all, nil)
	if calm.Bend > 2 || calm.Grain > 3 || calm.Slope > 2 {
		t.Errorf("a lit wall is %+v", calm)
	}
	if c := paint(0, 150, 300, 154).Edges([4]bool{true, false, true, false}, nil); c.Bend < 8 {
		t.Errorf("a skirting along it leaves the sides at %+v", c)
	}
	if c := paint(0, 150, 300, 154).Edges([4]bool{false, true, false, true}, nil); c.Bend > 2 {
		t.Errorf("above and below the skirting the wall is %+v", c)
	}
	if c := paint(0, 0, 300, 2).Edges(all, nil); c.Slope < 8 {
		t.Errorf("a frame line gives %+v", c)
	}
	if c := paint(120, 170, 140, 200).Edges(all, nil); c.Bend < 8 {
		t.Errorf("a leg at the edge gives %+v", c)
	}
	if c := paint(120, 170, 140, 200).Edges(all, func(x, y int) bool { return x >= 118 && x < 142 && y >= 168 }); c.Bend > 4 || c.Grain > 3 {
		t.Errorf("without the leg the wall is %+v", c)
	}
	rough, rng := backdrop(300, 200), rand.New(rand.NewPCG(1, 2))
	for i := range rough.Pix {
		rough.Pix[i] = uint16(float64(rough.Pix[i]) * (1 + 0.15*rng.NormFloat64()))
	}
	if c := rough.Edges(all, nil); c.Grain < 6 {
		t.Errorf("leather gives %+v", c)
	}
}

// greyRow is a row of grey pixels.
func greyRow(v uint16, n int) []uint16 {
	row := make([]uint16, 3*n)
	for i := range row {
		row[i] = v
	}
	return row
}

// A backdrop that something dark stands before gives the ground, not the mean.
func TestEdgeColourOfABackdrop(t *testing.T) {
	m := New(100, 80)
	for i := range m.Pix {
		m.Pix[i] = [3]uint16{40000, 30000, 20000}[i%3]
	}
	for y := range 40 {
		copy(m.Row(y)[150:], greyRow(2000, 50))
	}
	if c := m.EdgeColour(everyEdge, nil); c != [3]uint16{40000, 30000, 20000} {
		t.Errorf("it is %v", c)
	}
	if s := m.EdgeShare(everyEdge, nil); s < 0.7 || s > 0.8 { // 89 of 360 of the edge are dark
		t.Errorf("%.3f of the edge is of one colour, want about three quarters", s)
	}
}

// A ground takes the colour of the edges that it meets, and of no other.
func TestEdgeColourOfTheEdgesThatMeetIt(t *testing.T) {
	m := New(100, 80)
	for i := range m.Pix {
		m.Pix[i] = 40000
	}
	for y := 40; y < 80; y++ {
		copy(m.Row(y), greyRow(2000, 100))
	}
	for _, c := range []struct {
		asked [4]bool
		want  uint16
	}{{[4]bool{false, true, false, false}, 40000}, {[4]bool{false, false, false, true}, 2000}, {[4]bool{true, false, true, false}, 65535}, {everyEdge, 65535}} {
		if got := m.EdgeColour(c.asked, nil); got != [3]uint16{c.want, c.want, c.want} {
			t.Errorf("edges %v give %v, want %d", c.asked, got, c.want)
		}
	}
}

var everyEdge = [4]bool{true, true, true, true}

// The ground takes the edge's own colour, and is white where that is of many.
func TestEdgeColour(t *testing.T) {
	m := New(100, 80)
	for i := range m.Pix {
		m.Pix[i] = [3]uint16{30000, 20000, 10000}[i%3]
	}
	for y := 20; y < 60; y++ {
		clear(m.Row(y)[60:240]) // inside, so it does not count
	}
	if c := m.EdgeColour(everyEdge, nil); c != [3]uint16{30000, 20000, 10000} {
		t.Errorf("an edge of one colour gives %v", c)
	}
	for y := range m.H {
		if y%5 != 2 {
			row := greyRow(uint16(y%5)*12000, 100)
			copy(m.Row(y), row)
			for x := 0; x < 300; x += 3 { // the longer sides are of all of them, too
				v := [5]uint16{0, 12000, 30000, 36000, 48000}[x/3%5]
				row[x], row[x+1], row[x+2] = v, v, v
			}
			if y == 0 || y == m.H-1 {
				copy(m.Row(y), row)
			}
		}
	}
	c := m.EdgeColour(everyEdge, nil)
	if c != [3]uint16{65535, 65535, 65535} {
		t.Errorf("an edge of stripes gives %v, want white", c)
	}
	if c := m.EdgeColour(everyEdge, func(x, y int) bool { return y%5 != 2 }); c != [3]uint16{30000, 20000, 10000} {
		t.Errorf("without the stripes it is %v", c)
	}
	if a, b := m.EdgeColour(everyEdge, func(x, y int) bool { return true }), c; a != b {
		t.Errorf("all covered gives %v, want %v", a, b)
	}
}

// dark is what the tests lay before the wall of backdrop(300, 200).
func dark(x, y int) bool { return x >= 100 && x < 200 && y >= 150 }

// What reaches the edge is not smeared over the border: the wall beside it is
// carried on.
func TestPadLeavesOutWhatIsCovered(t *testing.T) {
	m := backdrop(300, 200)
	plain := m.Pad(400, 300, 60, 20, nil)
	for y := 150; y < 200; y++ {
		clear(m.Row(y)[300:600])
	}
	out := m.Pad(400, 300, 60, 20, dark)
	for x := 0; x < out.W; x += 20 {
		var got, want float64
		for y := 221; y < 300; y++ {
			for i := x; i < x+20; i++ {
				got, want = got+float64(out.Row(y)[i*3]), want+float64(plain.Row(y)[i*3])
			}
		}
		if math.Abs(got/want-1) > 0.06 {
			t.Errorf("the border from column %d on is %.3f times as bright as without the thing", x, got/want)
		}
	}
}

// What a JPEG leaves around a leg near the edge is not repeated beyond it: grain
// that is much stronger in one place is weakened to what it is elsewhere.
func TestPadMakesNoGhosts(t *testing.T) {
	const w, h, more = 300, 200, 120
	m := New(w, h)
	seed := uint32(1)
	noise := func(most int) int {
		seed = seed*1664525 + 1013904223
		return int(seed>>16)%(2*most+1) - most
	}
	for y := range h {
		for x := range w {
			most := 300
			if y >= 80 && y < 104 && x >= w-14 { // blocks of a JPEG beside a leg
				most = 1500
			}
			v := uint16(30000 + noise(most))
			copy(m.Row(y)[3*x:], []uint16{v, v, v})
		}
	}
	out := m.Pad(w+more, h, 0, 0, nil)
	strength := func(y int) float64 { // of the border, in the rows from y on
		sum := 0.0
		for j := y; j < y+24; j++ {
			for x := w + 20; x < w+more; x++ {
				sum += math.Abs(float64(out.Row(j)[3*x]) - 30000)
			}
		}
		return sum / 24 / (more - 20)
	}
	ghost, calm := strength(80), strength(20)
	if calm < 80 {
		t.Errorf("the border has a grain of %.0f where the photo has one of 150", calm)
	}
	if ghost > 2.2*calm {
		t.Errorf("beside the blocks the border is %.1f times as rough as elsewhere", ghost/calm)
	}
}

// mottled is a wall with blots of some dozen pixels on it.
func mottled(w, h int) *Image {
	m, rng := New(w, h), rand.New(rand.NewPCG(7, 8))
	type blot struct{ x, y, v float64 }
	var blots []blot
	for range w * h / 150 {
		blots = append(blots, blot{rng.Float64() * float64(w), rng.Float64() * float64(h), 500 * rng.NormFloat64()})
	}
	for y := range h {
		for x := range w {
			v := 40000 + 100*rng.NormFloat64()
			for _, b := range blots {
				if dx, dy := float64(x)-b.x, float64(y)-b.y; dx*dx+dy*dy < 300 {
					v += b.v * math.Exp(-(dx*dx+dy*dy)/40)
				}
			}
			for c := range 3 {
				m.Pix[(y*w+x)*3+c] = uint16(v)
			}
		}
	}
	return m
}

// A mottled cloth is not mirrored to and fro: what is coarser than grain meets the photo
// at its edge, is gone some way from it, and leaves no streaks.
func TestPadRepeatsNoMottle(t *testing.T) {
	const w, h, more = 300, 200, 120
	m := mottled(w, h)
	out := m.Pad(w+more, h, 0, 0, nil)
	patch := func(x, y, w, h int) (v float64) { // mean of a patch
		for j := y; j < y+h; j++ {
			for i := x; i < x+w; i++ {
				v += float64(out.Row(j)[3*i]) / float64(w*h)
			}
		}
		return v
	}
	spread := func(x, w int) float64 { // of patches down a column of them
		var all []float64
		mean, dev := 0.0, 0.0
		for y := 10; y+5 <= h-10; y += 5 {
			all = append(all, patch(x, y, w, 5))
			mean += all[len(all)-1]
		}
		mean /= float64(len(all))
		for _, v := range all {
			dev += (v - mean) * (v - mean) / float64(len(all))
		}
		return math.Sqrt(dev)
	}
	photo := spread(w-20, 5)
	if far := spread(w+60, 5); far > photo/2 {
		t.Errorf("60 pixels beyond the edge the mottle is %.0f, in the photo %.0f", far, photo)
	}
	if far := spread(w+40, 80); far > photo/2 {
		t.Errorf("streaks of %.0f, where the mottle of the photo is %.0f", far, photo)
	}
	for y := 10; y+5 <= h-10; y += 5 {
		if in, beyond := patch(w-2, y, 2, 5), patch(w, y, 2, 5); math.Abs(in-beyond) > photo/2 {
			t.Errorf("row %d: %.0f beside the edge, %.0f beyond it; the mottle is %.0f", y, in, beyond, photo)
		}
	}
}

// A mottled cloth does not meet its own image at the edge: what lies some pixels inwards is
// not seen as many pixels beyond, further than what the edge itself has of it.
func TestPadMirrorsNoMottle(t *testing.T) {
	const w, h, more, deep = 300, 480, 60, 12
	m := mottled(w, h)
	out := m.Pad(w+more, h, 0, 0, nil)
	column := func(of *Image, x int) []float64 { // means of patches down it
		var v []float64
		mean := 0.0
		for y := 12; y+4 <= h-12; y += 4 {
			sum := 0.0
			for j := y; j < y+4; j++ {
				for i := x - 1; i <= x+1; i++ {
					sum += float64(of.Row(j)[3*i]) / 12
				}
			}
			v, mean = append(v, sum), mean+sum
		}
		for i := range v {
			v[i] -= mean / float64(len(v))
		}
		return v
	}
	alike := func(a, b []float64) float64 {
		var ab, aa, bb float64
		for i := range a {
			ab, aa, bb = ab+a[i]*b[i], aa+a[i]*a[i], bb+b[i]*b[i]
		}
		return ab / math.Sqrt(aa*bb)
	}
	inside := column(m, w-1-deep)
	own, beyond := alike(inside, column(m, w-2)), alike(inside, column(out, w+deep))
	if beyond > own+0.2 {
		t.Errorf("%d pixels beyond the edge is like %d pixels within by %.2f, the edge itself by %.2f", deep, deep, beyond, own)
	}
}

// A ground meets the photo without a line: where the photo's edge is nearly of its colour it
// goes over into it; what is of another colour, or covered, stays as it is.
func TestFadeInto(t *testing.T) {
	const w, h = 400, 300
	make := func() *Image {
		m := New(w, h)
		for i := range m.Pix {
			m.Pix[i] = 60000
		}
		for y := 100; y < 150; y++ { // a leg that runs out of it
			for x := 380; x < w; x++ {
				copy(m.Row(y)[3*x:], []uint16{9000, 5000, 2000})
			}
		}
		return m
	}
	ground := [3]uint16{64000, 64000, 64000}
	m := make()
	m.FadeInto(ground, [4]bool{false, false, true, false}, func(x, y int) bool { return y >= 200 })
	at := func(x, y int) uint16 { return m.Row(y)[3*x] }
	if v := at(w-1, 50); v < 63500 {
		t.Errorf("at the edge it is %d, the ground is %d", v, ground[0])
	}
	for x := 1; x < w; x++ {
		if step := int(at(x, 50)) - int(at(x-1, 50)); step < 0 || step > 700 {
			t.Errorf("a step of %d at column %d", step, x)
		}
	}
	if at(390, 120) != 9000 || at(w-1, 250) != 60000 || at(0, 50) != 60000 || at(200, 50) != 60000 {
		t.Error("what is of another colour, covered, inside or at another edge has changed")
	}
}
