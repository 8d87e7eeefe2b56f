package listing

import (
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/report"
)

// Letters that no font of the documents has are the maker's to know of; those of
// the alphabets that they do have are not. Pictures are left out, and noted.
func TestUnprintableIsADoubt(t *testing.T) {
	r := &report.Report{Public: report.Public{Title: "Bord \u6728, \u03bb\u03ac\u03b4\u03b9, \u0434\u0443\u0431, b\u00e0n", Story: "\U0001f600"}}
	got := unprintable(r)
	if len(got) != 2 || got[0].Rank != piece.Doubt || !strings.Contains(got[0].Message, "lack \u6728;") || got[1].Rank != piece.Note || !strings.Contains(got[1].Message, "lack \U0001f600; they are left out") {
		t.Errorf("%+v", got)
	}
	r.Public.Title, r.Public.Story = "Bord, \u03bb\u03ac\u03b4\u03b9, \u0434\u0443\u0431, b\u00e0n", ""
	if got := unprintable(r); got != nil {
		t.Errorf("%+v", got)
	}
	r.Public.Story = "\u4e00\u4e01\u4e03\u4e07\u4e08\u4e09\u4e0a\u4e0b\u4e0d\u4e0e"
	if got := unprintable(r); len(got) != 1 || !strings.Contains(got[0].Message, "and 2 more") {
		t.Errorf("%+v", got)
	}
}
