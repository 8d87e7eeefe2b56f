package intake

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

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
		return fmt.Sprintf("%s, or %s x %s cm, or %s round", l, number(l), number(w), w)
	}
	return fmt.Sprintf("%s, or %s x %s x %s, or %s round", l, number(l), number(w), t, w)
}

func widthExample(iv *Interview) string {
	return iv.size("top.outline.width") + ", or several with commas"
}

func thicknessExample(iv *Interview) string { return iv.size("top.thickness") }

var (
	longWord  = spelling.Pattern(`(?i)[ ,]*\b(?:long|in length|length|lang|de long|de largo)$`)
	wideWord  = spelling.Pattern(`(?i)[ ,]*\b(?:wide|in width|width|breit|breed|de large|de ancho)$`)
	thickWord = spelling.Pattern(`(?i)[ ,]*\b(?:thick|in thickness|thickness|dick|stark|dik)$`)
	highWord  = spelling.Pattern(`(?i)[ ,]*\b(?:high|tall|in height|height|hoch|hoog|de haut|de hauteur|haut|de alto|de altura|alto)$`)

	roundFirst = spelling.Pattern(`(?i)^(?:an? )?(?:round|circular|circle|diameter|dia\.?|ø|⌀)(?: (?:top|table|slab))?[ ,:]*(?:of )?(.*\d.*)$`)
	roundLast  = spelling.Pattern(`(?i)^(.*\d.*?)[ ,]*(?:\bround(?: (?:top|table|slab))?|\bcircular|\b(?:in )?diameter|\bdia\.?|[ø⌀])$`)
	acrossLast = spelling.Pattern(`(?i)^(.*\d.*?)[ ,]*\bacross$`)
)

// roundSize is the size across a round top that a text gives; "" where it names no
// round top.
func roundSize(text string) string {
	size := ""
	for m := firstMatch(text, roundFirst, roundLast); m != ""; m = firstMatch(m, roundFirst, roundLast) {
		size = m
	}
	if across := firstMatch(size, acrossLast); across != "" {
		return across
	}
	return size
}

// roundTop takes a round top.
func (iv *Interview) roundTop(whole, size string, notes []string) said {
	size, read, problem := iv.withUnit(whole, size, "width")
	if problem != nil {
		return said{problem: problem}
	}
	s := iv.put(map[string]*piece.Written{"top.outline": nil, "top.outline.diameter": piece.Plain(size)})
	if s.problem == nil {
		s.notes = append(oneNote(notes, read), "a round top, "+size+" across")
	}
	return s
}

// roundIn is the diameter of a round top, where a text names one: before the figure
// or behind it; "" where it does not.
func roundIn(text string) string {
	return cmp.Or(roundSize(text), firstMatch(text, acrossLast))
}

// length takes the length; a round top, or all sizes in one breath.
func length(iv *Interview, text string) said {
	text, notes := iv.figures(text, false)
	if isRange(text) {
		return rangeAsked(text, "the length at its longest, and the widths in the next question")
	}
	round := roundIn(text)
	if round != "" {
		return iv.roundTop(text, round, notes)
	}
	clean, read, problem := iv.withUnit(text, longWord().ReplaceAllString(text, ""), "length")
	if problem != nil {
		return said{problem: problem}
	}
	notes = oneNote(notes, read)
	for n, paths := range map[int][]string{2: {"top.outline.length", "top.outline.width"}, 3: {"top.outline.length", "top.outline.width", "top.thickness"}} {
		sizes, ok := piece.ParseSizes(clean, n, iv.bareUnit())
		if !ok {
			continue
		}
		values := map[string]*piece.Written{"top.outline": nil}
		for i, path := range paths {
			values[path] = piece.Plain(sizes[i])
		}
		s := iv.put(values)
		if s.problem == nil {
			s.notes = append(notes, "length "+sizes[0]+", width "+sizes[1]+thirdSize(sizes))
		}
		return s
	}
	return iv.sized(map[string]*piece.Written{"top.outline": nil, "top.outline.length": piece.Plain(clean)}, notes)
}

