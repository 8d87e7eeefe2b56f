package photos

import (
	"fmt"
	"iter"
	"maps"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// An arranger brings together what the spec says of photos and the files that
// are there.
type arranger struct {
	all      []Source
	findings []piece.Finding
	missing  map[string]bool // named in the spec, not there, and said
}

// Arrange gives every photo its role, view and caption, in the order of
// publication, and reports names in the spec that no file has.
func Arrange(p *piece.Piece, all []Source) ([]Source, []piece.Finding) {
	a := &arranger{all: all, missing: map[string]bool{}}
	a.blends(&p.Photos)
	a.label(&p.Photos)
	a.giveRoles(p)
	a.order(&p.Photos)
	a.miscounted(&p.Photos)
	return a.all, a.findings
}

// named finds the photo that the spec names under a key; nil when there is none.
func (a *arranger) named(key string, v piece.Value[string]) *Source {
	if !v.Set() {
		return nil
	}
	if i := ByName(a.all, v.V); i >= 0 {
		return &a.all[i]
	}
	if !a.missing[v.V] { // once is enough
		a.missing[v.V] = true
		a.findings = append(a.findings, missingPhoto(key, v, a.all))
	}
	return nil
}

// blends puts the photos that are made of frames beside those that are files.
func (a *arranger) blends(spec *piece.Photos) {
	var made []Source
	for _, b := range spec.Blends {
		blending := &Blending{How: b.How.V}
		for _, f := range b.Frames {
			s := a.named("photos.blends", f)
			if s == nil {
				continue
			}
			a.give(s, Frame)
			strength := 1.0
			if v := valueFor(b.Strength, *s, as[units.Percent]); v != nil {
				strength = float64(*v) / 100
			}
			blending.Frames, blending.Strength = append(blending.Frames, s.Rel), append(blending.Strength, strength)
			blending.Masks = append(blending.Masks, a.maskOf(b, *s))
		}
		a.otherFrames("photos.blends.strength", b, maps.Keys(b.Strength))
		a.otherFrames("photos.blends.masks", b, maps.Keys(b.Masks))
		if b.Name.V == "" {
			continue // said already
		}
		if ByName(a.all, b.Name.V) >= 0 {
			a.findings = append(a.findings, piece.Finding{
				Rank: piece.Fault, Code: "photo.blend", File: b.Name.At.File, Line: b.Name.At.Line, Column: b.Name.At.Column,
				Message: fmt.Sprintf("photos.blends: the photo to be made is called %q, and a photo of that name is there", b.Name.V),
				Remedy:  "give the blend a name of its own",
			})
			continue
		}
		made = append(made, Source{Rel: b.Name.V, Name: b.Name.V, Role: Publish, View: b.View.V, Blend: blending})
	}
	if made == nil {
		return
	}
	a.all = append(a.all, made...)
	slices.SortStableFunc(a.all, func(s, o Source) int { return strings.Compare(s.Name, o.Name) })
}

// maskOf is the mask of a frame, which is no photo of the piece; empty for none.
func (a *arranger) maskOf(b piece.Blend, frame Source) string {
	for _, name := range slices.Sorted(maps.Keys(b.Masks)) {
		if ByName([]Source{frame}, name) != 0 {
			continue
		}
		if m := a.named("photos.blends.masks", b.Masks[name]); m != nil {
			a.give(m, Frame)
			return m.Rel
		}
	}
	return ""
}

// otherFrames reports what is said of frames that the blend does not have.
func (a *arranger) otherFrames(key string, b piece.Blend, said iter.Seq[string]) {
	for _, name := range slices.Sorted(said) {
		if slices.ContainsFunc(b.Frames, func(f piece.Value[string]) bool {
			return ByName([]Source{{Rel: f.V, Name: path.Base(filepath.ToSlash(f.V))}}, name) == 0
		}) {
			continue
		}
		a.findings = append(a.findings, piece.Finding{
			Rank: piece.Doubt, Code: "photo.blend", File: b.Name.At.File, Line: b.Name.At.Line, Column: b.Name.At.Column,
			Message: fmt.Sprintf("%s names %q, which is none of the frames of %q, so it changes nothing", key, name, b.Name.V),
			Remedy:  "write the name of a frame as it stands under frames",
		})
	}
}

// label sets views and captions.
func (a *arranger) label(spec *piece.Photos) {
	a.named("photos.main", spec.Main) // said first when it is missing
	for _, name := range slices.Sorted(maps.Keys(spec.Views)) {
		v := spec.Views[name]
		if s := a.named("photos.views", piece.Value[string]{V: name, At: v.At}); s != nil {
			for _, one := range a.onePhoto(s) {
				one.View = v.V
			}
		}
	}
	for _, name := range slices.Sorted(maps.Keys(spec.Captions)) {
		v := spec.Captions[name]
		if s := a.named("photos.captions", piece.Value[string]{V: name, At: v.At}); s != nil {
			for _, one := range a.onePhoto(s) {
				one.Caption = v.V
			}
		}
	}
	names(a, "photos.crop_boxes", spec.CropBoxes)
	names(a, "photos.grey_card", spec.GreyCard)
	names(a, "photos.turn", spec.Turn)
	names(a, "photos.ground", spec.Ground)
	for i := range a.all {
		if a.all[i].View == "" {
			a.all[i].View = piece.ViewInFileName(a.all[i].Name)
		}
	}
}

// names looks the photos up that a key of the spec gives something for.
func names[V any](a *arranger, key string, values map[string]piece.Value[V]) {
	for _, name := range slices.Sorted(maps.Keys(values)) {
		a.named(key, piece.Value[string]{V: name, At: values[name].At})
	}
}

// onePhoto are the files that are one photo with s: a raw file and the picture of its name
// beside it, whichever of them the spec names.
func (a *arranger) onePhoto(s *Source) []*Source {
	all := []*Source{s}
	for i := range a.all {
		if o := &a.all[i]; o != s && isRaw(*o) != isRaw(*s) && sameShot(*o, *s) {
			all = append(all, o)
		}
	}
	return all
}

// give gives a photo its role, and where a raw file is named the picture beside it too.
func (a *arranger) give(s *Source, role Role) {
	s.Role = role
	if !isRaw(*s) {
		return // of the raw file beside it markRaw knows
	}
	for _, one := range a.onePhoto(s) {
		one.Role = role
	}
}

// giveRoles gives the roles of those that are not published.
func (a *arranger) giveRoles(p *piece.Piece) {
	for i := range a.all {
		if a.all[i].View == piece.PackedView {
			a.all[i].Role = Packed
		}
	}
	markRaw(a.all)
	for _, v := range p.Photos.LeaveOut {
		if s := a.named("photos.leave_out", v); s != nil {
			a.give(s, LeftOut)
		}
	}
	if s := a.named("top.outline.photo", p.Top.Outline.Photo); s != nil {
		a.give(s, Plan)
	}
}

// order puts main first, then those of photos.order, then the rest by name. The
// plan and a raw file are published when they are named there.
func (a *arranger) order(spec *piece.Photos) {
	var order []string
	for _, v := range append([]piece.Value[string]{spec.Main}, spec.Order...) {
		s := a.named("photos.order", v)
		if s == nil || slices.Contains(order, s.Rel) {
			continue
		}
		s.Named = true
		if s.Role == Plan || s.Role == Raw {
			s.Role = Publish
		}
		order = append(order, s.Rel)
	}
	rank := func(s Source) int {
		if i := slices.Index(order, s.Rel); i >= 0 {
			return i
		}
		return len(order)
	}
	slices.SortStableFunc(a.all, func(s, o Source) int { return rank(s) - rank(o) })
}

// ByName finds the photo that the spec calls name: by its path from the
// piece folder, else by its file name, else by that regardless of case. Where
// several fit, the first by name is meant. It returns -1 when none does.
func ByName(all []Source, name string) int {
	name = strings.TrimPrefix(filepath.ToSlash(name), "./")
	for _, fits := range []func(s Source) bool{
		func(s Source) bool { return s.Rel == name },
		func(s Source) bool { return s.Name == name },
		func(s Source) bool { return strings.EqualFold(s.Name, name) || strings.EqualFold(s.Rel, name) },
	} {
		if i := slices.IndexFunc(all, fits); i >= 0 {
			return i
		}
	}
	return -1
}

func missingPhoto(key string, v piece.Value[string], all []Source) piece.Finding {
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
func nearestPhoto(name string, all []Source) string {
	for _, s := range all {
		if strings.EqualFold(stem(s.Name), stem(path.Base(filepath.ToSlash(name)))) {
			return s.Name
		}
	}
	return ""
}

// markRaw gives up the raw files that stand beside a picture of the same name.
func markRaw(all []Source) {
	for i, s := range all {
		if !isRaw(s) || s.Role == Frame {
			continue
		}
		for _, o := range all {
			if !isRaw(o) && sameShot(o, s) {
				all[i].Role = Raw
			}
		}
	}
}

func isRaw(s Source) bool {
	return slices.Contains(rawExtensions, strings.ToLower(path.Ext(s.Name)))
}

// sameShot reports whether two files stand side by side and have one name.
func sameShot(a, b Source) bool {
	return path.Dir(a.Rel) == path.Dir(b.Rel) && strings.EqualFold(stem(a.Name), stem(b.Name))
}

func stem(name string) string { return strings.TrimSuffix(name, path.Ext(name)) }
