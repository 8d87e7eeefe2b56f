package main

import (
	"cmp"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"slabfolio/listing"
	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
	"slabfolio/listing/report"
)

// A todo is one kind of thing to do, on one piece or several.
type todo struct {
	Rank    piece.Rank `json:"rank"`
	Code    string     `json:"code"`
	Pieces  []string   `json:"pieces"`
	Message string     `json:"message"`
	Remedy  string     `json:"remedy,omitempty"`

	file  string // of the first, and how many more there are
	more  int
	unfit bool
	gone  bool // all of the pieces are sold
	alike bool // all of the pieces are told the same
}

// firstToDo returns the three things that a maker should do first, in the overview's
// order, but that photos that cannot be shown as they are stand right behind faults: what is
// most urgent, then what stands on most pieces. Notes are nothing to be done, nor are photos of what is sold; other
// doubts about sold pieces alone stand behind the rest.
func firstToDo(results []listing.Result) []todo {
	var all []*todo
	byCode := map[string]*todo{}
	for i := range results {
		r := &results[i]
		for _, f := range r.Findings {
			if report.UrgencyOf(f) >= report.Known || r.Sold && report.Moot(f) {
				continue
			}
			key := string(f.Rank) + f.Code
			if strings.HasPrefix(f.Code, "spec.") { // one code for many slips: alike is only what says the same
				key += f.Message
			}
			if nameOf(r) == "" { // of the run as a whole, and of no piece
				key += " " + f.File + f.Message
			}
			t := byCode[key]
			if t == nil {
				t = &todo{Rank: f.Rank, Code: f.Code, Message: f.Message, Remedy: f.Remedy, file: placeInWords(f), unfit: photos.Unfit(f), gone: true, alike: true}
				byCode[key], all = t, append(all, t)
			} else if slices.Contains(t.Pieces, nameOf(r)) {
				t.more++
			}
			t.gone, t.alike = t.gone && r.Sold, t.alike && t.Message == f.Message && t.Remedy == f.Remedy
			if n := nameOf(r); n != "" && !slices.Contains(t.Pieces, n) {
				t.Pieces = append(t.Pieces, n)
			}
		}
	}
	slices.SortStableFunc(all, func(a, b *todo) int {
		return cmp.Or(a.last()-b.last(), cmp.Compare(a.urgency(), b.urgency()), report.CompareUrgency(a.finding(), b.finding()), max(1, len(b.Pieces))-max(1, len(a.Pieces)))
	})
	out := []todo{}
	for _, t := range all[:min(3, len(all))] {
		out = append(out, *t)
	}
	return out
}

// last is 1 for what stands behind the rest: doubts about sold pieces alone, unless
// they are about what can hurt somebody.
func (t *todo) last() int {
	return truth(t.gone && t.Rank != piece.Fault && report.UrgencyOf(t.finding()) > report.Harm)
}

// urgency is how urgent it is: a photo that cannot be shown as it is, as if it were broken.
func (t *todo) urgency() report.Urgency {
	u := report.UrgencyOf(t.finding())
	if t.unfit {
		u = min(u, report.Broken)
	}
	return u
}

// finding is what of a thing to do says how urgent it is.
func (t *todo) finding() piece.Finding { return piece.Finding{Rank: t.Rank, Code: t.Code} }

func truth(b bool) int {
	if b {
		return 1
	}
	return 0
}

// nameOf is what a piece is called in a line: its serial, else its folder.
func nameOf(r *listing.Result) string {
	if r.Serial == "" && r.Dir != "" {
		return filepath.Base(r.Dir)
	}
	return r.Serial
}

func placeInWords(f piece.Finding) string {
	if f.File == "" || f.Line == 0 {
		return f.File
	}
	return fmt.Sprintf("%s, line %d", f.File, f.Line)
}

// sayFirst ends a run with the three things to do first.
func (t *teller) sayFirst(sum *listing.Summary) {
	list := firstToDo(sum.Results)
	if len(list) == 0 {
		return
	}
	t.c.result("to do first:")
	for i, d := range list {
		line := fmt.Sprintf("%d. %s", i+1, d.line())
		if t.c.shown {
			line = strings.TrimSpace(wrap(line, "   ", personWidth))
		}
		t.c.result("%s", line)
	}
}

// severally names pieces, the first three of more than four.
func severally(pieces []string) string {
	if len(pieces) > 4 {
		return fmt.Sprintf("%s and %d more pieces", strings.Join(pieces[:3], ", "), len(pieces)-3)
	}
	return strings.Join(pieces, ", ")
}

// ownOf says whose the figures of one or several are.
func ownOf(n int) string {
	if n == 1 {
		return "its own"
	}
	return "their own"
}

// line says a thing to do: which piece, what is wrong, what helps. Where others are told
// the same with figures or names of their own, the words are those of the first.
func (d *todo) line() string {
	who, others := severally(d.Pieces), ""
	if len(d.Pieces) > 1 && !d.alike {
		who, others = d.Pieces[0], "; the same of "+severally(d.Pieces[1:])+", with figures of "+ownOf(len(d.Pieces)-1)
	}
	switch {
	case len(d.Pieces) == 0:
		who = d.file
	case len(d.Pieces) > 1 && d.alike && strings.HasPrefix(d.file, "workshop.y"):
		who = d.file // of all its pieces
	case who == "":
		who = d.file // of a folder that is no piece
	case d.file != "" && (len(d.Pieces) == 1 || others != ""):
		who += " (" + d.file
		if d.more > 0 {
			who += fmt.Sprintf(", and %d more", d.more)
		}
		who += ")"
	}
	if who != "" {
		who += ": "
	}
	text := who + d.Message
	if d.Rank == piece.Fault && strings.HasPrefix(d.Code, "photo.") && d.more > 0 && !d.alike && len(d.Pieces) == 1 {
		text = fmt.Sprintf("%s: %d photos cannot be used, each for a reason of its own, such as %s: %s", d.Pieces[0], d.more+1, d.file, d.Message)
	}
	if d.Remedy != "" {
		text += "; " + strings.ReplaceAll(d.Remedy, "\n", " ")
	}
	return inLine(text + others)
}
