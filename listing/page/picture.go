package page

import (
	"cmp"
	"fmt"
	"html/template"
	"math"
	"slices"
	"strconv"
	"strings"

	"slabfolio/listing/report"
)

// A picture is a photo with the files that a browser may choose from.
type picture struct {
	Src           string // a middling JPEG, for whoever chooses nothing
	Width, Height int    // of Src
	JPEG, WebP    string // files by width, as srcset has it; WebP may be empty
	Dense         bool   // a JPEG is wider than every WebP: screens of many pixels take it
	Large         string // the widest, to look at closely
	Sizes         string // how wide it stands, as sizes has it
	Alt, Caption  string
	First         bool // it is seen at once
	Style         template.CSS
	ratio         float64 // width to height
	own           int     // pixels that the photo has across
}

// A row is one or two photos of one height side by side.
type row struct {
	Pictures []picture
	Style    template.CSS
}

// The measures of listing.html, in rem where nothing else is said; what is said of
// them to the browser in `sizes` has to be what its style sheet does.
const (
	widest    = 76.0 // of the page
	margins   = 2.5  // both sides together
	twoFrom   = 56.0 // width of the window from which facts stand beside the photo
	factsWide = 23.0 // the column of facts and the gap before it
	between   = 0.75 // two photos of a row
	panoramic = 1.9  // a photo wider than so many times its height stands alone
	rem       = 16.0 // pixels
)

// Heights of photos, as lengths of CSS: the first reaches the window's height, the
// others stay below it.
const (
	mainHeight = "max(20rem,100vh - 8rem)"
	rowHeight  = "clamp(14rem,100vh - 8rem,26rem)"
)

// pictureOf chooses the files of a photo: every width of its own shape once.
func pictureOf(p *report.Photo) picture {
	pic := picture{Src: p.File, Large: p.File, Width: p.Width, Height: p.Height, Alt: p.Alt, Caption: p.Caption, ratio: 1, own: p.Width}
	if p.Width > 0 && p.Height > 0 {
		pic.ratio = float64(p.Width) / float64(p.Height)
	}
	jpegs, webps := filesOf(p, "jpeg"), filesOf(p, "webp")
	for _, r := range jpegs {
		if r.Width >= 1000 && r.Width < pic.Width {
			pic.Src, pic.Width, pic.Height = r.File, r.Width, r.Height
		}
		if r.Width > pic.own {
			pic.Large, pic.own = r.File, r.Width
		}
	}
	pic.JPEG, pic.WebP = srcset(jpegs), srcset(webps)
	pic.Dense = len(webps) > 0 && len(jpegs) > 0 && jpegs[len(jpegs)-1].Width > webps[len(webps)-1].Width
	return pic
}

// filesOf are the files of a photo's own shape in a format, a width once, the
// narrowest first.
func filesOf(p *report.Photo, format string) []report.Rendition {
	var files []report.Rendition
	for _, r := range p.Renditions {
		if (r.Format == "webp") == (format == "webp") && sameShape(r, p) {
			files = append(files, r)
		}
	}
	slices.SortStableFunc(files, func(a, b report.Rendition) int { return cmp.Compare(a.Width, b.Width) })
	return slices.CompactFunc(files, func(a, b report.Rendition) bool { return a.Width == b.Width })
}

func srcset(files []report.Rendition) string {
	var set []string
	for _, f := range files {
		set = append(set, fmt.Sprintf("%s %dw", f.File, f.Width))
	}
	return strings.Join(set, ", ")
}

func sameShape(r report.Rendition, p *report.Photo) bool {
	if p.Height == 0 || r.Height == 0 {
		return false
	}
	a, b := float64(r.Width)/float64(r.Height), float64(p.Width)/float64(p.Height)
	return a/b > 0.985 && a/b < 1.015
}

// main places the first photo: as wide as its column, no higher than the window, no
// larger than its own pixels.
func (p *picture) main() {
	p.First = true
	p.Style = template.CSS(fmt.Sprintf("--ratio:%s;--own:%dpx", thousandths(p.ratio), p.own))
	p.Sizes = sizes(1, 0, float64(p.own), mainHeight, p.ratio)
}

// rowsOf places the other photos in rows of two, one height to a row; a panorama
// stands alone.
func rowsOf(pics []picture) []row {
	var rows []row
	for i := 0; i < len(pics); {
		n := 1
		if i+1 < len(pics) && pics[i].ratio <= panoramic && pics[i+1].ratio <= panoramic {
			n = 2
		}
		rows = append(rows, rowOf(pics[i:i+n]))
		i += n
	}
	return rows
}

func rowOf(pics []picture) row {
	sum, gaps := 0.0, between*float64(len(pics)-1)
	for _, p := range pics {
		sum += p.ratio
	}
	height := math.Inf(1) // at which the photo with the fewest pixels has no more to show
	for _, p := range pics {
		height = math.Min(height, float64(p.own)/p.ratio)
	}
	for i := range pics {
		p := &pics[i]
		p.Style = template.CSS("--ratio:" + thousandths(p.ratio))
		p.Sizes = sizes(p.ratio/sum, gaps, height*p.ratio, rowHeight, p.ratio)
	}
	return row{pics, template.CSS(fmt.Sprintf("--sum:%s;--own:calc(%dpx + %srem)", thousandths(sum), int(height*sum), thousandths(gaps)))}
}

// sizes says how wide a photo stands that takes a share of its column less the gaps,
// has so many pixels of its own, and is held to a height.
func sizes(share, gaps, own float64, height string, ratio float64) string {
	least := func(width string) string {
		return fmt.Sprintf("min(%s, %dpx, calc(%s * %s))", width, int(own), height, thousandths(ratio))
	}
	fluid := func(taken float64) string {
		return least(fmt.Sprintf("calc((100vw - %srem) * %s)", thousandths(taken+gaps), thousandths(share)))
	}
	full := least(thousandths((widest-margins-factsWide-gaps)*share) + "rem")
	return fmt.Sprintf("(min-width: %srem) %s, (min-width: %srem) %s, %s", thousandths(widest), full, thousandths(twoFrom), fluid(margins+factsWide), fluid(margins))
}

// thousandths writes a number for a style sheet, to thousandths.
func thousandths(v float64) string { return strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64) }
