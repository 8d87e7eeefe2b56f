package yamltext

import "testing"

// Escapes of a text in quotes (YAML 1.2.2, section 5.7), and those that end before
// they have their digits.
func TestEscapes(t *testing.T) {
	for in, want := range map[string]struct {
		text string
		at   int // of the escape that is none; -1 for none
	}{
		`a\x41b`: {"aAb", -1}, `\u00e9`: {"é", -1}, `\U0001F332`: {"🌲", -1}, `\n\t\\`: {"\n\t\\", -1}, `x\x4`: {"", 1}, `x\x`: {"", 1},
		`x\u00e`: {"", 1}, `x\U0001F33`: {"", 1}, `x\`: {"", 1}, `\q`: {"", 0}, `\x4g`: {"", 0}, `\UFFFFFFFF`: {"", 0}, `\x41`: {"A", -1}, ``: {"", -1},
	} {
		if got, at := unescape(in); got != want.text || at != want.at {
			t.Errorf("%q is %q, wrong at %d; want %q, %d", in, got, at, want.text, want.at)
		}
	}
}
