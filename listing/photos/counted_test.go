package photos

import (
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// Numbers in names count as numbers, and where that is another order than the one
// that the photos come in, the maker is told, with the line that gives it.
func TestNumberedPhotos(t *testing.T) {
	for _, c := range []struct{ names, counted string }{
		{"10_BL.png 11_BL.png 1_BL.png 2_BL.png", "1_BL.png 2_BL.png 10_BL.png 11_BL.png"},
		{"10 back.jpg,2 front.jpg", "2 front.jpg,10 back.jpg"},
		{"IMG_10000.jpg IMG_9999.jpg", "IMG_9999.jpg IMG_10000.jpg"},
		{"01.jpg 02.jpg 10.jpg", ""},
		{"IMG_2041.jpg IMG_2042 detail.jpg front.jpg", ""},
		{"a1.jpg b.jpg", ""},
		{"1.jpg", ""},
	} {
		sep := " "
		if strings.Contains(c.names, ",") {
			sep = ","
		}
		a := &arranger{}
		for _, name := range strings.Split(c.names, sep) {
			a.all = append(a.all, Source{Rel: name, Name: name, Role: Publish})
		}
		a.miscounted(&piece.Photos{})
		want := strings.ReplaceAll(c.counted, sep, ", ")
		if said := len(a.findings) == 1 && strings.Contains(a.findings[0].Remedy, "order: ["+want+"]"); said != (c.counted != "") || len(a.findings) > 1 {
			t.Errorf("%s: %+v", c.names, a.findings)
		}
		a.findings = nil
		if a.miscounted(&piece.Photos{Order: []piece.Value[string]{{V: "1.jpg"}}}); a.findings != nil {
			t.Errorf("%s: the maker ordered them: %+v", c.names, a.findings)
		}
	}
	for _, pair := range [][2]string{{"1", "01"}, {"a2", "a10"}, {"a", "a1"}, {"a02b", "a2c"}} {
		if byNumber(pair[0], pair[1]) == 0 || byNumber(pair[0], pair[1]) != -byNumber(pair[1], pair[0]) && byNumber(pair[0], pair[1])*byNumber(pair[1], pair[0]) >= 0 {
			t.Errorf("%v: no order", pair)
		}
	}
	if !slices.IsSortedFunc([]string{"1.jpg", "01.jpg"}, func(a, b string) int { return -byNumber(a, b) }) {
		t.Error("noughts")
	}
}
