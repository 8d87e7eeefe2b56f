package listing

import (
	"fmt"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"slabfolio/listing/piece"
)

// An arranger brings together what the spec says of photos and the files that
// are there.
type arranger struct {
	all      []source
	findings []piece.Finding
	missing  map[string]bool // named in the spec, not there, and said
}

// arrangePhotos gives every photo its role, view and caption, in the order of
// publication, and reports names in the spec that no file has.
func arrangePhotos(p *piece.Piece, all []source) ([]source, []piece.Finding) {
	a := &arranger{all: all, missing: map[string]bool{}}
	a.label(&p.Photos)
	a.cast(p)
	a.order(&p.Photos)
	return a.all, a.findings
}

// named finds the photo that the spec names under a key; nil when there is none.
func (a *arranger) named(key string, v piece.Value[string]) *source {
	if !v.Set() {
		return nil
	}
	if i := findByName(a.all, v.V); i >= 0 {
		return &a.all[i]
	}
	if !a.missing[v.V] { // once is enough
		a.missing[v.V] = true
		a.findings = append(a.findings, missingPhoto(key, v, a.all))
	}
	return nil
}

// label sets views and captions.
func (a *arranger) label(spec *piece.Photos) {
	a.named("photos.main", spec.Main) // said first when it is missing
	for _, name := range sortedKeys(spec.Views) {
		v := spec.Views[name]
		if s := a.named("photos.views", piece.Value[string]{V: name, At: v.At}); s != nil {
			s.view = v.V
		}
	}
	for _, name := range sortedKeys(spec.Captions) {
		v := spec.Captions[name]
		if s := a.named("photos.captions", piece.Value[string]{V: name, At: v.At}); s != nil {
			s.caption = v.V
		}
	}
	for _, boxes := range []struct {
		key   string
		boxes map[string]piece.Value[piece.Box]
	}{{"photos.crop_boxes", spec.CropBoxes}, {"photos.grey_card", spec.GreyCard}} {
		for _, name := range sortedKeys(boxes.boxes) {
			a.named(boxes.key, piece.Value[string]{V: name, At: boxes.boxes[name].At})
		}
	}
	for i := range a.all {
		if a.all[i].view == "" {
			a.all[i].view = piece.ViewInFileName(a.all[i].name)
		}
	}
}

// cast gives the roles of those that are not published.
func (a *arranger) cast(p *piece.Piece) {
	for i := range a.all {
		if a.all[i].view == piece.PackedView {
			a.all[i].role = rolePacked
		}
	}
	markRaw(a.all)
	for _, b := range p.Photos.Blends {
		a.findings = append(a.findings, piece.Finding{
			Rank: piece.Fault, Code: "photo.blend", File: b.At.File, Line: b.At.Line, Column: b.At.Column,
			Message: fmt.Sprintf("photos.blends: %q is not made, this version cannot blend frames yet", b.Name.V),
			Remedy:  "blend the frames in a photo program and put the result beside piece.yaml; the frames themselves are not published",
		})
		for _, f := range b.Frames {
			if s := a.named("photos.blends", f); s != nil {
				s.role = roleFrame
			}
		}
	}
	for _, v := range p.Photos.LeaveOut {
		if s := a.named("photos.leave_out", v); s != nil {
			s.role = roleLeftOut
		}
	}
	if s := a.named("top.outline.photo", p.Top.Outline.Photo); s != nil {
		s.role = rolePlan
	}
}

// order puts main first, then those of photos.order, then the rest by name. The
// plan and a raw file are published when they are named there.
func (a *arranger) order(spec *piece.Photos) {
	var order []string
	for _, v := range append([]piece.Value[string]{spec.Main}, spec.Order...) {
		s := a.named("photos.order", v)
		if s == nil || slices.Contains(order, s.rel) {
			continue
		}
		if s.role == rolePlan || s.role == roleRaw {
			s.role = rolePublish
		}
		order = append(order, s.rel)
	}
	rank := func(s source) int {
		if i := slices.Index(order, s.rel); i >= 0 {
			return i
		}
		return len(order)
	}
	slices.SortStableFunc(a.all, func(s, o source) int { return rank(s) - rank(o) })
}

// findByName finds the photo that the spec calls name: by its path from the
// piece folder, else by its file name, else by that regardless of case. Where
// several fit, the first by name is meant. It returns -1 when none does.
func findByName(all []source, name string) int {
	name = strings.TrimPrefix(filepath.ToSlash(name), "./")
	for _, fits := range []func(s source) bool{
		func(s source) bool { return s.rel == name },
		func(s source) bool { return s.name == name },
		func(s source) bool { return strings.EqualFold(s.name, name) || strings.EqualFold(s.rel, name) },
	} {
		if i := slices.IndexFunc(all, fits); i >= 0 {
			return i
		}
	}
	return -1
}

func missingPhoto(key string, v piece.Value[string], all []source) piece.Finding {
	f := piece.Finding{
		Rank: piece.Fault, Code: "photo.missing", File: v.At.File, Line: v.At.Line, Column: v.At.Column,
		Message: fmt.Sprintf("%s names %q, and there is no such photo", key, v.V),
		Remedy:  "put the photo beside piece.yaml or in photos/, or take its name out of the spec",
	}
	if near := nearestPhoto(v.V, all); near != "" {
		f.Remedy = fmt.Sprintf("did you mean %q? else %s", near, f.Remedy)
	}
	return f
}

// nearestPhoto returns a file name that has the same stem as name, or "".
func nearestPhoto(name string, all []source) string {
	for _, s := range all {
		if strings.EqualFold(stem(s.name), stem(path.Base(filepath.ToSlash(name)))) {
			return s.name
		}
	}
	return ""
}

// markRaw gives up the raw files that stand beside a picture of the same name.
func markRaw(all []source) {
	isRaw := func(s source) bool { return slices.Contains(rawExtensions, strings.ToLower(path.Ext(s.name))) }
	for i, s := range all {
		if !isRaw(s) {
			continue
		}
		for _, o := range all {
			if !isRaw(o) && path.Dir(o.rel) == path.Dir(s.rel) && strings.EqualFold(stem(o.name), stem(s.name)) {
				all[i].role = roleRaw
			}
		}
	}
}

func stem(name string) string { return strings.TrimSuffix(name, path.Ext(name)) }

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
