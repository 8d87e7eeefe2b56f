package tone

import (
	"fmt"
	"path/filepath"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/pixel"
)

// told is a treatment in one line, for the golden files, with what it makes of
// the middle grey and a bright tone.
func told(name string, t Treatment) string {
	codes := ""
	for _, n := range t.Notes {
		codes += " " + n.Code
	}
	for _, n := range t.Done {
		codes += " " + n.Code
	}
	tones := &pixel.Image{W: 2, H: 1, Pix: []uint16{11796, 11796, 11796, 58000, 58000, 58000}}
	t.Apply(tones)
	l := tones.Pix
	return fmt.Sprintf("%s gain %.3f white %.3f black %.4f shoulder %.2f group %d dark %v confidence %.2f grey %d %d %d bright %d%s",
		name, t.EV, t.White, t.Black, t.Shoulder, t.Group, t.Dark, t.Confidence, l[0], l[1], l[2], l[4], codes)
}

// Any change of a result shows here, with its number.
func TestGoldenSets(t *testing.T) {
	order, by := sets(t)
	var lines []string
	for _, name := range order {
		var set []*pixel.Image
		for i, d := range by[name] {
			p, _ := phototest.Push(d.Image, float64(i%3)*0.4-0.6)
			set = append(set, p)
		}
		ts, _ := plan(set)
		for i, d := range by[name] {
			lines = append(lines, told(name+"/"+filepath.Base(d.Name), ts[i]))
		}
	}
	phototest.Golden(t, "sets.golden", lines)
}

func TestGoldenPhotos(t *testing.T) {
	dir := phototest.Dir(t)
	var lines []string
	for _, g := range []string{"furniture/*.jpg", "exposure/lights_rock/rock.?.png"} {
		names, err := filepath.Glob(filepath.Join(dir, g))
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range names {
			m := phototest.Read(t, n, 512)
			ts := Plan([]Sample{sample(m)})
			lines = append(lines, told(filepath.Base(n), ts[0]))
		}
	}
	phototest.Golden(t, "photos.golden", lines)
}
