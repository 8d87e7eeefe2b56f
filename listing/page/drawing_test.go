package page

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"slabfolio/listing/drawing"
	"slabfolio/listing/units"
	"slabfolio/templates"
)

var (
	viewBox = regexp.MustCompile(`viewBox="(\S+) (\S+) (\S+) (\S+)"`)
	written = regexp.MustCompile(`<text x="(\S+)" y="(\S+)" text-anchor="(\w+)"( transform="rotate\(-90 [^"]*")?[^>]*>([^<]*)<`)
	size    = regexp.MustCompile(`font-size="(\S+)".*--small:([\d.]+)`)
)

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// pieces to draw, from a long shelf to a tall stand.
func drawings() map[string]drawing.Piece {
	box := func(l, w float64) [][2]float64 { return [][2]float64{{0, 0}, {l, 0}, {l, w}, {0, w}} }
	var circle [][2]float64
	for i := range 180 {
		s, c := math.Sincos(float64(i) * math.Pi / 90)
		circle = append(circle, [2]float64{450 + 450*c, 450 + 450*s})
	}
	return map[string]drawing.Piece{
		"console": {Outline: box(1422, 413), Length: 1422, Width: 413, Thickness: 44, Height: 768, BaseHeight: 724, Footprint: [2]float64{1132, 330}, Grain: "along length"},
		"shelf":   {Outline: box(3810, 229), Length: 3810, Width: 229, Thickness: 38, Grain: "along length"},
		"round":   {Outline: circle, Round: true, Length: 900, Width: 900, Thickness: 46, Height: 420, BaseHeight: 374, Footprint: [2]float64{558, 558}},
		"stand":   {Outline: box(300, 300), Length: 300, Width: 300, Thickness: 30, Height: 1100, BaseHeight: 1070, Footprint: [2]float64{420, 420}},
		"chip":    {Outline: box(200, 20), Length: 200, Width: 20, Thickness: 2, Height: 9, BaseHeight: 7, Footprint: [2]float64{4, 4}},
	}
}

// Both views are to one scale, and no word runs out of the picture, not even as
// large as a phone sets it.
func TestDrawingsHoldTheirWords(t *testing.T) {
	for name, d := range drawings() {
		for _, prefer := range []units.System{units.Inches, units.Millimetres} {
			r := fullest()
			r.Drawing = d
			r.Public.Dimensions.TopThickness = nil
			o := options(t)
			o.Prefer = prefer
			var scale, phoneScale float64 // picture to page, and to a phone's column
			for _, v := range drawPiece(r, o).Views {
				svg := string(v.SVG)
				box := viewBox.FindStringSubmatch(svg)
				now := number(t, box[3]) / number(t, v.Rem)
				if scale == 0 {
					scale = now
				}
				if math.Abs(now/scale-1) > 0.01 {
					t.Errorf("%s: a view at %.3f beside one at %.3f", name, now, scale)
				}
				x0, y0 := number(t, box[1]), number(t, box[2])
				x1, y1 := x0+number(t, box[3]), y0+number(t, box[4])
				f := size.FindStringSubmatch(svg)
				letter := number(t, f[1]) * number(t, f[2])
				rem, phone := number(t, v.Rem), math.Min(number(t, v.Rem), phoneRem*number(t, v.Share)/100)
				if letter/(x1-x0)*phone < 0.69 || number(t, f[1])/(x1-x0)*rem < 0.85 {
					t.Errorf("%s: letters of %.2f rem on a phone", name, letter/(x1-x0)*phone)
				}
				if on := number(t, box[3]) / number(t, v.Share); phoneScale == 0 {
					phoneScale = on
				} else if math.Abs(on/phoneScale-1) > 0.01 {
					t.Errorf("%s: on a phone a view at %.3f beside one at %.3f", name, on, phoneScale)
				}
				for _, w := range written.FindAllStringSubmatch(svg, -1) {
					x, y, long := number(t, w[1]), number(t, w[2]), letter*textUnits(w[5])
					before := map[string]float64{"start": 0, "middle": 0.5, "end": 1}[w[3]] * long
					left, right, upper, lower := x-before, x-before+long, y-0.8*letter, y
					if w[4] != "" {
						left, right, upper, lower = x-0.8*letter, x, y-long/2, y+long/2
					}
					if left < x0-0.1 || right > x1+0.1 || upper < y0-0.1 || lower > y1+0.1 {
						t.Errorf("%s, %s: %q reaches out of the picture: %.0f to %.0f in %.0f to %.0f, %.0f to %.0f in %.0f to %.0f",
							name, prefer, w[5], left, right, x0, x1, upper, lower, y0, y1)
					}
				}
				if strings.Contains(svg, "NaN") || strings.Contains(svg, "Inf") {
					t.Errorf("%s: %s", name, svg)
				}
			}
		}
	}
}

// The tint of the resin is 12 % of the text's colour, by even and odd, under the
// lines, and the words beside the plan say so; nothing is tinted otherwise.
func TestResinOnThePage(t *testing.T) {
	r := fullest()
	plan := drawPiece(r, options(t)).Views[0]
	if strings.Contains(string(plan.SVG), "evenodd") || !strings.Contains(plan.Caption, "does not show where it lies") {
		t.Errorf("resin of an unknown place: %s", plan.Caption)
	}
	r.Drawing.Resin = [][][2]float64{{{0, 150}, {1400, 150}, {1400, 260}}}
	plan = drawPiece(r, options(t)).Views[0]
	tint := regexp.MustCompile(`<path fill="currentColor" fill-opacity="0.12" fill-rule="evenodd" stroke="none" d="M\S+ \S+L\S+ \S+L\S+ \S+z"/>`).FindStringIndex(string(plan.SVG))
	if tint == nil || tint[0] > strings.Index(string(plan.SVG), "<g") || !strings.Contains(plan.Caption, "tinted where it lies") {
		t.Errorf("no tint, or over the lines: %v, %s", tint, plan.Caption)
	}
}

// Where nothing is known of what the piece stands on there is no elevation, and no
// word of one.
func TestNoElevationOfWhatFloats(t *testing.T) {
	r := fullest()
	r.Drawing.Footprint = [2]float64{}
	html, err := Listing(r, options(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, odd := range []string{"Inf", "NaN", "Elevation", "from the side"} {
		if strings.Contains(string(html), odd) {
			t.Errorf("the page holds %q", odd)
		}
	}
}

// Of a part that there are several of and that stands in the drawing once, the page
// says so as the sheet does, in every language; of one that is drawn as often as there
// are it says nothing.
func TestPageSaysThatOneIsDrawn(t *testing.T) {
	for _, lang := range templates.Langs() {
		words, err := templates.Open(lang)
		if err != nil {
			t.Fatal(err)
		}
		for count, want := range map[int]bool{1: false, 3: true} {
			r := fullest()
			r.Drawing.Parts = []drawing.Part{{Name: "shelf", Length: 500, Width: 300, BelowTop: 95, Count: count}}
			f := drawPiece(r, &Options{Words: words, Prefer: units.Inches})
			said := words.Say("sheet.drawing.one-of", map[string]any{"Part": "shelf", "Count": count})
			got := false
			for _, v := range f.Views {
				got = got || strings.Contains(strings.ToLower(v.Caption), strings.ToLower(said)+".")
			}
			if got != want {
				t.Errorf("%s, %d of them: said %v: %+v", lang, count, got, f.Views[len(f.Views)-1].Caption)
			}
		}
	}
}
