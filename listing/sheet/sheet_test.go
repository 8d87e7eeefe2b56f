package sheet

import (
	"bytes"
	"flag"
	"fmt"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"slabfolio/listing/report"
	"slabfolio/listing/units"
	"slabfolio/templates"
)

var (
	writeTo = flag.String("write", "", "a folder to write every sample document into, for looking at")
	heroes  = flag.String("heroes", "", "JPEG files, parted by commas, to look at as main photos")
)

var documents = map[string]func(*report.Report, *Options) ([]byte, error){
	"sheet": Sheet, "care": Care, "label": Label, "certificate": Certificate, "shipping": Shipping,
}

func TestEverySampleIsLaidOut(t *testing.T) {
	hero := drawn(t, 1500, 1000)
	for name, r := range samples() {
		for kind, f := range documents {
			for _, paper := range []string{"a4", "letter"} {
				o := options(t, hero, drawn(t, 601, 400), drawn(t, 402, 600), drawn(t, 603, 400))
				o.Pictures[0].Caption = "Seen from the window, before noon"
				o.Pictures[1].Caption = "The iron staple, as it was found"
				o.Pictures[2].Caption = "The saw’s last stroke, near the left end of the top, left as it is"
				o.Paper = paper
				data, err := f(r, o)
				if err != nil {
					t.Errorf("%s %s %s: %v", name, kind, paper, err)
					continue
				}
				if !bytes.HasPrefix(data, []byte("%PDF-1.4\n%")) {
					t.Errorf("%s %s: begins with %q", name, kind, data[:12])
				}
				keep(t, name+"-"+kind+"-"+paper, data)
			}
		}
	}
}

// keep writes a document for looking at, where that was asked for.
func keep(t *testing.T, name string, data []byte) {
	t.Helper()
	if *writeTo == "" {
		return
	}
	if err := os.WriteFile(filepath.Join(*writeTo, name+".pdf"), data, 0o644); err != nil {
		t.Fatal(err)
	}
}

// The sheet with no photo, an upright one, a square one, metric first, and
// with an accent.
func TestSampleVariants(t *testing.T) {
	variants := map[string]*Options{
		"nophoto": options(t), "upright": options(t, drawn(t, 800, 1200)), "square": options(t, drawn(t, 900, 900)),
		"panorama": options(t, drawn(t, 1500, 500)), "metric": options(t, drawn(t, 900, 600)),
	}
	variants["metric"].Prefer = units.Millimetres
	variants["metric"].Accent = [3]uint8{122, 78, 36}
	if *heroes != "" {
		for i, name := range strings.Split(*heroes, ",") {
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			c, _, err := image.DecodeConfig(bytes.NewReader(data))
			if err != nil {
				t.Fatal(err)
			}
			o := options(t, Picture{JPEG: data, Width: c.Width, Height: c.Height})
			o.Accent = [3]uint8{122, 78, 36}
			variants[fmt.Sprintf("real%d", i)] = o
		}
	}
	for name, o := range variants {
		for piece, r := range map[string]*report.Report{"usual": usual(), "shortest": shortest()} {
			data, err := Sheet(r, o)
			if err != nil {
				t.Errorf("%s %s: %v", piece, name, err)
				continue
			}
			keep(t, "variant-"+piece+"-"+name, data)
		}
	}
}

// read returns what pdftotext reads in a document, in reading order, without
// white space: lines end where they must, and that is no matter here.
func read(t *testing.T, data []byte) string {
	t.Helper()
	pdftotext := reference(t, "pdftotext")
	name := filepath.Join(t.TempDir(), "doc.pdf")
	if err := os.WriteFile(name, data, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(pdftotext, "-raw", "-enc", "UTF-8", name, "-").Output()
	if err != nil {
		t.Fatalf("pdftotext: %v", err)
	}
	return squeezed(string(out))
}

func squeezed(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return -1
		}
		return r
	}, s)
}

