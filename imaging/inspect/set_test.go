package inspect

import (
	"slices"
	"testing"
)

func TestMissingViews(t *testing.T) {
	items := []Item{{View: "three-quarter"}, {View: "seam"}, {View: "in room"}, {View: ""}}
	got := Set("dining table", "2026-09-18", items).Missing
	want := []string{"end", "above", "underside", "edge", "maker's mark"}
	if !slices.Equal(got, want) {
		t.Errorf("missing %q, want %q", got, want)
	}
	if got := Set("other", "", items).Missing; got != nil {
		t.Errorf("a piece of no known kind misses %q", got)
	}
}

func TestTakenBeforeFinished(t *testing.T) {
	for _, c := range []struct {
		taken string
		days  float64 // 0: nothing to say
	}{
		{"2026:09:16 10:00:00", 2},
		{"2026-09-18T08:00:00", 0},
		{"2026:09:19 10:00:00", 0},
		{"0000:00:00 00:00:00", 0},
		{"1980:01:01 00:00:00", 0},
		{"", 0},
	} {
		f := Set("bench", "2026-09-18", []Item{{Report: Report{Taken: c.taken}}})
		var days float64
		for _, n := range f.Photos[0] {
			if n.Code == "inspect.before-finished" {
				days = n.Values["days"]
			}
		}
		if days != c.days {
			t.Errorf("taken %q: %v days before, want %v", c.taken, days, c.days)
		}
	}
}
