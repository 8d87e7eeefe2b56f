package drawing

import (
	"math"
	"testing"
)

func wavy(length, width float64) [][2]float64 {
	var out [][2]float64
	for x := 0.0; x <= length; x += length / 40 {
		out = append(out, [2]float64{x, 12 + 10*math.Sin(x/90)})
	}
	for x := length; x >= 0; x -= length / 40 {
		out = append(out, [2]float64{x, width - 12 + 10*math.Sin(x/70)})
	}
	return out
}

func circle(d float64) [][2]float64 {
	var out [][2]float64
	for i := range 180 {
		s, c := math.Sincos(float64(i) * math.Pi / 90)
		out = append(out, [2]float64{d/2 + d/2*c, d/2 + d/2*s})
	}
	return out
}

// inside is the crossing rule, written apart from the code under test.
func inside(o [][2]float64, x, y float64) bool {
	in := false
	for i, p := range o {
		q := o[(i+1)%len(o)]
		if (p[1] > y) != (q[1] > y) && x < (q[0]-p[0])*(y-p[1])/(q[1]-p[1])+p[0] {
			in = !in
		}
	}
	return in
}

// Strokes run with the grain and stay inside the outline.
func TestStrokesStayInside(t *testing.T) {
	notched := [][2]float64{{0, 0}, {1000, 0}, {1000, 300}, {600, 300}, {600, 120}, {400, 120}, {400, 300}, {0, 300}}
	for name, d := range map[string]*Piece{
		"slab":         {Outline: wavy(1000, 300), Length: 1000, Width: 300, Grain: "along length"},
		"slab, across": {Outline: wavy(1000, 300), Length: 1000, Width: 300, Grain: "along width"},
		"round":        {Outline: circle(900), Length: 900, Width: 900, Grain: "along length"},
		"notched":      {Outline: notched, Length: 1000, Width: 300, Grain: "along length"},
	} {
		lines := strokes(d, 4)
		if len(lines) < strokeCount {
			t.Errorf("%s: %d strokes", name, len(lines))
		}
		for _, s := range lines {
			run, rise := 0.0, 0.0
			for i, p := range s {
				if !inside(d.Outline, p[0], p[1]) {
					t.Errorf("%s: %v is outside", name, p)
				}
				if i > 0 {
					run += math.Abs(p[0] - s[i-1][0])
					rise += math.Abs(p[1] - s[i-1][1])
				}
			}
			if along := d.Grain == "along length"; along != (run > rise) {
				t.Errorf("%s: a stroke runs %g along and %g across", name, run, rise)
			}
		}
	}
}

func TestBend(t *testing.T) {
	slab, round := &top{&Piece{Outline: wavy(1000, 300), Length: 1000, Width: 300}}, &top{&Piece{Outline: circle(900), Length: 900, Width: 900}}
	if slab.bend(true) != 1 {
		t.Error("the grain of a slab does not follow its edges")
	}
	if round.bend(true) != 0 {
		t.Error("the grain of a round top follows the saw")
	}
	if lo, hi, ok := round.span(false, 450); !ok || math.Abs(lo) > 0.5 || math.Abs(hi-900) > 0.5 {
		t.Errorf("across the middle of a circle: %.1f to %.1f", lo, hi)
	}
}

// What cannot have strokes has none, and no panic.
func TestNoStrokes(t *testing.T) {
	nan := math.NaN()
	for _, d := range []Piece{
		{},
		{Outline: circle(900), Length: 900, Width: 900, Grain: "end grain"},
		{Outline: [][2]float64{{0, 0}, {500, 0}, {0, 0}}, Length: 500, Grain: "along length"},
		{Outline: [][2]float64{{0, 0}, {nan, 0}, {nan, 1}}, Length: nan, Width: nan, Grain: "along width"},
	} {
		if s := strokes(&d, 1); len(s) != 0 {
			t.Errorf("%v: %d strokes", d, len(s))
		}
	}
}

// The first six values of the generator from 0 are printed beside its constants in
// Numerical Recipes in C, 2nd edition, section 7.1 (from memory).
func TestMadeUpNumbers(t *testing.T) {
	next := madeUp(0)
	for i, want := range []uint32{0x3C6EF35F, 0x47502932, 0xD1CCF6E9, 0xAAF95334, 0x6252E503, 0x9F2EC686} {
		if got := uint32(next() * (1 << 24)); got != want>>8 {
			t.Errorf("value %d is %06X, want %06X", i, got, want>>8)
		}
	}
}

// On a plain board there are a few strokes, one in each of as many equal strips, none
// over an end: each begins between 2 and 57 % of the length, is 18 to 53 % of it long
// and ends by 98 %.
func TestStrokesOfABoard(t *testing.T) {
	const long, wide = 1300.0, 390.0
	d := &Piece{Outline: [][2]float64{{0, 0}, {long, 0}, {long, wide}, {0, wide}}, Length: long, Width: wide, Grain: "along length"}
	all := strokes(d, 0)
	if len(all) != 13 {
		t.Fatalf("%d strokes, want 13", len(all))
	}
	for i, s := range all {
		strip := wide / 13
		if y := s[0][1]; y < float64(i)*strip || y > float64(i+1)*strip {
			t.Errorf("stroke %d at %.0f mm lies outside of its strip", i, y)
		}
		from, to := s[0][0]/long, s[len(s)-1][0]/long
		if from < 0.02 || from > 0.57 || to > 0.98+1e-9 || to-from < 0.18-1e-9 && to < 0.98-1e-9 || to-from > 0.53+1e-9 {
			t.Errorf("stroke %d goes from %.3f to %.3f of the length", i, from, to)
		}
	}
}
