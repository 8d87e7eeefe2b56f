package decode

import (
	"os"
	"path/filepath"
	"testing"
)

// What is read off the beginning of a real camera file is what decoding the whole of
// it tells, and something is read from most.
func TestFactsWithoutDecoding(t *testing.T) {
	files, _ := filepath.Glob("../../../shared/photos/cameras/*")
	if len(files) == 0 {
		t.Skip("no reference photos")
	}
	told := 0
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		if len(data) > 4<<20 {
			continue // a minute of decoding for nothing more
		}
		src, err := Decode(data, nil)
		if err != nil {
			continue
		}
		head := data
		if format := Sniff(data); format == "jpeg" {
			head = data[:min(len(data), 512<<10)]
		}
		got := ReadFacts(head)
		if src.Format != "raw" && got != src.Facts { // of a raw file Decode prefers what its preview says
			t.Errorf("%s: %+v, decoded %+v", filepath.Base(f), got, src.Facts)
		}
		if got.Taken != "" {
			told++
		}
	}
	if told < len(files)/2 {
		t.Errorf("only %d of %d tell when they were taken", told, len(files))
	}
}

func FuzzReadFacts(f *testing.F) {
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x10Exif\x00\x00MM\x00*"))
	f.Add([]byte("II*\x00\x08\x00\x00\x00"))
	f.Fuzz(func(t *testing.T, data []byte) { ReadFacts(data) })
}
