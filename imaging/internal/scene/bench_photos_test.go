package scene

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"
)

var (
	noiseDir = flag.String("noise", "", "draw benchmark photos of 24 megapixels into this folder")
	noiseN   = flag.Int("photos", 8, "how many")
)

// TestDrawNoise draws the photos of .ci/bench: go test ./imaging/internal/scene -run
// TestDrawNoise -noise FOLDER -photos N.
func TestDrawNoise(t *testing.T) {
	if *noiseDir == "" {
		t.Skip("draws only when -noise names a folder")
	}
	if err := os.MkdirAll(*noiseDir, 0o755); err != nil {
		t.Fatal(err)
	}
	for i := range *noiseN {
		data := NoisePhoto(6000, 4000, uint64(i+1), Exif{Taken: "2026:10:01 10:00:00", Orientation: 1}, 94)
		if err := os.WriteFile(filepath.Join(*noiseDir, fmt.Sprintf("IMG_%04d.jpg", i+1)), data, 0o644); err != nil {
			t.Fatal(err)
		}
		t.Logf("photo %d: %.1f MB", i+1, float64(len(data))/1e6)
	}
}
