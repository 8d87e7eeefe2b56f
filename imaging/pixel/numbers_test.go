package pixel

import (
	"testing"
)

// Worked by hand from Otsu's rule: the level that makes the product of the two
// groups' sizes and of the square of the difference of their means largest. Of
// 1, 1, 2 and 8, 9, 9 every level from 2 to 7 parts them alike, and the first
// counts; of three groups of one the first split weighs 1·2·(5−52.5)² = 4512.5
// and the second 2·1·(7.5−95)² = 15312.5.
func TestOtsu(t *testing.T) {
	for name, c := range map[string]struct {
		values []int
		want   int
		ok     bool
	}{
		"two groups":   {[]int{1, 1, 2, 8, 9, 9}, 2, true},
		"three values": {[]int{5, 10, 95}, 10, true},
		"one level":    {[]int{7, 7, 7}, 0, false},
		"none":         {nil, 0, false},
		"ends":         {[]int{0, 255}, 0, true},
	} {
		var hist [256]int
		for _, v := range c.values {
			hist[v]++
		}
		if got, ok := Otsu(&hist); got != c.want || ok != c.ok {
			t.Errorf("%s: level %d, %v; want %d, %v", name, got, ok, c.want, c.ok)
		}
	}
}
