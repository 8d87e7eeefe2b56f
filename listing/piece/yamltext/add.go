package yamltext

import (
	"strings"
	"unicode/utf8"
)

// add adds a key to a group that lacks it.
func (e *edit) add(n *Node, way []Step) error {
	if n.flow {
		at := spot{n.to.line, n.to.byte - 1} // before the closing bracket
		for at.byte > 0 && strings.ContainsAny(e.t.reading[at.line][at.byte-1:at.byte], " \t") {
			at.byte--
		}
		e.from, e.to = e.offset(at), e.offset(at)
		e.text = e.restInBrackets(way)
		if len(n.Pairs) > 0 && !strings.HasSuffix(e.t.reading[at.line][:at.byte], ",") {
			e.text = ", " + e.text
		} else if len(n.Pairs) > 0 {
			e.text = " " + e.text
		}
		return nil
	}
	first := n.Pairs[0]
	e.below(n.to.line, e.block(way, blank(e.t.reading[first.from.line][:first.from.byte])))
	return nil
}

// blank is an indentation as long as a text, in which a hyphen may stand.
func blank(text string) string { return strings.Repeat(" ", utf8.RuneCountInString(text)) }

// below puts lines below a line (0-based).
func (e *edit) below(n int, lines []string) {
	end := e.lineEnd(n)
	e.from, e.to = e.lines[n].to, e.lines[n].to
	e.text = end + strings.Join(lines, end)
}

// block writes the rest of a way as lines of keys.
func (e *edit) block(way []Step, indent string) []string {
	if len(way) == 1 {
		return strings.Split(indent+e.name(way[0].Key)+": "+e.written(false, ""), "\n")
	}
	return append([]string{indent + e.name(way[0].Key) + ":"}, e.block(way[1:], indent+"  ")...)
}

// restInBrackets writes the rest of a way inside brackets.
func (e *edit) restInBrackets(way []Step) string {
	if len(way) == 1 {
		return e.name(way[0].Key) + ": " + e.written(true, "")
	}
	return e.name(way[0].Key) + ": {" + e.restInBrackets(way[1:]) + "}"
}

// name writes a key, which may be the name of a file.
func (e *edit) name(key string) string { return Quote(key, true, "") }
