package imaging

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"slabfolio/testdata/beside"
)

// Of the demo's photos one was taken to measure by, and is told by the sheet on it: a
// round top of 90 cm (its scene's own measure). Of the real photos of furniture,
// animals and documents that lie beside the project none is: a page that fills a photo
// lies on no top.
func TestSheetOnTop(t *testing.T) {
	photos, err := filepath.Glob("../testdata/demo/*/*.jpg")
	if err != nil || len(photos) < 10 {
		t.Fatal(err, len(photos))
	}
	if !testing.Short() {
		for _, group := range []string{"measure", "furniture", "subject"} {
			more, _ := filepath.Glob(filepath.Join(beside.Shared(t, "photos", group), "*.jpg"))
			photos = append(photos, more...)
		}
	}
	looked, found := 0, 0
	for _, name := range photos {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		p, err := Open(Request{Data: data, Name: filepath.Base(name)}, &Options{NoMaster: true})
		if err != nil {
			continue // too small, or no photo
		}
		looked++
		l, w, ok := p.SheetOnTop()
		p.Close()
		if want := strings.HasSuffix(name, "-plan.jpg"); ok != want {
			t.Errorf("%s: a sheet on a top is seen: %v", name, ok)
		} else if ok && (math.Abs(l-900) > 20 || math.Abs(w-900) > 20) {
			t.Errorf("%s: %.0f × %.0f mm", name, l, w)
		} else if ok {
			found++
		}
	}
	t.Logf("%d photos looked at, %d with a sheet on the top", looked, found)
	if found == 0 {
		t.Error("none was found")
	}
}
