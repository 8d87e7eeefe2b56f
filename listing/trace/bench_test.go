package trace

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"slabfolio/testdata"
)

var serialLine = regexp.MustCompile(`(?m)^serial: .*$`)

// BenchmarkThousandPieces asks a question of 1,000 piece folders with the specs
// of the demo; it is to take no longer than a second.
func BenchmarkThousandPieces(b *testing.B) {
	dir := b.TempDir()
	specs, err := fs.Glob(testdata.Demo, "demo/*/piece.yaml")
	if err != nil || len(specs) == 0 {
		b.Fatal(err, len(specs))
	}
	put := func(name string, data []byte) {
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			b.Fatal(err)
		}
		if err := os.WriteFile(name, data, 0o644); err != nil {
			b.Fatal(err)
		}
	}
	for i := range 1000 {
		data, err := fs.ReadFile(testdata.Demo, specs[i%len(specs)])
		if err != nil {
			b.Fatal(err)
		}
		put(filepath.Join(dir, fmt.Sprint("OY-", 1000+i), "piece.yaml"), serialLine.ReplaceAll(data, fmt.Appendf(nil, "serial: OY-%d", 1000+i)))
	}
	shop, err := fs.ReadFile(testdata.Demo, "demo/workshop.yaml")
	if err != nil {
		b.Fatal(err)
	}
	put(filepath.Join(dir, "workshop.yaml"), shop)
	for b.Loop() {
		records, skipped, err := Collect(b.Context(), []string{dir}, 2)
		if err != nil || len(records) != 1000 || len(skipped) > 0 {
			b.Fatal(len(records), skipped, err)
		}
		if hits := (Query{Glue: "pva-d3"}).Ask(records); len(hits) == 0 {
			b.Fatal("no hit")
		}
	}
}
