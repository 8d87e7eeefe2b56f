package spelling

import (
	"math/rand/v2"
	"slices"
	"testing"
)

func TestPlain(t *testing.T) {
	for name, want := range map[string]string{"Wych-Elm": "wych elm", "  wych  elm ": "wych elm", "Q. petraea": "q petraea", "1.4301": "1 4301", "Épicéa": "epicea", "-": ""} {
		if got := Plain(name); got != want {
			t.Errorf("Plain(%q) = %q, want %q", name, got, want)
		}
	}
}

// The first two are the textbook examples of Levenshtein's distance; a swap of
// neighbours is one slip in the optimal string alignment distance.
// The short way for ASCII gives what the way for all letters does, and what is plain
// stays as it is.
func TestPlainASCII(t *testing.T) {
	rng := rand.New(rand.NewPCG(15, 3))
	for range 20_000 {
		b := make([]byte, rng.IntN(12))
		for i := range b {
			b[i] = "aZ9 -_.\t\x00\x7f~b"[rng.IntN(12)]
		}
		want := plainAny(string(b))
		if got, ok := plainASCII(string(b)); !ok || got != want {
			t.Fatalf("%q is %q, %v; want %q", b, got, ok, want)
		}
		if got := Plain(want); got != want {
			t.Fatalf("plain %q becomes %q", want, got)
		}
	}
	if _, ok := plainASCII("ipê"); ok {
		t.Error("ipê passes for ASCII")
	}
}

func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b       string
		most, want int
	}{
		{"kitten", "sitting", 9, 3}, {"saturday", "sunday", 9, 3}, {"oka", "oak", 9, 1}, {"ca", "abc", 9, 3},
		{"", "oak", 9, 3}, {"oak", "oak", 9, 0}, {"café", "cafe", 9, 1}, {"kitten", "sitting", 2, 2}, {"a", "abcdefgh", 3, 3},
	} {
		if got := Distance(c.a, c.b, c.most); got != c.want {
			t.Errorf("Distance(%q, %q, %d) = %d, want %d", c.a, c.b, c.most, got, c.want)
		}
		if got := Distance(c.b, c.a, c.most); got != c.want {
			t.Errorf("Distance(%q, %q, %d) = %d, want %d", c.b, c.a, c.most, got, c.want)
		}
	}
}

func TestLists(t *testing.T) {
	for _, c := range []struct {
		words   []string
		and, or string
	}{{nil, "", ""}, {[]string{"a"}, "a", "a"}, {[]string{"a", "b"}, "a and b", "a or b"}, {[]string{"a", "b", "c"}, "a, b and c", "a, b or c"}} {
		if And(c.words) != c.and || Or(c.words) != c.or {
			t.Errorf("%q: %q, %q", c.words, And(c.words), Or(c.words))
		}
	}
}

func TestNearest(t *testing.T) {
	woods := [][]string{{"black walnut", "walnut"}, {"european ash"}, {"wych elm", "scots elm"}, {"ash"}}
	for name, want := range map[string][]int{"walnutt": {0}, "ash": {3, 1}, "wich elm": {2}, "wych elm slab": {2}, "teak": nil, "": nil} {
		if got := Nearest(name, woods, 3); !slices.Equal(got, want) {
			t.Errorf("Nearest(%q) = %v, want %v", name, got, want)
		}
	}
	if got := Nearest("ash", woods, 1); !slices.Equal(got, []int{3}) {
		t.Errorf("the nearest alone: %v", got)
	}
}
