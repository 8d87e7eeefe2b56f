package intake

import (
	"strconv"
	"strings"
	"unicode"

	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// figures writes a size that is said in words, or with a decimal comma, as the spec has
// it. The notes say so. several says that commas may part sizes here.
func (iv *Interview) figures(text string, several bool) (string, []string) {
	text, pointed := iv.points(text, several)
	figures, notes := inFigures(text)
	if notes == nil {
		notes = pointed
	}
	return figures, notes
}

// points writes decimal commas as points where they can be nothing else: in a workshop
// that measures in centimetres or millimetres, or where a unit stands with the figures.
// Elsewhere a comma is asked back.
func (iv *Interview) points(text string, several bool) (string, []string) {
	read, ok := units.WithPoints(text)
	unit := strings.ContainsFunc(text, func(r rune) bool { return unicode.IsLetter(r) || r == '"' || r == '%' })
	if !ok || !unit && !iv.metric() || several && alike(text) {
		return text, nil
	}
	return read, []string{"read as " + read}
}

// twoFigures are two numbers with a comma alone between them.
var twoFigures = spelling.Pattern(`(?:^|[^\d,.])(\d{1,3}),(\d{2,3})(?:$|[^\d,.])`)

// alike reports whether a comma parts two sizes that may be two widths of one top: one
// is no less than two thirds of the other.
func alike(text string) bool {
	m := twoFigures().FindStringSubmatch(text)
	if m == nil {
		return false
	}
	a, errA := strconv.ParseFloat(m[1], 64)
	b, errB := strconv.ParseFloat(m[2], 64)
	return errA == nil && errB == nil && 3*min(a, b) >= 2*max(a, b)
}
