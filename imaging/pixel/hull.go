package pixel

import (
	"cmp"
	"slices"
)

// Hull is the convex hull of points, anticlockwise where y points up (Andrew's
// monotone chain, 1979).
func Hull(p []Point) []Point {
	s := slices.Clone(p)
	slices.SortFunc(s, func(a, b Point) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	var out []Point
	for pass := range 2 {
		base := len(out)
		for k := range s {
			q := s[k]
			if pass == 1 {
				q = s[len(s)-1-k]
			}
			for len(out) >= base+2 {
				a, b := out[len(out)-2], out[len(out)-1]
				if (b.X-a.X)*(q.Y-a.Y)-(b.Y-a.Y)*(q.X-a.X) > 0 {
					break
				}
				out = out[:len(out)-1]
			}
			out = append(out, q)
		}
		out = out[:len(out)-1]
	}
	return out
}
