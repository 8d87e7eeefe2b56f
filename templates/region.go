package templates

import (
	"fmt"
	"io/fs"
	"path"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// RegionOf makes "en" that of the maker's buyers: en-US where the country is the
// United States; where no country is told, where prices are in US dollars; and
// where there are no prices either, where the paper is Letter. Any other
// language, and an English of a region, stay as they are.
func RegionOf(lang, country, currency, paper string) string {
	switch {
	case lang != "en":
		return lang
	case country == "US", country == "" && currency == "USD", country == "" && currency == "" && paper == "letter":
		return "en-US"
	}
	return lang
}

// adapt makes a language's phrases those of a region: its own phrases in place of
// the language's, and its words in the rest.
func (w *Words) adapt() error {
	region := w.Lang
	if _, err := fs.Stat(files, region); err != nil || region == w.base {
		return nil // it differs in nothing
	}
	spelling, err := files.ReadFile(path.Join(region, "spelling.txt"))
	if err != nil {
		return err
	}
	respell, err := newSpeller(string(spelling))
	if err != nil {
		return fmt.Errorf("read %s/spelling.txt: %w", region, err)
	}
	own, err := phrasesOf(path.Join(region, "phrases.yaml"))
	if err != nil {
		return err
	}
	for id, text := range own {
		switch {
		case w.Has(id):
		case strings.HasPrefix(id, "name.material.") || strings.HasPrefix(id, "name.wood."): // English takes these from the table, spelt as in Britain
			w.parsed[id] = text
		default:
			return fmt.Errorf("read %s/phrases.yaml: %s has no phrase %q", region, w.base, id)
		}
	}
	w.respell, w.own = respell, own
	return nil
}

// text is a phrase as it stands in the templates' syntax, with what its region has
// otherwise. It is respelt when it is asked for: few of all are.
func (w *Words) text(id string) (string, bool) {
	if text, ok := w.own[id]; ok {
		return w.typeset(text), true
	}
	text, ok := w.parsed[id]
	if ok && w.respell != nil {
		text = w.respell.text(text)
	}
	return w.typeset(text), ok
}

// Rewrite puts every phrase, as it stands in the templates' syntax, through a
// function.
func (w *Words) Rewrite(phrase func(string) string) {
	for id := range w.parsed {
		text, _ := w.text(id)
		w.parsed[id] = phrase(text)
	}
	w.respell, w.own = nil, nil
	clear(w.phrases)
}

// A speller writes words as a region has them.
type speller struct {
	words map[string]string
	find  *regexp.Regexp // what text/template acts on, which is no text, and the words
}

// newSpeller reads lines of a word, a tab, and the word in its place.
func newSpeller(lines string) (*speller, error) {
	s := &speller{words: map[string]string{}}
	pattern := `\{\{.*?\}\}`
	for line := range strings.Lines(lines) {
		from, to, ok := strings.Cut(strings.TrimSpace(line), "\t")
		if !ok || from == "" || to == "" {
			return nil, fmt.Errorf("%q is not two words with a tab between", strings.TrimSpace(line))
		}
		s.words[from] = to
		pattern += `|\b` + regexp.QuoteMeta(from) + `\b`
	}
	var err error
	s.find, err = regexp.Compile("(?i)" + pattern)
	return s, err
}

// text respells the words of a phrase, a capital at their head kept.
func (s *speller) text(phrase string) string {
	return s.find.ReplaceAllStringFunc(phrase, func(word string) string {
		to, ok := s.words[strings.ToLower(word)]
		if !ok {
			return word
		}
		if first, _ := utf8.DecodeRuneInString(word); unicode.IsUpper(first) {
			head, n := utf8.DecodeRuneInString(to)
			return string(unicode.ToUpper(head)) + to[n:]
		}
		return to
	})
}
