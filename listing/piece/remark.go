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

// The keys whose value a # may cut off: behind any other it begins a remark.
var (
	// prose are those whose value is sentences, so that a # may be meant as a sign in them.
	prose = []string{"story", "found", "mark", "captions", "note", "did", "clean", "avoid", "renew", "food_contact"}
	// terms are those of what a buyer is promised: a few words, and often a remark of
	// what is to be asked or looked up. What reads on belongs to them.
	terms = []string{"lead_time", "returns", "guarantee", "assembly"}
	// called are those whose value is a name, which may have a number: "Table # 7".
	called = []string{"name", "product", "hardener", "supplier", "colour", "materials", "batch", "address", "copyright"}
)

var (
	// numberAlone is a remark of a number and nothing else.
	numberAlone = spelling.Pattern(`^# ?\d+\pL?[.)]?$`)
	// readsOn is a remark that begins as the rest of a sentence does, in the languages of
	// the papers.
	readsOn = spelling.Pattern(`(?i)^# (?:and|or|but|on|of|for|with|without|if|not|only|from|except|und|oder|aber|auf|für|mit|ohne|wenn|nicht|nur|außer|et|ou|mais|sur|pour|avec|sans|si|sauf|y|o|pero|sobre|para|con|sin|salvo|en|of|maar|op|voor|met|zonder|als|niet|behalve)\s`)
)

// runOn reports whether a remark behind the text of a key, one space from it, is likely a
// part of the text: in a title anything is, in sentences what stands behind two words.
func runOn(key, text, remark string) bool {
	if !strings.ContainsFunc(remark, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }) {
		return false
	}
	number := numberAlone().MatchString(remark)
	switch {
	case key == "title":
		return true
	case slices.Contains(prose, key):
		return number || strings.ContainsFunc(strings.TrimSpace(text), unicode.IsSpace)
	case slices.Contains(terms, key):
		return readsOn().MatchString(remark)
	}
	return number && slices.Contains(called, key)
}

// remark tells of a text that a # cuts off: of "River table #3" YAML keeps "River
// table", and of "from a barn # and it shows" the first half. Where it does not look so
// a # with a space behind it is taken for a remark that is meant.
func (d *decoder) remark(n *yamltext.Node, k *Key, path string) {
	if n.Style != yamltext.Bare {
		return
	}
	behind := strings.TrimRight(d.s.Behind(n), " \t")
	if m := tightRemark().FindStringSubmatch(behind); m != nil {
		d.s.add(Doubt, "spec.remark", n.At, fmt.Sprintf("%s: a # begins a remark, so %q is not read as part of it", path, yamltext.Shorten(m[1])), "put the whole text in quotes: "+yamltext.Shorten(yamltext.InQuotes(n.Text+" "+m[1]))+"; or put a space behind the #")
		return
	}
	if k.Type != typeText {
		return
	}
	if m := runsOn().FindStringSubmatch(behind); m != nil && runOn(k.Name, n.Text, m[1]) {
		d.s.add(Doubt, "spec.remark", n.At, fmt.Sprintf("%s: the text ends at the #, so %q is not read as part of it", path, yamltext.Shorten(m[1])),
			"put quotes round the whole text: "+yamltext.Shorten(yamltext.InQuotes(n.Text+" "+m[1]))+"; a remark of your own stands two spaces behind the text")
	}
}
