// Package intake takes a finished piece in: the questions that its maker answers
// by heart, what the answers make of a spec, and where the piece stands in its
// collection. It prints nothing and reads no terminal.
package intake

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"slabfolio/listing/assembly"
	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
	"slabfolio/listing/wood"
)

// An Interview is what was answered so far.
type Interview struct {
	Known    *piece.Written // what the spec will hold; answers go into it
	Earlier  *piece.Written // an earlier piece, whose answers are proposed again; nil for none
	Defaults piece.Defaults
	Currency string // the workshop's; empty when it has none
	Woods    *wood.Table
	Usual    assembly.Tables // what sizes are customary, so that odd ones are asked back

	questions []question
	at        int
	trail     []int          // the questions that were put before this one
	gave      map[int]string // what was answered to a question, as the maker said it
	try       func(known *piece.Written) []piece.Finding
	resinSaid bool         // the resin was named with the wood, not yet how much
	called    string       // what the kind was called, where that says more than the kind
	wrote     units.System // the unit that a size was last written in
	evening   units.System // what numbers alone are in, as the maker said when asked

	turn // of the question that is put now
}

// A turn is what passed since a question was put; the next one begins a new one.
type turn struct {
	pending  bool                      // it was answered in part, and more is wanted
	again    bool                      // the maker came back to it, or is asked anew
	meant    string                    // what "yes" takes
	insisted string                    // an answer that was doubted; given again it stands
	refused  string                    // the last answer, where it was not taken; Enter takes no proposal then
	also     map[string]*piece.Written // what a refused answer said besides, for the next one
	unsaid   unsaid                    // what was asked back for its unit
}

// A question is one thing that a maker knows by heart.
type question struct {
	ask      string                        // as it is put
	example  func(iv *Interview) string    // an answer as it could be
	more     string                        // what "?" says
	proposal func(iv *Interview) string    // what Enter takes; nil or "" for nothing
	moot     func(iv *Interview) bool      // it need not be asked; nil for never
	take     func(*Interview, string) said // an answer that is neither empty nor a command
	needed   bool                          // nothing can be made without an answer
}

// said is what became of an answer.
type said struct {
	notes   []string        // how it was read, where that is not plain
	problem *piece.SetError // why it was not understood, and what would be right
	more    bool            // it was taken, and the problem asks for the rest of it
	kept    bool            // it was refused, but what it said of something else is kept
}

// A Question is put to the maker.
type Question struct {
	Number  int    // from 1
	Ask     string // the question
	Example string // an answer
	Enter   string // what an empty answer takes; empty when it skips
	Needed  bool   // nothing can be made without an answer
}

// A Reply is what the maker is told of an answer.
type Reply struct {
	Notes  []string // how it was read
	Wrong  string   // what was not understood; empty when all was
	Remedy string   // what to write instead
	Help   string   // what "?" wanted to know
	Open   bool     // the question was left open
}

// New begins the interview of a piece.
func New(known, earlier *piece.Written, defaults piece.Defaults, currency string, woods *wood.Table) *Interview {
	iv := &Interview{Known: known, Earlier: earlier, Defaults: defaults, Currency: currency, Woods: woods, questions: ofPiece}
	iv.try = func(known *piece.Written) []piece.Finding { return piece.Try(known, defaults) }
	return iv
}

// NewWorkshop begins the interview of a workshop.
func NewWorkshop() *Interview {
	return &Interview{Known: &piece.Written{}, questions: ofWorkshop, try: piece.TryWorkshop}
}

// Next returns the question that is to be put now; false when there is none left.
func (iv *Interview) Next() (Question, bool) {
	for iv.at < len(iv.questions) {
		q := &iv.questions[iv.at]
		if q.moot == nil || iv.pending || iv.again || !q.moot(iv) {
			return Question{Number: len(iv.trail) + 1, Ask: q.ask, Example: q.example(iv), Enter: iv.enter(q), Needed: q.needed}, true
		}
		iv.at++
	}
	return Question{}, false
}

func (iv *Interview) enter(q *question) string {
	if kept := iv.kept(); kept != "" && iv.refused == "" {
		return kept
	}
	if q.proposal == nil || iv.pending || iv.refused != "" {
		return ""
	}
	return q.proposal(iv)
}

// skips are answers that leave a question open.
var skips = []string{"skip", "later", "-", "n/a", "don't know", "dont know", "unknown", "pass"}

// same are answers that take what is proposed.
var same = []string{"same", "the same", "ditto", "as before", "as the last one", "default"}

// Answer takes the answer to the question that Next returned last.
func (iv *Interview) Answer(text string) Reply {
	q := &iv.questions[iv.at]
	text = spelling.OneLine(text)
	switch lower := strings.ToLower(text); {
	case lower == "?" || lower == "help":
		return Reply{Help: strings.ReplaceAll(q.more, "%UNITS%", unitWords[iv.bareUnit()])}
	case lower == "back" || lower == "<":
		return iv.back()
	case lower == "" && iv.refused != "":
		return iv.notTaken(q)
	case iv.kept() != "" && (lower == "" || slices.Contains(same, lower) || slices.Contains(skips, lower)):
		return iv.keep()
	case lower == "" && iv.enter(q) != "":
		text = iv.enter(q)
	case slices.Contains(same, lower) && q.proposed(iv) != "":
		text = q.proposed(iv)
	case slices.Contains(same, lower):
		return Reply{Wrong: fmt.Sprintf("there is nothing that %q could take", text), Remedy: "say it in words; skip leaves the question open"}
	case lower == "" || slices.Contains(skips, lower):
		open := !iv.pending
		r := iv.next(nil)
		r.Open = open
		return r
	}
	if yes := strings.ToLower(text); yes == "yes" || yes == "y" {
		if iv.meant == "" {
			return Reply{Wrong: fmt.Sprintf("%q does not say which", text), Remedy: "say it in words; skip leaves the question open"}
		}
		text = iv.meant
	}
	return iv.took(q, text)
}

