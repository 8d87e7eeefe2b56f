package report

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"

	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
)

// JSON returns report.json: everything, private values too.
func JSON(r *Report) ([]byte, error) {
	c := *r
	c.tidy()
	return write(&c, "report.json")
}

// PublicJSON returns listing.json: what anyone may see.
func PublicJSON(r *Report) ([]byte, error) {
	c := r.Public
	c.tidy()
	return write(&c, "listing.json")
}

func write(v any, name string) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return nil, fmt.Errorf("write %s: %w", name, err)
	}
	return b.Bytes(), nil
}

// tidy makes empty lists of missing ones and rounds figures to what was
// measured. It replaces what it changes and leaves what others hold alone.
func (r *Report) tidy() {
	r.Public.tidy()
	r.Findings = notNil(r.Findings)
	r.WeightParts = notNil(r.WeightParts)
	r.Movement = notNil(r.Movement)
	r.Photos = notNil(r.Photos)
	if r.Absent == nil {
		r.Absent = map[string]string{}
	}
	figures := make(map[string]figure.Figure, len(r.Figures))
	for k, f := range r.Figures {
		n := decimals(f.Unit)
		if strings.HasPrefix(k, "dimensions.") && f.Unit == "mm" {
			n = 2 // as in public
		}
		f.Value, f.Low, f.High = round(f.Value, n), round(f.Low, n), round(f.High, n)
		figures[k] = f
	}
	r.Figures = figures
}

func (p *Public) tidy() {
	p.Materials, p.Care, p.Cautions, p.Photos = notNil(p.Materials), notNil(p.Care), notNil(p.Cautions), notNil(p.Photos)
	if d := p.Dimensions; d != nil {
		c := *d
		for _, v := range []**float64{&c.Length, &c.Width, &c.Height, &c.TopThickness, &c.Knee} {
			*v = rounded(*v, 2) // an inch is 25.4 mm: to tenths, 1 3/4 in would be 44.5, and then 4.5 cm in place of 4.4
		}
		for _, v := range []**float64{&c.TopArea, &c.WoodArea, &c.ResinArea} {
			*v = rounded(*v, 4)
		}
		p.Dimensions = &c
	}
	if w := p.Weight; w != nil {
		c := *w
		c.Kg, c.Low, c.High = round(c.Kg, 2), round(c.Low, 2), round(c.High, 2)
		c.Weighed = rounded(c.Weighed, 2)
		p.Weight = &c
	}
	if m := p.Movement; m != nil {
		c := *m
		c.Across, c.FromMC, c.ToMC = round(c.Across, 1), round(c.FromMC, 1), round(c.ToMC, 1)
		p.Movement = &c
	}
	if s := p.Shipping; s != nil {
		c := *s
		c.Packages = notNil(slices.Clone(s.Packages))
		p.Shipping = &c
	}
}

func notNil[T any](s []T) []T {
	if s == nil {
		return []T{}
	}
	return s
}

func rounded(v *float64, n int) *float64 {
	if v == nil || math.IsNaN(*v) || math.IsInf(*v, 0) {
		return nil
	}
	return ptr(round(*v, n))
}

// decimals is how fine a unit is kept.
func decimals(unit string) int {
	switch unit {
	case "mm", "%", "kg/m3", "C":
		return 1
	case "kg":
		return 2
	case "m2":
		return 4
	}
	return 3
}

// sortFindings puts findings in the order of the file, faults first. What has no
// line of its own comes behind what has one: causes stand on lines.
func sortFindings(f []piece.Finding) {
	slices.SortStableFunc(f, func(a, b piece.Finding) int {
		return cmp.Or(a.Rank.Before(b.Rank), cmp.Compare(a.File, b.File), cmp.Compare(withoutLine(a), withoutLine(b)), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
}

// withoutLine is 1 for a finding without a line.
func withoutLine(f piece.Finding) int {
	if f.Line == 0 {
		return 1
	}
	return 0
}
