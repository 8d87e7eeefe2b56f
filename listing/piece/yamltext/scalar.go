package yamltext

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// value reads one value that begins at the cursor, and moves the cursor to what
// comes behind it. Its further lines are indented more than parent.
func (r *reader) value(parent int) (*Node, *mistake) {
	if m := r.count(); m != nil {
		return nil, m
	}
	rest := r.rest()
	switch c := rest[0]; c {
	case '"', '\'':
		n, m := r.quoted(parent)
		if m != nil {
			return nil, m
		}
		return n, r.endOfLine()
	case '[', '{':
		n, m := r.flow(parent)
		if m != nil {
			return nil, m
		}
		return n, r.endOfLine()
	case '|', '>':
		return r.block(parent)
	case '&', '*', '!':
		return nil, &mistake{kind: labelSign, at: r.here()}
	case '@', '`', '%':
		return nil, &mistake{kind: strangeSign, at: r.here()}
	case ']', '}':
		return nil, &mistake{kind: closedTooOften, at: r.here()}
	case ',':
		return nil, &mistake{kind: strayComma, at: r.here()}
	case ':':
		if len(rest) == 1 || rest[1] == ' ' || rest[1] == '\t' {
			return nil, &mistake{kind: colonInText, at: r.here()}
		}
	}
	return r.bare(parent)
}

// endOfLine makes sure that only a remark stands behind a value, and goes on to
// the next line.
func (r *reader) endOfLine() *mistake {
	rest := r.rest()
	body := strings.TrimLeft(rest, " \t")
	if body != "" && !(body[0] == '#' && body != rest) {
		at := spot{r.line, r.byte + len(rest) - len(body)}
		if body[0] == ']' || body[0] == '}' {
			return &mistake{kind: closedTooOften, at: at}
		}
		return &mistake{kind: textBehind, at: at}
	}
	r.next(r.line + 1)
	return nil
}

// bare reads a text without quotes, which may go on over lines that are indented
// further than parent.
func (r *reader) bare(parent int) (*Node, *mistake) {
	n := &Node{Shape: Scalar, At: r.place(r.here()), from: r.here()}
	first, colon := bareLine(r.rest())
	r.steps += len(first)
	if colon >= 0 {
		return nil, &mistake{kind: colonInText, at: spot{r.line, r.byte + colon}}
	}
	parts := []string{first}
	n.to = spot{r.line, r.byte + len(first)}
	remark := len(first) < len(strings.TrimRight(r.rest(), " \t"))
	for i := r.line + 1; i < len(r.lines) && !remark; i++ {
		line := r.lines[i]
		body := strings.TrimLeft(line, " \t")
		r.steps += len(line) + 1
		if body == "" {
			parts = append(parts, "")
			continue
		}
		if body[0] == '#' || len(line)-len(body) <= parent {
			break
		}
		at := spot{i, len(line) - len(body)}
		if body == ":" || strings.HasPrefix(body, ": ") || strings.HasPrefix(body, ":\t") {
			return nil, &mistake{kind: noKey, at: at}
		}
		if isEntry(body) { // YAML takes it for text; whoever writes it means a list
			return nil, &mistake{kind: listAmongKeys, at: at}
		}
		if r.keyEnd(body) >= 0 {
			if at.byte == n.from.byte && strings.Trim(r.lines[n.from.line][:n.from.byte], " -") == "" { // it stands where this text does: a key was meant there
				return nil, &mistake{kind: noKey, at: n.from}
			}
			return nil, &mistake{kind: tooFarIn, at: at}
		}
		text, _ := bareLine(body)
		parts = append(parts, text)
		n.to = spot{i, at.byte + len(text)}
		remark = len(text) < len(strings.TrimRight(body, " \t"))
	}
	n.Text = folded(parts)
	if text := withoutCurlyQuotes(n.Text); text != n.Text {
		n.Text, n.Style = text, Quoted
	}
	r.next(n.to.line + 1)
	return n, nil
}

