package piece

import (
	"maps"
	"slices"
	"strings"
)

// In returns the piece with the maker's own words in a language, as far as
// `translations` gives them; what it does not give stays as it was written. The
// language is an IETF tag; words for German serve a buyer in Austria too.
func (p *Piece) In(lang string) *Piece {
	t, ok := p.translation(lang)
	if !ok {
		return p
	}
	own := *p
	for _, f := range []struct{ to, from *Value[string] }{
		{&own.Title, &t.Title}, {&own.Story, &t.Story}, {&own.Found, &t.Found}, {&own.Mark, &t.Mark},
	} {
		if f.from.Set() {
			*f.to = *f.from
		}
	}
	return &own
}

// CaptionIn returns the caption of a photo in a language, "" when the maker gave
// none in it. The file is as `captions` names it.
func (p *Piece) CaptionIn(lang, file string) string {
	t, _ := p.translation(lang)
	return t.Captions[file].V
}

// translation finds the maker's words in a language: those of the very tag before
// those of its language.
func (p *Piece) translation(lang string) (Translation, bool) {
	base, _, _ := strings.Cut(lang, "-")
	var near Translation
	found := false
	for _, tag := range slices.Sorted(maps.Keys(p.Translations)) {
		t := p.Translations[tag]
		if strings.EqualFold(tag, lang) {
			return t, true
		}
		if strings.EqualFold(tag, base) {
			near, found = t, true
		}
	}
	return near, found
}
