package listing

import (
	"path/filepath"
	"testing"

	"slabfolio/imaging"
	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
	"slabfolio/listing/report"
	"slabfolio/templates"
	"slabfolio/testdata"
	"slabfolio/testdata/golden"
)

// TestDemoReports holds listing.json and report.json of every demo piece, but
// for the photos, against golden files: they prove sameness, not truth; each
// calculator has outside checks of its own.
func TestDemoReports(t *testing.T) {
	words, err := templates.Open("en")
	if err != nil {
		t.Fatal(err)
	}
	workshop, err := testdata.Demo.ReadFile("demo/workshop.yaml")
	if err != nil {
		t.Fatal(err)
	}
	w, _ := piece.ParseWorkshop(piece.WorkshopName, workshop)
	folders, err := testdata.Demo.ReadDir("demo")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, f := range folders {
		if !f.IsDir() {
			continue
		}
		n++
		t.Run(f.Name(), func(t *testing.T) {
			spec, err := testdata.Demo.ReadFile("demo/" + f.Name() + "/piece.yaml")
			if err != nil {
				t.Fatal(err)
			}
			p, _ := piece.ParsePiece("piece.yaml", spec, w.Defaults())
			o := demoOptions(t, f.Name(), p)
			o.Lang, o.Words = "en", words
			r, err := report.Build(p, w, o)
			if err != nil {
				t.Fatal(err)
			}
			public, err := report.PublicJSON(r)
			if err != nil {
				t.Fatal(err)
			}
			all, err := report.JSON(r)
			if err != nil {
				t.Fatal(err)
			}
			golden.Check(t, "testdata/"+f.Name()+".listing.json", string(public))
			golden.Check(t, "testdata/"+f.Name()+".report.json", string(all))
		})
	}
	if n < 5 {
		t.Errorf("%d demo pieces, want at least five", n)
	}
}

// plans are what was measured, by folder: each photo once for all tests.
var plans = map[string]*photos.Top{}

// demoOptions has what is measured in the plan photo of a demo piece that has one.
func demoOptions(t *testing.T, folder string, p *piece.Piece) (o report.Options) {
	t.Helper()
	outline := p.Top.Outline
	if !outline.Photo.Set() {
		return o
	}
	plan, found := plans[folder]
	if !found {
		var findings []piece.Finding
		file := filepath.Join("..", "testdata", "demo", folder, outline.Photo.V)
		plan, findings = photos.MeasurePlan(file, outline, p.Top.Thickness.V, &imaging.Options{Pure: true})
		if plan == nil || len(findings) > 0 {
			t.Fatalf("%s: the plan photo is not measured without a word: %v", folder, findings)
		}
		plans[folder] = plan
	}
	o.Plan, o.PlanResinShare, o.PlanResin = plan.Outline, plan.Resin, plan.ResinOn
	return o
}
