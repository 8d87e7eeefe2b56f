package piece

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/spelling"
)

// legalForms end the names of firms and tell nobody apart.
var legalForms = []string{"gmbh", "ltd", "limited", "inc", "llc", "co", "ag", "kg", "plc", "bv", "sarl", "sl", "sas"}

// checkNamed doubts every value of a spec that names the buyer where anybody may read
// it: who has a piece is private.
func checkNamed(d *decoder, w *Written, p *Piece) {
	if p.Buyer == nil || !p.Buyer.Name.Set() {
		return
	}
	whole := strings.Join(strings.Fields(p.Buyer.Name.V), " ")
	words := slices.DeleteFunc(strings.Fields(strings.Map(func(r rune) rune {
		if r == '.' || r == ',' || r == '&' {
			return ' '
		}
		return r
	}, whole)), func(w string) bool { return slices.Contains(legalForms, spelling.Plain(w)) })
	small := func(w string) bool { r, _ := utf8.DecodeRuneInString(w); return unicode.IsLower(r) }
	if !slices.ContainsFunc(words, func(w string) bool { return !small(w) }) {
		return // no name, but words such as "a neighbour"
	}
	surname := words[len(words)-1]
	if len(words) == 1 || small(surname) {
		surname = ""
	}
	var look func(w *Written, path string)
	look = func(w *Written, path string) {
		for _, item := range w.Items {
			look(item, path)
		}
		for _, k := range w.Keys {
			if at := join(path, k.Name); ReaderOf(at) == Anyone {
				look(k.Value, at)
			}
		}
		text := strings.Join(strings.Fields(w.Text), " ")
		named := ""
		switch {
		case !w.Single:
		case holdsWord(strings.ToLower(text), strings.ToLower(whole)):
			named = whole
		case holdsWord(text, surname):
			named = surname
		}
		if named != "" {
			d.doubt("spec.buyer-named", w.At, fmt.Sprintf("%s names the buyer, %q, and everybody can read it", path, yamltext.Shorten(named)),
				"take the name out of it; who has the piece stands in buyer, which is never published")
		}
	}
	look(w, "")
}

// holdsWord reports whether a text holds a word, or several, that no letter or figure
// goes on from.
func holdsWord(text, word string) bool {
	if utf8.RuneCountInString(word) < 3 {
		return false
	}
	part := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }
	for from := 0; ; {
		i := strings.Index(text[from:], word)
		if i < 0 {
			return false
		}
		i += from
		before, _ := utf8.DecodeLastRuneInString(text[:i])
		after, _ := utf8.DecodeRuneInString(text[i+len(word):])
		if !part(before) && !part(after) {
			return true
		}
		from = i + len(word)
	}
}
