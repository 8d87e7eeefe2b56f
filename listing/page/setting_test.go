package page

import (
	"regexp"
	"strings"
	"testing"

	"slabfolio/listing/units"
	"slabfolio/templates"
)

// A page leads to its other languages by the folders, which also works from a disk;
// to programs it names their addresses where these are known.
func TestLanguagesLeadByFolders(t *testing.T) {
	r := fullest()
	r.BaseURL = "https://ostrel.example/pieces"
	o := options(t)
	o.Languages = []Language{{Tag: "en", Name: "English"}, {Tag: "de", Name: "Deutsch", Folder: "de/"}, {Tag: "fr", Name: "Français", Folder: "fr/"}}
	for folder, want := range map[string][]string{"": {"de/index.html", "fr/index.html"}, "de/": {"../index.html", "../fr/index.html"}} {
		o.Folder = folder
		data, err := Listing(r, o)
		if err != nil {
			t.Fatal(err)
		}
		nav := regexp.MustCompile(`(?s)<nav.*?</nav>`).FindString(string(data))
		var got []string
		for _, m := range regexp.MustCompile(`href="([^"]*)"`).FindAllStringSubmatch(nav, -1) {
			got = append(got, m[1])
		}
		if strings.Join(got, " ") != strings.Join(want, " ") {
			t.Errorf("in folder %q the languages lead to %q, want %q", folder, got, want)
		}
		if alternate := `<link rel="alternate" hreflang="de" href="https://ostrel.example/pieces/OY-0201/de/">`; !strings.Contains(string(data), alternate) {
			t.Errorf("in folder %q there is no %s", folder, alternate)
		}
	}
}

// What search engines and previews show has the preferred system first.
func TestDescriptionHasThePreferredSystemFirst(t *testing.T) {
	for _, c := range []struct {
		prefer units.System
		want   string
	}{{units.Inches, "56 × 16 × 30 in (142.2 × 40.6 × 76.2 cm)"}, {units.Centimetres, "142.2 × 40.6 × 76.2 cm (56 × 16 × 30 in)"}, {units.Millimetres, "142.2 × 40.6 × 76.2 cm (56 × 16 × 30 in)"}} {
		o := options(t)
		o.Prefer = c.prefer
		data, err := Listing(fullest(), o)
		if err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(string(data), c.want); n != 2 {
			t.Errorf("preferring %v, %q stands %d times, want 2", c.prefer, c.want, n)
		}
	}
}

// The note stands beside the price that it belongs to; a piece that is gone says so
// first, and no price. A line below leads to the terms.
func TestPriceLine(t *testing.T) {
	r := fullest()
	for available, want := range map[string]priceLine{"in stock": {"£1,450", "collected, in stock"}, "sold": {"Sold", ""}, "not for sale": {"Not for sale", ""}} {
		r.Public.Available = available
		if got := priceOf(&r.Public, options(t)); got == nil || *got != want {
			t.Errorf("%s: %+v, want %+v", available, got, want)
		}
		data, err := Listing(r, options(t))
		if err != nil {
			t.Fatal(err)
		}
		_, body, _ := strings.Cut(string(data), "<body>")
		price := map[bool]int{true: 2, false: 0}[available == "in stock"]
		if got := strings.Count(body, "£1,450"); got != price {
			t.Errorf("%s: the price stands %d times, want %d", available, got, price)
		}
		jump, terms := strings.Index(body, `href="#terms"`), strings.Index(body, `id="terms"`)
		if care := strings.Index(body, `id="care"`); jump < 0 || terms < 0 || jump > care && care > 0 {
			t.Errorf("%s: no line before the care leads to the terms", available)
		}
	}
}

