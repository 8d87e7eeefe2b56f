package chart

import (
	"path/filepath"
	"testing"

	"slabfolio/imaging/internal/phototest"
)

// Looking for a card, and for a chart, in one photo of a piece.
func BenchmarkFind(b *testing.B) {
	m := phototest.Read(b, filepath.Join(phototest.Dir(b), "furniture/mei_workshop_bench.jpg"), 768)
	b.Run("card", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			Cards(m)
		}
	})
	b.Run("chart", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			Find(m)
		}
	})
}
