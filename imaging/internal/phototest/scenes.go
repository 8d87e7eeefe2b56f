package phototest

import (
	"encoding/gob"
	"errors"
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
		if out, err := drawnBefore(cache); err == nil {
			return out
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
		if err := keepDrawn(cache, out); err != nil {
			panic(err) // PHOTOTEST_CACHE names a folder that takes nothing
		}
	}
	return out
}

// A kept is a Drawn in a file: of its truth what Drawn has of it.
type kept struct {
	Piece, Name string
	Image       *pixel.Image
	Mask        []uint8
	Detail      bool
}

// keepDrawn puts the pictures into a file, which is there whole or not at all.
func keepDrawn(path string, all []Drawn) error {
	var list []kept
	for _, d := range all {
		list = append(list, kept{d.Piece, d.Name, d.Image, d.Truth.Mask, d.Detail})
	}
	f, err := os.CreateTemp(filepath.Dir(path), "drawn")
	if err != nil {
		return err
	}
	return errors.Join(gob.NewEncoder(f).Encode(list), f.Close(), os.Rename(f.Name(), path))
}

func drawnBefore(path string) (out []Drawn, err error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var list []kept
	if err := gob.NewDecoder(f).Decode(&list); err != nil {
		return nil, err
	}
	for _, k := range list {
		out = append(out, Drawn{k.Piece, k.Name, k.Image, scene.Truth{W: k.Image.W, H: k.Image.H, Mask: k.Mask}, k.Detail})
	}
	return out, nil
}