// No word that the maker wrote is lost, whatever the length.
func TestSheetHoldsEveryWord(t *testing.T) {
	for name, r := range samples() {
		if name == "scripts" {
			continue // holds characters that no font has; its own test is below
		}
		o := options(t, drawn(t, 900, 600))
		data, err := Sheet(r, o)
		if err != nil {
			t.Fatal(err)
		}
		got := read(t, data)
		p := &r.Public
		var want []string
		add := func(s ...string) {
			for _, s := range s {
				want = append(want, strings.Fields(s)...)
			}
		}
		add(p.Serial, p.Title, p.Story, p.Found, p.Mark, p.Guarantee)
		for _, all := range [][]report.Paragraph{p.Care, p.Cautions} {
			for _, c := range all {
				add(c.Head, c.Text)
			}
		}
		for _, m := range p.Materials {
			add(m.Botanical, m.Detail, m.Origin)
		}
		for _, part := range p.Parts {
			add(part.Name, part.Material)
		}
		if p.Maker != nil {
			add(p.Maker.Name, p.Maker.Address, p.Maker.Email, p.Maker.Phone, p.Maker.Web)
		}
		if p.Movement != nil {
			add(p.Movement.Text)
		}
		if p.Weight != nil {
			add(p.Weight.Text.Lb, p.Weight.Text.Kg)
		}
		for _, w := range want {
			w = squeezed(fraction().ReplaceAllStringFunc(inOneSign().ReplaceAllStringFunc(w, inParts), fractionGlyphs))
			if !strings.Contains(got, w) {
				t.Errorf("%s: %q is not on the sheet", name, w)
			}
		}
	}
}

// The figures of the usual piece, as a reader of the file finds them.
func TestDocumentsHoldTheFacts(t *testing.T) {
	for kind, want := range map[string][]string{
		"sheet": {"OY-0142", "Estuary console table", "Console table by Ostrel Yard, finished 18 September 2026",
			"Length: 54 in; 137.2 cm", "Width: 16 ¹⁄₄ in; 41.3 cm", "Height: 30 in; 76.2 cm", "Top, thickness: 1 ⁵⁄₈ in; 4.1 cm",
			"Weight: 69.2 lb; 31.4 kg",
			"Wych elm, Ulmus glabra, through-and-through, 82% of the top, United Kingdom, storm-felled 2021",
			"54 [137.2]", "30 [76.2]", "Scale 1:15", "Resin, 18% of the face", "1 of 2", "2 of 2"},
		"care":     {"Estuary console table", "When water no longer beads", "Two people lift it", "bench@ostrelyard.example", "Avoid"},
		"label":    {"OY-0142", "54 × 16 ¹⁄₄ × 30 in", "137.2 × 41.3 × 76.2 cm", "3 Quay Lane, Ostrel, Northshire"},
		"shipping": {"166.2 kg", "138.5 kg", "5.10 lb/ft³", "The density suggests class 175; the carrier decides", "151 lb, between 137 and 165", "68 kg, between 62 and 75", "ISPM 15", "Lifting: Two people"},
	} {
		data, err := documents[kind](usual(), options(t, drawn(t, 900, 600)))
		if err != nil {
			t.Fatal(err)
		}
		got := read(t, data)
		for _, w := range want {
			if !strings.Contains(got, squeezed(w)) {
				t.Errorf("%s does not say %q", kind, w)
			}
		}
	}
}

// The buyer's documents hold nothing private, whatever the report has.
func TestBuyersDocumentsHoldNothingPrivate(t *testing.T) {
	r := usual()
	r.Costs = &report.Costs{Labour: 98765, Items: 43210, Floor: 55555}
	r.Buyer = &report.Buyer{Name: "Undisclosed Buyer"}
	r.Stability = &report.Stability{TipLoad: 77.7}
	r.Record = []report.Record{{Product: "Secretproduct", Supplier: "Secretsupplier", Batch: "B4711"}}
	for _, kind := range []string{"sheet", "care", "label", "certificate"} {
		data, err := documents[kind](r, options(t, drawn(t, 900, 600)))
		if err != nil {
			t.Fatal(err)
		}
		got := read(t, data)
		for _, w := range []string{"98765", "43210", "55555", "UndisclosedBuyer", "77.7", "Secret", "B4711", "class175"} {
			if strings.Contains(got, w) {
				t.Errorf("%s says %q", kind, w)
			}
		}
	}
}

