package sheet

import (
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
	"slabfolio/templates"
)

func TestCleanReplacesWhatCannotBeDrawn(t *testing.T) {
	faces, err := loadFaces()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ name, in, want string }{
		{"plain text stays", "Oak, 12 in", "Oak, 12\u00a0in"},
		{"combining marks are composed", "o\u0302\u0301", "ố"},
		{"controls are dropped", "a\x00\x07\x1bb", "ab"},
		{"line ends and tabs are spaces", "a\nb\tc", "a b c"},
		{"direction marks are dropped", "\u202eabc\u202c\u200f\u2066x\u2069", "abcx"},
		{"soft hyphens and zero-width spaces are dropped", "ta\u00adble\u200btop", "tabletop"},
		{"a letter beyond the basic plane is replaced", "a𐍈b", "a�b"},
		{"a picture that no font has is left out with the blank before it", "Elm 🌳, and 👩🏽‍🔧 oak 🇬🇧", "Elm, and oak"},
		{"and at the beginning with the one behind it", "🌳 Elm", "Elm"},
		{"a sign that a font has stays", "© 20 °C", "© 20\u00a0°C"},
		{"a script that no font has is replaced", "木", "�"},
		{"not UTF-8", "a\xff\xfeb", "a�b"},
		{"a minus becomes a dash where the face has none", "−", "–"},
		{"a line never ends before its unit", "60 % and 3.4 mm and 12 in", "60\u00a0% and 3.4\u00a0mm and 12\u00a0in"},
		{"nor a day before its month", "by 3 September 2026", "by 3\u00a0September 2026"},
		{"every fraction in one style", "5 11⁄16 in, 3⁄16, ½ in, 10⅞ × 8¼ in", "5\u00a0¹¹⁄₁₆\u00a0in, ³⁄₁₆, ¹⁄₂\u00a0in, 10\u00a0⁷⁄₈\u00a0×\u00a08\u00a0¹⁄₄\u00a0in"},
		{"a word that only begins like a unit", "8 many", "8 many"},
	} {
		if got := faces[sans].clean(c.in); got != c.want {
			t.Errorf("%s: clean(%q) = %q, want %q", c.name, c.in, got, c.want)
		}
	}
}

