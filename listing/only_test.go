package listing

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// A run that makes the documents alone, into an empty folder, makes them as a full run
// does, byte for byte; and no public page leads to one that is not there.
func TestOnlyDocumentsAreThoseOfAFullRun(t *testing.T) {
	dir, o := layPhotoBoard(t)
	prepareAll(t, dir, o)
	only := o
	only.Out, only.Only, only.Cache = filepath.Join(t.TempDir(), "out"), OnlyDocuments, t.TempDir()
	prepareAll(t, dir, only)
	papers := 0
	err := filepath.WalkDir(o.Out, func(path string, d os.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".pdf" {
			return err
		}
		papers++
		rel, _ := filepath.Rel(o.Out, path)
		if a, b := content(t, path), content(t, filepath.Join(only.Out, rel)); a != b {
			t.Errorf("%s has %d bytes in a full run, and others, %d, alone", rel, len(a), len(b))
		}
		return nil
	})
	if err != nil || papers < 7 {
		t.Errorf("%d papers: %v", papers, err)
	}
	links := regexp.MustCompile(`(?:href|src)="([^"#?:]+)"`)
	for _, name := range []string{"index.html", "catalogue/index.html"} {
		page := []byte(content(t, filepath.Join(only.Out, filepath.FromSlash(name))))
		for _, m := range links.FindAllSubmatch(page, -1) {
			at := filepath.Join(only.Out, filepath.Dir(name), filepath.FromSlash(string(m[1])))
			if _, err := os.Stat(at); err != nil {
				t.Errorf("%s leads to %s, which is not there", name, m[1])
			}
		}
	}
	if table := content(t, filepath.Join(only.Out, "catalogue.csv")); strings.Contains(table, "listing/index.html") || !bytes.Contains([]byte(table), []byte("OY-1")) {
		t.Errorf("the table leads to a page that is not there: %s", table)
	}
}
