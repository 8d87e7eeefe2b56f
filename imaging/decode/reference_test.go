package decode_test

import (
	"os"
	"path/filepath"
	"testing"

	"slabfolio/imaging/decode"
	"slabfolio/testdata/beside"
)

// photos returns the files of one folder of the reference photos.
func photos(t testing.TB, folder string) []string {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(beside.Root(t), "..", "shared", "photos", folder, "*"))
	if err != nil || len(names) == 0 {
		beside.Missing(t, "the folder "+folder+" of the reference photos")
	}
	return names
}

func load(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// decodeOnce is Decode with the default options, kept for the other tests of this
// run where it takes a second or more. Tests here do not run in parallel.
func decodeOnce(t testing.TB, name string) (*decode.Source, error) {
	t.Helper()
	if src, ok := kept[name]; ok {
		return src, nil
	}
	data := load(t, name)
	src, err := decode.Decode(data, nil)
	if err == nil && decode.Sniff(data) == "heic" {
		kept[name] = src
	}
	return src, err
}

var kept = map[string]*decode.Source{}
