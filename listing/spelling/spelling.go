// Package spelling compares names as people write them, and lists words as
// people say them, in messages for the maker.
package spelling

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// unaccented are the letters of the languages around us without their marks.
var unaccented = strings.NewReplacer("á", "a", "à", "a", "â", "a", "ã", "a", "ä", "a", "å", "a", "é", "e", "è", "e", "ê", "e", "ë", "e", "í", "i", "ì", "i", "î", "i", "ï", "i",
	"ó", "o", "ò", "o", "ô", "o", "õ", "o", "ö", "o", "ø", "o", "ú", "u", "ù", "u", "û", "u", "ü", "u", "ç", "c", "ñ", "n", "ß", "ss", "æ", "ae", "œ", "oe")

// Plain returns a name in small letters without accents and digits with single
// spaces between its words, so that Wych-Elm and "wych  elm" are one name, and ipê
// and Ipe.
func Plain(name string) string {
	if plain, ok := plainASCII(name); ok {
		return plain
	}
	return plainAny(name)
}

// plainAny is Plain for any name.
func plainAny(name string) string {
	return strings.Join(strings.FieldsFunc(unaccented.Replace(strings.ToLower(name)), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}), " ")
}

// plainASCII is Plain for a name of ASCII alone, which nearly all are; false for others.
func plainASCII(name string) (plain string, ok bool) {
	asItIs, gap := true, true // gap: no letter since the start or the last space
	for i := range len(name) {
		switch c := name[i]; {
		case c >= utf8.RuneSelf:
			return "", false
		case 'a' <= c && c <= 'z' || '0' <= c && c <= '9':
			gap = false
		case c == ' ' && !gap:
			gap = true
		default:
			asItIs = false
		}
	}
	if asItIs && (!gap || name == "") {
		return name, true
	}
	out := make([]byte, 0, len(name))
	gap = false
	for i := range len(name) {
		c := name[i]
		if 'A' <= c && c <= 'Z' {
			c += 'a' - 'A'
		}
		if ('a' > c || c > 'z') && ('0' > c || c > '9') {
			gap = len(out) > 0
			continue
		}
		if gap {
			out, gap = append(out, ' '), false
		}
		out = append(out, c)
	}
	return string(out), true
}

// Distance returns how many letters have to be put in, left out, changed or
// swapped with their neighbour to make a into b, at most the given number: the
// optimal string alignment distance, a common refinement of Levenshtein's.
func Distance(a, b string, most int) int {
	x, y := []rune(a), []rune(b)
	if len(x)-len(y) >= most || len(y)-len(x) >= most {
		return most
	}
	before, last := make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row := make([]int, len(y)+1)
		row[0] = i
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last = last, row
	}
	return min(last[len(y)], most)
}

// Nearest returns which things have a name like a given one, the nearest first
// and at most n of them, by their place in names. All names are plain. A name
// that is part of the other, as a whole word, is one slip away.
func Nearest(name string, names [][]string, n int) []int {
	if name == "" || len(name) > 100 {
		return nil
	}
	most := 2 + len(name)/4 // slips that are too many: a quarter of the letters, and two
	type near struct{ slips, at int }
	var found []near
	for at, called := range names {
		best := most
		for _, other := range called {
			slips := Distance(name, other, most)
			if strings.Contains(" "+other+" ", " "+name+" ") || len(other) > 3 && strings.Contains(" "+name+" ", " "+other+" ") {
				slips = min(slips, 1)
			}
			best = min(best, slips)
		}
		if best < most {
			found = append(found, near{best, at})
		}
	}
	slices.SortFunc(found, func(a, b near) int { return cmp.Or(cmp.Compare(a.slips, b.slips), cmp.Compare(a.at, b.at)) })
	var out []int
	for _, f := range found[:min(n, len(found))] {
		out = append(out, f.at)
	}
	return out
}

// And lists words: "a", "a and b", "a, b and c".
func And(words []string) string { return list(words, " and ") }

// Or lists words: "a", "a or b", "a, b or c".
func Or(words []string) string { return list(words, " or ") }

func list(words []string, join string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + join + words[last]
}
