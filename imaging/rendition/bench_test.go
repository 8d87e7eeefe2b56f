package rendition

import (
	"fmt"
	"testing"

	"slabfolio/imaging/pixel"
)

func BenchmarkDevelop(b *testing.B) {
	m := noisy(2400, 1600)
	for _, amount := range []float64{0, 0.4} {
		b.Run(fmt.Sprintf("size=2400x1600/sharpen=%v", amount), func(b *testing.B) {
			b.SetBytes(2400 * 1600)
			b.ReportAllocs()
			for b.Loop() {
				Develop(m, amount)
			}
		})
	}
}

func BenchmarkEncode(b *testing.B) {
	m, err := pixel.Resample(noisy(2400, 1600).Rows(), pixel.Region{W: 1200, H: 800})
	if err != nil {
		b.Fatal(err)
	}
	p := Develop(m, 0.3)
	for _, s := range []Size{{Name: "jpeg", Width: 1200, Format: "jpeg", Quality: 85}, {Name: "webp", Width: 1200, Format: "webp", Quality: 80}} {
		for _, pure := range []bool{false, true} {
			b.Run(fmt.Sprintf("size=1200x800/format=%s/pure=%v", s.Format, pure), func(b *testing.B) {
				b.SetBytes(1200 * 800)
				b.ReportAllocs()
				for b.Loop() {
					if _, err := p.Encode(s, text, &Options{Pure: pure}); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
