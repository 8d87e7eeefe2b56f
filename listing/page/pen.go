package page

import (
	"fmt"
	"html/template"
	"strconv"
	"strings"

	"slabfolio/listing/drawing"
)

// Widths of lines, in letters' sizes: those of ISO 128-2:2020 beside letters of
// 5 mm, 0.5 for what is seen, half of that for dimensions, hidden edges and what
// adjoins, a step finer the grain.
var lineWidths = map[drawing.Line]float64{drawing.Visible: 0.1, drawing.Grain: 0.036}

const lineWidthThin = 0.05

// svg writes a view as a picture that its letters fit into, half a letter around.
func (s *plot) svg(v drawing.View, left, right float64) template.HTML {
	upper, lower := s.bounds(v)
	const around = letter / 2
	var b strings.Builder
	fmt.Fprintf(&b, `<svg viewBox="%s %s %s %s" role="img" aria-label="%s" font-size="%s" font-family="system-ui,sans-serif" fill="none" stroke="currentColor" stroke-linejoin="round" style="--small:%s"><desc>%s</desc>`,
		short2(left-around), short2(upper[1]-around), short2(right-left+2*around), short2(lower[1]-upper[1]+2*around),
		template.HTMLEscapeString(s.title), short2(letter), short2(s.grow), template.HTMLEscapeString(s.desc))
	writeTints(&b, v.Tints)
	writeStrokes(&b, v.Strokes)
	for _, a := range v.Arrows {
		writeArrow(&b, a)
	}
	for _, l := range v.Labels {
		writeLabel(&b, l)
	}
	b.WriteString("</svg>")
	return template.HTML(b.String())
}

// writeTints writes tints, in the text's colour as the lines are.
func writeTints(b *strings.Builder, all []drawing.Tint) {
	for _, t := range all {
		b.WriteString(`<path fill="currentColor" fill-opacity="` + short2(drawing.TintShare) + `" fill-rule="evenodd" stroke="none" d="`)
		for _, ring := range t {
			b.WriteString(path(drawing.Stroke{Points: ring, Closed: true}))
		}
		b.WriteString(`"/>`)
	}
}

// writeStrokes writes strokes, one group for neighbours of one line.
func writeStrokes(b *strings.Builder, all []drawing.Stroke) {
	for i, s := range all {
		if i == 0 || all[i-1].Line != s.Line {
			b.WriteString("<g" + lineAttributes(s.Line) + ">")
		}
		b.WriteString(`<path d="` + path(s) + `"/>`)
		if i+1 == len(all) || all[i+1].Line != s.Line {
			b.WriteString("</g>")
		}
	}
}

// path is the data of a path; a stroke of the grain has more points than a screen
// shows.
func path(s drawing.Stroke) string {
	var b strings.Builder
	for i, p := range s.Points {
		switch {
		case i == 0:
			b.WriteByte('M')
		case s.Line == drawing.Grain && i%4 != 0 && i != len(s.Points)-1:
			continue
		default:
			b.WriteByte('L')
		}
		b.WriteString(short2(p[0]) + " " + short2(p[1]))
	}
	if s.Closed {
		b.WriteByte('z')
	}
	return b.String()
}

func lineAttributes(l drawing.Line) string {
	width, ok := lineWidths[l]
	if !ok {
		width = lineWidthThin
	}
	width *= letter
	s := ` stroke-width="` + short3(width) + `"`
	var dashes []string
	for _, n := range l.Dashes() {
		dashes = append(dashes, short3(width*n))
	}
	if dashes == nil {
		return s
	}
	return s + ` stroke-dasharray="` + strings.Join(dashes, " ") + `"`
}

func writeArrow(b *strings.Builder, a drawing.Arrow) {
	x, y, dx, dy := a.Tip[0], a.Tip[1], a.Toward[0], a.Toward[1]
	backX, backY := x-dx*drawing.ArrowLength, y-dy*drawing.ArrowLength
	const half = drawing.ArrowHalf
	fmt.Fprintf(b, `<path d="M%s %sL%s %sL%s %sz" fill="currentColor" stroke="none"/>`, short2(x), short2(y),
		short2(backX-dy*half), short2(backY+dx*half), short2(backX+dy*half), short2(backY-dx*half))
}

func writeLabel(b *strings.Builder, l drawing.Label) {
	turn := ""
	if l.Upward {
		turn = fmt.Sprintf(` transform="rotate(-90 %s %s)"`, short2(l.At[0]), short2(l.At[1]))
	}
	anchor := [...]string{drawing.AtStart: "start", drawing.AtMiddle: "middle", drawing.AtEnd: "end"}[l.Anchor]
	fmt.Fprintf(b, `<text x="%s" y="%s" text-anchor="%s"%s fill="currentColor" stroke="none">%s</text>`,
		short2(l.At[0]), short2(l.At[1]), anchor, turn, template.HTMLEscapeString(l.Text))
}

// short1 and short2 write a number with at most one or two decimals; short3 with
// three digits that count.
func short1(v float64) string { return trimmed(v, 1) }
func short2(v float64) string { return trimmed(v, 2) }
func short3(v float64) string { return strconv.FormatFloat(v, 'g', 3, 64) }

func trimmed(v float64, decimals int) string {
	s := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(v, 'f', decimals, 64), "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}
