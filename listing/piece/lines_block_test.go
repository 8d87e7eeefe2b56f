package piece

import "testing"

// Behind a | YAML keeps a text as it is but for blanks at the beginning, which tell
// its indentation, and empty lines at the end (YAML 1.2.2, 8.1.1). Blanks at a line's
// end, tabs and control characters are kept, too, but no editor shows or keeps them.
func TestFitsBlock(t *testing.T) {
	for text, want := range map[string]bool{
		"a\nb": true, "a\n\nb": true, "a\n  b": true,
		"a \nb": false, "a\nb ": false, "a\tb\nc": false, "a\nb\t": false, "a\x07\nb": false, "a\u0085\nb": false,
		" a\nb": false, "\na": false, "a\n": false,
	} {
		if got := fitsBlock(text); got != want {
			t.Errorf("fitsBlock(%q) = %v", text, got)
		}
	}
}
