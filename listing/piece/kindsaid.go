package piece

import (
	"fmt"
	"slices"
	"strings"

	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/spelling"
)

// Words for what is done to a piece that others made, as alternatives of a regular
// expression, in the languages of the papers (from memory).
const (
	Restoring = `restored|refurbished|reconditioned|renovated|restauriert|aufgearbeitet|restauriertes?|restaurierter|aufgearbeiteter?|restaurée?s?|rénovée?s?|restaurad[oa]s?|renovad[oa]s?|gerestaureerde?|opgeknapte?`
	Repairing = `repaired|mended|repariert|reparierte[rs]?|réparée?s?|reparad[oa]s?|gerepareerde?`
)

var (
	restoredSaid = spelling.Pattern(`(?i)(?:^|[^\pL])(?:` + Restoring + `)(?:$|[^\pL])`)
	repairedSaid = spelling.Pattern(`(?i)(?:^|[^\pL])(?:` + Repairing + `)(?:$|[^\pL])`)
	// countFirst is how many pieces a kind is said of: a pair of, two, a set of four.
	countFirst = spelling.Pattern(`(?i)^(?:an?\s+|the\s+|une?\s+|una?\s+|een\s+|ein\s+)?(?:(?:set|satz|ensemble|jeu|lot|juego|conjunto|lote|stel)\s+(?:of|von|aus|de|van)\s+)?(\d{1,3}|\pL+)(?:\s*[x×])?\s+(?:(?:matching|equal|gleiche|gelijke)\s+)?(?:(?:of|von|de|van)\s+)?(\pL.*)$`)
)

// countsPart is what a number before a kind counts where it counts no pieces: a bench of
// two seats, a desk with four drawers.
var countsPart = spelling.Pattern(`(?i)^(?:seats?|seaters?|persons?|people|drawers?|shelf|doors?|plätze|personen|schubladen|places|personnes|tiroirs|plazas|personas|cajones|laden|ft|m|cm|mm|metres?|meters?)\b`)

// A KindSaid is what a maker says of a piece's kind, and with it.
type KindSaid struct {
	Kind  string
	Work  string // one of Works, where it says that others made it; else ""
	Count int    // how many pieces it is of; 0 where it does not say
}

// Beside is what a kind says that is no kind: how many pieces there are, and that they
// were restored or repaired. rest is the kind that is left.
func kindBeside(text string) (said KindSaid, rest string) {
	rest = spelling.OneLine(text)
	switch {
	case restoredSaid().MatchString(rest):
		said.Work, rest = "restored", restoredSaid().ReplaceAllString(rest, " ")
	case repairedSaid().MatchString(rest):
		said.Work, rest = "repaired", repairedSaid().ReplaceAllString(rest, " ")
	}
	rest = strings.Trim(spelling.OneLine(rest), " ,")
	if m := countFirst().FindStringSubmatch(rest); m != nil {
		n, one := groups[strings.ToLower(m[1])], ofOne(m[2])
		exact := n > 0 || slices.Contains(Kinds, one) || otherWords[one] != ""
		if n == 0 {
			n = numberSaid(m[1])
		}
		plural := one != wordKey(m[2]) && !countsPart().MatchString(m[2]) && !notOfPieces().MatchString(m[2]) // a two seat bench is one
		if n > 0 && (exact || plural) {
			rest = m[2]
			if n > 1 {
				said.Count = n
			}
		}
	}
	return said, rest
}

// severalForms are plurals that end otherwise than in s, of words for kinds of pieces in
// the languages of the papers (from memory).
var severalForms = map[string]string{
	"benches": "bench", "shelves": "shelf", "bänke": "bank", "sitzbänke": "sitzbank", "stühle": "stuhl", "tische": "tisch", "regale": "regal", "bretter": "brett", "bureaux": "bureau", "panneaux": "panneau", "muraux": "mural", "murales": "mural",
	"banken": "bank", "krukken": "kruk", "planken": "plank", "stoelen": "stoel", "paneles": "panel",
}

// ofOne is a kind that is said of several in the singular: bedside tables, tables basses,
// Esstische.
func ofOne(kind string) string {
	words := strings.Fields(wordKey(kind))
	for i, w := range words {
		if one := severalForms[w]; one != "" {
			words[i] = one
			continue
		}
		for many, one := range severalForms {
			if front, compound := strings.CutSuffix(w, many); compound && len(many) > 4 {
				w = front + one
				break
			}
		}
		if len(w) > 3 && !strings.HasSuffix(w, "ss") {
			w = strings.TrimSuffix(w, "s")
		}
		words[i] = w
	}
	return strings.Join(words, " ")
}

// checkKindSays takes the work from a kind that says it, and tells so: kind: restored
// bench. What the key work says goes before it.
func checkKindSays(d *decoder, w *Written, p *Piece) {
	kind := w.Key("kind")
	if kind == nil || !kind.Single || p.Work.Set() || !p.Kind.Set() {
		return
	}
	if said, _ := kindBeside(kind.Text); said.Work != "" {
		p.Work = Value[string]{said.Work, kind.At}
		d.s.add(Note, "spec.read-as", kind.At, fmt.Sprintf("kind: %q is read as work: %s too, so no paper says that you made it", yamltext.Shorten(kind.Text), said.Work),
			fmt.Sprintf("write kind: %s and work: %s; or work: made where it is your own work from the start", p.Kind.V, said.Work))
	}
}

// ReadKind reads what is said of a kind of piece: the kind as ParseKind reads it, how many
// pieces there are, and that others made them. said holds the latter even where the kind
// is not known.
func ReadKind(text string) (said KindSaid, note string, err error) {
	said, rest := kindBeside(text)
	word, note, err := ParseKind(rest)
	if one := ofOne(rest); err != nil && one != wordKey(rest) {
		if w, n, e := ParseKind(one); e == nil || said.Count > 0 {
			word, note, err = w, n, e
		}
	}
	said.Kind = word
	return said, note, err
}
