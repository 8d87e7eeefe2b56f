package pixel

import (
	"fmt"
	"testing"
)

func BenchmarkTake(b *testing.B) {
	m := New(6000, 4000)
	for i := range m.Pix {
		m.Pix[i] = uint16(i * 7919)
	}
	for _, to := range [][2]int{{2400, 1600}, {1200, 800}} {
		for _, q := range []struct {
			name string
			quad Quad
		}{{"whole", Quad{}}, {"turned", Quad{{130, 10}, {5990, 130}, {5870, 3990}, {10, 3870}}}} {
			b.Run(fmt.Sprintf("in=6000x4000/out=%dx%d/quad=%s", to[0], to[1], q.name), func(b *testing.B) {
				b.SetBytes(6000 * 4000)
				b.ReportAllocs()
				for b.Loop() {
					if _, err := Resample(m.Rows(), Region{W: to[0], H: to[1], Quad: q.quad}); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

func BenchmarkReduce(b *testing.B) {
	m := New(6000, 4000)
	b.SetBytes(6000 * 4000)
	for b.Loop() {
		if _, err := Reduce(m.Rows(), 6, 768); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPad(b *testing.B) {
	m := backdrop(960, 640)
	b.SetBytes(960 * 1200)
	for b.Loop() {
		m.Pad(960, 1200, 0, 280, nil)
	}
}
