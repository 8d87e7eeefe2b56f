package imaging

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"slabfolio/imaging/pixel"
)

// stepAt is the mean step between columns x-1 and x of a picture, in levels of 255
// on a square-root scale.
func stepAt(m *pixel.Image, x int) (sum float64) {
	level := func(v uint16) float64 { return 255 * math.Sqrt(float64(v)/65535) }
	for y := range m.H {
		row := m.Row(y)[(x-1)*3:]
		for k := range 3 {
			sum += math.Abs(level(row[k]) - level(row[3+k]))
		}
	}
	return sum / float64(3*m.H)
}

// TestQualitySoftGround puts every photo of furniture on a soft ground at both sides
// and compares the step from the photo to the ground with those between the
// columns of the photo beside it: where it is no larger, no line is to be seen.
func TestQualitySoftGround(t *testing.T) {
	names, err := filepath.Glob(filepath.Join(reference(t, "photos/furniture"), "*.jpg"))
	if err != nil {
		t.Fatal(err)
	}
	worst, worstOf := 0.0, ""
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		p, err := Open(Request{Data: data}, &Options{NoMaster: true})
		if err != nil {
			t.Fatal(err)
		}
		part := p.inside()
		for i, d := range [4]float64{1, 1, -1, -1} { // a photo's outermost pixels are often a line
			part[i] += d * math.Ceil(rimShare*float64(max(p.W, p.H)))
		}
		m := p.smallPart(part)
		side := m.W / 4
		out := m.OnSoftGround(m.W+2*side, m.H, side, 0, p.aroundPiece(part, m))
		for _, at := range [2]int{side, side + m.W} {
			inwards := 1
			if at > side {
				inwards = -1
			}
			within := 0.0
			for i := 1; i <= 8; i++ {
				within += stepAt(out, at+i*inwards) / 8
			}
			seam := stepAt(out, at)
			t.Logf("%-36s at %4d: %5.2f levels from photo to ground, %5.2f between the columns beside it", filepath.Base(name), at, seam, within)
			if p.touches([4]bool{at == side, false, at > side, false}, part, m.W, m.H) {
				continue // the piece goes on there, and the ground does not
			}
			if over := seam - within; over > worst {
				worst, worstOf = over, filepath.Base(name)
			}
		}
		p.Close()
	}
	t.Logf("at worst %.2f levels more than within the photo (%s)", worst, worstOf)
	if worst > 1 {
		t.Errorf("a line of %.2f levels shows where %s ends", worst, worstOf)
	}
}
