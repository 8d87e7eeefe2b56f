package page

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
)

// Text makes listing.txt: title, description and facts, to paste into a form
// that takes plain text. Lines are not wrapped: forms do that.
func Text(r *report.Report, o *Options) ([]byte, error) {
	pub := &r.Public
	var b strings.Builder
	say := func(id string) string { return o.Words.Say(id, nil) }
	head := func(text string) { fmt.Fprintf(&b, "\n%s\n", text) }
	section := func(id string) { head(say(id)) }
	fmt.Fprintf(&b, "%s\n%s\n", pub.Title, spelling.Commas(spelling.Capital(pub.KindIn(o.Words)), pub.Serial))
	if story := paragraphs(pub.Story); len(story) > 0 {
		section("page.text.about")
		b.WriteString(strings.Join(story, "\n\n") + "\n")
	}
	section("page.text.facts")
	for _, m := range measures(r, o) {
		second := spelling.Commas(m.Second, m.SecondRange)
		fmt.Fprintln(&b, o.Words.Labelled(m.Name, fmt.Sprintf("%s (%s)", spelling.Commas(m.First, m.FirstRange), second)))
	}
	for _, f := range facts(r, o) {
		fmt.Fprintln(&b, o.Words.Labelled(f.Name, o.Words.Apart(f.Values)))
	}
	if groups := careGroups(pub.Care, o); len(groups) > 0 {
		section("page.text.care")
		for _, g := range groups {
			fmt.Fprintln(&b, o.Words.Labelled(g.Head, strings.Join(g.Texts, " ")))
		}
	}
	if len(pub.Cautions) > 0 {
		section("page.text.cautions")
		for _, c := range pub.Cautions {
			text := c.Text
			if c.Head != "" {
				text = o.Words.Labelled(c.Head, text)
			}
			fmt.Fprintln(&b, text)
		}
	}
	if t, over := terms(r, o); len(t) > 0 {
		head(strings.ToUpper(over))
		for _, f := range t {
			fmt.Fprintln(&b, o.Words.Labelled(f.Name, o.Words.Apart(f.Values)))
		}
	}
	if m := makerOf(pub.Maker); m != nil {
		if pub.Worked() {
			section("page.text.maker.worked")
		} else {
			section("page.text.maker")
		}
		fmt.Fprintln(&b, spelling.Commas(append([]string{m.Name}, m.Address...)...))
		if contact := spelling.Commas(m.Email, m.Phone, m.Web); contact != "" {
			fmt.Fprintln(&b, contact)
		}
	}
	if t := pub.Texts; t != nil {
		section("paste.head")
		for _, x := range t.InOrder() {
			fmt.Fprintf(&b, "\n%s\n%s\n", o.Words.Say("paste.head."+x.Heading, map[string]any{"N": x.N}), x.Text)
		}
	}
	return []byte(b.String()), nil
}

// AltTexts makes upload/alt.txt: each file of upload/ and the words that say it,
// a line each, in posting order.
func AltTexts(r *report.Report) []byte {
	width := 0
	for _, p := range r.Public.Photos {
		width = max(width, utf8.RuneCountInString(uploadName(p)))
	}
	var b strings.Builder
	for _, p := range r.Public.Photos {
		name := uploadName(p)
		fmt.Fprintf(&b, "%s:%s %s\n", name, strings.Repeat(" ", width-utf8.RuneCountInString(name)), spelling.OneLine(p.Alt))
	}
	return []byte(b.String())
}

func uploadName(p report.Photo) string { return strings.TrimPrefix(p.Upload, "upload/") }
