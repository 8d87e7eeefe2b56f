package listing

import (
	"cmp"
	"fmt"
	"slices"

	"slabfolio/imaging/rendition"
	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
)

// presets are the sizes of piece.SizePresets: what shops and posts commonly ask for
// (common practice, no source). None cuts a piece: where its shape is not the photo's,
// the photo's own ground is carried on, or the ground named here.
var presets = map[string]rendition.Size{
	"square on white":       {Width: 2000, RatioW: 1, RatioH: 1, Ground: photos.Ground("white")},
	"4:5":                   {Width: 1600, RatioW: 4, RatioH: 5},
	"4:5 on white":          {Width: 1600, RatioW: 4, RatioH: 5, Ground: photos.Ground("white")},
	"3:2":                   {Width: 2400, RatioW: 3, RatioH: 2},
	"3:2 on white":          {Width: 2400, RatioW: 3, RatioH: 2, Ground: photos.Ground("white")},
	"9:16 upright":          {Width: 1080, RatioW: 9, RatioH: 16},
	"9:16 upright on white": {Width: 1080, RatioW: 9, RatioH: 16, Ground: photos.Ground("white")},
	"small under 500 kB":    {Width: 1600, MaxBytes: 500_000},
}

// sizes are the renditions that the workshop asks for, or the usual ones.
func (w *work) sizes() []rendition.Size {
	if w.job.Workshop == nil {
		return rendition.DefaultSizes()
	}
	return sizesOf(w.job.Workshop.Sizes)
}

// sizesOf are the renditions that are asked for. Sizes of the photo's own shape stand
// instead of the usual ones; anything else comes beside them, since page and bundle
// need pictures of several widths.
func sizesOf(asked []piece.Size) []rendition.Size {
	var own, named []rendition.Size
	for _, z := range asked {
		if z.Preset.Set() {
			size := presets[z.Preset.V]
			size.Name, size.Format, size.Quality, size.Suffix = z.Preset.V, "jpeg", 85, "-"+photos.Slug(z.Preset.V)+".jpg"
			named = append(named, size)
			continue
		}
		own = append(own, sizeOf(z))
	}
	if uploadSize(own) < 0 {
		usual := slices.DeleteFunc(rendition.DefaultSizes(), func(u rendition.Size) bool {
			return slices.ContainsFunc(own, func(s rendition.Size) bool { return s.Suffix == u.Suffix })
		})
		own = append(usual, own...)
	}
	return append(own, named...)
}

// sizeOf is a size in the maker's own figures.
func sizeOf(z piece.Size) rendition.Size {
	size := rendition.Size{Name: z.Name.V, Width: z.Width.V, Format: cmp.Or(z.Format.V, "jpeg"), Quality: z.Quality.V, Ground: photos.Ground(z.Ground.V)}
	size.Suffix = "-" + photos.Slug(z.Name.V) + extension(size.Format)
	size.Quality = cmp.Or(size.Quality, map[string]int{"jpeg": 85, "webp": 80}[size.Format])
	if z.Ratio.Set() {
		fmt.Sscanf(z.Ratio.V, "%d:%d", &size.RatioW, &size.RatioH)
	}
	return size
}
