package report

import (
	"encoding/json"
	"maps"
	"slices"
	"strings"

	"slabfolio/listing/spelling"
)

// Texts are for the forms of shops, ready to paste: made of figures and of the
// maker's own words, at the lengths that forms allow, each cut at a word or a sentence.
type Texts struct {
	Titles       Titles       `json:"titles"`
	Descriptions Descriptions `json:"descriptions"`
	Bullets      []string     `json:"bullets"`  // five facts
	Keywords     []string     `json:"keywords"` // up to twelve words to search by
	Captions     Captions     `json:"captions"`
}

// Titles are named after the most characters that they may have.
type Titles struct {
	Upto60  string `json:"60"`
	Upto100 string `json:"100"`
	Upto140 string `json:"140"`
}

// Descriptions are named after the most characters that they may have.
type Descriptions struct {
	Upto160  string `json:"160"`
	Upto300  string `json:"300"`
	Upto1000 string `json:"1000"`
}

// LanguageTexts are the texts of a piece in each language of its page. In JSON they
// are one object, from the language's tag to its texts.
type LanguageTexts []LanguageText

// A LanguageText is one of them.
type LanguageText struct {
	Tag   string // an IETF tag
	Texts *Texts
}

// MarshalJSON writes the object.
func (l LanguageTexts) MarshalJSON() ([]byte, error) {
	m := map[string]*Texts{}
	for _, t := range l {
		m[t.Tag] = t.Texts
	}
	return json.Marshal(m)
}

// UnmarshalJSON reads it; the languages come in the order of their tags.
func (l *LanguageTexts) UnmarshalJSON(data []byte) error {
	var m map[string]*Texts
	if err := json.Unmarshal(data, &m); err != nil {
		return err
	}
	*l = nil
	for _, tag := range slices.Sorted(maps.Keys(m)) {
		*l = append(*l, LanguageText{tag, m[tag]})
	}
	return nil
}

// Captions are for a post with a picture.
type Captions struct {
	Plain  string `json:"plain"`
	Tagged string `json:"tagged"` // the same with tags
}

// How many bullets, keywords and tags there are, and how long a caption and a keyword
// may be, in characters.
const (
	fiveBullets   = 5
	dozenKeywords = 12
	captionLength = 500
	mostTags      = 8
	keywordLength = 40
	wordsTyped    = 3    // how many spaces a material has at most that somebody types
	forMovement   = 1000 // how long a description is at least that tells how the wood moves
)

// paste makes the texts to paste of what is known of the piece by now.
func (b *builder) paste() {
	c := &copywriter{pub: &b.r.Public, words: b.words, metric: b.r.Prefer.Metric()}
	t := &Texts{
		Titles:       Titles{c.title(60), c.title(100), c.title(140)},
		Descriptions: Descriptions{c.description(160), c.description(300), c.description(1000)},
		Bullets:      c.bullets(), Keywords: c.keywords(),
	}
	t.Captions.Plain = joinedBy("\n\n", spelling.OneLine(c.pub.Title), c.description(captionLength))
	t.Captions.Tagged = joinedBy("\n\n", t.Captions.Plain, tags(t.Keywords))
	c.pub.Texts = t
}

// A PasteText is one of the texts to paste: the id of its heading, the number that
// stands in that, and the text.
type PasteText struct {
	Heading string
	N       int
	Text    string
}

// InOrder lists the texts as a form asks for them.
func (t *Texts) InOrder() []PasteText {
	bullets := make([]string, len(t.Bullets))
	for i, b := range t.Bullets {
		bullets[i] = "• " + b
	}
	return []PasteText{
		{"title", 60, t.Titles.Upto60}, {"title", 100, t.Titles.Upto100}, {"title", 140, t.Titles.Upto140},
		{"description", 160, t.Descriptions.Upto160}, {"description", 300, t.Descriptions.Upto300}, {"description", 1000, t.Descriptions.Upto1000},
		{"bullets", len(t.Bullets), strings.Join(bullets, "\n")},
		{"keywords", len(t.Keywords), strings.Join(t.Keywords, ", ")},
		{"caption", 0, t.Captions.Plain},
		{"caption-tagged", 0, t.Captions.Tagged},
	}
}
