package photos

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"strings"
	"testing"

	"slabfolio/imaging"
	"slabfolio/listing/piece"
	"slabfolio/listing/report"
)

// sceneJPEG draws a lit table before a wall and a floor, with light of 2^ev, turned by
// quarters clockwise and moved by a few pixels.
func sceneJPEG(t *testing.T, ev float64, quarters, moved int) []byte {
	t.Helper()
	const w, h = 480, 320
	at := func(x, y int) color.Gray {
		v := 0.5 - 0.0006*float64(x)
		switch {
		case y > 230:
			v = 0.15
		case x > 120+moved && x < 400+moved && y > 150 && y < 170:
			v = 0.05
		case y >= 170 && (x > 140+moved && x < 150+moved || x > 370+moved && x < 380+moved):
			v = 0.01
		}
		return color.Gray{uint8(255 * math.Pow(min(v*math.Exp2(ev), 1), 1/2.2))}
	}
	b := image.Rect(0, 0, w, h)
	if quarters%2 == 1 {
		b = image.Rect(0, 0, h, w)
	}
	m := image.NewGray(b)
	for y := range h {
		for x := range w {
			switch quarters {
			case 0:
				m.SetGray(x, y, at(x, y))
			case 1:
				m.SetGray(h-1-y, x, at(x, y))
			case 3:
				m.SetGray(y, w-1-x, at(x, y))
			}
		}
	}
	var buf bytes.Buffer
	if err := jpeg.Encode(&buf, m, &jpeg.Options{Quality: 92}); err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}

func openedShot(t *testing.T, name string, data []byte, named bool) *Shot {
	t.Helper()
	p, err := imaging.Open(imaging.Request{Name: name, Data: data}, &imaging.Options{Pure: true, NoMaster: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(p.Close)
	return &Shot{Source: Source{Rel: name, Name: name, Named: named}, Photo: p, Record: &report.PhotoRecord{}}
}

func TestSetAside(t *testing.T) {
	said := func(fs []piece.Finding, file string) (piece.Finding, bool) {
		for _, f := range fs {
			if f.File == file {
				return f, true
			}
		}
		return piece.Finding{}, false
	}
	set := func() []*Shot {
		return []*Shot{
			openedShot(t, "good.jpg", sceneJPEG(t, 0, 0, 0), false), openedShot(t, "near.jpg", sceneJPEG(t, -0.5, 0, 12), false),
			openedShot(t, "black.jpg", sceneJPEG(t, -8, 0, 0), false), openedShot(t, "wanted.jpg", sceneJPEG(t, -8, 0, 0), true),
			openedShot(t, "lying.jpg", sceneJPEG(t, 0, 3, 6), false),
		}
	}
	shots := set()
	found := SetAside(&piece.Piece{}, shots)
	for i, published := range []bool{true, true, false, true, false} {
		if (shots[i].Photo != nil) != published {
			t.Errorf("%s is published: %v, want %v", shots[i].Source.Name, !published, published)
		}
		if (shots[i].Record.Refused == "") != published {
			t.Errorf("the record of %s says %q", shots[i].Source.Name, shots[i].Record.Refused)
		}
	}
	for name, words := range map[string]string{"black.jpg": "too dark", "wanted.jpg": "too dark", "lying.jpg": "on its side"} {
		if f, ok := said(found, name); !ok || f.Rank != piece.Doubt || !strings.Contains(f.Message, words) {
			t.Errorf("of %s is said %q", name, f.Message)
		}
	}
	if f, _ := said(found, "wanted.jpg"); strings.Contains(f.Message, "not published") {
		t.Errorf("of a photo that is published is said %q", f.Message)
	}
	if f, _ := said(found, "lying.jpg"); !strings.Contains(f.Remedy, "turn: {lying.jpg: 90}") || !strings.Contains(f.Remedy, "order") {
		t.Errorf("the remedy is %q", f.Remedy)
	}
	// What the maker says of how it stands counts.
	shots = set()
	p := &piece.Piece{}
	p.Photos.Turn = map[string]piece.Value[int]{"lying.jpg": {}}
	if f, ok := said(SetAside(p, shots), "lying.jpg"); ok {
		t.Errorf("with a turn in the spec is said %q", f.Message)
	}
	// One other photo is no evidence: it may be the one that lies.
	shots = []*Shot{openedShot(t, "a.jpg", sceneJPEG(t, 0, 0, 0), false), openedShot(t, "b.jpg", sceneJPEG(t, 0, 1, 0), false)}
	if found := SetAside(&piece.Piece{}, shots); len(found) > 0 {
		t.Errorf("of two photos is said %q", found[0].Message)
	}
}
