package listing

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
	"slabfolio/listing/report"
)

// lookForWithdrawn looks whether something that an earlier run made public is not
// to be public any more: a photo, or a value. Then every output is made, whatever
// --only says, so that it is gone from all of them.
func (w *work) lookForWithdrawn() error {
	if w.made == "" || w.earlier == nil {
		return nil
	}
	gone := w.withdrawnPhotos()
	values, err := missingValues(&w.earlier.Public, &w.report.Public)
	if err != nil {
		return err
	}
	if gone = append(gone, values...); len(gone) == 0 {
		return nil
	}
	w.findings = append(w.findings, piece.Finding{
		Rank: piece.Note, Code: "run.withdrawn",
		Message: fmt.Sprintf("no longer public: %s; every output was made anew, and not only the %s", strings.Join(gone, ", "), w.made),
	})
	w.made = ""
	return nil
}

// withdrawnPhotos are the photos that the earlier run published and this one does
// not.
func (w *work) withdrawnPhotos() (gone []string) {
	for _, p := range w.earlier.Photos {
		still := slices.ContainsFunc(w.sources, func(s photos.Source) bool { return s.Rel == p.Source && s.Role == photos.Publish })
		if len(p.Outputs) > 0 && !still {
			gone = append(gone, p.Source)
		}
	}
	return gone
}

// missingValues names the public values that were there and are not now. Photos
// are looked at by themselves.
func missingValues(before, now *report.Public) ([]string, error) {
	had, err1 := valuesOf(before)
	has, err2 := valuesOf(now)
	if err1 != nil || err2 != nil {
		return nil, fmt.Errorf("compare with the earlier report: %w", cmp.Or(err1, err2))
	}
	var gone []string
	for _, name := range had {
		if top, _, _ := strings.Cut(name, "."); !slices.Contains(has, name) && !slices.Contains(gone, top) {
			gone = append(gone, top)
		}
	}
	return gone, nil
}

// valuesOf lists the values of what is public by their place, sorted.
func valuesOf(p *report.Public) ([]string, error) {
	data, err := json.Marshal(p)
	if err != nil {
		return nil, err
	}
	var tree map[string]any
	if err := json.Unmarshal(data, &tree); err != nil {
		return nil, err
	}
	delete(tree, "photos")
	var names []string
	var walk func(name string, v any)
	walk = func(name string, v any) {
		switch v := v.(type) {
		case map[string]any:
			for k, item := range v {
				walk(strings.TrimPrefix(name+"."+k, "."), item)
			}
		case []any:
			for i, item := range v {
				walk(fmt.Sprintf("%s.%d", name, i), item)
			}
		default:
			names = append(names, name)
		}
	}
	walk("", tree)
	slices.Sort(names)
	return names, nil
}
