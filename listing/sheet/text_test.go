package sheet

import (
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

func TestCleanReplacesWhatCannotBeDrawn(t *testing.T) {
	faces, err := loadFaces()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ name, in, want string }{
		{"plain text stays", "Oak, 1¾ in", "Oak, 1¾\u00a0in"},
		{"combining marks are composed", "o\u0302\u0301", "ố"},
		{"controls are dropped", "a\x00\x07\x1bb", "ab"},
		{"line ends and tabs are spaces", "a\nb\tc", "a b c"},
		{"direction marks are dropped", "\u202eabc\u202c\u200f\u2066x\u2069", "abcx"},
		{"soft hyphens and zero-width spaces are dropped", "ta\u00adble\u200btop", "tabletop"},
		{"beyond the basic plane is replaced", "a😀b", "a�b"},
		{"a script that no font has is replaced", "木", "�"},
		{"not UTF-8", "a\xff\xfeb", "a�b"},
		{"a minus becomes a dash where the face has none", "−", "–"},
		{"a line never ends before its unit", "60 % and 3.4 mm and 12 in", "60\u00a0% and 3.4\u00a0mm and 12\u00a0in"},
		{"nor a day before its month", "by 3 September 2026", "by 3\u00a0September 2026"},
		{"every fraction in one style", "5 11⁄16 in, 3⁄16, ½ in", "5\u00a0¹¹⁄₁₆\u00a0in, ³⁄₁₆, ½\u00a0in"},
		{"a word that only begins like a unit", "8 many", "8 many"},
	} {
		if got := faces[sans].clean(c.in); got != c.want {
			t.Errorf("%s: clean(%q) = %q, want %q", c.name, c.in, got, c.want)
		}
	}
}

func TestUnprintableNamesWhatIsReplaced(t *testing.T) {
	r := &report.Report{Public: report.Public{Title: "Bàn 木", Story: "стол 😀 α"}}
	if got, want := string(Unprintable(r)), "木😀"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := Unprintable(usual()); got != nil {
		t.Errorf("of the usual piece: %q", string(got))
	}
}

// No wrapping loses or doubles a character, and no line is wider than asked.
func TestWrapKeepsEveryCharacter(t *testing.T) {
	d, err := newDoc("test", usual(), options(t))
	if err != nil {
		t.Fatal(err)
	}
	squeeze := func(s string) string {
		return strings.Map(func(r rune) rune {
			if unicode.IsSpace(r) {
				return -1
			}
			return r
		}, s)
	}
	texts := []string{
		usual().Public.Story, scripts().Public.Story, "", "   ", "word", strings.Repeat("x", 400),
		"a " + strings.Repeat("long", 60) + " b", strings.Repeat("fi ", 200), "one\n\n\n\ntwo\n three",
	}
	for _, text := range texts {
		for _, width := range []float64{12, 40, 103} {
			runs := []run{{st: body, text: strings.Join(spelling.Paragraphs(text), " ")}}
			var got strings.Builder
			for _, l := range d.wrapRuns(runs, width) {
				last := l[len(l)-1]
				if end := last.x + d.width(last.st, last.text); end > width+0.01 {
					t.Errorf("a line of %.10q… is %.2f mm wide, want at most %.0f", text, end, width)
				}
				for _, p := range l {
					got.WriteString(p.text)
				}
			}
			if want := squeeze(d.faces[serif].clean(text)); squeeze(got.String()) != want {
				t.Errorf("wrapped to %.0f mm: got %q, want %q", width, squeeze(got.String()), want)
			}
			if got := squeeze(strings.Join(d.wrap(body, text, width), "")); got != squeeze(d.faces[serif].clean(text)) {
				t.Errorf("wrap to %.0f mm: got %q", width, got)
			}
		}
	}
}

