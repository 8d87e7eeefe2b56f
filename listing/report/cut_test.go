package report

import (
	"strings"
	"testing"
)

// Texts are cut where a reader would stop, in each language of the papers.
func TestSentences(t *testing.T) {
	for text, want := range map[string]string{
		"One. Two! Three?":                       "One.|Two!|Three?",
		"It is approx. 3 m long. Then.":          "It is approx. 3 m long.|Then.",
		"By J. Smith. “Quoted.” Next":            "By J. Smith.|“Quoted.”|Next",
		"no end":                                 "no end",
		"A heading\n\nA line\nthat goes on. End": "A heading|A line that goes on.|End",
		"3.5 m. Done":                            "3.5 m. Done",
		"":                                       "",
		"Öl, Wachs usw. Zwei Lagen. Fertig":      "Öl, Wachs usw. Zwei Lagen.|Fertig",
		"Aprox. Dos metros. Fin":                 "Aprox. Dos metros.|Fin",
	} {
		if got := strings.Join(sentencesOf(text), "|"); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
	for text, want := range map[string]string{
		"Long Ridge desk in wych elm and smoke-grey resin, with two drawers":         "Long Ridge desk in wych elm and smoke-grey resin",
		"A console table that was made for the hall of the old mill with a":          "A console table that was made for the hall of the old mill",
		"Table basse en noyer et résine verte coulée sous le toit et pour la maison": "Table basse en noyer et résine verte coulée sous le toit",
		"Mesa de centro de nogal y resina verde hecha en casa, para el salón":        "Mesa de centro de nogal y resina verde hecha en casa",
		"Salontafel van notenhout en groene hars, gemaakt voor een huis in het":      "Salontafel van notenhout en groene hars",
	} {
		if got := cutAtClause(text, 60); got != want {
			t.Errorf("cutAtClause(%q, 60) = %q, want %q", text, got, want)
		}
	}
	for _, c := range []struct {
		text string
		n    int
		want string
	}{{"one two three", 13, "one two three"}, {"one two three", 8, "one two"}, {"one two three", 7, "one two"}, {"one two, three", 9, "one two"}, {"onetwothree", 4, "onet"}} {
		if got := cutAtWord(c.text, c.n); got != c.want {
			t.Errorf("cutAtWord(%q, %d) = %q, want %q", c.text, c.n, got, c.want)
		}
	}
}
