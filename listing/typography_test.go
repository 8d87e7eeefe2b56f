package listing

import (
	"html"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/page"
	"slabfolio/listing/report"
	"slabfolio/listing/sheet"
	"slabfolio/templates"
)

// bought is what a buyer and a carrier read of a piece: page, text and, where asked for
// and where there is a pdftotext to read them, papers.
func bought(t *testing.T, words *templates.Words, r *report.Report, papers bool) map[string]string {
	t.Helper()
	o := &page.Options{Words: words, Prefer: r.Prefer}
	text, err := page.Text(r, o)
	if err != nil {
		t.Fatal(err)
	}
	web, err := page.Listing(r, o)
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{"listing.txt": string(text), "index.html": html.UnescapeString(tag.ReplaceAllString(string(web), "\n"))}
	if !papers {
		return all
	}
	pdftotext, err := exec.LookPath("pdftotext")
	if err != nil {
		if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
			t.Fatal(err)
		}
		return all
	}
	for name, make := range map[string]func(*report.Report, *sheet.Options) ([]byte, error){
		"sheet": sheet.Sheet, "care": sheet.Care, "label": sheet.Label, "certificate": sheet.Certificate, "shipping": sheet.Shipping,
	} {
		data, err := make(r, &sheet.Options{Words: words, Paper: "a4"})
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(t.TempDir(), name+".pdf")
		if err := os.WriteFile(file, data, 0o644); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(pdftotext, "-raw", file, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		all[name+".pdf"] = string(out)
	}
	return all
}

func openWords(t *testing.T, lang string) *templates.Words {
	t.Helper()
	words, err := templates.Open(lang)
	if err != nil {
		t.Fatal(err)
	}
	return words
}

var (
	// A mark of French without its space, or with a plain one; one within a word is an
	// address, a scale or a time.
	withoutSpace = regexp.MustCompile(`\S*[^\s\x{a0}\x{202f}]([;:!?»](\s|$)|%)`)
	plainSpace   = regexp.MustCompile(`\S* [;:!?»%]`)
	percent      = regexp.MustCompile(`\d[ \x{a0}\x{202f}]?%`)
	// A figure with a point for its decimal sign.
	pointed = regexp.MustCompile(`(^|[\s(\[])\d+\.\d{1,2}($|[\s,;)\]])`)
)

// Every sentence in French that code puts together has the spaces of French, shares
// stand as each language has them, and figures have its decimal sign (sources:
// templates/typography_test.go; pdftotext gives every space as a plain one).
func TestSpacesOnPapers(t *testing.T) {
	for lang, sign := range map[string]string{"fr": "\u202f", "de": "\u202f", "es": "\u00a0", "nl": "", "en-GB": "", "en-US": ""} {
		want, onPaper := regexp.MustCompile(`^\d`+sign+`%$`), regexp.MustCompile(`^\d`+strings.Repeat(" ", len([]rune(sign)))+`%$`)
		shares := 0
		words := openWords(t, lang)
		reports, own := demoReports(t, words)
		for i, r := range reports[:3] {
			wrong := func(name string, all []string) {
				for _, at := range all {
					if !strings.Contains(own[i], strings.ToLower(strings.TrimSpace(at))) {
						t.Errorf("%s, %s %s: %q", lang, r.Public.Serial, name, at)
					}
				}
			}
			for name, text := range bought(t, words, r, lang == "fr" && i == 0) {
				paper := strings.HasSuffix(name, ".pdf")
				for _, at := range percent.FindAllString(text, -1) {
					if shares++; !paper && !want.MatchString(at) || paper && !onPaper.MatchString(at) {
						t.Errorf("%s, %s %s: %q", lang, r.Public.Serial, name, at)
					}
				}
				if lang == "fr" { // on paper a colon may stand for the gap beside a name, which no eye sees (sheet/bridge.go)
					wrong(name, slices.DeleteFunc(withoutSpace.FindAllString(text, -1), func(at string) bool {
						return paper && strings.HasSuffix(strings.TrimSpace(at), ":")
					}))
				}
				if lang == "fr" && !paper {
					wrong(name, plainSpace.FindAllString(text, -1))
				}
				if !strings.HasPrefix(lang, "en") {
					wrong(name, pointed.FindAllString(text, -1))
				}
			}
		}
		if shares < 10 {
			t.Errorf("%s: only %d shares are looked at", lang, shares)
		}
	}
}

// britishWords are words that readers in the United States spell otherwise or have
// another word for. Source: Merriam-Webster's notes on the spellings of both, and the
// trade's own words (lift-gate, dolly, fiberboard) by common practice; from memory.
var britishWords = regexp.MustCompile(`(?i)\b(aluminium|fibreboard|fibres?|fibreglass|colours?|coloured|grey|greyed|centimetres?|millimetres?|metres?|litres?|` +
	`draughts?|moulds?|moulded|mouldings?|levelled|levelling|labelled|labelling|travelled|travelling|modelled|ploughed|centres?|centred|storeys?|kerbs?|kerbside|tyres?|` +
	`trolleys?|tail-lifts?|lorry|lorries|carriage|postcodes?|telephone|licen[c]e|practis\w+|analys\w+d|catalogue|cheques?|whilst|towards|jewellery|` +
	`favourite|honour\w*|neighbour\w*|vapours?|odours?|labour|armour|harbour|behaviour|sulphur|ageing|timbers?|chipboard|blockboard|worktops?|washing-up|flat-pack|skirting boards?|fixings?|reckoned)\b`)

// The papers of a piece in the English of the United States hold no word of the other.
func TestPapersForTheUnitedStates(t *testing.T) {
	words := openWords(t, "en-US")
	reports, own := demoReports(t, words)
	for i, r := range reports {
		for name, text := range bought(t, words, r, i == 0) {
			for _, at := range britishWords.FindAllString(text, -1) {
				if !strings.Contains(own[i], strings.ToLower(at)) {
					t.Errorf("%s %s: %q", r.Public.Serial, name, at)
				}
			}
		}
	}
	british := 0
	reports, own = demoReports(t, openWords(t, "en-GB"))
	for i, r := range reports {
		for _, text := range bought(t, openWords(t, "en-GB"), r, false) {
			for _, at := range britishWords.FindAllString(text, -1) {
				if !strings.Contains(own[i], strings.ToLower(at)) {
					british++
				}
			}
		}
	}
	if british < 10 {
		t.Errorf("only %d words are found in the English of Britain: the test looks for too little", british)
	}
}
