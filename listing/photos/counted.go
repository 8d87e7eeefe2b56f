package photos

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"slabfolio/listing/piece"
)

// byNumber compares two file names with the numbers in them as numbers: 2 stands
// before 10. Names that are alike but for leading noughts stand as their letters do.
func byNumber(a, b string) int {
	x, y := a, b
	for x != "" && y != "" {
		if digits(x) > 0 && digits(y) > 0 {
			m, n := strings.TrimLeft(x[:digits(x)], "0"), strings.TrimLeft(y[:digits(y)], "0")
			if c := cmp.Or(len(m)-len(n), strings.Compare(m, n)); c != 0 {
				return c
			}
			x, y = x[digits(x):], y[digits(y):]
			continue
		}
		if x[0] != y[0] {
			return cmp.Compare(x[0], y[0])
		}
		x, y = x[1:], y[1:]
	}
	return cmp.Or(len(x)-len(y), strings.Compare(a, b))
}

// digits is how many digits a text begins with.
func digits(s string) int { return len(s) - len(strings.TrimLeft(s, "0123456789")) }

// miscounted tells of photos that the maker numbered and that come in another order by
// name, letter by letter, which is the order that stands where none is given.
func (a *arranger) miscounted(spec *piece.Photos) {
	if len(spec.Order) > 0 {
		return
	}
	var names, counted []string
	for _, s := range a.all {
		if s.Role == Publish && s.Blend == nil {
			names = append(names, s.Name)
		}
	}
	slices.Sort(names)
	counted = slices.Clone(names)
	slices.SortStableFunc(counted, byNumber)
	for i, name := range names {
		if name == counted[i] {
			continue
		}
		a.findings = append(a.findings, piece.Finding{
			Rank: piece.Note, Code: "photo.order",
			Message: fmt.Sprintf("photos come in the order of their names, letter by letter, so %s comes before %s", name, counted[i]),
			Remedy:  "to have them by number, write under photos: order: [" + strings.Join(counted, ", ") + "]; or give all numbers as many digits, 01 and 02",
		})
		return
	}
}