// took gives an answer to its question, and tells what became of it.
func (iv *Interview) took(q *question, text string) Reply {
	before := iv.Known.Copy()
	text = iv.completed(text)
	s := q.take(iv, text)
	if s.problem == nil {
		iv.settle(text)
		iv.remember(text)
		return iv.next(s.notes)
	}
	if s.more {
		iv.remember(text)
	}
	if !s.more && !s.kept {
		iv.Known = before
	}
	if iv.refused = ""; !s.more {
		iv.refused = text
	}
	iv.pending, iv.again = iv.pending || s.more, true                 // the same question until it is answered or skipped
	remedy, _, _ := strings.Cut(s.problem.Remedy, "; all the words:") // "?" has them
	if iv.meant = ""; oneRemedy().MatchString(remedy) {
		meant := oneRemedy().FindStringSubmatch(remedy)[1]
		if iv.wouldTake(q, meant) {
			iv.meant = meant
			remedy += `; "yes" takes ` + iv.meant
		}
	}
	return Reply{Notes: s.notes, Wrong: s.problem.Message, Remedy: remedy}
}

// notTaken answers Enter behind an answer that was refused: it takes nothing, least
// of all the earlier piece's.
func (iv *Interview) notTaken(q *question) Reply {
	remedy := "say it in other words; skip leaves the question open"
	if kept := iv.kept(); kept != "" {
		remedy = fmt.Sprintf("say it in other words; \"same\" keeps %s", kept)
	} else if p := q.proposed(iv); p != "" {
		remedy = fmt.Sprintf("say it in other words; \"same\" takes %s; skip leaves the question open", p)
	}
	return Reply{Wrong: fmt.Sprintf("%q was not taken, and Enter takes nothing in its place", iv.refused), Remedy: remedy}
}

// wouldTake reports whether a text that a remedy holds is an answer as it stands.
func (iv *Interview) wouldTake(q *question, text string) bool {
	if strings.Contains(text, " or ") {
		return false
	}
	trial := *iv
	trial.Known = iv.Known.Copy()
	s := q.take(&trial, trial.completed(text))
	return s.problem == nil || s.more
}

// proposed is what the question proposes, whatever was answered yet.
func (q *question) proposed(iv *Interview) string {
	if q.proposal == nil {
		return ""
	}
	return q.proposal(iv)
}

// oneRemedy is a remedy that holds one answer to be taken as it is.
var oneRemedy = spelling.Pattern(`^(?:did you mean|write|write it in capitals:|write the three letters:) "?([^";,:]+?)"?(?:$|;| if )`)

// next goes on to the question after this one.
func (iv *Interview) next(notes []string) Reply {
	iv.trail = append(iv.trail, iv.at)
	iv.at, iv.turn = iv.at+1, turn{}
	return Reply{Notes: notes}
}

// back goes to the question that was put before this one.
func (iv *Interview) back() Reply {
	last := len(iv.trail) - 1
	if last < 0 {
		return Reply{Notes: []string{"this is the first question"}}
	}
	iv.at, iv.trail, iv.turn = iv.trail[last], iv.trail[:last], turn{again: true}
	return Reply{}
}

// put tries values in the spec, and keeps them unless one of them is a fault.
func (iv *Interview) put(values map[string]*piece.Written) said {
	trial := iv.Known.Copy()
	for _, path := range slices.Sorted(maps.Keys(values)) {
		trial.Put(path, values[path])
	}
	for _, f := range iv.try(trial) {
		if f.Rank == piece.Fault {
			return said{problem: &piece.SetError{Message: bare(f.Message), Remedy: bareRemedy(f.Remedy, values)}}
		}
	}
	iv.Known = trial
	return said{}
}

// bare takes the path of a key off the front of a message: whoever answers a
// question has never seen one.
func bare(message string) string {
	if path, rest, ok := strings.Cut(message, ": "); ok && !strings.ContainsAny(path, " \"") {
		return rest
	}
	if path, rest, ok := strings.Cut(message, " "); ok && strings.Contains(path, ".") && !strings.ContainsAny(path, "\"") {
		return fmt.Sprintf("the %s %s", path[strings.LastIndexByte(path, '.')+1:], rest)
	}
	return message
}

// bareRemedy takes the keys that were tried out of a remedy: "write width: 40.5 cm"
// is typed as 40.5 cm.
func bareRemedy(remedy string, values map[string]*piece.Written) string {
	for path := range values {
		key := path[strings.LastIndexByte(path, '.')+1:]
		remedy = strings.ReplaceAll(remedy, " "+key+": ", " ")
	}
	return remedy
}

// unitWords name the units of bare numbers.
var unitWords = map[units.System]string{units.Inches: "inches", units.Centimetres: "centimetres", units.Millimetres: "millimetres"}
