package subject

import (
	"path/filepath"
	"testing"

	"slabfolio/imaging/internal/phototest"
)

func BenchmarkLook(b *testing.B) {
	m := phototest.Read(b, filepath.Join(phototest.Dir(b), "furniture/mei_cafe_wood_tables.jpg"), 768)
	scoreOf(inputOf(m, false, 0))
	for b.Loop() {
		scoreOf(inputOf(m, false, 0))
	}
}
