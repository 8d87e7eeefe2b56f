package yamltext

import (
	"strings"
	"testing"
)

// A text behind | whose lines were not indented is one slip, that says which lines to
// indent, and its words are read; what is indented, empty, a key, a remark or an entry of
// a list below it is no such text.
func TestTextThatIsNotIndentedIsOneSlip(t *testing.T) {
	for _, c := range []struct{ text, remedy, read string }{
		{"a: |\nTwo planks of one tree.\nc: d\n", "line 2", "Two planks of one tree.\n"},
		{"a: |\nTwo planks of one tree.\nMade for a kitchen: warm and bright.\n\nIt took a year.\nc: d\n", "lines 2 to 5", "Two planks of one tree.\nMade for a kitchen: warm and bright.\n\nIt took a year.\n"},
		{"a: >-\n\nOne line.\n  And one further in.\nc: d\n", "lines 3 to 4", ""},
		{"a: |\n  Two planks.\nc: d\n", "", "Two planks.\n"},
		{"a: |\nc: d\n", "", ""},
		{"a: |\n# a remark\nc: d\n", "", ""},
		{"a: the sign >\nc: d\n", "", "the sign >"},
	} {
		text, err := Read(t.Context(), "piece.yaml", []byte(c.text))
		if err != nil {
			t.Fatal(err)
		}
		want := 0
		if c.remedy != "" {
			want = 1
		}
		if len(text.Slips) != want || want == 1 && (!strings.HasSuffix(text.Slips[0].Remedy, c.remedy) || text.Slips[0].At.Line != 1 || !strings.Contains(text.Slips[0].Message, "text of a is not indented")) {
			t.Errorf("%q: %+v", c.text, text.Slips)
		}
		if got := said(text.Root, "a"); c.read != "" && got != c.read {
			t.Errorf("%q is read as %q", c.text, got)
		}
		if got := said(text.Root, "c"); got != "d" {
			t.Errorf("%q: c is read as %q", c.text, got)
		}
	}
}
