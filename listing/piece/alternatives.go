package piece

import (
	"fmt"
	"slabfolio/listing/piece/yamltext"
	"slices"
	"strings"

	"slabfolio/listing/spelling"
)

// checkWays checks that the keys of a group together say one thing, and that wholly.
func (d *decoder) checkWays(n *yamltext.Node, group *Key, path string, at Place) {
	var have []string
	for _, p := range n.Pairs {
		if !p.Value.Nothing() && !slices.Contains(have, p.Key) && find(group.Keys, p.Key) != nil {
			have = append(have, p.Key)
		}
	}
	best, bestMissing, bestExtra := 1e9, []string(nil), []string(nil)
	for _, w := range group.Ways {
		var missing, extra []string
		for _, key := range w.Need {
			if !slices.Contains(have, key) {
				missing = append(missing, key)
			}
		}
		for _, key := range have {
			if !slices.Contains(w.Need, key) && !slices.Contains(w.May, key) {
				extra = append(extra, key)
			}
		}
		// A key too few is a likelier slip than a key too many.
		if score := float64(len(missing)) + 1.5*float64(len(extra)); score < best {
			best, bestMissing, bestExtra = score, missing, extra
		}
	}
	if slices.ContainsFunc(bestMissing, d.lost) {
		return
	}
	remedy := "keep to one of these ways: " + waysText(group.Ways)
	switch {
	case len(bestExtra) > 0:
		where := at
		for _, p := range n.Pairs {
			if p.Key == bestExtra[0] {
				where = p.At
			}
		}
		d.fault("spec.ways", where, fmt.Sprintf("%s is said in more than one way: %s", path, spelling.And(have)), remedy)
	case len(have) == 0:
		d.fault("spec.ways", at, fmt.Sprintf("%s says nothing", path), remedy)
	case !slices.ContainsFunc(group.Ways, func(w way) bool {
		return slices.ContainsFunc(w.Need, func(key string) bool { return slices.Contains(have, key) })
	}):
		d.fault("spec.ways", at, fmt.Sprintf("%s has %s, which does not say what it is", path, spelling.And(have)), remedy)
	case len(bestMissing) > 0:
		if len(bestMissing) == 1 {
			remedy = "add " + find(group.Keys, bestMissing[0]).line() + "; or " + remedy
		}
		d.fault("spec.ways", at, fmt.Sprintf("%s has %s, but no %s", path, spelling.And(have), spelling.And(bestMissing)), remedy)
	}
}

// waysText lists the ways: "length and width; points".
func waysText(ways []way) string {
	texts := make([]string, len(ways))
	for i, w := range ways {
		texts[i] = spelling.And(w.Need)
	}
	return strings.Join(texts, "; ")
}
