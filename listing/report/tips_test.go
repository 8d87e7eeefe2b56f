package report

import (
	"testing"

	"slabfolio/listing/piece"
)

// Until it is known how a piece stands, one that has a base or is sat on is taken
// for one that may tip: a caution too many does no harm.
func TestMayTipUntilItIsKnown(t *testing.T) {
	for kind, alone := range map[string]bool{"bench": true, "stool": true, "coffee table": false, "shelf": false, "serving board": false, "wall panel": false} {
		for _, base := range []bool{false, true} {
			p := parse(t, "testdata/console.yaml")
			p.Kind = piece.Of(kind)
			p.Top.Outline = piece.Outline{}
			if !base {
				p.Base = nil
			}
			b, err := newBuilder(p, nil, Options{Words: words(t)})
			if err != nil {
				t.Fatal(err)
			}
			b.build()
			if want := base || alone; b.tips != want {
				t.Errorf("a %s (base: %v) of unknown shape may tip: %v, want %v", kind, base, b.tips, want)
			}
		}
	}
}
