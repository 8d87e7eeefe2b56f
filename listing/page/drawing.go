package page

import (
	"fmt"
	"hash/fnv"
	"html/template"
	"math"
	"strconv"
	"strings"

	"slabfolio/listing/report"
	"slabfolio/listing/units"
)

// A drawing is the plan and the elevation as inline SVG in the text's colour.
// Line widths follow ISO 128: 0.5 visible, 0.25 dimension and hidden, 0.18 grain.
type drawing struct{ Views []drawnView }

type drawnView struct {
	SVG     template.HTML
	Caption string
}

func draw(r *report.Report, o *Options) *drawing {
	d := &r.Drawing
	if len(d.Outline) < 3 || d.Length <= 0 || d.Width <= 0 {
		return nil
	}
	out := &drawing{}
	caption := o.Words.Say("page.plan", nil)
	if d.ResinShare > 0 {
		caption += ". " + o.Words.Say("page.drawing.resin", map[string]any{"Share": strconv.FormatFloat(d.ResinShare*100, 'f', 0, 64)})
	}
	out.Views = append(out.Views, drawnView{plan(r, o), caption})
	if d.Height > 0 && d.BaseHeight > 0 {
		id := "page.elevation"
		if d.Round {
			id = "page.elevation-round"
		}
		out.Views = append(out.Views, drawnView{elevation(r, o), o.Words.Say(id, nil)})
	}
	return out
}

// A pen writes SVG in millimetres of the piece; unit is the size of a letter.
type pen struct {
	b    strings.Builder
	unit float64
}

func (p *pen) f(format string, args ...any) { fmt.Fprintf(&p.b, format, args...) }

func num(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64) }

func (p *pen) line(x1, y1, x2, y2 float64, class string) {
	p.f(`<line x1="%s" y1="%s" x2="%s" y2="%s"%s/>`, num(x1), num(y1), num(x2), num(y2), class)
}

// The line widths of ISO 128 beside letters of 5 mm: 0.5 for what is seen, 0.25
// for dimensions and what is hidden, 0.18 for the grain.
func (p *pen) visible() string { return ` stroke-width="` + num3(p.unit*0.1) + `"` }
func (p *pen) thin() string    { return ` stroke-width="` + num3(p.unit*0.05) + `"` }
func (p *pen) hidden() string {
	return p.thin() + ` stroke-dasharray="` + num3(p.unit*0.4) + ` ` + num3(p.unit*0.2) + `"`
}

func num3(v float64) string { return strconv.FormatFloat(v, 'g', 3, 64) }

func (p *pen) arrow(x, y, dx, dy float64) {
	a := p.unit * 0.75
	p.f(`<path d="M%s %sL%s %sL%s %sz" fill="currentColor" stroke="none"/>`, num(x), num(y),
		num(x+dx*a-dy*a/5), num(y+dy*a+dx*a/5), num(x+dx*a+dy*a/5), num(y+dy*a-dx*a/5))
}

// across draws a dimension line along x, its text above it.
func (p *pen) across(x1, x2, y, from float64, text string) {
	p.line(x1, from, x1, y+p.unit*0.4, p.thin())
	p.line(x2, from, x2, y+p.unit*0.4, p.thin())
	p.line(x1, y, x2, y, p.thin())
	p.arrow(x1, y, 1, 0)
	p.arrow(x2, y, -1, 0)
	p.f(`<text x="%s" y="%s" text-anchor="middle" fill="currentColor" stroke="none">%s</text>`, num((x1+x2)/2), num(y-p.unit*0.35), template.HTMLEscapeString(text))
}

// up draws a dimension line along y at x, its text turned beside it.
func (p *pen) up(y1, y2, x, from float64, text string) {
	p.line(from, y1, x+p.unit*0.4, y1, p.thin())
	p.line(from, y2, x+p.unit*0.4, y2, p.thin())
	p.line(x, y1, x, y2, p.thin())
	if math.Abs(y2-y1) > 2.2*p.unit {
		p.arrow(x, y1, 0, 1)
		p.arrow(x, y2, 0, -1)
	} else {
		p.line(x, y1-1.2*p.unit, x, y2+1.2*p.unit, p.thin())
		p.arrow(x, y1, 0, -1)
		p.arrow(x, y2, 0, 1)
	}
	p.f(`<text x="%s" y="%s" text-anchor="start" fill="currentColor" stroke="none">%s</text>`, num(x+p.unit*0.45), num((y1+y2)/2+p.unit*0.35), template.HTMLEscapeString(text))
}

func (p *pen) svg(x, y, w, h float64, title, desc string) template.HTML {
	return template.HTML(fmt.Sprintf(`<svg viewBox="%s %s %s %s" role="img" aria-label="%s" font-size="%s" font-family="system-ui,sans-serif" fill="currentColor" stroke="none"><desc>%s</desc><g fill="none" stroke="currentColor" stroke-linejoin="round">%s</g></svg>`,
		num(x), num(y), num(w), num(h), template.HTMLEscapeString(title), num(p.unit), template.HTMLEscapeString(desc), p.b.String()))
}

func (o *Options) length(mm float64) string {
	l := units.Length(mm)
	if o.Prefer.Metric() {
		return l.Text(o.Prefer)
	}
	return l.Text(units.Inches)
}

