package yamltext

import (
	"context"
	"strings"
	"testing"
)

// Each kind of mistake has its words, its place and, where it is plain what was
// meant, its mending: one file for each, so that no change of the reader turns
// one into another unseen. What is right of it is YAML 1.2.2, chapters 6 to 8.
func TestEveryMistakeHasItsWords(t *testing.T) {
	for _, c := range []struct {
		kind          kind
		text          string
		line, column  int
		says, remedy  string
		others        int    // further slips that follow from it
		key, expected string // what is read all the same
	}{
		{noKey, "a: b\nsome words\nc: d\n", 2, 1, `"some words" has no key`, "a key, a colon", 0, "c", "d"},
		{noKey, "a: b\nc:d\n", 2, 2, "no space behind the colon", "write c: d", 0, "c", "d"},
		{noKey, "a: b\nc = d\n", 2, 2, "an equals sign", "write c: d", 0, "c", "d"},
		{listAmongKeys, "a: b\n- c\nd: e\n", 2, 1, "a list entry stands here among keys", "indent it", 0, "d", "e"},
		{badIndent, "a: [b]\n    c: d\ne: f\n", 2, 1, "indented by 4 spaces, which fits none", "two spaces more", 0, "e", "f"},
		{badIndent, "a:\n    b: c\n  d: e\n  f: g\nh: i\n", 2, 5, "begins in column 5, and those below", "in the same column", 0, "h", "i"},
		{badIndent, "a: |\n    text\n  b: c\nd: e\n", 3, 1, "indented by 2 spaces", "two spaces more", 0, "d", "e"},
		{tooFarIn, "a: b\n  c: d\n", 2, 1, "indented further than line 1", "under the one", 0, "c", "d"},
		{colonInText, "a: b: c\nd: e\n", 1, 4, "a colon with a space behind it", `a: "b: c"`, 0, "a", "b: c"},
		{listOnKeyLine, "a: - b\nc: d\n", 1, 4, "a list cannot begin on the line of its key", "on a line of its own", 0, "c", "d"},
		{openQuote, "a: \"b\nc: d\n", 1, 4, "opened here and not closed", `a: "b"`, 0, "a", "b"},
		{openQuote, "a: 'b\nc: 'd'\n", 1, 4, "opened here and not closed", `a: 'b'`, 0, "c", "d"},
		{textBehind, "a: \"b\" c\nd: e\n", 1, 4, "behind the closing quotation mark", `"b c"`, 0, "d", "e"},
		{textBehind, "a: [b] c\nd: e\n", 1, 8, "behind the closing bracket", "into the brackets", 0, "d", "e"},
		{badEscape, "a: \"C:\\quay\"\nb: c\n", 1, 7, "a backslash", "two backslashes", 0, "a", `C:\quay`},
		{strangeSign, "a: @home\nb: c\n", 1, 4, "cannot begin with @", `a: "@home"`, 0, "a", "@home"},
		{strangeSign, "a: `home`\nb: c\n", 1, 4, "cannot begin with `", "a: \"`home`\"", 0, "a", "`home`"},
		{strangeSign, "a: %5\nb: c\n", 1, 4, "cannot begin with %", `a: "%5"`, 0, "a", "%5"},
		{strangeSign, "a: [@b]\nc: d\n", 1, 5, "cannot begin with @", `"@ …"`, 0, "c", "d"},
		{labelSign, "a: &b c\nd: e\n", 1, 4, "cannot begin with &", `a: "&b c"`, 0, "a", "&b c"},
		{labelSign, "a: *b*\nd: e\n", 1, 4, "cannot begin with *", `a: "*b*"`, 0, "a", "*b*"},
		{labelSign, "a: !b c\nd: e\n", 1, 4, "cannot begin with !", `a: "!b c"`, 0, "a", "!b c"},
		{labelSign, "&a b: c\nd: e\n", 1, 1, "begins with & means something else", "in quotes", 0, "d", "e"},
		{mergeKey, "<<: a\nb: c\n", 1, 1, "<< takes keys over", "write the keys out", 0, "b", "c"},
		{complexKey, "? a\nb: c\n", 1, 1, "a key that begins with ?", "write the key", 0, "b", "c"},
		{complexKey, "a: {[b]: c}\nd: e\n", 1, 5, "a key that begins with ? or a bracket", "write the key", 0, "d", "e"},
		{blockHeader, "a: | b\nc: d\n", 1, 4, "nothing may follow |", "on the next line", 0, "c", "d"},
		{openBracket, "a: [b\nc: d\n", 1, 4, `"[" is opened here and not closed`, "close it with ]", 0, "a", "[b]"},
		{openBracket, "a: {b: c\nd: e\n", 1, 4, `"{" is opened here and not closed`, "close it with }", 0, "d", "e"},
		{openBracket, "a: [b,   # first\n  c\nd: e\n", 1, 4, `"[" is opened here and not closed`, "close it with ]", 0, "a", "[b, c]"},
		{closedTooOften, "a: [b]]\nc: d\n", 1, 7, "one closing bracket too many", "take it out", 0, "a", "[b]"},
		{closedTooOften, "a: }\nc: d\n", 1, 4, "closed here that was never opened", "take it out", 0, "c", "d"},
		{closedTooOften, "a: {b: [c}\nd: e\n", 1, 8, `"[" is opened here and not closed`, "close it with ]", 0, "d", "e"},
		{missingComma, "a: [\"b\" \"c\"]\nd: e\n", 1, 9, "a comma is missing before this", "put a comma", 0, "a", "[b, c]"},
		{strayComma, "a: [b, , c]\nd: e\n", 1, 8, "a comma with no value before it", "take it out", 0, "a", "[b, c]"},
		{tooDeep, "a: " + strings.Repeat("[", 50) + "\n", 1, 23, "more levels", "fresh piece.yaml", 0, "", ""},
	} {
		text, err := Read(t.Context(), "piece.yaml", []byte(c.text))
		if err != nil {
			t.Fatal(err)
		}
		if _, m := (&Text{reading: strings.Split(c.text, "\n")}).readOnce(t.Context(), strings.Split(c.text, "\n")); m == nil || m.kind != c.kind {
			t.Errorf("%q is the mistake %+v, want kind %d", c.text, m, c.kind)
		}
		if len(text.Slips) != 1+c.others {
			t.Errorf("%q: %d slips, want %d: %+v", c.text, len(text.Slips), 1+c.others, text.Slips)
			continue
		}
		s := text.Slips[0]
		if s.At.Line != c.line || s.At.Column != c.column || !strings.Contains(s.Message, c.says) || !strings.Contains(s.Remedy, c.remedy) {
			t.Errorf("%q:\n%d:%d: %s; %s\nwant\n%d:%d: %s; %s", c.text, s.At.Line, s.At.Column, s.Message, s.Remedy, c.line, c.column, c.says, c.remedy)
		}
		if got := c.expected; c.key != "" && said(text.Root, c.key) != got {
			t.Errorf("%q: %s is read as %q, want %q", c.text, c.key, said(text.Root, c.key), got)
		}
	}
}

// said is the value of a key, with the entries of a list in brackets.
func said(n *Node, key string) string {
	if n == nil {
		return ""
	}
	for _, p := range n.Pairs {
		if p.Key != key {
			continue
		}
		if p.Value.Shape != List {
			return p.Value.Text
		}
		var all []string
		for _, i := range p.Value.Items {
			all = append(all, i.Text)
		}
		return "[" + strings.Join(all, ", ") + "]"
	}
	return ""
}

// A context that has ended ends the reading.
func TestReadingObeysTheContext(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := Read(ctx, "piece.yaml", []byte("a: ["+strings.Repeat("b, ", 50000)+"]\n")); err == nil {
		t.Error("no error")
	}
}