// bareLine returns what of a line belongs to a bare text: up to a remark. colon
// is where a colon with a space behind it stands in it, -1 when there is none.
func bareLine(text string) (part string, colon int) {
	colon = -1
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case '#':
			if i > 0 && (text[i-1] == ' ' || text[i-1] == '\t') {
				return strings.TrimRight(text[:i], " \t"), colon
			}
		case ':':
			if colon < 0 && (i+1 == len(text) || text[i+1] == ' ' || text[i+1] == '\t') {
				colon = i
			}
		}
	}
	return strings.TrimRight(text, " \t"), colon
}

// folded joins the lines of a text: a line end is a space, empty lines are kept.
func folded(parts []string) string {
	if len(parts) == 1 {
		return parts[0]
	}
	for len(parts) > 0 && parts[len(parts)-1] == "" {
		parts = parts[:len(parts)-1]
	}
	var b strings.Builder
	blank := 0
	for i, p := range parts {
		switch {
		case i == 0:
		case p == "":
			blank++
			continue
		case blank > 0:
			b.WriteString(strings.Repeat("\n", blank))
		default:
			b.WriteByte(' ')
		}
		blank = 0
		b.WriteString(p)
	}
	return b.String()
}

// quoted reads a text in quotes. It may go on over further lines.
func (r *reader) quoted(parent int) (*Node, *mistake) {
	n := &Node{Shape: Scalar, Style: Quoted, At: r.place(r.here()), from: r.here()}
	quote := r.rest()[0]
	open := &mistake{kind: openQuote, at: r.here(), open: r.here()}
	var parts []string
	text, at := r.rest()[1:], spot{r.line, r.byte + 1}
	for {
		end := closing(text, 0, quote)
		var part string
		if end >= 0 {
			part = text[:end]
		} else {
			part = strings.TrimRight(text, " \t")
		}
		r.steps += len(part) + 1
		if quote == '"' {
			joined := end < 0 && oddBackslashes(part) // a backslash at the end of a line joins it to the next
			if joined {
				part = part[:len(part)-1]
			}
			plain, bad := unescape(part)
			if bad >= 0 {
				return nil, &mistake{kind: badEscape, at: spot{at.line, at.byte + bad}}
			}
			if part = plain; joined {
				part += joinMark
			}
		} else {
			part = strings.ReplaceAll(part, "''", "'")
		}
		parts = append(parts, part)
		if end >= 0 {
			r.line, r.byte = at.line, at.byte+end+1
			break
		}
		at.line++
		if at.line >= len(r.lines) {
			return nil, open
		}
		line := r.lines[at.line]
		text = strings.TrimLeft(line, " \t")
		at.byte = len(line) - len(text)
		if text != "" && at.byte <= parent && (isEntry(text) || r.keyEnd(text) >= 0) {
			return nil, open
		}
	}
	n.to = r.here()
	n.Text = strings.NewReplacer(joinMark+" ", "", joinMark, "").Replace(folded(parts) + lineEnds(parts))
	return n, nil
}

// lineEnds is what the line ends before a closing quotation mark stand for: one is
// a space, more are empty lines.
func lineEnds(parts []string) string {
	n := 0
	for n < len(parts)-1 && parts[len(parts)-1-n] == "" {
		n++
	}
	if n == 1 {
		return " "
	}
	return strings.Repeat("\n", max(n-1, 0))
}

// joinMark stands where a backslash at the end of a line joins it to the next. No
// file holds it: it is refused as an invisible character.
const joinMark = "\x00\x01"

