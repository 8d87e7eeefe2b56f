package tone

import (
	"path/filepath"
	"testing"

	"slabfolio/imaging/frame"
	"slabfolio/imaging/internal/phototest"
)

func BenchmarkPlan(b *testing.B) {
	m := phototest.Read(b, filepath.Join(phototest.Dir(b), "furniture/mei_desk_22MP.jpg"), 768)
	s := []Sample{{Small: m, Frame: frame.Find(m, nil)}}
	b.ReportAllocs()
	for b.Loop() {
		Plan(s)
	}
}