func TestScriptsComeBackAsText(t *testing.T) {
	data, err := Sheet(scripts(), options(t))
	if err != nil {
		t.Fatal(err)
	}
	got := read(t, data)
	for _, w := range []string{"Bàn gỗ “Cửa sông” — стол Ἑστία Łódź", "карельская берёза", "ελιά", "Ťuhýk, Șerban, Ğ, ı, ß, Œ", "¹⁄₂ ¹⁄₄ ³⁄₄ ¹⁄₈ ³⁄₈ ⁵⁄₈ ⁷⁄₈ ³⁄₁₆ × ± ″ ′ °"} {
		if !strings.Contains(got, squeezed(w)) {
			t.Errorf("%q does not come back", w)
		}
	}
}

// What is not known is said in a calm line, and nothing is invented.
func TestShippingSaysWhatIsMissing(t *testing.T) {
	data, err := Shipping(shortest(), options(t))
	if err != nil {
		t.Fatal(err)
	}
	got := read(t, data)
	for _, w := range []string{"sizes and weights of the packages", "density, class and volumetric weight"} {
		if !strings.Contains(got, squeezed(w)) {
			t.Errorf("does not say that it lacks %q", w)
		}
	}
	for _, w := range []string{"kg", "class:", "lb"} {
		if strings.Contains(got, w) {
			t.Errorf("says %q of a piece that has no weights", w)
		}
	}
}

// Every phrase of sheet.yaml can be said with the data that the code has.
func TestEveryPhraseIsUsed(t *testing.T) {
	w := words(t)
	source := ""
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		source += string(data)
	}
	built := []string{"meta.title.", "meta.subject.", "drawing.unit.", "certificate.", "drawing.grain.", "group.", "name.", "ship.missing.", "ship.divisor.", "ship.tariff.", "ship."}
	for _, id := range w.IDs() {
		short, ours := strings.CutPrefix(id, "sheet.")
		for _, work := range []string{".worked", ".restored", ".repaired", ".unsaid"} { // said by byWork
			short = strings.TrimSuffix(short, work)
		}
		if !ours || strings.Contains(source, `"`+short+`"`) {
			continue
		}
		ok := false
		for _, prefix := range built {
			if rest, cut := strings.CutPrefix(short, prefix); cut {
				ok = ok || prefix != "name." && prefix != "certificate." && prefix != "ship.missing." && prefix != "ship." || strings.Contains(source, `"`+rest+`"`)
			}
		}
		if !ok {
			t.Errorf("phrase %q is never said", id)
		}
	}
}

// A serial is shown whole, however long.
func TestLongSerialIsWhole(t *testing.T) {
	r := shortest()
	r.Public.Serial = "OSTREL-YARD-2026-" + strings.Repeat("0123456789", 6)
	for kind, f := range documents {
		data, err := f(r, options(t))
		if err != nil {
			t.Fatal(err)
		}
		if kind == "care" {
			continue // has it in the footer only, shortened
		}
		if got := read(t, data); !strings.Contains(got, r.Public.Serial) {
			t.Errorf("%s does not hold the serial whole: %.300s", kind, got)
		}
	}
}

func BenchmarkSheet(b *testing.B) {
	r, o := usual(), options(b, drawn(b, 1800, 1200))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Sheet(r, o); err != nil {
			b.Fatal(err)
		}
	}
}

