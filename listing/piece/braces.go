package piece

import "strings"

// What goes wrong inside { }: commas in values, and commas and spaces that are
// missing.

// rejoin puts values with a comma in them together again. Inside { } a comma
// ends a value, so that assembly: eight bolts, 5 mm key makes a key of "5 mm
// key" without a colon; nobody means that. known tells the real keys.
func (s *source) rejoin(pairs []pair, known func(string) bool) []pair {
	var out []pair
	for _, p := range pairs {
		last := len(out) - 1
		if !p.bare || known(p.key) || last < 0 || out[last].value.shape != scalar || out[last].value.style != plainText {
			out = append(out, p)
			continue
		}
		v := *out[last].value
		text := v.text + ", " + p.key
		if line := []rune(s.line(v.at.Line)); v.at.Line == p.at.Line && v.at.Column <= p.at.Column {
			if end := p.at.Column - 1 + len([]rune(p.key)); end <= len(line) && string(line[p.at.Column-1:end]) == p.key {
				text = string(line[v.at.Column-1 : end])
			}
		}
		v.text = text
		if bare := uncurl(text); bare != text {
			v.text, v.style = bare, quotedText
		}
		out[last].value = &v
	}
	return out
}

// swallowed returns the key that a value inside { } has swallowed because there
// is no comma before it.
func swallowed(n *node, keys []Key) string {
	if n.shape != scalar || n.style != plainText || !strings.Contains(n.text, ": ") {
		return ""
	}
	words := strings.Fields(n.text)
	for _, w := range words[min(1, len(words)):] {
		if name, ok := strings.CutSuffix(w, ":"); ok && find(keys, name) != nil {
			return name
		}
	}
	return ""
}

// tight returns the key of a text such as width:16 in, where the space behind
// the colon was forgotten.
func tight(keys []Key, text string) *Key {
	name, _, ok := strings.Cut(text, ":")
	if !ok {
		return nil
	}
	return find(keys, name)
}
