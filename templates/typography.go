package templates

import (
	"regexp"
	"strings"
	"sync"
)

// spaces are what a language writes where a phrase has a plain space before a mark or
// within quotation marks, since no line may end there; and the apostrophe. Sources: French, Lexique des règles
// typographiques en usage à l'Imprimerie nationale (from memory): a thin space before
// ; ! ? and %, a full one before the colon. The per cent sign, Unicode CLDR's patterns:
// "#,##0%" in English and Dutch, with a space in German, French and Spanish; DIN 5008
// has that narrow in German (from memory).
var spaces = map[string][]string{
	"de": {" %", "\u202f%"},
	"en": {" %", "%", "'", "’"},
	"es": {" %", "\u00a0%"},
	"fr": {" ;", "\u202f;", " !", "\u202f!", " ?", "\u202f?", " %", "\u202f%", " :", "\u00a0:", "« ", "«\u202f", " »", "\u202f»"},
	"nl": {" %", "%"},
}

// inBraces is what text/template acts on.
var inBraces = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(?s)\{\{.*?\}\}`) })

// setters put those in, by language; spaces that are no-break already become the one
// that the language has.
var setters = func() map[string]*strings.Replacer {
	all := map[string]*strings.Replacer{}
	for lang, pairs := range spaces {
		var more []string
		for i := 0; i < len(pairs); i += 2 {
			for _, space := range []string{"\u00a0", "\u202f"} {
				more = append(more, strings.Replace(pairs[i], " ", space, 1), pairs[i+1])
			}
		}
		all[lang] = strings.NewReplacer(append(more, pairs...)...)
	}
	return all
}()

// typeset gives a phrase the spaces of its language; whoever writes phrases types plain
// ones, and what is put in stays as it is.
func (w *Words) typeset(phrase string) string {
	set, ok := setters[w.base]
	if !ok {
		return phrase
	}
	var b strings.Builder
	last := 0
	for _, at := range inBraces().FindAllStringIndex(phrase, -1) {
		b.WriteString(set.Replace(phrase[last:at[0]]) + phrase[at[0]:at[1]])
		last = at[1]
	}
	return b.String() + set.Replace(phrase[last:])
}

// Percent writes a share, such as "7.5 %", as the language does: "7.5%", "7,5 %".
func (w *Words) Percent(share string) string {
	return w.Say("general.percent", map[string]any{"Share": w.Number(strings.TrimSuffix(share, " %"))})
}
