package linear_test

import (
	"bytes"
	"image"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/linear"
)

// A profile that counts more points in a curve than it holds is refused before room
// is made for them (ICC.1, 10.6).
func TestCurveLongerThanItsTag(t *testing.T) {
	ours, err := os.ReadFile(filepath.Join("testdata", "srgb.icc"))
	if err != nil {
		t.Fatal(err)
	}
	huge := []byte("curv\x00\x00\x00\x00\x7f\xff\xff\xff")
	at := bytes.Index(ours, []byte("para"))
	if at < 0 {
		t.Fatal("the profile has no curve to put another in place of")
	}
	own := bytes.Clone(ours)
	copy(own[at:], huge)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	rows, notes := linear.NewRows(&colour.Encoded{Image: image.NewNRGBA(image.Rect(0, 0, 3, 2)), Profile: own})
	rows.Row(make([]uint16, 9), 1)
	runtime.ReadMemStats(&after)
	if took := after.TotalAlloc - before.TotalAlloc; took > 64<<20 {
		t.Errorf("%d bytes were made room for", took)
	}
	if len(notes) == 0 {
		t.Error("nothing is said of it")
	}
}
