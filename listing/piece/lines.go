package piece

import (
	"slices"
	"strings"
	"unicode"

	"slabfolio/listing/piece/yamltext"
)

// Lines returns the keys of a part as they stand in a file, one a line, each
// behind an indent; values that have keys of their own stand below theirs.
func (w *Written) Lines(indent string) string {
	var b strings.Builder
	(&lineWriter{&b, fitsLine}).keys(w, indent)
	return b.String()
}

// A lineWriter writes parts of a spec as lines of a file.
type lineWriter struct {
	b        *strings.Builder
	together func(*Written) bool // whether keys stand on one line, in braces
}

// keys writes keys, one a line.
func (l *lineWriter) keys(w *Written, indent string) {
	for _, k := range w.Keys {
		l.b.WriteString(indent + quoted(k.Name) + ":")
		l.value(k.Value, indent)
	}
}

// value writes what stands behind a key.
func (l *lineWriter) value(v *Written, indent string) {
	b := l.b
	switch {
	case v.Single && strings.Contains(v.Text, "\n") && fitsBlock(v.Text):
		b.WriteString(" |\n")
		for line := range strings.SplitSeq(v.Text, "\n") {
			b.WriteString(strings.TrimRight(indent+"  "+line, " ") + "\n")
		}
	case v.Single:
		b.WriteString(" " + quoted(v.Text) + "\n")
	case len(v.Keys) > 0 && l.together(v):
		b.WriteString(" " + flow(v) + "\n")
	case len(v.Keys) > 0:
		b.WriteString("\n")
		l.keys(v, indent+"  ")
	case len(v.Items) > 0 && !slices.ContainsFunc(v.Items, func(i *Written) bool { return len(i.Keys) > 0 }):
		b.WriteString(" " + flow(v) + "\n")
	default:
		b.WriteString("\n")
		for _, item := range v.Items {
			l.item(item, indent+"  ")
		}
	}
}

// item writes an entry of a list of groups.
func (l *lineWriter) item(item *Written, indent string) {
	if item.Single || len(item.Keys) == 0 || l.together(item) {
		l.b.WriteString(indent + "- " + flow(item) + "\n")
		return
	}
	var keys strings.Builder
	(&lineWriter{&keys, l.together}).keys(item, indent+"  ")
	l.b.WriteString(indent + "- " + strings.TrimPrefix(keys.String(), indent+"  "))
}

// fitsLine reports whether keys have room on one line: single values, no long text.
func fitsLine(w *Written) bool {
	n := 0
	for _, k := range w.Keys {
		if !k.Value.Single || strings.Contains(k.Value.Text, "\n") {
			return false
		}
		n += len(k.Name) + len(k.Value.Text) + 4
	}
	return n < 100
}

// flow writes a value in brackets.
func flow(w *Written) string {
	if w.Single {
		return quoted(w.Text)
	}
	var parts []string
	for _, k := range w.Keys {
		parts = append(parts, quoted(k.Name)+": "+flow(k.Value))
	}
	if len(w.Keys) > 0 {
		return "{" + strings.Join(parts, ", ") + "}"
	}
	for _, i := range w.Items {
		parts = append(parts, flow(i))
	}
	return "[" + strings.Join(parts, ", ") + "]"
}

// fitsBlock reports whether a text of several lines survives behind a | as it
// is: no blanks where its indentation or its end is told from.
func fitsBlock(text string) bool {
	for line := range strings.SplitSeq(text, "\n") {
		if strings.TrimRight(line, " \t") != line || strings.ContainsRune(line, '\t') || strings.ContainsFunc(line, unicode.IsControl) {
			return false
		}
	}
	return text[0] != ' ' && text[0] != '\n' && text[len(text)-1] != '\n'
}

// quoted writes a text so that it reads back as it is: bare where that is plain
// to see, else between double quotes.
func quoted(text string) string {
	if plainText(text) {
		return text
	}
	return yamltext.DoubleQuoted(text)
}

// plainText reports whether a text may stand without quotes, also in brackets:
// letters and digits at its ends, and nothing inside that means something in YAML.
func plainText(text string) bool {
	if text == "" || strings.TrimSpace(text) != text || strings.Contains(text, "  ") || strings.HasSuffix(text, ":") {
		return false
	}
	for i, r := range text {
		ok := unicode.IsLetter(r) || unicode.IsDigit(r) || i > 0 && strings.ContainsRune(" -_./()%+'½¼¾⅛⅜⅝⅞", r) || r == '.' || r == '/'
		if !ok {
			return false
		}
	}
	switch strings.ToLower(text) {
	case "on", "off", "yes", "no", "true", "false", "null", "y", "n":
		return false
	}
	return true
}