func TestUnprintableNamesWhatIsReplaced(t *testing.T) {
	r := &report.Report{Public: report.Public{Title: "Bàn 木", Story: "стол 😀 α"}}
	if letters, pictures := Unprintable(r); string(letters) != "木" || string(pictures) != "😀" {
		t.Errorf("letters %q and pictures %q", string(letters), string(pictures))
	}
	if letters, pictures := Unprintable(usual()); letters != nil || pictures != nil {
		t.Errorf("of the usual piece: %q, %q", string(letters), string(pictures))
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

// Whoever takes the text out of a paper reads each label with its values, row by row,
// whether the program follows the file (pdftotext -raw) or guesses columns from the gaps
// on the page (pdftotext as it comes, which took the labels for a column of their own);
// and in each language with its own colon.
func TestPdftotextReadsLabelsWithTheirValues(t *testing.T) {
	pdftotext := reference(t, "pdftotext")
	rows := map[string][]string{
		"sheet":       {"Length: 54 in; 137.2 cm", "Top, thickness: 1 ⁵⁄₈ in; 4.1 cm", "Weight: 69.2 lb; 31.4 kg", "Wood: Wych elm, Ulmus glabra", "Finish: Hardwax oil", "Signed: Burnt into"},
		"shipping":    {"Crate: 60 ⁵⁄₈ × 22 ⁷⁄₈ × 36 ⁵⁄₈ in; 154 × 58 × 93 cm", "Gross weight: 151 lb", "Collected from: Ostrel Yard", "Delivered to: ____", "☐ a business ☐ a home", "Tariff heading: the broker confirms", "Lifting: Two people"},
		"certificate": {"Made by: Ostrel Yard", "Number: OY-0142", "Finished: 18 September 2026", "Mark: Burnt into"},
		"pricelist":   {"OY-1: First; £60.50 each", "OY-2: Second; £12,000"},
	}
	for kind, rows := range rows {
		for _, flags := range [][]string{nil, {"-raw"}} {
			text := textOf(t, pdftotext, onePaper(t, kind, options(t)), flags...)
			for _, row := range rows {
				if !strings.Contains(text, "\n"+row) {
					t.Errorf("%s %v: no line begins with %q:\n%s", kind, flags, row, text)
				}
			}
		}
	}
	for lang, row := range map[string]string{"fr": "Longueur : 137,2 cm ; 54 in", "de": "Länge: 137,2 cm; 54 in"} {
		o := options(t)
		w, err := templates.Open(lang)
		if err != nil {
			t.Fatal(err)
		}
		o.Words, o.Prefer = w, units.Centimetres
		if text := textOf(t, pdftotext, onePaper(t, "sheet", o)); !strings.Contains(text, "\n"+row+"\n") {
			t.Errorf("%s: no line is %q:\n%s", lang, row, text)
		}
	}
}

// The care comes before the cautions beside it, paragraph after paragraph, in plain
// pdftotext too.
func TestPdftotextReadsColumnsInOrder(t *testing.T) {
	text := textOf(t, reference(t, "pdftotext"), onePaper(t, "sheet", options(t, drawn(t, 900, 600))))
	at := -1
	for _, group := range [][]report.Paragraph{usual().Public.Care, usual().Public.Cautions} {
		for _, p := range group {
			head := p.Head + ". " + p.Text[:12]
			if i := strings.Index(text, head); i <= at {
				t.Errorf("%q comes at %d, what stands before it at %d:\n%s", head, i, at, text)
			} else {
				at = i
			}
		}
	}
}

// onePaper is a paper of the usual piece, or of the stock.
func onePaper(t *testing.T, kind string, o *Options) []byte {
	t.Helper()
	var data []byte
	var err error
	if kind == "pricelist" {
		data, err = PriceList(stock(), o)
	} else {
		data, err = documents[kind](usual(), o)
	}
	if err != nil {
		t.Fatal(err)
	}
	return data
}

var beforeFraction = regexp.MustCompile(`(\d) ?([⁰¹²³⁴-⁹]+⁄)`)

// textOf is what pdftotext makes of a file, with plain spaces.
func textOf(t *testing.T, pdftotext string, data []byte, flags ...string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "paper.pdf")
	if err := os.WriteFile(name, data, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(pdftotext, append(flags, name, "-")...).Output()
	if err != nil {
		t.Fatal(err)
	}
	text := strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(string(out))
	return "\n" + beforeFraction.ReplaceAllString(text, "$1 $2") // the narrow space is not always taken for one
}

// The first two lines of each paragraph of a story stay together, and the last two.
func TestParagraphsBreakWithTwoLines(t *testing.T) {
	d, err := newDoc("test", usual(), options(t))
	if err != nil {
		t.Fatal(err)
	}
	one := "The two boards came from one elm that a storm laid across the lane below the yard, and dried for three summers."
	for width := 30.0; width < 120; width += 5 {
		n := len(d.labelled("", body, one, width))
		f := d.labelled("", body, one+"\n\n"+one+"\n\nShort.\n\n"+one, width)
		later := len(d.wrapRuns([]run{{st: body, text: one, paragraph: true}}, width))
		ends := []int{0, n, n + later, n + later + 1, n + 2*later + 1}
		if len(f) != ends[4] {
			t.Fatalf("at %g mm there are %d lines, want %d", width, len(f), ends[4])
		}
		for i := 1; i < len(ends); i++ {
			from, to := ends[i-1], ends[i]
			if to-from > 1 && (!f[from].keep || !f[to-2].keep) {
				t.Errorf("at %g mm lines %d to %d are cut after the first or before the last", width, from, to-1)
			}
			if f[to-1].keep {
				t.Errorf("at %g mm line %d is kept with the next paragraph", width, to-1)
			}
		}
	}
}

// No paragraph ends with a short word alone where its line before has words to give, and none
// gives so many that it is the shorter one; a size is not parted at its signs, unless
// the column is narrower than it.
func TestLastLinesAndSizes(t *testing.T) {
	d, err := newDoc("test", usual(), options(t))
	if err != nil {
		t.Fatal(err)
	}
	texts := append(append([]report.Paragraph{}, usual().Public.Care...), usual().Public.Cautions...)
	balanced := 0
	for width := 45.0; width < 110; width += 0.5 {
		for _, p := range texts {
			lines := d.wrap(body, p.Text, width)
			runs := d.wrapRuns([]run{{st: bodyItalic, text: p.Head + " ", hanging: true}, {st: body, text: p.Text}}, width)
			if len(lines) > 1 {
				before, last := lines[len(lines)-2], lines[len(lines)-1]
				if d.width(body, last) < leastLast*width && d.width(body, before[:max(0, strings.LastIndex(before, " "))]) >= leastBefore*width {
					t.Errorf("at %g mm %q ends with %q alone, after %q", width, p.Text[:20], last, before)
				}
				if d.width(body, before) < leastBefore*width && d.width(body, before+" "+strings.Fields(last)[0]) < width {
					t.Errorf("at %g mm %q is left before %q", width, before, last)
				}
			}
			if len(runs) > 1 {
				last, before := runs[len(runs)-1], runs[len(runs)-2]
				if len(last) == 1 && d.width(body, last[0].text) < leastLast*width && !strings.Contains(last[0].text, " ") {
					b := before[len(before)-1]
					if i := strings.LastIndex(b.text, " "); i > 0 && b.x+d.width(body, b.text[:i]) >= leastBefore*width {
						t.Errorf("at %g mm %q ends with %q alone", width, p.Text[:20], last[0].text)
					}
				}
			}
			balanced++
		}
	}
	if balanced < 1000 {
		t.Fatalf("%d paragraphs tried", balanced)
	}
	for _, c := range []struct {
		width float64
		want  string
	}{{75, "Oak, 142.2 × 41.3 × 76.8 cm, 56 × 16 ¹⁄₄ × 30 ¹⁄₄ in"}, {38, "Oak,|142.2 × 41.3 × 76.8 cm,|56 × 16 ¹⁄₄ × 30 ¹⁄₄ in"}, {24, "Oak,|142.2 × 41.3 × |76.8 cm,|56 × 16 ¹⁄₄ × |30 ¹⁄₄ in"}} {
		got := strings.Join(d.wrap(body, "Oak, 142.2 × 41.3 × 76.8 cm, 56 × 16¼ × 30¼ in", c.width), "|")
		if got = strings.ReplaceAll(got, "\u00a0", " "); got != c.want {
			t.Errorf("at %g mm: %q, want %q", c.width, got, c.want)
		}
	}
}

// The whole number of a value is parted from its fraction with the narrow space before it.
func TestNumbersPartFromFractions(t *testing.T) {
	for in, want := range map[string][2]string{"8¼ in": {"8", "\u00a0¼ in"}, "29 15⁄16 in": {"29", "\u00a015⁄16 in"}, "137.2 cm": {"137", ".2 cm"}, "¾ in": {"", "¾ in"}, "15⁄16 in": {"", "15⁄16 in"}, "30 in": {"30", " in"}} {
		if whole, rest := splitNumber(in); whole != want[0] || rest != want[1] {
			t.Errorf("%q parts in %q and %q", in, whole, rest)
		}
	}
}
