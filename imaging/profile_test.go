package imaging

import (
	"os"
	"path/filepath"
	"testing"
)

// A profile that cannot be read is told of, and not said to have been applied.
func TestUnreadableProfileIsNotDone(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(reference(t, "photos/broken"), "pil_icc-after-SOF.jpg"))
	if err != nil {
		t.Fatal(err)
	}
	p, err := Open(Request{Data: data}, &Options{Pure: true})
	if err != nil {
		t.Fatal(err)
	}
	defer p.Close()
	told := false
	for _, n := range p.Notes {
		told = told || n.Code == "colour.bad-profile"
	}
	if !told {
		t.Error("the unreadable profile is not told of")
	}
	for _, n := range p.Done {
		if n.Code == "colour.profile" {
			t.Error("the unreadable profile is said to have been applied")
		}
	}
}
