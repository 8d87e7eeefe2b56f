package piece

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A sheet of labels is as large as its paper at most; what is left out is what the
// margins leave (ISO 216: A4 is 210 by 297 mm).
func TestLabelSheetFitsItsPaper(t *testing.T) {
	for _, c := range []struct {
		label string
		fault bool
	}{
		{"{rows: 4, columns: 2, width: 105 mm, height: 74 mm}", false},
		{"{rows: 4, columns: 2, width: 99 mm, height: 67 mm, left: 5 mm, top: 13 mm, gap_across: 2 mm, gap_down: 1 mm}", false},
		{"{rows: 8, columns: 3}", false},
		{"{rows: 4, columns: 3, width: 99 mm, height: 60 mm}", true},
		{"{rows: 9, columns: 1, width: 99 mm, height: 60 mm}", true},
		{"{rows: 2, columns: 2, left: 106 mm}", true},
		{"{rows: 60, columns: 2}", true},
	} {
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, WorkshopName), []byte("paper: a4\nlabel: "+c.label+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		_, findings, err := ReadWorkshop(t.Context(), dir)
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		for _, f := range findings {
			got += f.Message + "; "
		}
		if strings.Contains(got, "than the paper") != c.fault {
			t.Errorf("%s: %q", c.label, got)
		}
	}
}
