package listing

import (
	"html"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"slabfolio/listing/page"
	"slabfolio/listing/piece"
	"slabfolio/listing/report"
	"slabfolio/listing/sheet"
	"slabfolio/templates"
	"slabfolio/testdata"
)

var (
	putIn = regexp.MustCompile(`\{\{.*?\}\}`)
	tag   = regexp.MustCompile(`(?s)<(script|style)\b.*?</(script|style)>|<[^>]*>`)
	// What the spec says in words of ours, which each language has its own for.
	vocabulary = regexp.MustCompile(`\b(kind|availability|family|cut|grain|how|holes|legs|tint|title): *[^,}\n]*`)
	onePage    = regexp.MustCompile(`/Type/Page\b`) // an object of a PDF: Pages is another
	asciiAZ    = regexp.MustCompile(`[A-Za-z]{4,}`)
)

// accented is a phrase in a language that does not exist: every letter that can
// carries an accent, and it is 40 % longer, as texts in other languages get.
func accented(phrase string) string {
	accents := strings.NewReplacer("a", "å", "e", "é", "i", "î", "o", "ö", "u", "ü", "y", "ÿ", "n", "ñ", "c", "ç", "s", "š", "A", "Å", "E", "É", "I", "Î", "O", "Ö", "U", "Ü", "S", "Š", "C", "Ç")
	text := func(s string) string {
		if strings.TrimSpace(s) == "" {
			return s
		}
		longer := utf8.RuneCountInString(strings.TrimSpace(s)) * 2 / 5
		s = accents.Replace(s)
		var more string
		for utf8.RuneCountInString(more) < longer {
			more += " þåþ"
		}
		cut := len(strings.TrimRightFunc(s, func(r rune) bool { return unicode.IsSpace(r) || unicode.IsPunct(r) }))
		return s[:cut] + more + s[cut:]
	}
	var b strings.Builder
	last := 0
	for _, at := range putIn.FindAllStringIndex(phrase, -1) {
		b.WriteString(text(phrase[last:at[0]]) + phrase[at[0]:at[1]])
		last = at[1]
	}
	return b.String() + text(phrase[last:])
}

// pseudo opens that language. Its decimal sign and its layouts stay.
func pseudo(t *testing.T) *templates.Words {
	t.Helper()
	w, err := templates.Open("en-GB")
	if err != nil {
		t.Fatal(err)
	}
	w.Rewrite(accented)
	return w
}

// demoReports are the reports of the demo's pieces in a language, and the maker's own
// words of each.
func demoReports(t *testing.T, words *templates.Words) (reports []*report.Report, own []string) {
	t.Helper()
	shop, err := testdata.Demo.ReadFile("demo/workshop.yaml")
	if err != nil {
		t.Fatal(err)
	}
	w, _ := piece.ParseWorkshop(piece.WorkshopName, shop)
	folders, err := testdata.Demo.ReadDir("demo")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range folders {
		if !f.IsDir() {
			continue
		}
		spec, err := testdata.Demo.ReadFile("demo/" + f.Name() + "/piece.yaml")
		if err != nil {
			t.Fatal(err)
		}
		p, _ := piece.ParsePiece("piece.yaml", spec, w.Defaults())
		o := demoOptions(t, f.Name(), p)
		o.Words = words
		r, err := report.Build(p, w, o)
		if err != nil {
			t.Fatal(err)
		}
		reports, own = append(reports, r), append(own, strings.ToLower(vocabulary.ReplaceAllString(string(spec), "")+string(shop)))
	}
	return reports, own
}

var hashTag = regexp.MustCompile(`#\pL[\pL\pN]*`)

// Every word that a buyer reads comes from the templates, the maker or the tables of
// names: in a language that does not exist no plain English word is left.
func TestNoWordsFromCode(t *testing.T) {
	words := pseudo(t)
	// Names of woods and materials by the tables, of products, units and standards.
	known := map[string]bool{"https": true, "http": true, "ffp2": true, "tsca": true, "title": true}
	reports, own := demoReports(t, words)
	for i, r := range reports {
		for _, m := range r.Public.Materials {
			for _, w := range asciiAZ.FindAllString(m.Name+" "+m.Botanical, -1) {
				known[strings.ToLower(w)] = true
			}
		}
		o := &page.Options{Words: words, Prefer: r.Prefer}
		text, err := page.Text(r, o)
		if err != nil {
			t.Fatal(err)
		}
		web, err := page.Listing(r, o)
		if err != nil {
			t.Fatal(err)
		}
		stray := map[string]bool{}
		for _, s := range []string{string(text), html.UnescapeString(tag.ReplaceAllString(string(web), " "))} {
			s = hashTag.ReplaceAllString(s, "") // made of the words to search by, which stand there too
			s = strings.ReplaceAll(strings.ReplaceAll(s, r.Public.Title, ""), strings.ToLower(r.Public.Title), "")
			for _, w := range asciiAZ.FindAllString(s, -1) {
				if w = strings.ToLower(w); !known[w] && !strings.Contains(own[i], w) && strings.ContainsAny(w, "aeiouscny") {
					stray[w] = true
				}
			}
		}
		if len(stray) > 0 {
			t.Errorf("%s: words that no phrase holds: %v", r.Public.Serial, slices.Sorted(maps.Keys(stray)))
		}
	}
}

// A language that is 40 % longer than English fits the papers: each is made, and the
// care card stays on its one side.
func TestLongerLanguagesFit(t *testing.T) {
	words := pseudo(t)
	reports, _ := demoReports(t, words)
	for _, r := range reports {
		for _, paper := range []string{"a4", "letter"} {
			o := &sheet.Options{Words: words, Paper: paper}
			for name, make := range map[string]func(*report.Report, *sheet.Options) ([]byte, error){
				"sheet": sheet.Sheet, "care": sheet.Care, "label": sheet.Label, "certificate": sheet.Certificate, "shipping": sheet.Shipping,
			} {
				data, err := make(r, o)
				if err != nil {
					t.Errorf("%s %s on %s: %v", r.Public.Serial, name, paper, err)
					continue
				}
				most := map[string]int{"sheet": 4, "care": 1, "label": 2, "certificate": 1, "shipping": 4}[name]
				if n := len(onePage.FindAll(data, -1)); n < 1 || n > most {
					t.Errorf("%s %s on %s: %d pages, at most %d", r.Public.Serial, name, paper, n, most)
				}
			}
		}
	}
}
