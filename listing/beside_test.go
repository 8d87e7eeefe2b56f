package listing

import (
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Pieces that are prepared side by side come out as they do one after the other. The
// race detector sees them meet here: no other test of this package has more than one job.
func TestPiecesSideBySide(t *testing.T) {
	root := t.TempDir()
	yard := filepath.Join(root, "yard")
	for i := range 4 {
		dir := filepath.Join(yard, fmt.Sprintf("OY-%d", i+1))
		if err := os.MkdirAll(dir, 0o755); err != nil {
			t.Fatal(err)
		}
		spec := strings.Replace(boardSpec, "OY-1", filepath.Base(dir), 1)
		if err := os.WriteFile(filepath.Join(dir, "piece.yaml"), []byte(spec), 0o644); err != nil {
			t.Fatal(err)
		}
		f, err := os.Create(filepath.Join(dir, "front.jpg"))
		if err != nil {
			t.Fatal(err)
		}
		m := image.NewGray(image.Rect(0, 0, 300, 200))
		for k := range m.Pix {
			m.SetGray(k%300, k/300, color.Gray{Y: uint8(60 + 20*i + k%97)})
		}
		if err := jpeg.Encode(f, m, nil); err != nil {
			t.Fatal(err)
		}
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
	}
	made := func(jobs int) map[string]string {
		out := filepath.Join(root, fmt.Sprint("out", jobs))
		o := Options{Out: out, Cache: filepath.Join(root, fmt.Sprint("cache", jobs)), Build: "test", Codecs: "pure", Jobs: jobs}
		sum, err := Prepare(t.Context(), []string{yard}, o)
		if err != nil || len(sum.Results) != 4 {
			t.Fatal(sum, err)
		}
		files := map[string]string{}
		err = filepath.WalkDir(out, func(path string, d os.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			data, err := os.ReadFile(path)
			files[strings.TrimPrefix(path, out)] = string(data)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		return files
	}
	alone, beside := made(1), made(4)
	if len(alone) < 40 || len(alone) != len(beside) {
		t.Errorf("%d files of one job, %d of four", len(alone), len(beside))
	}
	for name, data := range alone {
		if beside[name] != data {
			t.Errorf("%s comes out otherwise beside others", name)
		}
	}
}
