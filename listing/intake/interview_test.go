package intake

import (
	"fmt"
	"strings"
	"testing"

	"slabfolio/listing/assembly"
	"slabfolio/listing/piece"
	"slabfolio/listing/units"
	"slabfolio/listing/wood"
	"slabfolio/testdata/golden"
)

func begin(t *testing.T, bare units.System, currency string, earlier *piece.Written) *Interview {
	t.Helper()
	table, err := wood.Load()
	if err != nil {
		t.Fatal(err)
	}
	usual, err := assembly.Load()
	if err != nil {
		t.Fatal(err)
	}
	known := &piece.Written{}
	known.Put("serial", piece.Plain("OY-0001"))
	iv := New(known, earlier, piece.Defaults{Units: bare}, currency, table)
	iv.Usual = usual
	return iv
}

// play gives the answers one after the other and returns what stands on the
// screen, then what is known.
func play(t *testing.T, iv *Interview, answers ...string) string {
	t.Helper()
	var b strings.Builder
	for _, a := range answers {
		q, ok := iv.Next()
		if !ok {
			t.Fatalf("no question is left for %q", a)
		}
		fmt.Fprintf(&b, "%d %s (%s) [%s] > %s\n", q.Number, q.Ask, q.Example, q.Enter, a)
		r := iv.Answer(a)
		for _, n := range r.Notes {
			fmt.Fprintf(&b, "    %s\n", n)
		}
		if r.Wrong != "" {
			fmt.Fprintf(&b, "    %s\n    %s\n", r.Wrong, r.Remedy)
		}
		if r.Help != "" {
			fmt.Fprintf(&b, "    %s\n", r.Help)
		}
	}
	if q, ok := iv.Next(); ok {
		fmt.Fprintf(&b, "(next: %s)\n", q.Ask)
	}
	return b.String() + iv.Known.Lines("")
}

// What a tired maker types is understood, or asked back with what would be right.
// The golden file is the screen; it is there to be read.
func TestSlipsAreAskedBack(t *testing.T) {
	var b strings.Builder
	for _, c := range []struct {
		name    string
		bare    units.System
		money   string
		answers []string
	}{
		{"by heart", "in", "GBP", []string{"dining table", "River table", "84", "38 in", "1 3/4", "black walnut", "smoke grey, 18 %", "two welded steel frames, 28 1/4 in high", "hardwax oil, 2 coats, satin", "£1,450"}},
		{"with every slip", "in", "GBP", []string{
			"tabel", "river coffee table", "?", "", "about 30", "yes", "back", "7 ft", "x", "15,5", "37 1/2, 38, 37 in wide", "2 thick", "walnut and blue resin", "black walnut and blue resin",
			"20", "3 litres", "20 %", "black powder coated steel legs, 15 in", "oil", "hard wax", "hardwax oil 2k, two coats", "84 in", "1450 quid"}},
		{"everything skipped", "in", "", []string{"skip", "skip", "skip", "skip", "skip", "skip", "skip", "skip", "skip"}},
		{"only Enter", "in", "", []string{"", "", "", "", "", "", "", "", ""}},
		{"in one breath", "cm", "EUR", []string{"coffee table", "", "120 x 60 x 4.5", "70 % oak, 30 % walnut", "70 % european oak, 30 % european walnut", "none", "none", "skip", "1450 USD"}},
		{"round", "cm", "", []string{"side table", "", "45 round", "3", "yard elm", "yard elm", "blue", "", "cast iron foot", "board oil", "900", "900 dollars"}},
		{"a board", "in", "GBP", []string{"chopping board", "", "18x9x7/8", "sycamore", "acer pseudoplatanus", "none", "board oil", "skip"}},
		{"one question off", "in", "GBP", []string{"bench", "", "56 x 13", "2", "about 30 mm", "30 mm", "30 mm", "oak and walnut, 15 %", "white oak, clear resin", "about a fifth", "clear", "white oak, clear resin, ~15 %", "15 %", "plank ends, 40 lb", "same", "wax", "1450"}},
		{"bit by bit", "cm", "", []string{"stool", "", "36 round", "4", "ash", "european ash", "blue", "green", "2k", "about 20 %", "skip", "skip", "900", "x", "what", "900 EUR"}},
		{"back", "in", "GBP", []string{"bench", "back", "stool", "", "15", "back", "16", "<", "16 x 13", "skip"}},
	} {
		fmt.Fprintf(&b, "== %s\n%s\n", c.name, play(t, begin(t, c.bare, c.money, nil), c.answers...))
	}
	golden.Check(t, "testdata/slips.txt", b.String())
}