// letterSize makes letters about a thirty-fourth of the picture's width.
func letterSize(width float64) float64 { return width / 30 }

func plan(r *report.Report, o *Options) template.HTML {
	d := &r.Drawing
	p := &pen{unit: letterSize(math.Max(d.Length, d.Width*1.2))}
	u := p.unit
	var path strings.Builder
	for i, q := range d.Outline {
		path.WriteString(map[bool]string{true: "M", false: "L"}[i == 0] + num(q[0]) + " " + num(d.Width-q[1]))
	}
	path.WriteString("z")
	p.f(`<clipPath id="top"><path d="%s"/></clipPath>`, path.String())
	p.f(`<g clip-path="url(#top)" stroke-opacity=".55" stroke-width="%s">%s</g>`, num3(u*0.036), grain(d, r.Public.Serial))
	p.f(`<path d="%s"%s/>`, path.String(), p.visible())
	if d.Round {
		p.across(0, d.Length, -1.4*u, d.Width/2, "⌀ "+o.length(d.Length))
		return p.svg(-u, -3.2*u, d.Length+2*u, d.Width+4.2*u, drawingTitle(r, o), drawingDesc(r, o))
	}
	p.across(0, d.Length, -1.4*u, -0.3*u, o.length(d.Length))
	p.up(0, d.Width, d.Length+1.4*u, d.Length+0.3*u, o.length(d.Width))
	return p.svg(-u, -3.2*u, d.Length+8.5*u, d.Width+4.2*u, drawingTitle(r, o), drawingDesc(r, o))
}

func drawingTitle(r *report.Report, o *Options) string {
	return o.Words.Say("page.drawing.title", map[string]any{"Title": r.Public.Title})
}

func drawingDesc(r *report.Report, o *Options) string {
	size := ""
	if d := r.Public.Dimensions; d != nil {
		size = d.Text.In + ", " + d.Text.Cm
	}
	return o.Words.Say("page.drawing.desc", map[string]any{"Height": r.Drawing.Height > 0, "Size": size})
}

// grain strews a few strokes in the direction of the grain, the same ones for
// the same serial. They show the direction and nothing else.
func grain(d *report.Drawing, serial string) string {
	h := fnv.New64a()
	h.Write([]byte(serial))
	seed := h.Sum64()
	random := func() float64 {
		seed = seed*6364136223846793005 + 1442695040888963407
		return float64(seed>>11) / (1 << 53)
	}
	var b strings.Builder
	switch d.Grain {
	case "along length", "along width":
		along, across := d.Length, d.Width
		if d.Grain == "along width" {
			along, across = across, along
		}
		for i := range 26 {
			y := across * (float64(i) + 0.2 + 0.6*random()) / 26
			x := along * random() * 0.8
			w := along * (0.08 + 0.22*random())
			bend := across * 0.012 * (random() - 0.5)
			if d.Grain == "along width" {
				fmt.Fprintf(&b, `<path d="M%s %sq%s %s 0 %s"/>`, num(y), num(x), num(bend*2), num(w/2), num(w))
			} else {
				fmt.Fprintf(&b, `<path d="M%s %sq%s %s %s 0"/>`, num(x), num(y), num(w/2), num(bend*2), num(w))
			}
		}
	case "end grain":
		for range 40 {
			fmt.Fprintf(&b, `<circle cx="%s" cy="%s" r="%s"/>`, num(d.Length*random()), num(d.Width*random()), num(d.Width*0.012))
		}
	}
	return b.String()
}

func elevation(r *report.Report, o *Options) template.HTML {
	d := &r.Drawing
	p := &pen{unit: letterSize(math.Max(d.Length, d.Height*1.2))}
	u := p.unit
	top := d.Height - d.BaseHeight
	if d.Thickness > 0 {
		top = d.Thickness
	}
	p.f(`<rect x="0" y="0" width="%s" height="%s"%s/>`, num(d.Length), num(top), p.visible())
	for _, part := range d.Parts {
		if part.Length > 0 && part.BelowTop > 0 {
			p.f(`<rect x="%s" y="%s" width="%s" height="%s"%s/>`, num((d.Length-part.Length)/2), num(top), num(part.Length), num(part.BelowTop), p.hidden())
		}
	}
	left := 0.0
	if w := d.Footprint[0]; w > 0 {
		left = (d.Length - w) / 2
		p.f(`<rect x="%s" y="%s" width="%s" height="%s"%s/>`, num(left), num(top), num(w), num(d.Height-top), p.hidden())
		p.f(`<text x="%s" y="%s" text-anchor="middle" fill="currentColor" stroke="none">%s</text>`, num(d.Length/2), num(d.Height-u), template.HTMLEscapeString(o.Words.Say("page.drawing.base", nil)))
	}
	p.line(math.Min(left, 0)-u, d.Height, math.Max(d.Length, left+d.Footprint[0])+u, d.Height, p.thin())
	right := math.Max(d.Length, left+d.Footprint[0])
	p.up(0, d.Height, right+1.4*u, right+0.3*u, o.length(d.Height))
	x := math.Min(left, 0) - u
	return p.svg(x, -1.5*u, right+8.5*u-x-u, d.Height+3*u, drawingTitle(r, o), drawingDesc(r, o))
}
