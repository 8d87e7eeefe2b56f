package tone

import (
	"path/filepath"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/pixel"
)

func BenchmarkPlan(b *testing.B) {
	m := phototest.Read(b, filepath.Join(phototest.Dir(b), "furniture/mei_desk_22MP.jpg"), 768)
	s := []Sample{sample(m)}
	b.ReportAllocs()
	for b.Loop() {
		Plan(s)
	}
}

func BenchmarkApply(b *testing.B) {
	for _, bc := range []struct {
		name string
		tr   Treatment
	}{
		{"lifted", Treatment{EV: 0.5, White: [3]float64{1, 1, 1}}}, {"balanced", Treatment{EV: 0.5, White: [3]float64{0.9, 1, 1.2}}},
		{"darkened", Treatment{EV: -0.5, White: [3]float64{1, 1, 1}}},
	} {
		b.Run("how="+bc.name, func(b *testing.B) {
			m := pixel.New(2400, 1600)
			for i := range m.Pix {
				m.Pix[i] = uint16(i * 7919 % 65536 / (1 + i/3%5))
			}
			b.SetBytes(2400 * 1600)
			for b.Loop() {
				bc.tr.Apply(m.Clone())
			}
		})
	}
}