// The workshop is asked for once, with the same care.
func TestWorkshopAnswers(t *testing.T) {
	text := play(t, NewWorkshop(), "Ostrel Yard", "skip", "Narnia", "england", "hello at ostrel", "hello@ostrel-yard.example", "dollars", "pounds", "inches")
	text += "\n" + play(t, NewWorkshop(), "Ostrel Yard", "", "", "", "wampum", "€", "metric")
	golden.Check(t, "testdata/workshop.txt", text)
}

// What an earlier piece has is proposed, and Enter takes it.
func TestEarlierPieceIsProposed(t *testing.T) {
	earlier, err := piece.ParseWritten("piece.yaml", []byte("kind: bench\nserial: a\ntitle: b\ntop: {wood: {species: wych-elm}}\nbase: {style: two frames}\nfinish: {family: wax}\n"))
	if err != nil {
		t.Fatal(err)
	}
	iv := begin(t, "in", "GBP", earlier)
	play(t, iv, "", "", "56", "13", "2", "", "none", "", "", "900")
	for path, want := range map[string]string{"kind": "bench", "title": "Bench", "top.wood.species": "wych-elm", "base.style": "two frames", "finish.family": "wax"} {
		if got := iv.text(path); got != want {
			t.Errorf("%s: %q, want %q", path, got, want)
		}
	}
}

// There are ten questions at most, and no answer whatever makes a spec that is at
// fault but for what is missing.
func FuzzAnswersNeverSpoilTheSpec(f *testing.F) {
	for _, s := range []string{"84 in\n7 ft\nabout 30\nwalnut and blue resin\n\nskip\n?", "back\n<\n- \n#\n: {\n\"", "1e9\n-3\n0 in\n%\n18 %\n1,450", "none\nnone\nround 36 in\n,\n;\n&"} {
		f.Add(s)
	}
	table, err := wood.Load()
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text string) {
		known := &piece.Written{}
		known.Put("serial", piece.Plain("OY-0001"))
		d := piece.Defaults{Units: units.Inches}
		iv := New(known, nil, d, "", table)
		for _, a := range strings.Split(text, "\n") {
			q, ok := iv.Next()
			if !ok {
				break
			}
			if q.Number > Most() {
				t.Fatalf("question %d", q.Number)
			}
			iv.Answer(a)
		}
		for _, found := range piece.Try(iv.Known, d) {
			if found.Rank == piece.Fault {
				t.Fatalf("%q: %s\n%s", text, found.Message, iv.Known.Lines(""))
			}
		}
	})
}

// A serial is the folder's name where that is like the others', else the next.
func TestSerialOfACollection(t *testing.T) {
	for _, c := range []struct {
		taken        []string
		folder, want string
	}{
		{nil, "river table", "river-table"},
		{[]string{"OY-0099", "OY-0100"}, "river table", "OY-0101"},
		{[]string{"OY-0099"}, "OY-0300", "OY-0300"},
		{[]string{"OY-0099"}, "oy-0099", "OY-0100"},
		{[]string{"2026-9", "2026-10"}, "x", "2026-11"},
		{[]string{"bench", "table"}, "stool", "stool"},
		{[]string{"A-1", "OY-0001", "OY-0002"}, "stool", "OY-0003"},
	} {
		col := &Collection{}
		for _, s := range c.taken {
			col.pieces = append(col.pieces, member{serial: s})
		}
		if got, why := col.Serial(c.folder); got != c.want || (why == "") != (got == piece.SerialFrom(c.folder)) {
			t.Errorf("%q beside %q: %q (%s), want %q", c.folder, c.taken, got, why, c.want)
		}
	}
}

// One wood whose name is turned round is one wood; two woods stay two.
func TestAWoodTurnedRound(t *testing.T) {
	for text, want := range map[string]string{"walnut, American": "American walnut", "ash, European": "European ash", "red oak, black cherry": "black cherry"} {
		iv := begin(t, units.Inches, "GBP", nil)
		said := play(t, iv, "console table", "Estuary", "44 x 16 x 1 5/8", text)
		if !strings.Contains(said, "species: "+want) || strings.Contains(said, "which") {
			t.Errorf("%s: %s", text, said)
		}
	}
}
