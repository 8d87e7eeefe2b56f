package archive

import (
	"fmt"
	"testing"
)

// Lines of bag-info.txt (RFC 8493, section 2.2.2): an indented line goes on with
// the value before it, by its first letter alone.
func TestInfoLines(t *testing.T) {
	for text, want := range map[string]string{
		"A: x\n\ty\n": "[{A x y}]", "A: x\n y\n": "[{A x y}]", "A B: x\n": "[{A B x}]", "A: x\n\n  \nB: y": "[{A x} {B y}]", "A\tB: x\n": "[{A\tB x}]",
	} {
		got, err := parseInfo(text)
		if err != nil || fmt.Sprint(got) != want {
			t.Errorf("%q is %v (%v), want %s", text, got, err, want)
		}
	}
	for _, text := range []string{" x\n", "\tA: x\n", "x\n", "A: x\ny"} {
		if got, err := parseInfo(text); err == nil {
			t.Errorf("%q passes for %v", text, got)
		}
	}
}
