package page

import (
	"fmt"
	"html/template"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// A pen writes SVG in millimetres of the piece; unit is the size of a letter,
// and grow is how much larger letters are on a phone.
type pen struct {
	b          strings.Builder
	unit, grow float64
}

func (p *pen) f(format string, args ...any) { fmt.Fprintf(&p.b, format, args...) }

// The lines of ISO 128-2:2020 beside letters of 5 mm: 0.5 for what is seen, half
// of that for dimensions, hidden edges and what adjoins, a step finer the grain.
// Dashes count in line widths: 12 and 3; 24, 3, 0.5, 3, 0.5, 3.
type lineKind struct {
	width  float64
	dashes []float64
}

var (
	visibleLine   = lineKind{0.1, nil}
	thinLine      = lineKind{0.05, nil}
	hiddenLine    = lineKind{0.05, []float64{12, 3}}
	adjoiningLine = lineKind{0.05, []float64{24, 3, 0.5, 3, 0.5, 3}}
	grainLine     = lineKind{0.036, nil}
)

// line is the attributes of a line.
func (p *pen) line(k lineKind) string {
	s := ` stroke-width="` + num3(p.unit*k.width) + `"`
	if k.dashes == nil {
		return s
	}
	dashes := make([]string, len(k.dashes))
	for i, n := range k.dashes {
		dashes[i] = num3(p.unit * k.width * n)
	}
	return s + ` stroke-dasharray="` + strings.Join(dashes, " ") + `"`
}

func (p *pen) segment(x1, y1, x2, y2 float64, line string) {
	p.f(`<line x1="%s" y1="%s" x2="%s" y2="%s"%s/>`, num(x1), num(y1), num(x2), num(y2), line)
}

func (p *pen) rect(x, y, w, h float64, line string) {
	p.f(`<rect x="%s" y="%s" width="%s" height="%s"%s/>`, num(x), num(y), num(w), num(h), line)
}

// Dimensions after ISO 129-1:2018, as on the spec sheet: thin lines, filled
// arrows of 15 degrees, a gap at the edge, text above the line and read from
// below or from the right.
const (
	arrowUnits = 0.75
	gapUnits   = 0.25
	overUnits  = 0.5
	leastSpan  = 2.2 // shorter ones have their arrows outside
)

// arrow is filled, its tip at x, y, pointing along dx, dy.
func (p *pen) arrow(x, y, dx, dy float64) {
	a := p.unit * arrowUnits
	const half = 0.1317 // tan 7.5 degrees
	p.f(`<path d="M%s %sL%s %sL%s %sz" fill="currentColor" stroke="none"/>`, num(x), num(y),
		num(x-dx*a-dy*a*half), num(y-dy*a+dx*a*half), num(x-dx*a+dy*a*half), num(y-dy*a-dx*a*half))
}

// text sets text at x, y, anchored start, middle or end; turned reads upward.
func (p *pen) text(x, y float64, anchor string, turned bool, text string) {
	turn := ""
	if turned {
		turn = fmt.Sprintf(` transform="rotate(-90 %s %s)"`, num(x), num(y))
	}
	p.f(`<text x="%s" y="%s" text-anchor="%s"%s fill="currentColor" stroke="none">%s</text>`, num(x), num(y), anchor, turn, template.HTMLEscapeString(text))
}

// textUnits is about how wide a text is, in letters' sizes.
func textUnits(s string) float64 {
	return 0.58*float64(utf8.RuneCountInString(s)) + 0.38*float64(strings.Count(s, "m"))
}

// across draws a dimension from x1 to x2 at y, its extension lines from a level.
func (p *pen) across(x1, x2, y, from float64, text string) {
	u, thin := p.unit, p.line(thinLine)
	toward := math.Copysign(u, y-from)
	for _, x := range []float64{x1, x2} {
		p.segment(x, from+toward*gapUnits, x, y+toward*overUnits, thin)
	}
	if x2-x1 >= leastSpan*u {
		p.segment(x1, y, x2, y, thin)
		p.arrow(x1, y, -1, 0)
		p.arrow(x2, y, 1, 0)
	} else {
		p.segment(x1-1.5*u, y, x2+1.5*u, y, thin)
		p.arrow(x1, y, 1, 0)
		p.arrow(x2, y, -1, 0)
	}
	p.text((x1+x2)/2, y-0.3*u, "middle", false, text)
}

// up draws a dimension from y1 down to y2 at x, its extension lines from a level.
// Its text stands along it; where that is too short, beside it at the right, or
// over the upper arrow at the left.
func (p *pen) up(y1, y2, x, from float64, text string) {
	u, thin := p.unit, p.line(thinLine)
	toward := math.Copysign(u, x-from)
	for _, y := range []float64{y1, y2} {
		p.segment(from+toward*gapUnits, y, x+toward*overUnits, y, thin)
	}
	short := y2-y1 < leastSpan*u
	if short {
		p.segment(x, y1-1.5*u, x, y2+1.5*u, thin)
		p.arrow(x, y1, 0, 1)
		p.arrow(x, y2, 0, -1)
	} else {
		p.segment(x, y1, x, y2, thin)
		p.arrow(x, y1, 0, -1)
		p.arrow(x, y2, 0, 1)
	}
	switch {
	case y2-y1 >= u*(p.grow*textUnits(text)+0.5):
		p.text(x-0.3*u, (y1+y2)/2, "middle", true, text)
	case toward > 0:
		p.text(x+0.5*u, (y1+y2)/2+0.35*u, "start", false, text)
	case short:
		p.text(x, y1-1.8*u, "middle", false, text)
	default:
		p.text(x, y1-0.4*u, "middle", false, text)
	}
}

// svg is the picture; box is its x, y, width and height.
func (p *pen) svg(box [4]float64, title, desc string) template.HTML {
	return template.HTML(fmt.Sprintf(`<svg viewBox="%s %s %s %s" role="img" aria-label="%s" font-size="%s" font-family="system-ui,sans-serif" fill="none" stroke="currentColor" stroke-linejoin="round" style="--small:%s"><desc>%s</desc>%s</svg>`,
		num(box[0]), num(box[1]), num(box[2]), num(box[3]), template.HTMLEscapeString(title), num(p.unit), num3(p.grow), template.HTMLEscapeString(desc), p.b.String()))
}

func num3(v float64) string { return strconv.FormatFloat(v, 'g', 3, 64) }
