package report

import (
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// A size that would be a usual one in another unit, or with its neighbour's place, is
// doubted at its own line with just that. Figures by hand: 220 in are 5.6 m.
func TestAnOddSizeSaysWhatMayBeMeant(t *testing.T) {
	const in = units.MillimetresPerInch
	at := func(mm float64, line int) piece.Value[units.Length] {
		return piece.Value[units.Length]{V: units.Length(mm), At: piece.Place{File: "piece.yaml", Line: line, Column: 1}}
	}
	for _, c := range []struct {
		name, kind  string
		own         units.System
		outline     piece.Outline
		code        string
		line        int
		says, mends string
		alone       bool // no other side is doubted
	}{
		{"centimetres read as inches", "dining table", "in", piece.Outline{Length: at(220*in, 7), Width: at(95*in, 8)}, "size.length", 7, "length of 220 in", "write 220 cm if", false},
		{"and its width", "dining table", "in", piece.Outline{Length: at(220*in, 7), Width: at(95*in, 8)}, "size.width", 8, "width of 95 in", "write 95 cm if", false},
		{"inches read as millimetres", "dining table", "mm", piece.Outline{Length: at(84, 7), Width: at(38, 8)}, "size.length", 7, "length of", "write 84 cm or 84 in if", false},
		{"sides that changed places", "console table", "in", piece.Outline{Length: at(48*in, 7), Width: at(150*in, 8)}, "size.length", 8, "width of 150 in", "perhaps it changed places with the length, 48 in", true},
		{"a round top", "side table", "in", piece.Outline{Diameter: at(60*in, 7)}, "size.length", 7, "diameter of 60 in", "write 60 cm if", true},
	} {
		r := with(t, func(p *piece.Piece) {
			p.Kind, p.Units, p.Top.Outline = piece.Of(c.kind), piece.Of(c.own), c.outline
		})
		f, ok := said(r, c.code)
		if !ok || f.Line != c.line || !strings.Contains(f.Message, c.says) || !strings.HasPrefix(f.Remedy, c.mends) {
			t.Errorf("%s: %+v", c.name, f)
		}
		if _, other := said(r, "size.width"); c.alone && other {
			t.Errorf("%s: said twice", c.name)
		}
	}
}
