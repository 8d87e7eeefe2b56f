package piece

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"slabfolio/listing/spelling"
)

// tableShots are the views worth taking of a piece that stands on a base, in the
// order in which light and camera have to be moved least.
var tableShots = []string{
	"three-quarter", "front", "end", "back", "above", "edge", "end grain", "seam", "detail", "raking light", "backlit resin", "underside",
	"fixing", "feet", "maker's mark", "flaw", "scale", "in room", "packed",
}

// shotLists are the views worth taking of each kind of piece.
var shotLists = map[string][]string{
	"desk":          withDrawer,
	"dining table":  tableShots,
	"coffee table":  tableShots,
	"console table": withDrawer,
	"side table":    withDrawer,
	"bench":         without(tableShots, "backlit resin"),
	"stool":         without(tableShots, "backlit resin", "back", "seam"),
	"shelf":         {"three-quarter", "front", "end", "above", "underside", "edge", "end grain", "detail", "fixing", "maker's mark", "flaw", "scale", "in room", "packed"},
	"serving board": {"three-quarter", "above", "back", "edge", "end grain", "detail", "raking light", "maker's mark", "flaw", "scale", "in use", "packed"},
	"wall panel":    {"three-quarter", "front", "back", "edge", "detail", "raking light", "backlit resin", "fixing", "maker's mark", "flaw", "scale", "in room", "packed"},
	"other":         tableShots,
}

var withDrawer = slices.Insert(slices.Clone(tableShots), slices.Index(tableShots, "underside"), "drawer")

func without(all []string, views ...string) []string {
	return slices.DeleteFunc(slices.Clone(all), func(v string) bool { return slices.Contains(views, v) })
}

// shotViews lists the views worth taking of a kind of piece, in order.
func shotViews(kind string) []string {
	if views, ok := shotLists[kind]; ok {
		return slices.Clone(views)
	}
	return slices.Clone(tableShots)
}

// lookedFor are the views that a buyer of each kind of piece looks for (common
// practice, no source), by classes of kinds. Views that serve for one another stand
// in one entry.
var lookedFor = map[string][][]string{
	"table":   {{"three-quarter"}, {"end", "front"}, {"above"}, {"underside"}, {"edge", "end grain"}, closeViews, {"maker's mark"}, sizeViews},
	"small":   {{"three-quarter", "front"}, {"above"}, {"back", "underside"}, {"edge", "end grain"}, closeViews, {"maker's mark"}, sizeViews},
	"upright": {{"three-quarter"}, {"front"}, {"end"}, {"edge", "end grain", "feet"}, closeViews, {"maker's mark"}, sizeViews},
	"panel":   {{"front"}, {"edge", "three-quarter"}, {"back", "fixing"}, closeViews, {"maker's mark"}, sizeViews},
}

var (
	closeViews = []string{"detail", "seam", "raking light", "backlit resin"}
	sizeViews  = []string{"scale", "in use", "in room"}
)

// LookedFor lists the views that buyers of a kind of piece look for, each with those
// that serve as well: those of its shot list first, then what makers may have taken
// all the same. Of a piece of no known kind nobody knows.
func LookedFor(kind string) [][]string {
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
	var out [][]string
	listed := shotViews(kind)
	for _, alike := range lookedFor[class] {
		alike = slices.Clone(alike)
		slices.SortStableFunc(alike, func(a, b string) int {
			return strings.Compare(fmt.Sprint(!slices.Contains(listed, a)), fmt.Sprint(!slices.Contains(listed, b)))
		})
		if slices.Contains(listed, alike[0]) {
			out = append(out, alike)
		}
	}
	return out
}

// Shots returns SHOTS.md, the shot list for a kind of piece: what to take in
// which order, why and how.
func Shots(kind string, say Say) []byte {
	if !slices.Contains(Kinds, kind) {
		kind = "console table"
	}
	name := kind
	if kind == "other" {
		name = "piece"
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, "# %s\n\n%s\n", say("new.shots.head", map[string]any{"Kind": name}), say("new.shots.intro", nil))
	fmt.Fprintf(&b, "\n## %s\n\n", say("new.shots.before.head", nil))
	for _, id := range []string{"clean", "backdrop", "lens", "grey", "sheet", "names"} {
		fmt.Fprintf(&b, "- %s\n", say("new.shots.before."+id, nil))
	}
	fmt.Fprintf(&b, "\n## %s\n", say("new.shots.list.head", nil))
	if groups := LookedFor(kind); len(groups) > 0 {
		fmt.Fprintf(&b, "\n%s\n", say("new.shots.list.star", map[string]any{"Groups": alternatives(kind)}))
	}
	for i, view := range shotViews(kind) {
		id := viewID(view)
		fmt.Fprintf(&b, "\n%d. **%s**%s (%s)\n    - %s\n    - %s\n", i+1, view, starFor(kind, view), say("new.shots.name", map[string]any{"Name": fmt.Sprintf("%02d-%s.jpg", i+1, id)}),
			say("new.shots.why."+id, nil), say("new.shots.how."+id, nil))
	}
	for _, part := range []string{"light", "plan", "care"} {
		fmt.Fprintf(&b, "\n## %s\n\n%s\n", say("new.shots."+part+".head", nil), say("new.shots."+part+".text", nil))
	}
	return b.Bytes()
}

// starFor marks a view that buyers look for.
func starFor(kind, view string) string {
	if slices.ContainsFunc(LookedFor(kind), func(alike []string) bool { return slices.Contains(alike, view) }) {
		return " *"
	}
	return ""
}

// alternatives names the views of the shot list that serve for one another: "end or
// front; …".
func alternatives(kind string) string {
	var out []string
	listed := shotViews(kind)
	for _, alike := range LookedFor(kind) {
		alike = slices.DeleteFunc(alike, func(v string) bool { return !slices.Contains(listed, v) })
		if len(alike) > 1 {
			out = append(out, spelling.Or(alike))
		}
	}
	return strings.Join(out, "; ")
}

// viewID turns a view into the form of file names and phrase ids.
func viewID(view string) string {
	return strings.ReplaceAll(strings.ReplaceAll(view, "'", ""), " ", "-")
}
