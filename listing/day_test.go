package listing

import "testing"

// What is published tells the day of a photo, neither the hour nor the zone.
func TestDay(t *testing.T) {
	for taken, want := range map[string]string{"": "", "2026-09-18T14:03:11": "2026-09-18", "2026-09-18T14:03:11+02:00": "2026-09-18", "2026-09-18": "2026-09-18"} {
		if got := day(taken); got != want {
			t.Errorf("%q gives %q, want %q", taken, got, want)
		}
	}
}
