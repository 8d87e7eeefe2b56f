package piece

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
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

// ShotViews lists the views worth taking of a kind of piece, in order.
func ShotViews(kind string) []string {
	if views, ok := shotLists[kind]; ok {
		return slices.Clone(views)
	}
	return slices.Clone(tableShots)
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
	for i, view := range ShotViews(kind) {
		id := viewID(view)
		fmt.Fprintf(&b, "\n%d. **%s** (%s)\n    - %s\n    - %s\n", i+1, view, say("new.shots.name", map[string]any{"Name": fmt.Sprintf("%02d-%s.jpg", i+1, id)}),
			say("new.shots.why."+id, nil), say("new.shots.how."+id, nil))
	}
	for _, part := range []string{"light", "plan", "care"} {
		fmt.Fprintf(&b, "\n## %s\n\n%s\n", say("new.shots."+part+".head", nil), say("new.shots."+part+".text", nil))
	}
	return b.Bytes()
}

// viewID turns a view into the form of file names and phrase ids.
func viewID(view string) string {
	return strings.ReplaceAll(strings.ReplaceAll(view, "'", ""), " ", "-")
}
