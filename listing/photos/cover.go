package photos

import (
	"slices"

	"slabfolio/listing/piece"
)

// coverViews are the views that a listing begins with where the maker named no
// photo, the best first.
var coverViews = []string{"three-quarter", "front"}

// CoverFirst puts the photo first that a buyer is to see first: what the maker named
// under photos.main or photos.order, else the three-quarter view, else the front.
// The rest stay in their order. A photo that is not published, since it was set
// aside or refused, is no cover.
func CoverFirst(shots []*Shot) []*Shot {
	if slices.ContainsFunc(shots, func(sh *Shot) bool { return sh.Photo != nil && sh.Source.Named }) {
		return shots
	}
	for _, view := range coverViews {
		i := slices.IndexFunc(shots, func(sh *Shot) bool { return sh.Photo != nil && sh.Source.View == view })
		if i >= 0 {
			return slices.Concat(shots[i:i+1], shots[:i], shots[i+1:])
		}
	}
	return shots
}

// hopelessCodes are the codes of findings on photos that cannot be shown as they are: the
// maker hears of them before anything else of that rank.
var hopelessCodes = func() []string {
	codes := []string{"photo.sideways"}
	for code := range aside {
		codes = append(codes, "photo."+code[len("hopeless."):])
	}
	return codes
}()

// Unfit reports whether a finding says that a photo cannot be shown as it is.
func Unfit(f piece.Finding) bool { return slices.Contains(hopelessCodes, f.Code) }
