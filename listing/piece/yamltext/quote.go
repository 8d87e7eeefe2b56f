package yamltext

import (
	"context"
	"fmt"
	"strings"
)

// Quote writes a text so that it reads back as it is: bare where that is the same,
// else in quotes. flow says that it stands in brackets, old how another text stood
// there: its quotes are kept.
func Quote(text string, flow bool, old string) string {
	if old == "" || old[0] != '"' && old[0] != '\'' {
		if readsBare(text, flow) {
			return text
		}
	}
	if old != "" && old[0] == '\'' && !strings.ContainsAny(text, "\n\t\r\\") {
		return "'" + strings.ReplaceAll(text, "'", "''") + "'"
	}
	return DoubleQuoted(text)
}

// DoubleQuoted writes a text between double quotes, so that any reader of YAML
// has it as it is.
func DoubleQuoted(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteString(`\` + string(r))
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, `\x%02x`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// readsBare reports whether a text without quotes is read as it is, by this reader
// and by one that takes yes, no, on, off, true, false, null and ~ for no texts.
func readsBare(text string, flow bool) bool {
	if strings.ContainsAny(text, "\n\r") || text == "" || strings.ContainsRune("-?:,[]{}#&*!|>'\"%@`~=<", rune(text[0])) || strings.HasSuffix(text, ":") {
		return false
	}
	switch strings.ToLower(text) {
	case "yes", "no", "on", "off", "true", "false", "null", "y", "n":
		return false
	}
	line := "k: " + text
	if flow {
		line = "k: {k: " + text + ", l: m}"
	}
	t, err := Read(context.Background(), "", []byte(line))
	if err != nil || len(t.Slips) > 0 || t.Root == nil || len(t.Root.Pairs) != 1 {
		return false
	}
	v := t.Root.Pairs[0].Value
	if flow {
		if len(v.Pairs) != 2 || v.Pairs[0].bare {
			return false
		}
		v = v.Pairs[0].Value
	}
	return v.Shape == Scalar && v.Style == Bare && v.Text == text && t.reading[0] == line && !strings.Contains(text, ": ")
}
