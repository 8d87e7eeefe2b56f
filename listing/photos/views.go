package photos

import "slices"

// wanted are the views that a buyer of each kind of piece looks for (common
// practice, no source). Views that serve for one another stand in one entry.
var wanted = map[string][][]string{
	"table":   {{"three-quarter"}, {"end", "front"}, {"above"}, {"underside"}, {"edge", "end grain"}, {"detail", "seam", "raking light", "backlit resin"}, {"maker's mark"}, {"scale", "in use", "in room"}},
	"small":   {{"three-quarter", "front"}, {"above"}, {"underside", "back"}, {"edge", "end grain"}, {"detail", "seam", "raking light", "backlit resin"}, {"maker's mark"}, {"scale", "in use", "in room"}},
	"upright": {{"three-quarter"}, {"front"}, {"end"}, {"edge", "end grain", "feet"}, {"detail", "seam", "raking light", "backlit resin"}, {"maker's mark"}, {"scale", "in use", "in room"}},
	"panel":   {{"front"}, {"edge", "three-quarter"}, {"back", "fixing"}, {"detail", "seam", "raking light", "backlit resin"}, {"maker's mark"}, {"scale", "in use", "in room"}},
}

// missingViews lists the wanted views that no photo shows, in the order they matter.
func missingViews(kind string, shown []string) []string {
	class := "table"
	switch kind {
	case "serving board":
		class = "small"
	case "stool", "shelf":
		class = "upright"
	case "wall panel":
		class = "panel"
	case "other":
		return nil
	}
	var out []string
	for _, alike := range wanted[class] {
		if !slices.ContainsFunc(shown, func(v string) bool { return slices.Contains(alike, v) }) {
			out = append(out, alike[0])
		}
	}
	return out
}
