package piece

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/spelling"
)

var (
	// tightRemark is a remark that looks as if it belonged to the text before it.
	tightRemark = spelling.Pattern(`^\s+(#[^\s#]\S*)`)
	// runsOn is a remark that is parted from the text before it as words are, by one
	// space: those of the files that this program writes, and of most who line theirs
	// up, stand two or more behind it (common practice, no source).
	runsOn = spelling.Pattern(`^ (# \S.*)$`)
)

// prose are the keys whose value is sentences, so that a # may be meant as a sign in
// them; behind a name, a figure or a word of the list it begins a remark.
var prose = []string{"title", "story", "found", "mark", "captions", "note", "did", "guarantee", "returns", "assembly", "lead_time"}

// remark tells of a text that a # cuts off: of "River table #3" YAML keeps "River
// table", and of "from a barn # and it shows" the first half. Anywhere else a # with
// a space behind it is taken for a remark that is meant.
func (d *decoder) remark(n *yamltext.Node, k *Key, path string) {
	if n.Style != yamltext.Bare {
		return
	}
	behind := strings.TrimRight(d.s.Behind(n), " \t")
	if m := tightRemark().FindStringSubmatch(behind); m != nil {
		d.s.add(Doubt, "spec.remark", n.At, fmt.Sprintf("%s: a # begins a remark, so %q is not read as part of it", path, yamltext.Shorten(m[1])), "put the whole text in quotes: "+yamltext.Shorten(yamltext.InQuotes(n.Text+" "+m[1]))+"; or put a space behind the #")
		return
	}
	if k.Type != typeText || !slices.Contains(prose, k.Name) || !strings.ContainsFunc(strings.TrimSpace(n.Text), unicode.IsSpace) {
		return
	}
	if m := runsOn().FindStringSubmatch(behind); m != nil && strings.ContainsFunc(m[1], func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) {
		d.s.add(Doubt, "spec.remark", n.At, fmt.Sprintf("%s: the text ends at the #, so %q is not read as part of it", path, yamltext.Shorten(m[1])),
			"put quotes round the whole text: "+yamltext.Shorten(yamltext.InQuotes(n.Text+" "+m[1]))+"; a remark of your own stands two spaces behind the text")
	}
}
