package inspect

import (
	"math"
	"math/rand/v2"
	"testing"

	"slabfolio/imaging/note"
	"slabfolio/imaging/pixel"
)

func noted(notes []note.Note, code string) bool {
	for _, n := range notes {
		if n.Code == code {
			return true
		}
	}
	return false
}

// evenly is a picture of one colour.
func evenly(w, h int, r, g, b uint16) *pixel.Image {
	m := pixel.New(w, h)
	for i := 0; i < len(m.Pix); i += 3 {
		m.Pix[i], m.Pix[i+1], m.Pix[i+2] = r, g, b
	}
	return m
}

// Light of one colour is told from four and a half stops between the channels on.
// The levels are counted in 12 bits, plus one: 2^(12 − stops) − 1.
func TestCastThreshold(t *testing.T) {
	for stops, want := range map[float64]bool{4.45: false, 4.55: true, 0: false, 8: true} {
		poor := uint16(math.Round(math.Exp2(12-stops)-1)) << 4
		r := Photo(evenly(64, 64, 65535, 65535, poor), FullPhoto{W: 64, H: 64})
		if got := noted(r.Notes, "inspect.cast"); got != want {
			t.Errorf("%.2f stops between the channels: said %v, want %v", stops, got, want)
		}
	}
}

// Of a hundred rows five may be blown out, and not one pixel more.
func TestBlownThreshold(t *testing.T) {
	for rows, want := range map[int]bool{0: false, 5: false, 6: true, 100: true} {
		m := evenly(100, 100, 30000, 30000, 30000)
		for i := range rows * 300 {
			m.Pix[i] = 65535
		}
		r := Photo(m, FullPhoto{W: 100, H: 100})
		if got := noted(r.Notes, "inspect.clipped"); got != want || math.Abs(r.Clipped-float64(rows)/100) > 1e-9 {
			t.Errorf("%d of 100 rows blown out: share %.4f, said %v, want %v", rows, r.Clipped, got, want)
		}
		// On the mask alone: the blown rows lie beside the piece.
		k := &pixel.Mask{W: 1, H: 100, Pix: make([]uint8, 100)}
		for y := rows; y < 100; y++ {
			k.Pix[y] = 255
		}
		if r := Photo(m, FullPhoto{W: 100, H: 100, Piece: k}); r.Clipped != 0 {
			t.Errorf("%d blown rows beside the piece count for %.4f of it", rows, r.Clipped)
		}
	}
}

// 170 mm at 200 dots an inch are 1,339 pixels, and zooming in wants 2,000.
func TestSizeThresholds(t *testing.T) {
	for side, want := range map[int]string{1339: "inspect.small-print", 1340: "inspect.small-zoom", 1999: "inspect.small-zoom", 2000: ""} {
		for _, p := range []FullPhoto{{W: side, H: 10, Crop: [4]float64{0, 0, 1, 1}}, {W: 10, H: 2 * side, Crop: [4]float64{0, 0.25, 1, 0.75}}} {
			got := ""
			for _, n := range Photo(nil, p).Notes {
				got += n.Code
			}
			if got != want {
				t.Errorf("a crop of %d pixels: %q, want %q", side, got, want)
			}
		}
	}
}

// grainy is a mid-grey picture with noise of so many 8-bit levels.
func grainy(levels float64) *pixel.Image {
	rng := rand.New(rand.NewPCG(1, uint64(levels*100)))
	m := pixel.New(160, 160)
	for i := range m.W * m.H {
		v := 128 + rng.NormFloat64()*levels
		lin := math.Pow((math.Min(math.Max(v, 0), 255)/255+0.055)/1.055, 2.4)
		for k := range 3 {
			m.Pix[3*i+k] = uint16(lin * 65535)
		}
	}
	return m
}

// Noise is measured within a tenth of what was laid on (the lowest fifth of the
// blocks, so a little less), and said above six levels.
func TestNoiseThreshold(t *testing.T) {
	above, below := 0, 0
	for _, levels := range []float64{3, 5, 5.8, 5.9, 6, 6.1, 6.2, 6.3, 6.4, 6.5, 6.6, 8} {
		r := Photo(grainy(levels), FullPhoto{W: 160, H: 160})
		if r.Noise < 0.9*levels || r.Noise > 1.02*levels {
			t.Errorf("noise of %.2f levels is measured as %.2f", levels, r.Noise)
		}
		if got, want := noted(r.Notes, "inspect.noise"), r.Noise > 6; got != want {
			t.Errorf("noise measured as %.2f levels: said %v", r.Noise, got)
		}
		if r.Noise > 6 && r.Noise < 6.4 {
			above++
		}
		if r.Noise > 5.6 && r.Noise <= 6 {
			below++
		}
	}
	if above == 0 || below == 0 {
		t.Errorf("%d pictures just above the limit and %d just below it: the test has to have both", above, below)
	}
	if r := Photo(grainy(8), FullPhoto{W: 1600, H: 1600}); r.Noise != 0 {
		t.Errorf("noise of %.1f is told of a copy ten times smaller than the photo", r.Noise)
	}
}

