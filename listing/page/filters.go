package page

import (
	"fmt"
	"html/template"
	"slices"
	"strconv"
	"strings"

	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// A filterGroup is one choice over the catalogue. It works by style rules alone: an
// option that is chosen hides the pieces without its class.
type filterGroup struct {
	ID, Name, Any string
	Options       []filterOption
	classes       []string // of each piece: those that it has of this group, with spaces between
}

type filterOption struct{ Value, Text string }

// filters are the choices that part the pieces, and the rules that make them work.
func (s *shop) filters() ([]filterGroup, template.CSS) {
	kind := func(pub *report.Public) []string {
		return present(spelling.Capital(pub.KindIn(s.o.Words))) // "other" is nothing to choose by
	}
	state := func(pub *report.Public) []string {
		return present(spelling.Capital(s.o.Words.Called("available", pub.Available)))
	}
	var groups []filterGroup
	for _, g := range []filterGroup{s.group("kind", kind), s.group("wood", woodsOf), s.sizes(), s.group("available", state)} {
		if len(g.Options) > 1 {
			groups = append(groups, g)
		}
	}
	var rules strings.Builder
	for _, g := range groups {
		for _, o := range g.Options {
			fmt.Fprintf(&rules, "main:has(option[value=%s]:checked) li:not(.%s){display:none}\n", o.Value, o.Value)
		}
	}
	return groups, template.CSS(rules.String()) // letters and numbers of ours alone
}

// group is the choice among the values that the pieces have, by the alphabet.
func (s *shop) group(id string, of func(*report.Public) []string) filterGroup {
	g := s.named(id)
	var all []string
	for _, e := range s.entries {
		all = append(all, of(&e.Report.Public)...)
	}
	all = each(all, s.Lang)
	for i, text := range all {
		g.Options = append(g.Options, filterOption{g.ID[:1] + strconv.Itoa(i+1), text})
	}
	for _, e := range s.entries {
		var classes []string
		for _, v := range each(of(&e.Report.Public), s.Lang) {
			classes = append(classes, g.Options[slices.Index(all, v)].Value)
		}
		g.classes = append(g.classes, strings.Join(classes, " "))
	}
	return g
}

func (s *shop) named(id string) filterGroup {
	return filterGroup{ID: id, Name: s.o.Words.Say("catalogue."+id, nil), Any: s.o.Words.Say("catalogue.any", nil)}
}

// sizes is the choice by the longest side, in steps that a reader of the catalogue
// would tape out: 60, 120 and 180 cm, or 2, 4 and 6 feet.
func (s *shop) sizes() filterGroup {
	g := s.named("size")
	step, system := 600.0, units.System(units.Centimetres)
	if !s.o.Prefer.Metric() {
		step, system = 24*units.MillimetresPerInch, units.Inches
	}
	text := func(n int) string { return s.o.Words.Number(units.Length(float64(n) * step).Text(system)) }
	names := []string{
		s.o.Words.Say("catalogue.size-to", map[string]any{"To": text(1)}),
		s.o.Words.Say("catalogue.size-between", map[string]any{"From": text(1), "To": text(2)}),
		s.o.Words.Say("catalogue.size-between", map[string]any{"From": text(2), "To": text(3)}),
		s.o.Words.Say("catalogue.size-over", map[string]any{"From": text(3)}),
	}
	var there [4]bool
	for _, e := range s.entries {
		i := sizeStep(&e.Report.Public, step)
		class := ""
		if i >= 0 {
			there[i], class = true, "s"+strconv.Itoa(i+1)
		}
		g.classes = append(g.classes, class)
	}
	for i, name := range names {
		if there[i] {
			g.Options = append(g.Options, filterOption{"s" + strconv.Itoa(i+1), name})
		}
	}
	return g
}

// sizeStep is the step that a piece's longest side falls into, 0 to 3; -1 when no
// side is known. What is as long as a step has is in it still.
func sizeStep(pub *report.Public, step float64) int {
	longest := 0.0
	if d := pub.Dimensions; d != nil {
		for _, v := range []*float64{d.Length, d.Width, d.Height} {
			if v != nil {
				longest = max(longest, *v)
			}
		}
	}
	switch {
	case longest == 0:
		return -1
	case longest > 3*step:
		return 3
	case longest > 2*step:
		return 2
	case longest > step:
		return 1
	}
	return 0
}
