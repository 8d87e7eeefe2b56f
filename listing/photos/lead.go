package photos

import (
	"fmt"
	"slices"

	"slabfolio/imaging"
	"slabfolio/listing/piece"
)

// unfit are the notes on a photo that make it a poor one to come first.
var unfit = []string{"inspect.soft", "inspect.shaken", "inspect.clipped", "tone.retake"}

// Lead puts another photo first where nobody said which is the main one, by name,
// order or view, and the first by file name surely shows a part of the piece or is
// spoilt: the first of those that surely show all of it, sharp and well lit. It
// says so. Without evidence on both sides the order stays as it is.
//
// A photo whose view is known to be a part never comes first where another may show
// more.
func Lead(spec *piece.Photos, shots []*Shot) []piece.Finding {
	if spec.Main.Set() || len(spec.Order) > 0 {
		return nil
	}
	if f := partFirst(shots); f != nil {
		return f
	}
	first := -1
	for i, sh := range shots {
		if sh.Photo == nil {
			continue
		}
		if sh.Source.View != "" {
			return nil
		}
		if first < 0 {
			first = i
		}
	}
	if first < 0 {
		return nil
	}
	old := shots[first]
	part := old.Photo.Shown() == imaging.PartOfIt
	if !part && fit(old) {
		return nil
	}
	better := slices.IndexFunc(shots, func(sh *Shot) bool {
		return sh.Photo != nil && sh.Photo.Shown() == imaging.AllOfIt && fit(sh)
	})
	if better < 0 {
		return nil
	}
	sh := shots[better]
	ahead(shots, first, better)
	why := "is less sharp or well lit than that"
	if part {
		why = "shows a part of it"
	}
	return []piece.Finding{{
		Rank: piece.Note, Code: "photo.main", File: sh.Source.Rel,
		Message: fmt.Sprintf("it comes first, as the main photo: it shows the whole piece, and %s, the first by name, %s", old.Source.Rel, why),
		Remedy:  fmt.Sprintf("to have another first, write under photos: main: %s", old.Source.Name),
	}}
}

// ahead puts a later photo before an earlier one; the others keep their order.
func ahead(shots []*Shot, first, better int) {
	sh := shots[better]
	copy(shots[first+1:better+1], shots[first:better])
	shots[first] = sh
}

// partFirst puts another photo first where the first shows a part by its view: of those
// that may show more, one that surely shows all of the piece, from a side that it is
// known by, before the others. It says so; nil where nothing was changed.
func partFirst(shots []*Shot) []piece.Finding {
	first := slices.IndexFunc(shots, func(sh *Shot) bool { return sh.Photo != nil })
	if first < 0 || !slices.Contains(piece.PartViews, shots[first].Source.View) {
		return nil
	}
	rank := func(sh *Shot) int {
		switch {
		case sh.Photo == nil || slices.Contains(piece.PartViews, sh.Source.View) || sh.Photo.Shown() == imaging.PartOfIt:
			return 9
		case sh.Source.View == "underside" || sh.Source.View == "scale":
			return 3
		case !fit(sh):
			return 2
		case sh.Photo.Shown() != imaging.AllOfIt:
			return 1
		}
		return 0
	}
	better := first
	for i, sh := range shots {
		if rank(sh) < rank(shots[better]) {
			better = i
		}
	}
	if better == first {
		return nil
	}
	old, sh := shots[first], shots[better]
	ahead(shots, first, better)
	return []piece.Finding{{
		Rank: piece.Note, Code: "photo.main", File: sh.Source.Rel,
		Message: fmt.Sprintf("it comes first, as the main photo: %s, the first by name, shows a part of the piece (%s)", old.Source.Rel, old.Source.View),
		Remedy:  fmt.Sprintf("to have another first, write under photos: main: %s", old.Source.Name),
	}}
}

// fit reports whether nothing was found wrong with a photo that a buyer would see
// at once.
func fit(sh *Shot) bool {
	return !slices.ContainsFunc(unfit, func(code string) bool { return hasNote(sh, code) })
}
