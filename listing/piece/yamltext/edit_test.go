package yamltext

import (
	"context"
	"errors"
	"testing"
)

// A file in which a line had to be mended first is not written into, nor one whose
// values have no names: what is said of it comes before.
func TestSetRefusesWhatHasSlips(t *testing.T) {
	way := []Step{{Key: "a"}}
	none := func(string) bool { return false }
	for text, want := range map[string]error{
		"a: 1\nb: 2\n": nil, "": nil, "# a remark\n": nil,
		"a: 1\nb: \"open\nc: 2\n": ErrSlips, "a: 1\nb: *label\n": ErrSlips, "- a\n- b\n": ErrSlips, "a\n": ErrSlips,
	} {
		c, err := Set(context.Background(), []byte(text), way, "3", true, none)
		if !errors.Is(err, want) || (err == nil) != (c != nil) {
			t.Errorf("%q: error %v, want %v", text, err, want)
		}
	}
}
