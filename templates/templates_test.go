package templates

import (
	"html/template"
	"net/url"
	"strings"
	"testing"
)

func TestEveryPhraseParses(t *testing.T) {
	for _, lang := range Langs() {
		w, err := Open(lang)
		if err != nil {
			t.Fatal(err)
		}
		if len(w.IDs()) == 0 {
			t.Fatalf("%s: no phrases", lang)
		}
		for _, id := range w.IDs() {
			if _, err := w.phrase(id); err != nil {
				t.Errorf("%s: %s: %v", lang, id, err)
			}
		}
	}
}

func TestSayPutsDataIn(t *testing.T) {
	w, err := Open("en")
	if err != nil {
		t.Fatal(err)
	}
	if got := w.Say("general.between", map[string]any{"Low": "28", "High": "34"}); got != "between 28 and 34" {
		t.Errorf("got %q", got)
	}
}

// Every page of a language parses, and say puts in all that a page gives it by
// name, the last pair too.
func TestPagesSayPhrases(t *testing.T) {
	w, err := Open("en")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"listing.html", "catalogue.html", "overview.html"} {
		page, err := w.Page(name, template.FuncMap{"esc": url.PathEscape})
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		page, err = page.New("said").Parse(`{{say "general.between" "Low" 28 "High" .}}; {{say "general.between" "High" 2 "Low" "one"}}`)
		if err != nil {
			t.Fatal(err)
		}
		var b strings.Builder
		if err := page.Execute(&b, "34"); err != nil {
			t.Fatal(err)
		}
		if got, want := b.String(), "between 28 and 34; between one and 2"; got != want {
			t.Errorf("%s: got %q, want %q", name, got, want)
		}
	}
}