// A carrier is asked in the terms of the maker's country: class, pounds and lift-gate
// in the United States, loading metres, kilograms and tail-lift elsewhere.
func TestShippingSpeaksTheTermsOfTheCountry(t *testing.T) {
	american := []string{"Freight class", "lb/ft³", "139 in³/lb", "lift-gate", "curb", "To call before", "151 lb"}
	elsewhere := []string{"Loading metres", "5000 cm³/kg", "tail-lift", "kerbside", "To telephone before"}
	for _, c := range []struct {
		home, lang   string
		there, never []string
	}{
		{"US", "en-US", append(american, "United States"), append(elsewhere, "Loading meters")},
		{"GB", "en", append(elsewhere, "United Kingdom"), american[:6]},
		{"DE", "en", append(elsewhere, "Germany"), american[:6]},
		{"", "en", append(american[:3:3], elsewhere...), nil},
	} {
		r := usual()
		r.Home, r.Tariff, r.Packing = c.home, "9403", "crate"
		r.Freight.ByDivisor = map[string]float64{"cm3-5000": 166.2, "cm3-6000": 138.5, "in3-139": 165.6, "in3-166": 138.7}
		r.Public.Price = &report.Price{Amount: 1450, Currency: "GBP"}
		o := options(t)
		var err error
		if o.Words, err = templates.Open(c.lang); err != nil {
			t.Fatal(err)
		}
		data, err := Shipping(r, o)
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(layoutWords(t, data)), " ")
		for _, want := range append(c.there, "£1,450, the price asked for it", "9403, other furniture, the broker confirms", "3 Quay Lane", "nothing to be stacked on it") {
			if !strings.Contains(text, want) {
				t.Errorf("%q: %q is not there: %s", c.home, want, text)
			}
		}
		for _, odd := range c.never {
			if strings.Contains(text, odd) {
				t.Errorf("%q: %q is there", c.home, odd)
			}
		}
	}
}

// A range has the decimals of its value, and what stands beside a sum adds up to it: 32.8
// and 21.6 are 54.4 kg; in pounds of 0.45359237 kg 72.3 and 47.6 are 119.9.
func TestARangeHasThePrecisionOfItsValue(t *testing.T) {
	r := usual()
	r.Home = "GB"
	r.Public.Shipping.Packages = []report.Package{{Name: "top", Length: 1620, Width: 610, Height: 240, Gross: 32.8, Low: 30.3, High: 37.7}, {Name: "base", Length: 920, Width: 520, Height: 270, Gross: 21.6, Low: 19.8, High: 24.3}}
	r.Freight.Gross = 54.4
	o := options(t)
	o.Prefer = units.Millimetres
	data, err := Shipping(r, o)
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Join(strings.Fields(layoutWords(t, data)), " ")
	for _, want := range []string{"32.8 kg, between 30.3 and 37.7", "21.6 kg, between 19.8 and 24.3", "72.3 lb", "47.6 lb", "54.4 kg", "119.9 lb", "All together 54.4 kg"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not there: %s", want, text)
		}
	}
	if strings.Contains(text, "33 kg") || strings.Contains(text, "54 kg") {
		t.Errorf("two precisions: %s", text)
	}
}

// The carriage of one piece is asked for, so the letter says what one is worth, also
// where several were made alike; only without a price does it leave the place open.
func TestTheLetterSaysWhatOnePieceIsWorth(t *testing.T) {
	for _, c := range []struct {
		price    float64
		quantity int
		want     string
	}{{64, 6, "The goods are worth £64."}, {64, 1, "The goods are worth £64."}, {0, 6, "The goods are worth (value)."}} {
		r := usual()
		r.Home, r.Public.Quantity, r.Public.Price = "GB", c.quantity, nil
		if c.price > 0 {
			r.Public.Price = &report.Price{Amount: c.price, Currency: "GBP"}
		}
		data, err := Shipping(r, options(t))
		if err != nil {
			t.Fatal(err)
		}
		if text := strings.Join(strings.Fields(layoutWords(t, data)), " "); !strings.Contains(text, c.want) {
			t.Errorf("%v of %d: %q is not there: %s", c.price, c.quantity, c.want, text)
		}
	}
}