// A width of nothing still ends: a character a line.
func TestWrapToNoWidthEnds(t *testing.T) {
	d, err := newDoc("test", usual(), options(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, width := range []float64{0, -5, 0.001} {
		if got := strings.Join(d.wrap(body, "an oak", width), ""); got != "anoak" {
			t.Errorf("to %g mm: %q", width, got)
		}
		n := len(d.wrapRuns([]run{{st: body, text: "an oak"}}, width))
		if n < 2 || n > 5 {
			t.Errorf("to %g mm: %d lines", width, n)
		}
	}
}

func TestRunsOfTwoStylesShareALine(t *testing.T) {
	d, err := newDoc("test", usual(), options(t))
	if err != nil {
		t.Fatal(err)
	}
	lines := d.wrapRuns([]run{{st: body, text: "Wych elm, "}, {st: bodyItalic, text: "Ulmus glabra"}, {st: body, text: ", sawn"}}, 100)
	if len(lines) != 1 {
		t.Fatalf("got %d lines, want 1", len(lines))
	}
	var got []string
	for _, p := range lines[0] {
		got = append(got, strings.TrimSpace(p.text))
	}
	if s := strings.Join(got, "|"); s != "Wych elm,|Ulmus glabra|, sawn" {
		t.Errorf("got %q", s)
	}
	comma := lines[0][2]
	if want := lines[0][1].x + d.width(bodyItalic, lines[0][1].text); comma.x < want-0.01 || comma.x > want+0.01 {
		t.Errorf("the comma stands at %.3f mm, want %.3f, right behind the word", comma.x, want)
	}
}

// Text of any kind in any place makes a document, and no panic.
func TestHostileTextIsLaidOut(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for i := range 6 {
		var b strings.Builder
		for range rng.IntN(600) {
			if i%2 == 0 {
				b.WriteByte(byte(rng.IntN(256)))
			} else {
				b.WriteRune(rune(rng.IntN(0x3000)))
			}
		}
		s := b.String()
		r := usual()
		p := &r.Public
		p.Serial, p.Title, p.Kind, p.Finished, p.Story, p.Found = s, s, s, s, s, s
		p.Care = []report.Paragraph{{Head: s, Text: s}}
		p.Maker = &report.Maker{Name: s, Address: s, Web: s}
		p.Materials = []report.Material{{Name: s, Botanical: s, Detail: s, Role: s}}
		p.Weight.Text = report.TextWeights{Lb: s, Kg: s}
		r.BaseURL = s
		for name, layout := range documents {
			if _, err := layout(r, options(t)); err != nil {
				t.Errorf("%s of %q: %v", name, s, err)
			}
		}
	}
}

func FuzzText(f *testing.F) {
	for _, s := range []string{"", "Oak", "😀\x00", "\u202e", "a\u0301", strings.Repeat("w", 300), "1 3⁄16 in"} {
		f.Add(s)
	}
	d, err := newDoc("test", usual(), options(f))
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, m := range d.faces {
			for _, r := range m.clean(s) {
				if !m.has(r) {
					t.Fatalf("clean(%q) left %q, which the font lacks", s, r)
				}
			}
		}
		for _, l := range d.wrapRuns([]run{{st: body, text: s}}, 40) {
			if last := l[len(l)-1]; last.x+d.width(last.st, last.text) > 40.01 {
				t.Fatalf("%q: a line is too wide", s)
			}
		}
	})
}

// A package of 1655 mm is 166 cm and 66 in for a carrier, each rounded up from
// its own; what is read off the centimetres, 65 3/8, would be no carrier's inch.
func TestPackageSizesAreRoundedUpOnce(t *testing.T) {
	p := report.Package{Length: 1660, Width: 650, Height: 280, Text: report.Text{In: "66 × 26 × 11 in", Cm: "166 × 65 × 28 cm"}}
	for s, want := range map[units.System]string{units.Inches: p.Text.In, units.Centimetres: p.Text.Cm, units.Millimetres: "1660 × 650 × 280 mm"} {
		if got := sizeText(s, p); got != want {
			t.Errorf("%s: %q, want %q", s, got, want)
		}
	}
}

// The file holds each label before its values, row by row, which is how readers that
// follow the file, and not the places on the page, give them out: pdftotext -raw.
// (Without -raw it guesses columns from the gaps, and takes the labels for one.)
func TestTheFileHasEachLabelBeforeItsValue(t *testing.T) {
	pdftotext := reference(t, "pdftotext")
	for kind, rows := range map[string][]string{
		"sheet":       {"Length 54 in 137.2 cm", "Top, thickness 1⅝ in 4.1 cm", "Weight 69.2 lb 31.4 kg", "Wood Wych elm, Ulmus glabra", "Finish Hardwax oil", "Signed Burnt into"},
		"shipping":    {"Crate 60⅝ × 22⅞ × 36⅝ in 154 × 58 × 93 cm", "Gross weight 151 lb", "Collected from Ostrel Yard", "Tariff heading the broker confirms", "Lifting two people"},
		"certificate": {"Made by Ostrel Yard", "Number OY-0142", "Finished 18 September 2026", "Mark Burnt into"},
	} {
		data, err := documents[kind](usual(), options(t))
		if err != nil {
			t.Fatal(err)
		}
		name := filepath.Join(t.TempDir(), kind+".pdf")
		if err := os.WriteFile(name, data, 0o644); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(pdftotext, "-raw", name, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		text := strings.ReplaceAll(string(out), "\u00a0", " ")
		for _, row := range rows {
			if !strings.Contains(text, "\n"+row) {
				t.Errorf("%s: no line begins with %q:\n%s", kind, row, text)
			}
		}
	}
}
