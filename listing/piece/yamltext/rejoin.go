package yamltext

// Rejoin puts values with a comma in them together again. Inside { } a comma ends
// a value, so that assembly: eight bolts, 5 mm key makes a key of "5 mm key"
// without a colon; nobody means that. known tells the real keys.
func (t *Text) Rejoin(pairs []Pair, known func(key string) bool) []Pair {
	if !hasBare(pairs) {
		return pairs
	}
	var out []Pair
	for _, p := range pairs {
		last := len(out) - 1
		if !p.bare || known(p.Key) || last < 0 || out[last].Value.Shape != Scalar || out[last].Value.Style != Bare {
			out = append(out, p)
			continue
		}
		v := *out[last].Value
		var text string
		if v.from.line == p.to.line { // with its own spaces, as written
			text = t.reading[v.from.line][v.from.byte:p.to.byte]
		} else {
			text = v.Text + ", " + p.Key
		}
		v.Text, v.to = text, p.to
		if bare := withoutCurlyQuotes(text); bare != text {
			v.Text, v.Style = bare, Quoted
		}
		out[last].Value = &v
	}
	return out
}

func hasBare(pairs []Pair) bool {
	for _, p := range pairs {
		if p.bare {
			return true
		}
	}
	return false
}
