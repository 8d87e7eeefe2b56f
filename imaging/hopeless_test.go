package imaging

import (
	"bytes"
	"image"
	"image/draw"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"slabfolio/imaging/note"
	"slabfolio/imaging/pixel"
)

func hopelessNote(p *Photo) string {
	i := slices.IndexFunc(p.Notes, func(n note.Note) bool { return strings.HasPrefix(n.Code, "hopeless.") })
	if i < 0 {
		return ""
	}
	return p.Notes[i].Code
}

// TestQualityHopeless looks at all real photos for false alarms, and at the same
// photos 8 stops short and shaken over a thirtieth of their longer side.
func TestQualityHopeless(t *testing.T) {
	right := map[string]string{"exifr_Canon1300D_18MP_dark.jpg": "hopeless.dark", "stack_room_exp_6.jpg": "hopeless.dark"} // lens cap; a dark room 7 stops under
	n, dark, shaken := 0, 0, 0
	names := subjects(t)
	more, _ := filepath.Glob(filepath.Join(reference(t, "photos"), "cameras", "*.jpg"))
	for _, name := range append(names, more...) {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		p, err := Open(Request{Data: data}, &Options{NoMaster: true})
		if err != nil {
			t.Fatal(err)
		}
		base := filepath.Base(name)
		if got := hopelessNote(p); got != right[base] {
			t.Errorf("%s: %q, want %q", base, got, right[base])
		}
		if right[base] != "" {
			p.Close()
			continue
		}
		n++
		whole := p.small
		p.Notes, p.small = nil, short(whole)
		if p.judgeUsable(); hopelessNote(p) == "hopeless.dark" {
			dark++
		} else {
			t.Logf("%s 8 stops short passes", base)
		}
		p.Notes, p.small = nil, smeared(whole, max(whole.W, whole.H)/30)
		if p.judgeUsable(); hopelessNote(p) == "hopeless.shaken" {
			shaken++
		} else {
			t.Logf("%s shaken passes", base)
		}
		p.Close()
	}
	t.Logf("%d photos, no false alarm; 8 stops short: %d found; shaken: %d found", n, dark, shaken)
	if dark < n*95/100 || shaken < n*80/100 {
		t.Errorf("of %d photos %d are found that are 8 stops short and %d that are shaken; want 95 and 80 %%", n, dark, shaken)
	}
}

// short is a picture with 1/256 of the light, as 8 bits would hold it.
func short(m *pixel.Image) *pixel.Image {
	out := pixel.New(m.W, m.H)
	for i, v := range m.Pix {
		out.Pix[i] = (v>>8 + 10) / 20 * 20 // sRGB has one level for 20 of 65535 down there: 1/12.92/255
	}
	return out
}

// smeared is a picture moved sideways by n pixels while it was taken.
func smeared(m *pixel.Image, n int) *pixel.Image {
	out := pixel.New(m.W, m.H)
	var sum [3]int
	for y := range m.H {
		for x := range m.W {
			for c := range 3 {
				at := func(x int) int { return int(m.Pix[(y*m.W+min(x, m.W-1))*3+c]) }
				if x == 0 {
					sum[c] = 0
					for d := range n {
						sum[c] += at(d)
					}
				} else {
					sum[c] += at(x+n-1) - at(x-1)
				}
				out.Pix[(y*m.W+x)*3+c] = uint16(sum[c] / n)
			}
		}
	}
	return out
}

// Among photos of one scene the one that lies is found, by its turn; among photos
// of many scenes none is.
func TestSideways(t *testing.T) {
	dir := reference(t, "photos")
	open := func(glob string) (set []*Photo) {
		names, err := filepath.Glob(filepath.Join(dir, glob))
		if err != nil || len(names) == 0 {
			t.Fatalf("%s: %v", glob, err)
		}
		for _, n := range names {
			data, err := os.ReadFile(n)
			if err != nil {
				t.Fatal(err)
			}
			p, err := Open(Request{Data: data}, &Options{NoMaster: true})
			if err != nil {
				t.Fatal(err)
			}
			t.Cleanup(p.Close)
			set = append(set, p)
		}
		return set
	}
	set := open("exposure/crusader/*.jpg") // one figure, by hand, at seven exposures
	upsideDown := 0
	for i, p := range set {
		for turn, orientation := range map[int]int{90: 8, 180: 3, 270: 6} {
			small, w, h := p.small, p.W, p.H
			seen := p.thumb
			back := func() { p.small, p.thumb, p.W, p.H = small, seen, w, h }
			p.small = pixel.Orient(small, orientation)
			p.thumb = thumb(p.small)
			if turn != 180 {
				p.W, p.H = h, w
			}
			want := make([]int, len(set))
			want[i] = turn
			got := Sideways(append(set, nil))
			if turn == 180 && slices.Max(got) == 0 { // light above and dark below is no evidence, so some pass
				upsideDown++
				back()
				continue
			}
			if !slices.Equal(got[:len(set)], want) {
				t.Errorf("photo %d lies and needs %d: found %v", i, turn, got)
			}
			back()
		}
	}
	if upsideDown > 2 {
		t.Errorf("%d of %d photos upside down pass", upsideDown, len(set))
	}
	if got := Sideways(append(set, open("furniture/*.jpg")...)); slices.Max(got) != 0 {
		t.Errorf("among upright photos %v are to be turned", got)
	}
}

// A turned file and its turn make the picture that the upright file makes.
func TestTurnMendsWhatLies(t *testing.T) {
	src, err := jpeg.Decode(bytes.NewReader(table(t, 600, 400, 0)))
	if err != nil {
		t.Fatal(err)
	}
	b := src.Bounds()
	lying := image.NewRGBA(image.Rect(0, 0, b.Dy(), b.Dx())) // a quarter anticlockwise
	for y := range b.Dy() {
		for x := range b.Dx() {
			draw.Draw(lying, image.Rect(y, b.Dx()-1-x, y+1, b.Dx()-x), src, image.Pt(x, y), draw.Src)
		}
	}
	var buf bytes.Buffer
	if err := jpeg.Encode(&buf, lying, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	up, _ := shapesOf(t, Request{Data: table(t, 600, 400, 0)})
	mended, _ := shapesOf(t, Request{Data: buf.Bytes(), Turn: 90})
	if mended.W != up.W || alike(thumb(mended.small), thumb(up.small)) < 0.999 {
		t.Errorf("mended it is %d × %d and %.4f alike", mended.W, mended.H, alike(thumb(mended.small), thumb(up.small)))
	}
}

// TestStepsOfOddShapes counts the steps of pictures of a pixel's width or height, and
// of those that are not wider than a coarse step, by the definition.
func TestStepsOfOddShapes(t *testing.T) {
	for _, at := range [][2]int{{1, 1}, {1, 40}, {40, 1}, {15, 17}, {16, 16}, {17, 2}, {30, 20}} {
		m := pixel.New(at[0], at[1])
		level := make([]float64, at[0]*at[1])
		for i := range level {
			level[i] = float64(i * 37 % 256)
		}
		for _, next := range []int{1, m.W} {
			for _, far := range []int{1, coarseStep} {
				var want [256]int
				n := 0
				for y := range m.H {
					for x := range m.W {
						if next == 1 && x+far >= m.W || next != 1 && y+far >= m.H {
							continue
						}
						want[int(math.Abs(level[y*m.W+x+far*next]-level[y*m.W+x]))]++
						n++
					}
				}
				if got, k := steps(level, m, next, far); got != want || k != n {
					t.Errorf("%v, next %d, far %d: %d steps, want %d", at, next, far, k, n)
				}
			}
		}
	}
}
