package photos

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"slabfolio/imaging/decode"
)

// What a photo is taken to need: its file and its pixels, known from the first
// bytes; more than any for what cannot be known; nothing for what is refused.
func TestMemoryFor(t *testing.T) {
	dir := t.TempDir()
	m := image.NewGray(image.Rect(0, 0, 400, 300))
	m.SetGray(3, 3, color.Gray{9})
	var j, p bytes.Buffer
	if err := jpeg.Encode(&j, m, nil); err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(&p, m); err != nil {
		t.Fatal(err)
	}
	vast := bytes.Clone(p.Bytes())
	copy(vast[16:24], "\x00\x01\x00\x00\x00\x01\x00\x00") // 65536 × 65536, in the header chunk
	for name, c := range map[string]struct {
		data []byte
		want int64
	}{
		"a.jpg":    {j.Bytes(), int64(j.Len()) + 3*400*300},
		"a.png":    {p.Bytes(), int64(p.Len()) + 8*400*300},
		"text.jpg": {[]byte("no photo at all, but a text of some length"), 4 * 42},
		"empty":    {nil, 0},
		"vast.png": {vast, int64(len(vast))},
	} {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, c.data, 0o644); err != nil {
			t.Fatal(err)
		}
		if got := bytesNeeded(path, decode.DefaultMaxPixels); got != c.want {
			t.Errorf("%s: %d bytes, want %d", name, got, c.want)
		}
	}
	if got := bytesNeeded(filepath.Join(dir, "gone"), decode.DefaultMaxPixels); got != 0 {
		t.Errorf("a file that is not there: %d", got)
	}
	if a, b := MemoryBudget(2), MemoryBudget(64); a != 1<<30 || b <= a {
		t.Errorf("budgets %d and %d", a, b)
	}
}
