package inspect

import (
	"path/filepath"
	"testing"

	"slabfolio/imaging/frame"
	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/pixel"
)

func BenchmarkPhoto(b *testing.B) {
	full := phototest.Read(b, filepath.Join(phototest.Dir(b), "furniture/mei_desk_22MP.jpg"), 3000)
	m := phototest.Reduce(full, 768)
	f := frame.Find(m, nil)
	p := FullPhoto{W: full.W, H: full.H, Crop: f.Crop, Piece: f.Mask, Details: []*pixel.Image{cutOut(full, f, 384)}}
	b.ReportAllocs()
	for b.Loop() {
		Photo(m, p)
	}
}
