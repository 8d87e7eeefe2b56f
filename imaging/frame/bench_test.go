package frame

import (
	"path/filepath"
	"testing"

	"slabfolio/imaging/internal/phototest"
)

func BenchmarkFind(b *testing.B) {
	dir := phototest.Dir(b)
	for _, n := range []string{"furniture/mei_desk_22MP.jpg", "furniture/mei_cafe_wood_tables.jpg", "furniture/jsk_wooden_table_top.jpg"} {
		m := phototest.Read(b, filepath.Join(dir, n), 768)
		b.Run("photo="+filepath.Base(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Find(m, nil)
			}
		})
	}
}
