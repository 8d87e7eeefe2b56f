package report

import (
	"fmt"
	"strings"

	"slabfolio/listing/spelling"
	"slabfolio/templates"
)

// maxAlt is how long an alternative text may get: IPTC advises about 250
// characters.
const maxAlt = 250

// KindIn is the kind of piece as the words call it; "" for one that has no name of its
// own, since "other" tells a buyer nothing.
func (p *Public) KindIn(w *templates.Words) string {
	if p.Kind == "" || p.Kind == "other" {
		return ""
	}
	return w.Called("kind", p.Kind)
}

// What is KindIn, or the word for any piece where a sentence needs one.
func (p *Public) What(w *templates.Words) string {
	if kind := p.KindIn(w); kind != "" {
		return kind
	}
	return w.Say("alt.piece", nil)
}

// altText describes a photo for somebody who cannot see it, from the view, the
// kind of piece and what it is made of, in the language of the words; the
// maker's own caption follows. It is at most 250 characters long and says nothing that
// the spec does not.
func altText(w *templates.Words, pub *Public, view, caption string) string {
	c := &copywriter{pub: pub, words: w}
	made := c.made()
	what := pub.What(w)
	if len(made) > 0 {
		what = w.MadeOf(what, made)
	}
	id := "alt.view." + strings.ReplaceAll(strings.ReplaceAll(view, " ", "-"), "'", "")
	if view == "" || !w.Has(id) {
		id = "alt.view"
	}
	s := spelling.Capital(w.Say(id, map[string]any{"What": what}))
	if caption = strings.TrimRight(strings.TrimSpace(caption), "."); caption != "" {
		s += ". " + caption
	}
	return clip(s, maxAlt)
}

// Pictured is what is known of what a photo shows.
type Pictured struct{ View, Caption string }

// AltTexts describes the photos of a piece, as altText does each. Where several
// would be described alike, each says which of them it is, so that nobody who
// hears them takes them for one. Each is at most 250 characters long.
func AltTexts(w *templates.Words, pub *Public, photos []Pictured) []string {
	alts := make([]string, len(photos))
	count := map[string]int{}
	for i, p := range photos {
		alts[i] = altText(w, pub, p.View, p.Caption)
		count[alts[i]]++
	}
	nth := map[string]int{}
	for i, s := range alts {
		if of := count[s]; of > 1 {
			nth[s]++
			words := map[string]any{"Text": "", "N": nth[s], "Of": of}
			room := maxAlt - len([]rune(w.Say("alt.again", words)))
			words["Text"] = clip(s, room)
			alts[i] = w.Say("alt.again", words)
		}
	}
	return distinct(alts)
}

// distinct numbers what is still said twice, as where a caption says by itself which
// of several it is.
func distinct(alts []string) []string {
	seen := map[string]bool{}
	for i, s := range alts {
		for n := 2; seen[strings.ToLower(alts[i])]; n++ {
			mark := fmt.Sprintf(" (%d)", n)
			alts[i] = clip(s, maxAlt-len(mark)) + mark
		}
		seen[strings.ToLower(alts[i])] = true
	}
	return alts
}

// firstClause is what stands before the first comma.
func firstClause(s string) string {
	s, _, _ = strings.Cut(s, ",")
	return strings.TrimSpace(s)
}

// clip cuts a text to at most n characters, at a word.
func clip(s string, n int) string {
	r := []rune(s)
	if len(r) <= n {
		return s
	}
	cut := string(r[:n-1])
	if i := strings.LastIndexByte(cut, ' '); i > n/2 {
		cut = cut[:i]
	}
	return strings.TrimRight(cut, " ,.;:") + "…"
}