func oddBackslashes(text string) bool {
	n := len(text) - len(strings.TrimRight(text, `\`))
	return n%2 == 1
}

// escapes are the letters that may stand behind a backslash between double
// quotes (YAML 1.2, 5.7).
var escapes = map[byte]string{
	'0': "\x00", 'a': "\a", 'b': "\b", 't': "\t", '\t': "\t", 'n': "\n", 'v': "\v", 'f': "\f", 'r': "\r", 'e': "\x1b", ' ': " ", '"': "\"", '/': "/", '\\': "\\",
	'N': "\u0085", '_': "\u00a0", 'L': "\u2028", 'P': "\u2029",
}

// unescape reads what stands between double quotes on one line. bad is where a
// backslash is that means nothing, -1 when there is none.
func unescape(text string) (plain string, bad int) {
	if !strings.Contains(text, `\`) {
		return text, -1
	}
	var b strings.Builder
	for i := 0; i < len(text); i++ {
		if text[i] != '\\' {
			b.WriteByte(text[i])
			continue
		}
		if i+1 == len(text) {
			return "", i
		}
		c := text[i+1]
		if s, ok := escapes[c]; ok {
			b.WriteString(s)
			i++
			continue
		}
		digits := map[byte]int{'x': 2, 'u': 4, 'U': 8}[c]
		if digits == 0 || i+2+digits > len(text) {
			return "", i
		}
		v, err := strconv.ParseUint(text[i+2:i+2+digits], 16, 32)
		if err != nil || v > utf8.MaxRune {
			return "", i
		}
		b.WriteRune(rune(v))
		i += 1 + digits
	}
	return b.String(), -1
}

// block reads a text behind | or >, on the lines below that are indented further
// than parent.
func (r *reader) block(parent int) (*Node, *mistake) {
	n := &Node{Shape: Scalar, Style: Block, At: r.place(r.here()), from: r.here()}
	head, _ := bareLine(r.rest())
	fold, keep, strip, indent := head[0] == '>', false, false, 0
	for _, c := range head[1:] {
		switch {
		case c == '+':
			keep = true
		case c == '-':
			strip = true
		case c >= '1' && c <= '9' && indent == 0:
			indent = max(parent, 0) + int(c-'0')
		default:
			return nil, &mistake{kind: blockHeader, at: r.here()}
		}
	}
	n.to = spot{r.line, r.byte + len(head)}
	var parts []string
	i := r.line + 1
	for ; i < len(r.lines); i++ {
		line := r.lines[i]
		r.steps += len(line) + 1
		body := strings.TrimLeft(line, " ")
		if body == "" {
			parts = append(parts, line[min(indent, len(line)):])
			continue
		}
		if at := len(line) - len(body); at <= parent {
			break
		} else if at < indent && body[0] == '#' { // a remark that does not reach as far in as the text
			continue
		} else if at < indent && len(line) <= longLine && r.keyEnd(body) >= 0 { // a key that slid to the right, rather than a text that slid to the left
			return nil, &mistake{kind: badIndent, at: spot{i, at}}
		} else if indent == 0 {
			indent = at
			for j := range parts { // empty lines before the first one have no text
				parts[j] = ""
			}
		}
		parts = append(parts, line[min(indent, len(line)-len(body)):])
		n.to = spot{i, len(line)}
	}
	n.Text = blockText(parts, fold, keep, strip)
	r.next(i)
	return n, nil
}

// blockText joins the lines of a block: as they are, or folded.
func blockText(parts []string, fold, keep, strip bool) string {
	body := len(parts)
	for body > 0 && strings.TrimLeft(parts[body-1], " ") == "" {
		body--
	}
	tail := "\n"
	switch {
	case strip || body == 0 && !keep:
		tail = ""
	case keep:
		tail = strings.Repeat("\n", len(parts)-body+min(body, 1))
	}
	if !fold {
		return strings.Join(parts[:body], "\n") + tail
	}
	var b strings.Builder
	blank, deeper := 0, true // the first line has nothing before it to be folded with
	for i, p := range parts[:body] {
		if strings.TrimLeft(p, " ") == "" && p == "" {
			blank++
			continue
		}
		own := p[0] == ' ' || p[0] == '\t' // a line that is indented further keeps its line ends
		switch {
		case i == blank: // the first with text
			b.WriteString(strings.Repeat("\n", blank))
		case blank > 0 && !own && !deeper:
			b.WriteString(strings.Repeat("\n", blank))
		case own || deeper:
			b.WriteString(strings.Repeat("\n", blank+1))
		default:
			b.WriteByte(' ')
		}
		b.WriteString(p)
		blank, deeper = 0, own
	}
	return b.String() + tail
}
