package listing

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"slabfolio/listing/page"
)

// How a group of keys stands in a spec: where its lines go, and how far in.
func TestBlockOf(t *testing.T) {
	for _, c := range []struct {
		name, spec, group string
		want              page.Block
	}{
		{"not there", "serial: A\ntop:\n  thickness: 2 cm\n", "photos", page.Block{Indent: 2}},
		{"two spaces", "serial: A\n# photos: no\nphotos:\n  # a remark\n\n  main: a.jpg\n", "photos", page.Block{Line: 3, Indent: 2}},
		{"four spaces, below another group of that name", "x:\n  photos:\n   a: b\nphotos:   # mine\n    main: a.jpg\n", "photos", page.Block{Line: 4, Indent: 4}},
		{"braces", "photos: {main: a.jpg}\n", "photos", page.Block{Line: 1, Indent: 2, Braces: true}},
		{"outline in braces", "serial: A\ntop:\n  outline: {photo: plan.jpg, paper_sheet: a4}\n", "top outline", page.Block{Line: 3, Indent: 4, Braces: true}},
		{"outline in lines", "outline: no\ntop:\n   thickness: 1 in\n   outline:\n      photo: plan.jpg\n", "top outline", page.Block{Line: 4, Indent: 6}},
		{"top in braces", "top: {outline: {photo: plan.jpg}}\n", "top outline", page.Block{Line: 1, Indent: 4, Braces: true}},
		{"nothing in it", "photos:\ntop:\n  thickness: 1 in\n", "photos", page.Block{Line: 1, Indent: 2}},
	} {
		got := blockOf(strings.Split(c.spec, "\n"), strings.Fields(c.group)...)
		if got.Line != c.want.Line || got.Indent != c.want.Indent || got.Braces != c.want.Braces {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

// The maker's page over a piece is made whatever a run makes, and leads nowhere that
// is not there.
func TestPieceOverviewOfEveryRun(t *testing.T) {
	dir, o := layPhotoBoard(t)
	links := regexp.MustCompile(`(?:href|src)="([^"#?:]+)`)
	look := func(o Options, what string) string {
		name := filepath.Join(o.Out, "OY-1", filepath.FromSlash(page.PieceOverviewName))
		html := content(t, name)
		for _, m := range links.FindAllStringSubmatch(html, -1) {
			if _, err := os.Stat(filepath.Join(filepath.Dir(name), filepath.FromSlash(m[1]))); err != nil {
				t.Errorf("%s: the page leads to %s, which is not there", what, m[1])
			}
		}
		return html
	}
	for _, only := range []string{OnlyDocuments, OnlyListing, OnlyPhotos} {
		alone := o
		alone.Out, alone.Only, alone.Cache = filepath.Join(t.TempDir(), "out"), only, t.TempDir()
		prepareAll(t, dir, alone)
		look(alone, only)
	}
	prepareAll(t, dir, o)
	if html := look(o, "all"); !strings.Contains(html, "data-published") || !strings.Contains(html, "sheet.pdf") {
		t.Errorf("photos and papers are not there: %s", html)
	}
	spec := filepath.Join(dir, "piece.yaml")
	text := strings.Replace(content(t, spec), "title: ", "title: Renamed ", 1)
	if err := os.WriteFile(spec, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	o.Only = OnlyDocuments
	prepareAll(t, dir, o)
	if html := look(o, "documents again"); !strings.Contains(html, "<h1>Renamed ") || !strings.Contains(html, "data-published") {
		t.Errorf("the page is the earlier one, or has lost its photos: %s", html)
	}
}