// edgesOf lines of n pixels that hold one edge each, whose slope is told by its
// central differences.
func edgesOf(lines int, profile ...float32) (g []float32, n int) {
	n = len(profile)
	for range 2 * lines { // every second line is looked at
		g = append(g, profile...)
	}
	return g, n
}

// The width of an edge is its height over its steepest slope, the slope being half
// of a central difference: worked out by hand.
func TestEdgeWidth(t *testing.T) {
	flat := func(v float32, n int) (out []float32) {
		for range n {
			out = append(out, v)
		}
		return out
	}
	profile := func(middle ...float32) []float32 {
		return append(append(flat(50, 6), middle...), flat(middle[len(middle)-1], 6)...)
	}
	always := func(int) bool { return true }
	for _, c := range []struct {
		name   string
		lines  int
		middle []float32
		want   float64
	}{
		{"a bare step of 60: central differences of 60 twice, one counts", 40, []float32{110}, 60 / 30.0},
		{"the same falling", 40, []float32{10}, 40 / 20.0},
		{"one pixel between: 30 and 30, steepest slope 30", 40, []float32{80, 110}, 60 / 30.0},
		{"a ramp over three pixels: 20 each, steepest slope 20", 40, []float32{70, 90, 110}, 60 / 20.0},
		{"39 edges are too few to judge by", 39, []float32{110}, 0},
		{"a step of 19 is none", 40, []float32{69}, 0},
		{"a step of 20 is one", 40, []float32{70}, 20 / 10.0},
	} {
		g, n := edgesOf(c.lines, profile(c.middle...)...)
		if got := steps(g, n, 2*c.lines, 1, n, always); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%s: width %.4f, want %.4f", c.name, got, c.want)
		}
	}
	g, n := edgesOf(40, profile(110)...)
	if got := steps(g, n, 80, 1, n, func(int) bool { return false }); got != 0 {
		t.Errorf("an edge beside the piece counts: %.2f", got)
	}
}

// softened is a chequerboard whose edges are softened over so many pixels across
// and down.
func softened(side int, across, down float64) *pixel.Image {
	wave := func(at int, width float64) float64 { // 1 and -1 in turns of 40 pixels
		off := math.Mod(float64(at)+20, 80)
		return math.Tanh(2 * (20 - math.Abs(off-40)) / width) // 0 at the edge
	}
	m := pixel.New(side, side)
	for y := range side {
		for x := range side {
			v := 128 + 80*wave(x, across)*wave(y, down)
			lin := uint16(math.Pow((v/255+0.055)/1.055, 2.4) * 65535)
			for k := range 3 {
				m.Pix[3*(y*side+x)+k] = lin
			}
		}
	}
	return m
}

// Soft and shaken are said where the widths measured say so, and only there: 2.4
// thousandths of the longer side, 3.2 pixels as measured, and 1.8 times as wide
// one way as the other.
func TestSharpnessThresholds(t *testing.T) {
	soft, shaken, sharp := 0, 0, 0
	for _, full := range []int{240, 2400} {
		for across := 1.0; across < 12; across += 0.5 {
			for _, down := range []float64{1, across / 1.8, across} {
				r := Report{}
				p := FullPhoto{W: full, H: full}
				unit := r.measureEdges(softened(240, across, down), p, float64(full)/240)
				lo, hi := math.Min(r.EdgeX, r.EdgeY), math.Max(r.EdgeX, r.EdgeY)
				least := 0.0024 * float64(full)
				want := ""
				switch {
				case lo > 0 && lo > least && lo > 3.2*unit:
					want, soft = "inspect.soft", soft+1
				case lo > 0 && hi > least && hi > 3.2*unit && hi > 1.8*lo:
					want, shaken = "inspect.shaken", shaken+1
				default:
					sharp++
				}
				if code, _ := r.blur(unit, float64(full)); code != want {
					t.Errorf("edges of %.2f and %.2f pixels on a photo of %d: %q, want %q", r.EdgeX, r.EdgeY, full, code, want)
				}
			}
		}
	}
	t.Logf("%d soft, %d shaken, %d sharp", soft, shaken, sharp)
	if soft < 10 || shaken < 10 || sharp < 10 {
		t.Error("the test has to have ten of each")
	}
}
