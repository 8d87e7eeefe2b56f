package yamltext

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// valueWords tells of a value that has to stand in quotes.
func (t *Text) valueWords(m *mistake) (remark, bool) {
	text := t.reading[m.at.line]
	k := keyLine().FindStringSubmatch(text)
	r := remark{line: m.at.line + 1, column: t.column(m.at)}
	sign, _ := utf8.DecodeRuneInString(text[m.at.byte:])
	if k == nil || m.at.byte < len(k[1])+len(k[2])+1 { // not the value of the line's key
		switch m.kind {
		case labelSign, strangeSign:
			r.message, r.remedy = fmt.Sprintf("what begins with %c means something else in YAML", sign), fmt.Sprintf("put it in quotes: \"%c …\"", sign)
			return r, true
		}
		return r, false
	}
	value := strings.TrimSpace(k[3])
	bare, _ := bareLine(value)
	quoted := k[1] + k[2] + ": " + InQuotes(bare)
	at := utf8.RuneCountInString(k[1]+k[2]) + 3
	inside := strings.ContainsAny(value[:min(1, len(value))], `"'[{`)
	switch {
	case value == "":
		return r, false
	case (m.kind == strangeSign || m.kind == labelSign) && inside:
		r.message, r.remedy = fmt.Sprintf("a text cannot begin with %c unless it stands in quotes", sign), fmt.Sprintf("put the text in quotes: \"%c …\"", sign)
	case m.kind == strangeSign || m.kind == labelSign:
		r = remark{line: r.line, column: at, message: fmt.Sprintf("a text cannot begin with %s unless it stands in quotes", value[:1]), remedy: "write " + k[2] + ": " + Shorten(InQuotes(bare)), repaired: quoted, guess: true}
	case m.kind == blockHeader:
		r = remark{line: r.line, column: at, message: fmt.Sprintf("nothing may follow %s on its line", value[:1]), remedy: "begin the text on the next line, indented; or take the sign out"}
	case m.kind == listOnKeyLine:
		r = remark{line: r.line, column: at, message: "a list cannot begin on the line of its key", remedy: "begin each entry on a line of its own, below the key: - and a space"}
	case m.kind == colonInText && !inside:
		r = remark{line: r.line, column: at, message: "a colon with a space behind it stands inside the text", remedy: "put the whole text in quotes: " + k[2] + ": " + Shorten(InQuotes(bare)), repaired: quoted, guess: true}
	default:
		return r, false
	}
	return r, true
}
