package assembly

import (
	"cmp"
	"slices"
)

func sortPoints(p []Point) {
	slices.SortFunc(p, func(a, b Point) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
}

// cross is twice the area of the triangle o, a, b; positive when it turns left.
func cross(o, a, b Point) float64 { return (a.X-o.X)*(b.Y-o.Y) - (a.Y-o.Y)*(b.X-o.X) }