// Where nothing is on offer the catalogue still says whose it is and how to ask.
func TestEmptyCatalogueSaysTheMaker(t *testing.T) {
	r := fullest()
	r.Public.Available = "sold"
	c, err := NewCatalogue([]Entry{{Folder: "OY-0201", Report: r}}, options(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{r.Public.Maker.Name, "mailto:hello@ostrel.example", "No piece is on offer"} {
		if !strings.Contains(string(c.HTML), want) {
			t.Errorf("a catalogue without a piece lacks %q", want)
		}
	}
}

// Names stand as in dictionaries: É beside E, before F (Unicode Technical Standard 10;
// in Swedish Ä after Z, as CLDR's chart of that language has it).
func TestNamesInTheOrderOfDictionaries(t *testing.T) {
	given := []string{"Zirbe", "Érable", "Eiche", "Frêne", "Äsche", "Esche", "Esche"}
	for lang, want := range map[string]string{"fr": "Äsche Eiche Érable Esche Frêne Zirbe", "de": "Äsche Eiche Érable Esche Frêne Zirbe", "sv": "Eiche Érable Esche Frêne Zirbe Äsche"} {
		if got := strings.Join(each(given, lang), " "); got != want {
			t.Errorf("%s: %s, want %s", lang, got, want)
		}
	}
}

// In the body of a page no line ends before a unit or a ×, a size in a list is kept whole
// with its bracket, and fractions have a plain slash; the head stays as it is.
func TestSetForScreen(t *testing.T) {
	for given, want := range map[string]string{
		"2 × 3 × 4 in":            "2~× 3~× 4~in",
		"133.3 × 37.5 × 4 cm.":    "133.3~× 37.5~× 4~cm.",
		"56 × 16¼ × 1 3⁄16 in":    "56~× 16¼~× 1~3/16~in",
		"60 % ash, 4 mm (3⁄16 in": "60~% ash, 4~mm (3/16~in",
		"12 minutes in a day":     "12 minutes in a day",
		"<dd>2 × drawer, oak, 45,7 × 35,6 × 10,2 cm (18 × 14½ × 4 in)<br>7 cm</dd>": `<dd>2~× drawer, oak, <span class="size">45,7~× 35,6~× 10,2~cm</span> <span class="size">(18~× 14½~× 4~in)</span><br>7~cm</dd>`,
	} {
		got := string(setForScreen([]byte("<head>" + given + "<body>" + given)))
		if want = "<head>" + given + "<body>" + strings.ReplaceAll(want, "~", noBreak); got != want {
			t.Errorf("%q: %q, want %q", given, got, want)
		}
	}
}

// No word in the names of measures, facts and terms is wider than its column, in any
// language, on a phone or a desk: it would be broken anywhere.
func TestNamesOfFactsFitTheirColumn(t *testing.T) {
	pages := map[string][]byte{"control.html": []byte(`<!DOCTYPE html><title>x</title><main><dl style="width:4rem"><dt>Donaudampfschifffahrt</dt></dl></main>`)}
	windows := []map[string]any{{"page": "control.html", "width": 360}}
	for _, lang := range templates.Langs() {
		w, err := templates.Open(lang)
		if err != nil {
			t.Fatal(err)
		}
		r := fullest()
		r.Public.Quantity, r.Public.Photos = 3, nil
		page := lang + ".html"
		if pages[page], err = Listing(r, &Options{Words: w, Prefer: units.Centimetres}); err != nil {
			t.Fatal(err)
		}
		for _, width := range []int{360, 1280} {
			windows = append(windows, map[string]any{"page": page, "width": width})
		}
	}
	for _, s := range browse(t, pages, windows) {
		if (len(s.Cut) > 0) != (s.Page == "control.html") {
			t.Errorf("%s at %d: words wider than their column: %q", s.Page, s.Width, s.Cut)
		}
	}
}

// The page of a piece that is gone leads to those that can be had, where the workshop
// has an address for them.
func TestGonePieceLeadsToTheOthers(t *testing.T) {
	r := fullest()
	for _, c := range []struct {
		available, base string
		want            bool
	}{{"in stock", "https://ostrel.example/pieces/", false}, {"sold", "https://ostrel.example/pieces/", true}, {"not for sale", "https://ostrel.example/pieces/", true}, {"sold", "", false}} {
		r.Public.Available, r.BaseURL = c.available, c.base
		data, err := Listing(r, options(t))
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Contains(string(data), `<a href="https://ostrel.example/pieces/">See the other pieces</a>`); got != c.want {
			t.Errorf("%+v: got %v", c, got)
		}
	}
}

// A board has no base to stand on: its page shows it from above and its edge, as its
// sheet does.
func TestBoardIsDrawnFromTheSideToo(t *testing.T) {
	r := fullest()
	r.Public.Base, r.Drawing.Height, r.Drawing.BaseHeight, r.Drawing.Footprint = nil, 0, 0, [2]float64{}
	figure := drawPiece(r, options(t))
	if figure == nil || len(figure.Views) != 2 || figure.Views[1].Caption != "Edge, seen from the long side" {
		t.Fatalf("%+v", figure)
	}
	r.Drawing.Thickness = 0
	if figure = drawPiece(r, options(t)); figure == nil || len(figure.Views) != 1 {
		t.Errorf("without a thickness: %+v", figure)
	}
}
