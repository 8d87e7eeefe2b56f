package spelling

import "strings"

// Capital sets the first letter as a capital.
func Capital(s string) string {
	r := []rune(s)
	if len(r) == 0 {
		return s
	}
	return strings.ToUpper(string(r[:1])) + string(r[1:])
}

// Paragraphs splits a text at its blank lines, joins the lines between and
// leaves one space between words; a no-break space stays.
func Paragraphs(s string) []string {
	var all, words []string
	for _, line := range append(strings.Split(s, "\n"), "") {
		in := strings.FieldsFunc(line, func(r rune) bool { return r == ' ' || r == '\t' || r == '\r' })
		if len(in) == 0 && len(words) > 0 {
			all, words = append(all, strings.Join(words, " ")), nil
		}
		words = append(words, in...)
	}
	return all
}

// OneLine is a text on one line, with one space between words.
func OneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// Commas puts commas between what is not empty.
func Commas(parts ...string) string {
	var there []string
	for _, p := range parts {
		if p = strings.TrimSpace(p); p != "" {
			there = append(there, p)
		}
	}
	return strings.Join(there, ", ")
}
