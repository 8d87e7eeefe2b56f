package listing

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
)

// languageNames are the languages of the papers, for the maker.
var languageNames = map[string]string{"de": "German", "en": "English", "es": "Spanish", "fr": "French", "nl": "Dutch"}

// wordy is a text that has a word in it, not only figures and codes.
var wordy = spelling.Pattern(`\p{Ll}{3}`)

// A saidWord is a text of the maker's, with the key that it stands behind.
type saidWord struct{ key, text string }

// saidWords are texts of the maker's.
type saidWords []saidWord

// add adds a text that has a word in it.
func (s *saidWords) add(key string, v piece.Value[string]) {
	if wordy().MatchString(v.V) {
		*s = append(*s, saidWord{key, v.V})
	}
}

// makersWords are the texts of a piece that the papers print as they were written,
// those of its workshop after them; w may be nil.
func makersWords(p *piece.Piece, w *piece.Workshop) (all saidWords) {
	add := all.add
	add("story", p.Story)
	add("found", p.Found)
	add("mark", p.Mark)
	for _, w := range p.Top.Wood {
		add("origin", w.OriginNote)
	}
	for _, r := range p.Top.Resin {
		add("colour", r.Colour)
	}
	if b := p.Base; b != nil {
		add("base.style", b.Style)
		add("base.coating", b.Coating)
		add("base.feet", b.Feet)
		if b.Fixing != nil {
			add("base.fixing", b.Fixing.Text)
		}
	}
	for _, q := range p.Parts {
		add("parts.name", q.Name)
	}
	if p.Price != nil {
		add("price.note", p.Price.Note)
	}
	if d := p.Delivery; d != nil {
		add("delivery.lead_time", d.LeadTime)
		add("delivery.assembly", d.Assembly)
	}
	add("guarantee", p.Guarantee)
	add("returns", p.Returns)
	if text, _ := report.GuaranteeOf(p, w); w != nil && text == w.Guarantee.V {
		add("guarantee", w.Guarantee)
	}
	if w == nil {
		return all
	}
	if !p.Returns.Set() {
		add("returns", w.Returns)
	}
	for _, f := range w.Finishes {
		add("finishes.clean", f.Clean)
		add("finishes.avoid", f.Avoid)
		add("finishes.renew", f.Renew)
		add("finishes.food_contact", f.FoodContact)
	}
	return all
}

// untranslated tells once of the maker's words that stand as they were written in a
// paper or page of another language; nothing where none does.
func (w *work) untranslated() []piece.Finding {
	var tongues, kept []string
	home, _, _ := strings.Cut(w.words.Lang, "-")
	own := makersWords(w.job.Piece.In(w.words.Lang), w.job.Workshop)
	others := slices.DeleteFunc(slices.Clone(own), func(s saidWord) bool { return !inAnotherLanguage(s.text, home) })
	if foreign := stayed(others, others, &w.report.Public); len(foreign) > 0 {
		tongues, kept = append(tongues, languageName(home)), append(kept, foreign...)
	}
	for _, t := range w.tongues {
		base, _, _ := strings.Cut(t.tag(), "-")
		if base == home {
			continue
		}
		if same := stayed(own, makersWords(w.job.Piece.In(t.tag()), w.job.Workshop), &t.report.Public); len(same) > 0 {
			tongues = append(tongues, languageName(base))
			for _, s := range same {
				if !slices.Contains(kept, s) {
					kept = append(kept, s)
				}
			}
		}
	}
	if len(kept) == 0 {
		return nil
	}
	remedy := "title, story, found, mark and captions can be said again under translations; keep the others short and plain, or say them again in that language's story"
	if slices.ContainsFunc(kept, func(k string) bool { return strings.HasPrefix(k, "finishes.") }) {
		remedy += "; a finish of workshop.yaml without clean, avoid and renew is cared for as its family is, in each language's own words"
	}
	return []piece.Finding{{
		Rank: piece.Note, Code: "lang.untranslated", File: w.job.Piece.Serial.At.File,
		Message: fmt.Sprintf("in %s these stay as you wrote them: %s", spelling.And(tongues), strings.Join(kept, ", ")),
		Remedy:  remedy,
	}}
}

// stayed are the words that are the same in another language and are printed there.
func stayed(own, there []saidWord, pub *report.Public) (kept []string) {
	printed, err := json.Marshal(read(*pub))
	if err != nil {
		return nil // it holds nothing that JSON has no form for
	}
	for _, s := range own {
		text, err := json.Marshal(strings.TrimSpace(s.text))
		if err != nil || !slices.Contains(there, s) || !strings.Contains(strings.ToLower(string(printed)), strings.ToLower(string(text[1:len(text)-1]))) {
			continue
		}
		kept = append(kept, fmt.Sprintf("%s (%q)", s.key, yamltext.Shorten(s.text)))
	}
	return kept
}

// read leaves of what is public what people read: the names by which programs find
// a paragraph or a view are English everywhere.
func read(pub report.Public) report.Public {
	bare := func(list []report.Paragraph) []report.Paragraph {
		out := slices.Clone(list)
		for i := range out {
			out[i].ID, out[i].Group = "", ""
		}
		return out
	}
	pub.Care, pub.Cautions, pub.Photos = bare(pub.Care), bare(pub.Cautions), slices.Clone(pub.Photos)
	for i := range pub.Photos {
		pub.Photos[i].File, pub.Photos[i].View = "", ""
	}
	return pub
}

// languageName is a language in words for the maker; its letters where there are none.
func languageName(base string) string {
	if name, ok := languageNames[base]; ok {
		return name
	}
	return base
}
