package templates

import (
	"regexp"
	"strings"
	"testing"
)

// inFront are words that change what stands behind them, or are changed by it: German
// prepositions and articles want a case ("von Amerikanischem Nussbaum"), French de
// loses its e (d’iroko). A name that is put in stands as it is, so none may stand
// before it. (Duden, die Grammatik; Grevisse, le bon usage; from memory.)
var inFront = map[string]*regexp.Regexp{
	"de": regexp.MustCompile(`(?i)\b(von|mit|aus|bei|zu|nach|außer|seit|dem|den|der|des|einem|einen|einer|eines|ein|eine)\s\{\{\.(Product|Woods|Wood|Panels|Oil|Family|Fixing)\}`), // Of comes by Words.Behind
	"fr": regexp.MustCompile(`(?i)\b(de|du|des|le|la|les|ce|cette|un|une|au|que)\s\{\{\.(Product|Woods|Wood|Of|Panels|Oil|Family|Fixing|Maker|Title|Serial)\}`),
}

func TestNamesNeedNoCaseAndNoElision(t *testing.T) {
	for lang, bad := range inFront {
		phrases, _ := ownPhrases(t, lang)
		for id, phrase := range phrases {
			if at := bad.FindString(phrase); at != "" && id != "alt.again" { // that one counts photos
				t.Errorf("%s: %s: %q is wrong for some that are put in: %s", lang, id, at, phrase)
			}
		}
	}
	for lang, was := range map[string]string{"de": "und der von {{.Woods}} kann reizen", "fr": "une couche mince de {{.Product}}"} {
		if !inFront[lang].MatchString(was) {
			t.Errorf("%s: nothing is found in %q", lang, was)
		}
	}
}

// dated are the days that are put in, with what stands before each.
var dated = regexp.MustCompile(`(\S*)[\s\x{a0}]\{\{\.(To|From|By|Light|Cured|Since|Date)\}\}`)

// A day in a sentence has its article in German, French and Spanish: bis zum 21. Juni,
// jusqu’au 21 juin, hasta el 21 de junio. In a table it stands alone.
func TestDaysInSentencesHaveTheirArticle(t *testing.T) {
	articles := map[string][]string{"de": {"zum", "dem", "am", "vom"}, "fr": {"le", "du", "jusqu’au"}, "es": {"el", "del", "al", "terminación:"}}
	found := 0
	for lang, want := range articles {
		phrases, _ := ownPhrases(t, lang)
		for id, phrase := range phrases {
			if !saysDays(id) {
				continue
			}
			for _, m := range dated.FindAllStringSubmatch(phrase, -1) {
				if found++; !contains(want, m[1]) {
					t.Errorf("%s: %s has %q before a day: %s", lang, id, m[1], phrase)
				}
			}
		}
	}
	if found < 60 {
		t.Errorf("only %d days are looked at", found)
	}
}

// saysDays reports whether From, To and their like are days in a phrase, not figures.
func saysDays(id string) bool {
	for _, group := range []string{"care.first-weeks.", "care.resin-cure", "caution.", "card.do.care.first-weeks.", "page.cured-", "sheet.finish.", "sheet.byline"} {
		if strings.HasPrefix(id, group) {
			return true
		}
	}
	return false
}

func contains(words []string, word string) bool {
	for _, w := range words {
		if strings.EqualFold(w, word) {
			return true
		}
	}
	return false
}

// Spanish y is e before the sound of i: acero e iroko (RAE, Ortografía, from memory).
func TestSpanishAndBeforeI(t *testing.T) {
	es := open(t, "es")
	for _, c := range []struct{ last, want string }{{"iroko", "teca e iroko"}, {"Irlanda", "teca e Irlanda"}, {"hierro", "teca y hierro"}, {"nogal", "teca y nogal"}} {
		if got := es.List([]string{"teca", c.last}); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}
