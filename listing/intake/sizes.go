package intake

import (
	"cmp"
	"fmt"
	"regexp"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// metric reports whether a bare number is centimetres or millimetres.
func (iv *Interview) metric() bool { return iv.Defaults.Units.Metric() }

// size is a length as pieces of this kind have it, in the workshop's units.
func (iv *Interview) size(path string) string {
	example := piece.ExampleFor(iv.text("kind"), path)
	l, err := units.ParseLength(example, units.Inches)
	if err != nil || !iv.metric() {
		return example
	}
	if path == "top.thickness" {
		return fmt.Sprintf("%.0f mm", float64(l))
	}
	return fmt.Sprintf("%.0f cm", l.Centimetres())
}

func lengthExample(iv *Interview) string {
	l, w, t := iv.size("top.outline.length"), iv.size("top.outline.width"), iv.size("top.thickness")
	number := func(s string) string { return s[:strings.LastIndexByte(s, ' ')] }
	if iv.metric() {
		return fmt.Sprintf("%s, or %s x %s cm", l, number(l), number(w))
	}
	return fmt.Sprintf("%s, or %s x %s x %s", l, number(l), number(w), t)
}

func widthExample(iv *Interview) string {
	return iv.size("top.outline.width") + ", or several with commas"
}

func thicknessExample(iv *Interview) string { return iv.size("top.thickness") }

var (
	longWord  = regexp.MustCompile(`(?i)[ ,]*\b(?:long|in length|length)$`)
	wideWord  = regexp.MustCompile(`(?i)[ ,]*\b(?:wide|in width|width)$`)
	thickWord = regexp.MustCompile(`(?i)[ ,]*\b(?:thick|in thickness|thickness)$`)
	highWord  = regexp.MustCompile(`(?i)[ ,]*\b(?:high|tall|in height|height)$`)

	roundFirst = regexp.MustCompile(`(?i)^(?:round|diameter|dia\.?|ø|⌀)[ ,:]*(.*\d.*)$`)
	roundLast  = regexp.MustCompile(`(?i)^(.*\d.*?)[ ,]*\b(?:round|diameter|dia\.?|across)$`)
)

// withUnit gives a number alone the unit that it is meant in, so that the spec says the
// same wherever it goes.
func (iv *Interview) withUnit(size string) *piece.Written {
	if size != "" && strings.Trim(size, "0123456789 /.½¼¾⅛⅜⅝⅞-") == "" {
		size += " " + string(cmp.Or(iv.Defaults.Units, units.Inches))
	}
	return piece.Plain(size)
}

// length takes the length; a round top, or all sizes in one breath.
func length(iv *Interview, text string) said {
	if m := firstMatch(text, roundFirst, roundLast); m != "" {
		s := iv.put(map[string]*piece.Written{"top.outline": nil, "top.outline.diameter": iv.withUnit(m)})
		s.notes = append(s.notes, "a round top, "+m+" across")
		return s
	}
	clean := longWord.ReplaceAllString(text, "")
	for n, paths := range map[int][]string{2: {"top.outline.length", "top.outline.width"}, 3: {"top.outline.length", "top.outline.width", "top.thickness"}} {
		sizes, ok := piece.ParseSizes(clean, n, iv.Defaults.Units)
		if !ok {
			continue
		}
		values := map[string]*piece.Written{"top.outline": nil}
		for i, path := range paths {
			values[path] = piece.Plain(sizes[i])
		}
		s := iv.put(values)
		if s.problem == nil {
			s.notes = append(s.notes, "length "+sizes[0]+", width "+sizes[1]+thirdSize(sizes))
		}
		return s
	}
	return iv.put(map[string]*piece.Written{"top.outline": nil, "top.outline.length": iv.withUnit(clean)})
}

func thirdSize(sizes []string) string {
	if len(sizes) < 3 {
		return ""
	}
	return ", thickness " + sizes[2]
}

func firstMatch(text string, all ...*regexp.Regexp) string {
	for _, re := range all {
		if m := re.FindStringSubmatch(text); m != nil {
			return strings.TrimSpace(m[1])
		}
	}
	return ""
}

// severalSizes parts widths: a comma with a blank behind it, or a semicolon. A comma
// alone may be a decimal one, which the parser asks back.
var severalSizes = regexp.MustCompile(`\s*(?:,\s+|;\s*|\band\b)\s*`)

// width takes one width, or several across a live edge.
func width(iv *Interview, text string) said {
	clean := wideWord.ReplaceAllString(text, "")
	parts := severalSizes.Split(strings.TrimRight(clean, ",; "), -1)
	if len(parts) == 1 {
		return iv.put(map[string]*piece.Written{"top.outline.widths": nil, "top.outline.width": iv.withUnit(clean)})
	}
	list := &piece.Written{}
	for _, p := range lastUnit(parts, iv.Defaults.Units) {
		list.Items = append(list.Items, iv.withUnit(p))
	}
	return iv.put(map[string]*piece.Written{"top.outline.width": nil, "top.outline.widths": list})
}

// lastUnit gives sizes without a unit the last one's: 37, 38, 37 1/2 cm.
func lastUnit(parts []string, bare units.System) []string {
	last := parts[len(parts)-1]
	unit := strings.TrimLeft(last, "0123456789 /.½¼¾⅛⅜⅝⅞-")
	if unit == "" {
		return parts
	}
	out := make([]string, len(parts))
	for i, p := range parts {
		if out[i] = p; strings.Trim(p, "0123456789 /.½¼¾⅛⅜⅝⅞-") == "" {
			out[i] = strings.TrimSpace(p) + " " + unit
		}
	}
	return out
}

// thickness takes the thickness.
func thickness(iv *Interview, text string) said {
	return iv.put(map[string]*piece.Written{"top.thickness": iv.withUnit(thickWord.ReplaceAllString(text, ""))})
}
