package spelling

import "testing"

// The numbers as the languages have them (from memory).
func TestNumber(t *testing.T) {
	for word, want := range map[string]int{
		"7": 7, "24": 24, "two": 2, "Zwölf": 12, "quatre": 4, "ONCE": 11, "negen": 9, "eine": 1, "": 0, "dozen": 0, "twenty": 0, "1.5": 0, "2nd": 0,
	} {
		if got := Number(word); got != want {
			t.Errorf("%q is %d, want %d", word, got, want)
		}
	}
}
