package weight

import (
	"math"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// A piece is the same piece whether its spec says twelve rails in one line or one rail
// in twelve: weight and range stay. (Two doubts that are one thing's add straight, JCGM
// 100:2008, 5.2.2, note 1: full correlation; taken as independent they would shrink by the
// root of the number of lines.)
func TestLinesThatAreSplitStayAsSure(t *testing.T) {
	lines := func(n int, put func(p *piece.Piece, count int)) *piece.Piece {
		p := board()
		for range n {
			put(p, 12/n)
		}
		return p
	}
	section := func(form string, l float64, sizes ...units.Length) func(*piece.Piece, int) {
		return func(p *piece.Piece, count int) {
			if p.Base == nil {
				p.Base = &piece.Base{Material: piece.Of("steel")}
			}
			s := piece.Section{Form: form, Sizes: sizes, Count: piece.Of(count)}
			if l > 0 {
				s.Length = length(l)
			}
			p.Base.Sections = append(p.Base.Sections, s)
		}
	}
	part := func(x piece.Part) func(*piece.Piece, int) {
		return func(p *piece.Piece, count int) {
			x.Count = piece.Of(count)
			p.Parts = append(p.Parts, x)
		}
	}
	size := []piece.Value[units.Length]{length(900), length(90), length(40)}
	resin := func(of func(k float64) piece.Resin) func(*piece.Piece, int) {
		return func(p *piece.Piece, count int) { p.Top.Resin = append(p.Top.Resin, of(float64(count)/12)) }
	}
	for name, put := range map[string]func(*piece.Piece, int){
		"box":            section("box", 700, 80, 80, 5),
		"plate":          section("plate", 0, 200, 80, 6),
		"rails":          part(piece.Part{Material: piece.Of("european-oak"), Size: size}),
		"drawers":        part(piece.Part{Name: piece.Of("drawer"), Material: piece.Of("european-oak"), Size: size, Walls: length(12)}),
		"weighed":        part(piece.Part{Weight: piece.Of[units.Mass](1.1)}),
		"weighed, named": part(piece.Part{Name: piece.Of("slide"), Weight: piece.Of[units.Mass](1.1)}),
		"resin by area":  resin(func(k float64) piece.Resin { return piece.Resin{Area: piece.Of(units.Percent(60 * k))} }),
		"resin by volume": resin(func(k float64) piece.Resin {
			return piece.Resin{Volume: piece.Of(units.Volume(3 * k))}
		}),
		"resin mixed by volume": resin(func(k float64) piece.Resin {
			return piece.Resin{Mixed: piece.Amount{Volume: piece.Of(units.Volume(4 * k))}}
		}),
		"woods of one tree": func(p *piece.Piece, count int) {
			w := piece.Wood{Species: piece.Of("black-walnut"), Share: piece.Of(units.Percent(float64(count) * 100 / 12))}
			if p.Top.Wood[0].Share.Set() {
				p.Top.Wood = append(p.Top.Wood, w)
			} else {
				p.Top.Wood = []piece.Wood{w}
			}
		},
	} {
		one := estimate(t, lines(1, put)).Total
		if one == nil {
			t.Fatalf("%s: no total", name)
		}
		for _, n := range []int{2, 12} {
			e := estimate(t, lines(n, put))
			if e.Total == nil {
				t.Errorf("%s in %d lines: no total: %v", name, n, e.Absent)
				continue
			}
			many := *e.Total
			if math.Abs(many.Value-one.Value) > 1e-9*one.Value || math.Abs(many.Low-one.Low) > 1e-6*one.Value || math.Abs(many.High-one.High) > 1e-6*one.Value {
				t.Errorf("%s: %.3f kg (%.3f to %.3f) in one line, %.3f (%.3f to %.3f) in %d", name, one.Value, one.Low, one.High, many.Value, many.Low, many.High, n)
			}
		}
	}
}
