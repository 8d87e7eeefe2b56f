package main

import (
	"fmt"
	"slices"
	"strings"

	"slabfolio/listing/piece"
)

// commonFindings are the findings that would stand on every piece of a run in nearly
// the same words: they are said once for all, at the end. Each is worded for a
// number of pieces; what is said of one piece alone is cut from its message behind
// a mark, where there is one.
var commonFindings = map[string]struct{ text, mark string }{
	"photo.views":           {"%s lack photos of views that buyers look for", "no photo shows: "},
	"photo.white-unsure":    {"of %s photos hold nothing that is surely neutral, so their colours are left as the camera saw them", ""},
	"photo.before-finished": {"of %s the camera's clock says that photos were taken before the piece was finished", ""},
	"maker.nameless":        {"no maker's name stands on the papers of %s", ""},
}

// A common is one finding as it was made on several pieces.
type common struct {
	pieces   []string // folders, in the order of the run
	findings []piece.Finding
}

// withhold keeps back what would stand on every piece, in a run over several; it
// returns whether it did.
func (t *teller) withhold(folder string, f piece.Finding) bool {
	if _, ok := commonFindings[f.Code]; !ok || t.found < 2 {
		return false
	}
	if t.common == nil {
		t.common = map[string]*common{}
	}
	c := t.common[f.Code]
	if c == nil {
		c = &common{}
		t.common[f.Code] = c
		t.codes = append(t.codes, f.Code)
	}
	c.pieces, c.findings = append(c.pieces, folder), append(c.findings, f)
	return true
}

// sayCommon says what was withheld: as it is where it stands on one piece, else in a
// line for all.
func (t *teller) sayCommon() {
	for _, code := range t.codes {
		c := t.common[code]
		if pieces := slices.Compact(slices.Clone(c.pieces)); len(pieces) == 1 {
			for _, f := range c.findings {
				t.c.finding(t.findings, pieces[0], f)
			}
			continue
		}
		t.c.finding(t.findings, "", c.together(code))
	}
	t.common, t.codes = nil, nil
}

// together words a finding for all the pieces that it was made on.
func (c *common) together(code string) piece.Finding {
	f := c.findings[0]
	said := commonFindings[code]
	var names []string
	for i, folder := range c.pieces {
		name := folder[strings.LastIndexByte(folder, '/')+1:]
		if _, own, ok := strings.Cut(c.findings[i].Message, said.mark); ok && said.mark != "" {
			name += " (" + own + ")"
		}
		if len(names) == 0 || names[len(names)-1] != name {
			names = append(names, name)
		}
	}
	const most = 6
	n := len(slices.Compact(slices.Clone(c.pieces)))
	if len(names) > most {
		names = append(names[:most:most], fmt.Sprintf("and %d more", len(names)-most))
	}
	return piece.Finding{Rank: f.Rank, Code: code, Remedy: f.Remedy,
		Message: fmt.Sprintf(said.text, plural(n, "piece")) + ": " + strings.Join(names, ", ")}
}
