package report

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// A board is the same board whether its maker enters a wood once or as two halves. Each
// drawn spec, with every wood and grain and of several woods too, is read both ways: with
// the halves alike nothing of the report may differ; with a note on where one of them grew,
// which keeps the two apart, no figure may that is of the whole piece, and no sentence to
// the buyer on what it weighs, how it moves and what to beware of.
func TestAWoodEnteredAsTwoHalvesChangesNothing(t *testing.T) {
	n := 220
	if testing.Short() {
		n = 66
	}
	for seed := range n {
		text, shop := drawSpec(seed)
		read := func(change func(*piece.Piece)) *Report {
			p, _ := piece.ParsePiece("piece.yaml", []byte(text), piece.Defaults{Units: shop.Units.V})
			p.Top.Wood[0].Grain = piece.Of(piece.Grains[seed%len(piece.Grains)])
			if seed%2 == 0 && len(p.Top.Wood) == 1 { // glued up of two woods
				other := p.Top.Wood[0]
				p.Top.Wood[0].Share, other.Share = piece.Of(units.Percent(60)), piece.Of(units.Percent(40))
				other.Species = piece.Of("hard-maple")
				p.Top.Wood = append(p.Top.Wood, other)
			}
			if change != nil {
				change(p)
			}
			return build(t, p, shop)
		}
		split := func(p *piece.Piece, note string) {
			shares := piece.Shares(p.Top.Wood)
			for i := range p.Top.Wood {
				p.Top.Wood[i].Share = piece.Of(units.Percent(100 * shares[i]))
			}
			half := p.Top.Wood[0]
			half.Share.V /= 2
			p.Top.Wood[0] = half
			if note != "" {
				half.OriginNote = piece.Of(note)
			}
			p.Top.Wood = slices.Insert(p.Top.Wood, 1, half)
		}
		said := func(p *piece.Piece) { // shares said, which are printed then
			for i, s := range piece.Shares(p.Top.Wood) {
				p.Top.Wood[i].Share = piece.Of(units.Percent(100 * s))
			}
		}
		whole := read(said)
		if a, b := asJSON(t, whole), asJSON(t, read(func(p *piece.Piece) { split(p, "") })); a != b {
			t.Errorf("seed %d: two halves alike say something else\n%s\n%s", seed, text, firstUnlike(a, b))
		}
		apart := read(func(p *piece.Piece) { split(p, "from the same wood") })
		for name, f := range whole.Figures {
			one := strings.HasPrefix(name, "movement.") && strings.Count(name, ".") > 1 || strings.HasPrefix(name, "weight_parts.")
			if g, ok := apart.Figures[name]; !one && (!ok || !close9(f.Value, g.Value) || !close9(f.Low, g.Low) || !close9(f.High, g.High)) {
				t.Errorf("seed %d: %s is %g (%g to %g), and %g (%g to %g) of two halves\n%s", seed, name, f.Value, f.Low, f.High, g.Value, g.Low, g.High, text)
			}
		}
		type told struct {
			Movement   *Movement
			Weight     *Weight
			Shipping   *Shipping
			Dimensions *Dimensions
			Cautions   []Paragraph
		}
		of := func(r *Report) string {
			q := r.Public
			return asJSON(t, told{q.Movement, q.Weight, q.Shipping, q.Dimensions, q.Cautions})
		}
		if a, b := of(whole), of(apart); a != b {
			t.Errorf("seed %d: two halves of one wood are told otherwise\n%s\n%s", seed, text, firstUnlike(a, b))
		}
	}
}

func close9(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(1, math.Abs(a)) }

func asJSON(t *testing.T, v any) string {
	t.Helper()
	out, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// firstUnlike shows two texts from a little before the place where they part.
func firstUnlike(a, b string) string {
	i := 0
	for i < len(a) && i < len(b) && a[i] == b[i] {
		i++
	}
	from := max(0, i-80)
	return a[from:min(len(a), i+80)] + "\n" + b[from:min(len(b), i+80)]
}
