package report

import (
	"fmt"
	"slices"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/templates"
)

// workUnsaid is the work of a piece of which something says that others made it, and
// nothing what the workshop did to it.
const workUnsaid = "unsaid"

// Worked reports whether others made the piece, or may have, so that no paper says that
// the workshop did.
func (p *Public) Worked() bool { return p.Work != "" }

// WorkLabel is what stands before the name of a workshop that did not make the piece, or
// may not have: "Restored by".
func (p *Public) WorkLabel(w *templates.Words) string { return w.Say("work.label."+p.Work, nil) }

// WorkBy is the workshop within a sentence, "restored by Ostrel Yard"; "" for a piece of
// its own making, and where the workshop has no name.
func (p *Public) WorkBy(w *templates.Words) string {
	if !p.Worked() || p.Maker == nil || p.Maker.Name == "" {
		return ""
	}
	return w.Say("work.by."+p.Work, map[string]any{"Maker": p.Maker.Name})
}

// Words for what is done to a piece that others made, and for a piece and its parts, in
// the languages of the papers (from memory). A crack that was repaired is none.
const (
	restoring = piece.Restoring
	repairing = piece.Repairing
	ofPieces  = `piece|table|desk|bench|stool|shelf|chair|cabinet|chest|dresser|sideboard|cupboard|leg|legs|tisch|\pL*tisch|bank|hocker|stuhl|schrank|kommode|truhe|stück|möbel|bein|beine|meuble|bureau|banc|tabouret|chaise|armoire|commode|buffet|pied|pieds|pieza|mueble|mesa|escritorio|banco|taburete|silla|armario|cómoda|pata|patas|stuk|tafel|bankje|kruk|stoel|kast|dekenkist|poot|poten`
)

var (
	workInTitle = spelling.Pattern(`(?i)(?:^|[^\pL])(` + restoring + `|` + repairing + `)(?:$|[^\pL])`)
	workBefore  = spelling.Pattern(`(?i)(?:^|[^\pL])(?:(?:` + restoring + `|` + repairing + `)\s+(?:\pL+\s+){0,3}(?:` + ofPieces + `)|(?:who|whoever) (?:first )?made it)(?:$|[^\pL])`)
	workBehind  = spelling.Pattern(`(?i)(?:^|[^\pL])(?:` + ofPieces + `)((?:,?\s+\pL+){0,5}),?\s+(?:` + restoring + `|` + repairing + `)(?:$|[^\pL])`)
	outOf       = spelling.Pattern(`(?i)(?:^|\s)(?:from|out|of|with|in|aus|mit|avec|con|met|uit|and|und|et|y|en)(?:\s|$)`)
)

// workInStory finds words that say that the piece, or a part of it, was mended; nil for
// none. Of a table from a restored barn the barn was.
func workInStory(text string) []string {
	if m := workBefore().FindStringSubmatch(text); m != nil {
		return m
	}
	for _, m := range workBehind().FindAllStringSubmatch(text, -1) {
		if !outOf().MatchString(m[1]) {
			return m
		}
	}
	return nil
}

// whoMadeIt puts down what the workshop did to the piece. Where nothing says it, and
// title or story read as if others had made it, the papers say neither, and the maker is
// asked.
func (b *builder) whoMadeIt() {
	if w := b.p.Work; w.Set() {
		if b.r.Public.Work = w.V; w.V == piece.Works[0] {
			b.r.Public.Work = ""
		}
		return
	}
	for _, said := range []struct {
		key   string
		v     piece.Value[string]
		reads func(string) []string
	}{{"title", b.p.Title, workInTitle().FindStringSubmatch}, {"story", b.p.Story, workInStory}} {
		m := said.reads(said.v.V)
		if m == nil {
			continue
		}
		words := strings.Trim(m[0], " \n.,;:!?()")
		b.r.Public.Work = workUnsaid
		b.find(piece.Doubt, "work.unsaid", said.v.At, fmt.Sprintf("%s says %q, so no paper says that you made the piece until you say what you did", said.key, words),
			"write work: "+spelling.Or(slices.Concat(piece.Works[1:], piece.Works[:1]))+" beside the title; made means that it is your own work from the start")
		return
	}
}
