package phototest

import (
	"encoding/gob"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"slabfolio/imaging/internal/scene"
	"slabfolio/imaging/pixel"
)

// A Drawn is a demo photo drawn small, rightly exposed and balanced unless
// asked otherwise, with its truth.
type Drawn struct {
	Piece, Name string
	Image       *pixel.Image
	Truth       scene.Truth
	Detail      bool // the piece fills the frame
}

var drawn sync.Map

// Draw draws the demo's photos with side pixels on the longer side. They are
// drawn once a test run; with PHOTOTEST_CACHE set to a folder, once for all.
func Draw(t testing.TB, side int) []Drawn {
	t.Helper()
	if testing.Short() {
		t.Skip("drawing the scenes takes a while")
	}
	once, _ := drawn.LoadOrStore(side, sync.OnceValue(func() []Drawn { return draw(side) }))
	return once.(func() []Drawn)()
}

func draw(side int) []Drawn {
	cache := os.Getenv("PHOTOTEST_CACHE")
	if cache != "" {
		cache = filepath.Join(cache, fmt.Sprintf("scenes-%d.gob", side))
		if f, err := os.Open(cache); err == nil {
			defer f.Close()
			var out []Drawn
			if gob.NewDecoder(f).Decode(&out) == nil {
				return out
			}
		}
	}
	var out []Drawn
	for _, p := range scene.Demo() {
		for _, s := range p.Shots {
			s.Scene.EV, s.Scene.White, s.Scene.Samples = 0, [3]float64{}, 2
			long := max(s.W, s.H)
			m, truth := scene.Render(s.Scene, s.W*side/long, s.H*side/long)
			n := 0
			for _, v := range truth.Mask {
				if v > 127 {
					n++
				}
			}
			out = append(out, Drawn{p.Folder, s.Name, m, scene.Truth{W: truth.W, H: truth.H, Mask: truth.Mask}, n*100 > 55*len(truth.Mask)})
		}
	}
	if cache != "" {
		if f, err := os.Create(cache); err == nil {
			_ = gob.NewEncoder(f).Encode(out)
			_ = f.Close()
		}
	}
	return out
}
