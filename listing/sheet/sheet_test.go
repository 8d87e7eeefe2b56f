package sheet

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"slabfolio/listing/report"
)

var writeTo = flag.String("write", "", "a folder to write every sample document into, for looking at")

var documents = map[string]func(*report.Report, *Options) ([]byte, error){
	"sheet": Sheet, "care": Care, "label": Label, "shipping": Shipping,
}

func TestEverySampleIsLaidOut(t *testing.T) {
	hero := drawn(t, 1500, 1000)
	for name, r := range samples() {
		for kind, f := range documents {
			for _, paper := range []string{"a4", "letter"} {
				o := options(t, hero, drawn(t, 601, 400), drawn(t, 402, 600))
				o.Paper = paper
				data, err := f(r, o)
				if err != nil {
					t.Errorf("%s %s %s: %v", name, kind, paper, err)
					continue
				}
				if !bytes.HasPrefix(data, []byte("%PDF-1.4\n%")) {
					t.Errorf("%s %s: begins with %q", name, kind, data[:12])
				}
				if *writeTo != "" {
					if err := os.WriteFile(filepath.Join(*writeTo, name+"-"+kind+"-"+paper+".pdf"), data, 0o644); err != nil {
						t.Fatal(err)
					}
				}
			}
		}
	}
}
