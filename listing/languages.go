package listing

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/report"
	"slabfolio/templates"
)

// A tongue is a piece in a further language: its papers and its page stand beside
// those of the default language, and show the same photos.
type tongue struct {
	words        *templates.Words
	report       *report.Report
	forDocuments *report.Report // as work.forDocuments
}

// tag is the language, an IETF tag.
func (t *tongue) tag() string { return t.words.Lang }

// speak opens the languages of the piece: the default one in w.words, the others
// as tongues. A language that there is not is a doubt.
func (w *work) speak() error {
	tags, unknown := languages(w.b.opts.Langs, w.job.Piece, w.job.Workshop, w.opts.Paper)
	for _, v := range unknown {
		w.findings = append(w.findings, piece.Finding{
			Rank: piece.Doubt, Code: "lang.unknown", File: v.At.File, Line: v.At.Line, Column: v.At.Column,
			Message: fmt.Sprintf("there are no papers in %q yet, so none are made in it", v.V), Remedy: "write one or several of " + strings.Join(templates.Langs(), ", "),
		})
	}
	for i, tag := range tags {
		words, err := w.b.words(tag)
		if err != nil {
			return err
		}
		if i == 0 {
			w.words = words
			continue
		}
		w.tongues = append(w.tongues, &tongue{words: words})
	}
	return nil
}

// languages are those of a piece's papers, the default first: as the command line
// says, else the piece, else the workshop; plain "en" otherwise. Each is one that
// there is, and stands once. Piece and workshop may be nil.
func languages(given []string, p *piece.Piece, shop *piece.Workshop, paper string) (tags []string, unknown []piece.Value[string]) {
	var asked []piece.Value[string]
	for _, tag := range given {
		asked = append(asked, piece.Value[string]{V: tag})
	}
	if len(asked) == 0 && p != nil {
		asked = p.Langs
	}
	if len(asked) == 0 && shop != nil {
		asked = shop.Langs
	}
	for _, v := range asked {
		tag, ok := templates.Match(v.V)
		if !ok {
			unknown = append(unknown, v)
			continue
		}
		tags = append(tags, plainEnglish(tag, p, shop, paper))
	}
	if len(tags) == 0 {
		tags = []string{plainEnglish("en", p, shop, paper)}
	}
	seen := map[string]bool{}
	return slices.DeleteFunc(tags, func(tag string) bool { was := seen[tag]; seen[tag] = true; return was }), unknown
}

// plainEnglish says which English plain "en" is; any other language stays as it is.
// Piece and workshop may be nil.
func plainEnglish(tag string, p *piece.Piece, shop *piece.Workshop, paper string) string {
	country, currency := "", ""
	if p != nil && p.Price != nil {
		currency = p.Price.Currency.V
	}
	if shop != nil {
		country, currency = report.Home(shop), cmp.Or(currency, shop.Currency.V)
	}
	return templates.RegionOf(tag, country, currency, paper)
}

// inTongues builds the report of the piece in each further language.
func (w *work) inTongues(o report.Options) error {
	for _, t := range w.tongues {
		o.Lang, o.Words = t.tag(), t.words
		r, err := report.Build(w.job.Piece.In(t.tag()), w.job.Workshop, o)
		if err != nil {
			return err
		}
		r.Codecs, r.PageFolder = w.opts.Codecs, t.tag()+"/"
		t.report = r
	}
	return nil
}

// withPhotos gives a report in a further language the photos of the piece, with
// their texts in that language.
func (t *tongue) withPhotos(r, of *report.Report, captions map[string]string) *report.Report {
	own := *r
	own.Accent, own.AccentDark = of.Accent, of.AccentDark
	own.Public.Photos = slices.Clone(of.Public.Photos)
	what := make([]report.Pictured, len(own.Public.Photos))
	for i := range own.Public.Photos {
		p := &own.Public.Photos[i]
		p.Caption = cmp.Or(captions[p.Upload], p.Caption)
		what[i] = report.Pictured{View: p.View, Caption: p.Caption}
	}
	for i, alt := range report.AltTexts(t.words, &own.Public, what) {
		own.Public.Photos[i].Alt = alt
	}
	return &own
}

// captionsIn are the maker's own captions in a language, by the file to upload.
func (w *work) captionsIn(tag string) map[string]string {
	own := map[string]string{}
	for _, sh := range w.shots {
		if c := cmp.Or(w.job.Piece.CaptionIn(tag, sh.Source.Name), w.job.Piece.CaptionIn(tag, sh.Source.Rel)); c != "" && sh.Name != "" {
			own[uploadName(sh.Name)] = c
		}
	}
	return own
}

// uploadName is where a photo stands that is to be uploaded.
func uploadName(name string) string { return "upload/" + name + ".jpg" }

// textsInLanguages are the texts to paste in each language of the page; nil where
// there is but one.
func (w *work) textsInLanguages() report.LanguageTexts {
	if len(w.tongues) == 0 {
		return nil
	}
	all := report.LanguageTexts{{Tag: w.words.Lang, Texts: w.report.Public.Texts}}
	for _, t := range w.tongues {
		all = append(all, report.LanguageText{Tag: t.tag(), Texts: t.report.Public.Texts})
	}
	return all
}
