package piece

import (
	"strings"
	"testing"
	"unicode"
)

// A letter that nobody sees is named and left out of titles and addresses; every
// letter of Unicode's format class that steers direction or joins is on the list.
func TestHiddenLettersAreNamedAndLeftOut(t *testing.T) {
	for r := rune(0); r < 0xffff; r++ {
		if unicode.Is(unicode.Bidi_Control, r) && hiddenLetters[r] == "" {
			t.Errorf("U+%04X steers direction and is not on the list", r)
		}
	}
	for r, name := range hiddenLetters {
		if r == '\ufeff' {
			continue // the YAML reader names it itself
		}
		spec := minimalSpec("title: Des" + string(r) + "k " + string(r))
		p, findings := ParsePiece("piece.yaml", []byte(spec), Defaults{})
		if p.Title.V != "Desk" {
			t.Errorf("%s: the title is %+q", name, p.Title.V)
		}
		if !said(findings, Doubt, "spec.hidden-letter", name) {
			t.Errorf("%s is not named: %+v", name, findings)
		}
	}
	w, findings := ParseWorkshop("workshop.yaml", []byte("workshop: {name: \"Ostrel \u202eYard\", web: \"https://ostrel\u200b-yard.example\"}\n"))
	if w.Name.V != "Ostrel Yard" || w.Web.V != "https://ostrel-yard.example" || !said(findings, Doubt, "spec.hidden-letter", "right-to-left override") || !said(findings, Doubt, "spec.hidden-letter", "zero width space") {
		t.Errorf("%q, %q, %+v", w.Name.V, w.Web.V, findings)
	}
}

func minimalSpec(title string) string {
	return "serial: OY-1\n" + title + "\nkind: bench\nfinished: 2026-01-02\ntop: {outline: {diameter: 30 cm}, thickness: 2 cm, wood: [{species: european-ash}]}\n"
}

func said(findings []Finding, rank Rank, code, words string) bool {
	for _, f := range findings {
		if f.Rank == rank && f.Code == code && strings.Contains(f.Message, words) {
			return true
		}
	}
	return false
}

// An address opens a page or a letter; what runs something or is none is a fault.
func TestWebAddresses(t *testing.T) {
	for web, good := range map[string]bool{
		"https://ostrel-yard.example": true, "http://ostrel-yard.example/a?b=c": true, "ostrel-yard.example": true, "www.ostrel-yard.example/tables": true,
		"mailto:bench@ostrel-yard.example": true, "HTTPS://OSTREL-YARD.EXAMPLE": true, "ostrel-yard.example:8080/x": true, "localhost:80": true,
		"javascript:alert(1)": false, "JaVaScRiPt:alert(1)": false, "data:text/html,x": false, "file:///etc/passwd": false, "vbscript:x": false,
		"https://": false, "ostrel yard.example": false, "ftp://ostrel-yard.example": false, "java\tscript:alert(1)": false, "http://[::1": false,
	} {
		text := "workshop: {web: \"" + strings.ReplaceAll(web, "\t", "\\t") + "\"}\n"
		_, findings := ParseWorkshop("workshop.yaml", []byte(text))
		faulty := false
		for _, f := range findings {
			faulty = faulty || f.Rank == Fault
		}
		if faulty == good {
			t.Errorf("web: %q: %+v", web, findings)
		}
	}
}
