package piece

import (
	"os"
	"path/filepath"
	"testing"
)

// A fault that a calculator found shows its line as those of the parser do;
// doubts, other files and lines that are not there stay as they are.
func TestQuote(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "piece.yaml"), []byte("\ufeffserial: A\r\ntop: {outline: {}}\r\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	at := func(r Rank, file string, line int) Finding { return Finding{Rank: r, File: file, Line: line} }
	findings := []Finding{at(Fault, "piece.yaml", 2), at(Fault, "piece.yaml", 1), at(Doubt, "piece.yaml", 2), at(Fault, "piece.yaml", 9),
		at(Fault, "piece.yaml", 0), at(Fault, "piece.yml", 1), at(Fault, "../piece.yaml", 1)}
	Quote(dir, findings)
	for i, want := range []string{"top: {outline: {}}", "serial: A", "", "", "", "", ""} {
		if findings[i].Snippet != want {
			t.Errorf("%d: %q, want %q", i, findings[i].Snippet, want)
		}
	}
}
