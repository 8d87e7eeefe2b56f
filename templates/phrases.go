package templates

import (
	"fmt"
	"strconv"
	"strings"
)

// This file reads the phrases. They are written in a part of YAML that is read in
// a thousandth of a second, where a reader of all of it took thirty: each program
// that starts reads a language's. A test holds it to what another reader of YAML
// makes of every file.

// readPhrases reads lines of an id, a colon and a text: plain, in double quotes, or
// indented below >- (folded into one paragraph) or | (as it stands). Lines that begin
// with # are comments. It returns an error, with the line, for anything else that
// YAML would have, and for an id that stands twice.
func readPhrases(text string) (map[string]string, error) {
	phrases := make(map[string]string, len(text)/60)
	lines := strings.Split(text, "\n")
	for i := 0; i < len(lines); i++ {
		line := lines[i]
		if line == "" || line[0] == '#' {
			continue
		}
		id, value, ok := strings.Cut(line, ": ")
		if !ok || line[0] == ' ' || strings.Trim(id, idLetters) != "" {
			return nil, fmt.Errorf("line %d: want an id, a colon and a text", i+1)
		}
		if _, twice := phrases[id]; twice {
			return nil, fmt.Errorf("line %d: %s stands twice", i+1, id)
		}
		first, err := i, error(nil)
		if value == ">-" || value == "|" {
			for i+1 < len(lines) && (lines[i+1] == "" || lines[i+1][0] == ' ') {
				i++
			}
			value, err = block(lines[first+1:i+1], value == "|")
		} else {
			value, err = scalar(value)
		}
		if err != nil {
			return nil, fmt.Errorf("line %d: %s: %w", first+1, id, err)
		}
		phrases[id] = strings.TrimSpace(value)
	}
	return phrases, nil
}

// idLetters are those that ids are made of.
const idLetters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.-_ "

// scalar is a text of one line. What YAML would read otherwise in plain text has to
// be quoted.
func scalar(v string) (string, error) {
	if strings.HasPrefix(v, `"`) {
		s, err := strconv.Unquote(v)
		if err != nil {
			return "", fmt.Errorf("%s is no text in quotes on one line", v)
		}
		return s, nil
	}
	if v == "" || strings.ContainsRune(" '[]{}>|*&!%@`,?:-#", rune(v[0])) || strings.Contains(v, ": ") || strings.Contains(v, " #") || strings.HasSuffix(v, ":") {
		return "", fmt.Errorf("%q has to stand in double quotes", v)
	}
	return v, nil
}

// block is a text of indented lines: as it stands, or folded.
func block(lines []string, asItStands bool) (string, error) {
	if len(lines) == 0 {
		return "", fmt.Errorf("no line below it is indented")
	}
	indent := len(lines[0]) - len(strings.TrimLeft(lines[0], " "))
	var b strings.Builder
	for i, line := range lines {
		if line != "" && (len(line) < indent || strings.TrimSpace(line[:indent]) != "") {
			return "", fmt.Errorf("a line is indented less than the first")
		}
		line = line[min(indent, len(line)):]
		switch {
		case asItStands:
			b.WriteString(line)
			b.WriteByte('\n')
		case line == "":
			b.WriteByte('\n')
		case line[0] == ' ':
			return "", fmt.Errorf("a folded line is indented more than the first")
		default:
			if i > 0 && lines[i-1] != "" {
				b.WriteByte(' ')
			}
			b.WriteString(line)
		}
	}
	return b.String(), nil
}
