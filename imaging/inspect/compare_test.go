package inspect

import "testing"

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
		notes := Compare("2026-09-18", []Report{{Taken: c.taken}})
		var days float64
		for _, n := range notes[0] {
			if n.Code == "inspect.before-finished" {
				days = n.Values["days"]
			}
		}
		if days != c.days {
			t.Errorf("taken %q: %v days before, want %v", c.taken, days, c.days)
		}
	}
}