// oneNote joins what is said of how a size is read; what is said with the unit says all.
func oneNote(notes, withUnit []string) []string {
	if len(withUnit) > 0 {
		return withUnit
	}
	return notes
}

func thirdSize(sizes []string) string {
	if len(sizes) < 3 {
		return ""
	}
	return ", thickness " + sizes[2]
}

func firstMatch(text string, all ...func() *regexp.Regexp) string {
	for _, re := range all {
		if m := re().FindStringSubmatch(text); m != nil {
			return strings.TrimSpace(m[1])
		}
	}
	return ""
}

// severalSizes parts widths: a comma with a blank behind it, or a semicolon. A comma
// alone may be a decimal one, which the parser asks back.
var severalSizes = spelling.Pattern(`\s*(?:,\s+|;\s*|\band\b)\s*`)

// width takes one width, or several across a live edge. A round top is taken where
// its size is the length that was said; else it is asked back.
func width(iv *Interview, text string) said {
	text, notes := iv.figures(text, true)
	if isRange(text) {
		return rangeAsked(text, "the widths at equal steps from one end to the other, with commas between them, or the mean one alone")
	}
	long := iv.text("top.outline.length")
	if round := roundSize(text); round != "" {
		if iv.sameSize(round, long) {
			return iv.roundTop(text, round, notes)
		}
		return refused("\"back\" goes back to the length, where a round top is "+round+" round; else give the width alone", "%q is the size of a round top, and the length is %s", text, long)
	}
	across := firstMatch(text, acrossLast)
	if across != "" && iv.sameSize(across, long) {
		return refused("say "+across+" round for a round top, or "+across+" wide for a square one", "%q can be round or square", text)
	}
	clean := cmp.Or(across, wideWord().ReplaceAllString(text, ""))
	clean, read, problem := iv.withUnit(text, strings.TrimRight(clean, ",; "), "width")
	if problem != nil {
		return said{problem: problem}
	}
	notes = oneNote(notes, read)
	parts := severalSizes().Split(clean, -1)
	if len(parts) == 1 {
		return iv.sized(map[string]*piece.Written{"top.outline.widths": nil, "top.outline.width": piece.Plain(clean)}, notes)
	}
	list := &piece.Written{}
	for _, p := range lastUnit(parts) {
		list.Items = append(list.Items, piece.Plain(p))
	}
	return iv.sized(map[string]*piece.Written{"top.outline.width": nil, "top.outline.widths": list}, notes)
}

// sized puts sizes, and says how they were read where they were.
func (iv *Interview) sized(values map[string]*piece.Written, notes []string) said {
	s := iv.put(values)
	if s.problem == nil {
		s.notes = notes
	}
	return s
}

// sameSize reports whether two texts are one length.
func (iv *Interview) sameSize(a, b string) bool {
	x, errX := units.ParseLength(a, iv.bareUnit())
	y, errY := units.ParseLength(b, iv.bareUnit())
	return errX == nil && errY == nil && math.Abs(float64(x-y)) < 0.5
}

// lastUnit gives sizes without a unit the last one's: 37, 38, 37 1/2 cm.
func lastUnit(parts []string) []string {
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

// thickness takes the thickness. A round top that is said here is kept where no
// shape is known yet.
func thickness(iv *Interview, text string) said {
	text, notes := iv.figures(text, false)
	if isRange(text) {
		return rangeAsked(text, "the thickness that most of the top has")
	}
	round := roundIn(text)
	if round == "" {
		size, read, problem := iv.withUnit(text, thickWord().ReplaceAllString(text, ""), "thickness")
		if problem != nil {
			return said{problem: problem}
		}
		return iv.sized(map[string]*piece.Written{"top.thickness": piece.Plain(size)}, oneNote(notes, read))
	}
	if outlined(iv) {
		return refused("give the thickness; \"back\" goes back to the sizes", "%q is the size of a round top, and a shape is known already", text)
	}
	s := iv.roundTop(text, round, notes)
	if s.problem == nil {
		s.kept, s.problem = true, &piece.SetError{Message: "noted; how thick it is is not said yet", Remedy: "give the thickness, such as " + thicknessExample(iv)}
	}
	return s
}
