package trace

import (
	"slices"
	"strings"
)

// Near returns what the records hold that begins as a filter does which nothing
// answered, such as pva-d3 for pva, or has it within, sorted; at most six.
func (q Query) Near(records []Record) []string {
	var near []string
	for kind, want := range map[string]string{"species": q.Species, "glue": q.Glue, "finish": q.Finish, "resin": q.Resin, "batch": q.Batch, "supplier": q.Supplier} {
		want = strings.ToLower(strings.TrimSpace(want))
		if len([]rune(want)) < 3 {
			continue
		}
		for _, r := range records {
			for _, f := range r.Facts {
				for _, name := range append([]string{f.Value}, f.Also...) {
					if f.kind == kind && strings.Contains(strings.ToLower(name), want) && !slices.Contains(near, name) {
						near = append(near, name)
					}
				}
			}
		}
	}
	slices.Sort(near)
	return near[:min(6, len(near))]
}
