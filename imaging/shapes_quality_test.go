package imaging

import (
	"fmt"
	"math"
	"os"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/rendition"
)

// kept is the share of the subject that lies in a rectangle of the straightened
// photo, given in its pixels.
func kept(p *Photo, k phototest.Truth, part [4]float64) float64 {
	const n = 400
	in, all := 0.0, 0.0
	through := p.Frame.Source(n, n)
	// A point of the straightened photo stands for its pixel of the upright one,
	// so the subject is counted there; what was turned out of the frame as well.
	for j := -n / 8; j < n+n/8; j++ {
		for i := -n / 8; i < n+n/8; i++ {
			x, y := through.Apply(float64(i)+0.5, float64(j)+0.5)
			x, y = x/n, y/n
			if x < 0 || y < 0 || x >= 1 || y >= 1 || !k.Is[int(y*phototest.TruthSide)*phototest.TruthSide+int(x*phototest.TruthSide)] {
				continue
			}
			all++
			u, v := (float64(i)+0.5)/n*float64(p.W), (float64(j)+0.5)/n*float64(p.H)
			if u >= part[0] && v >= part[1] && u <= part[2] && v <= part[3] {
				in++
			}
		}
	}
	return in / math.Max(all, 1)
}

// fillings are what stands in a shape where there is no photo.
var fillings = [...]string{"photo alone", "backdrop carried on", "plain ground", "as wide as the photo allows"}

// missed is the share of a shape that the photo does not reach.
func missed(p *Photo, sh shape) float64 {
	f := sh.source
	_, part := p.beyond(f)
	return 1 - (part[2]-part[0])*(part[3]-part[1])/((f[2]-f[0])*(f[3]-f[1]))
}

// missedWhole is that share where the whole photo stands in a picture of a ratio.
func missedWhole(p *Photo, s rendition.Size) float64 {
	r := float64(p.W) * float64(s.RatioH) / (float64(p.H) * float64(s.RatioW))
	return 1 - math.Min(r, 1/r)
}

// TestQualityShapes measures, over all real photos whose subject is known, how
// much of it the main picture, the square and the portrait keep, and how much those
// two lack of their shape: where neither the photo reaches, nor its backdrop can be
// carried on, nor its edge is of one colour. A photo of wood from edge to edge shows
// no piece that could be lost.
func TestQualityShapes(t *testing.T) {
	shapes := []rendition.Size{
		{Name: "square", Width: 600, RatioW: 1, RatioH: 1, Format: "jpeg", Quality: 85},
		{Name: "portrait", Width: 480, RatioW: 4, RatioH: 5, Format: "jpeg", Quality: 85},
	}
	worst, least, below := [3]string{}, [3]float64{2, 2, 2}, [3]int{}
	var seen, was, photos, furniture, furnitureSeen float64
	var rooms busyRooms
	for _, k := range phototest.Truths(t) {
		data, err := os.ReadFile(k.Path)
		if err != nil {
			t.Fatal(err)
		}
		p, err := Open(Request{Data: data}, &Options{Sizes: shapes, NoMaster: true})
		if err != nil {
			t.Fatal(err)
		}
		c, w, h := p.Frame.Crop, float64(p.W), float64(p.H)
		parts := [3][4]float64{{c[0] * w, c[1] * h, c[2] * w, c[3] * h}}
		line := ""
		for i, s := range shapes {
			sh := p.shapeOf(p.formOf(s))
			parts[i+1] = sh.source
			share := missed(p, sh)
			if sh.filling != narrow {
				share = 0
			}
			if of := boxArea(p.seen(sh.source)) / boxArea(p.cropBox()); sh.filling == narrow && !p.Frame.Sure && of > worthTrimming && of < 0.999 {
				t.Errorf("%s of %s: %.3f of the crop is left, and it does not come to its shape", s.Name, k.Name, of)
			}
			photos++
			seen, was = seen+share, was+missedWhole(p, s)
			if k.Kind != "other" {
				furniture, furnitureSeen = furniture+1, furnitureSeen+share
			}
			line += fmt.Sprintf("  %s: %s, lacks %.2f → %.2f of its shape", s.Name, fillings[sh.filling], missedWhole(p, s), share)
		}
		var share [3]float64
		for i, part := range parts {
			share[i] = kept(p, k, part)
			if k.Kind == "surface" {
				continue
			}
			if share[i] < least[i] {
				least[i], worst[i] = share[i], k.Name
			}
			if share[i] < 0.98 {
				below[i]++
			}
		}
		if k.Kind == "busy" || k.Kind == "many" {
			rooms.add(p, k, share[0])
		}
		t.Logf("%-34s %-7s kept: main %.4f square %.4f portrait %.4f %s  sure %v", k.Name, k.Kind, share[0], share[1], share[2], line, p.Frame.Sure)
		p.Close()
	}
	for i, what := range []string{"main", "square", "portrait"} {
		t.Logf("%-9s worst %.4f (%s), below 0.98 in %d", what, least[i], worst[i], below[i])
		if least[i] < 0.98 {
			t.Errorf("%s keeps %.4f of the subject of %s, want 0.98", what, least[i], worst[i])
		}
	}
	t.Logf("lacking of their shape: %.3f of the pictures' area, %.3f were the whole photo in each; furniture alone %.3f", seen/photos, was/photos, furnitureSeen/furniture)
	rooms.report(t)
	if furnitureSeen/furniture > 0.12 {
		t.Errorf("pictures of furniture lack %.3f of their shape", furnitureSeen/furniture)
	}
}

// busyRooms counts how many photos of furniture in busy rooms were framed: the main
// picture is a crop, and the piece stands larger in it.
type busyRooms struct {
	all, framed int
	worst       string  // of those left as they were, where the piece fills least
	least       float64 // of the longer of its ways across the photo
	lines       []string
}

func (r *busyRooms) add(p *Photo, k phototest.Truth, keeps float64) {
	const n = phototest.TruthSide
	x0, y0, x1, y1 := n, n, 0, 0
	for i, is := range k.Is {
		if is {
			x0, y0, x1, y1 = min(x0, i%n), min(y0, i/n), max(x1, i%n+1), max(y1, i/n+1)
		}
	}
	c := p.Frame.Crop
	across := [2]float64{float64(x1-x0) / n, float64(y1-y0) / n}
	before := math.Max(across[0], across[1])
	after := math.Min(1, math.Max(across[0]/(c[2]-c[0]), across[1]/(c[3]-c[1])))
	framed := c != p.Frame.Inside
	r.all++
	if framed {
		r.framed++
	} else if r.worst == "" || before < r.least {
		r.worst, r.least = k.Name, before
	}
	r.lines = append(r.lines, fmt.Sprintf("%-34s framed %-5v sure %-5v keeps %.4f, the piece takes %.2f of the photo's longer way across, %.2f of the picture's", k.Name, framed, p.Frame.Sure, keeps, before, after))
}

func (r *busyRooms) report(t *testing.T) {
	t.Helper()
	for _, l := range r.lines {
		t.Log(l)
	}
	t.Logf("busy rooms: %d of %d photos framed; of the others the piece is smallest in %s, %.2f of the photo", r.framed, r.all, r.worst, r.least)
	if r.framed == 0 {
		t.Error("no photo in a busy room was framed")
	}
}
