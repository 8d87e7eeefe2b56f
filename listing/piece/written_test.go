package piece

import (
	"errors"
	"testing"
)

// Parts of a spec come as they were written: numbers, words that YAML takes for
// something else, commas inside braces, blocks.
func TestWrittenIsAsWritten(t *testing.T) {
	const spec = `serial: 0142   # a remark
story: |
  one
    two

units: in
delivery: {assembly: eight bolts, 5 mm key, ships_to: [GB, "NO"]}
packing: {legs: "off"}
parts:
  - name: 'it''s a drawer'
    count: 1
  - {name: box}
glue: [pva-d3, “quoted, once”]
mark:
`
	w, err := ParseWritten("piece.yaml", []byte(spec))
	if err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string]string{
		"serial": "0142", "story": "one two", "units": "in", "delivery": "assembly: eight bolts, 5 mm key, ships_to: [GB, NO]",
		"packing": "legs: off", "parts": "[{name: it's a drawer, count: 1}, {name: box}]", "mark": "",
	} {
		if got := w.Key(key).String(); got != want {
			t.Errorf("%s: %q, want %q", key, got, want)
		}
	}
	if got := w.Key("story").Text; got != "one\n  two" {
		t.Errorf("story: %q", got)
	}
	if got := w.Key("packing").Key("legs").At; got.Line != 8 {
		t.Errorf("packing.legs stands at %v, want line 8", got)
	}
	if w.Key("none") != nil || (*Written)(nil).String() != "" {
		t.Error("a key that is not there is nil, and prints as nothing")
	}
}

func TestWrittenRefusesFaults(t *testing.T) {
	for _, text := range []string{"", "serial: [\n", "serial: a\n\tb: c\n", "- a list\n", "serial: a\nserial b\n", "\xff\xfe"} {
		if _, err := ParseWritten("piece.yaml", []byte(text)); !errors.Is(err, ErrNotReadable) {
			t.Errorf("%q: error %v, want ErrNotReadable", text, err)
		}
	}
}
