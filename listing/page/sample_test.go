package page

import (
	"testing"

	"slabfolio/listing/drawing"
	"slabfolio/listing/piece"
	"slabfolio/listing/report"
	"slabfolio/listing/units"
	"slabfolio/templates"
)

func words(t *testing.T) *templates.Words {
	t.Helper()
	w, err := templates.Open("en")
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func mm(v float64) *float64 { return &v }

// fullest is a piece with everything in it, hostile text included.
func fullest() *report.Report {
	r := &report.Report{
		Public: report.Public{
			Serial: "OY-0201", Title: "Tideline <table> & \"bench\"", Kind: "console table", Finished: "2026-05-04", Quantity: 1,
			Story: "First paragraph, with a </script> in it.\n\nSecond paragraph.", Found: "A lead shot, left in place.", Mark: "Burnt in, underside",
			Dimensions: &report.Dimensions{
				Length: mm(1422.4), Width: mm(406.4), Height: mm(762), TopThickness: mm(41.3), TopArea: mm(0.55), Knee: mm(720.7),
				Text: report.Text{In: "56 × 16 × 30 in", Cm: "142.2 × 40.6 × 76.2 cm"},
			},
			Weight:    &report.Weight{Kg: 31.2, Low: 28.1, High: 34.3, Weighed: mm(30.9), Text: report.TextWeights{Lb: "68.1 lb", Kg: "30.9 kg"}},
			Movement:  &report.Movement{Across: 3.1, FromRH: 35, ToRH: 60, FromMC: 7, ToMC: 11, Text: "Up to 3 mm across the width between winter and summer"},
			Seats:     2,
			Shipping:  &report.Shipping{Packages: []report.Package{}, PeopleToLift: 2, Text: "Two people to lift."},
			Materials: []report.Material{{Name: "Wych elm", Botanical: "Ulmus glabra", Share: 82, Origin: "GB", Role: "wood"}, {Name: "Casting resin", Share: 18, Detail: "sea green", Role: "resin"}},
			Finish:    &report.Finish{Family: "hardwax-oil", Name: "hardwax oil", Coats: 2, Sheen: "satin", LightUseFrom: "2026-05-07", FullCureFrom: "2026-05-14", FullCureTo: "2026-06-01"},
			Care:      []report.Paragraph{{ID: "care.a", Group: "clean", Text: "Wipe with a damp cloth."}, {ID: "care.b", Group: "first-weeks", Text: "Go gently."}, {ID: "care.c", Group: "sun", Text: "Wood darkens in light."}},
			Cautions:  []report.Paragraph{{ID: "caution.lift", Group: "lift", Head: "Lifting", Text: "Two people."}},
			Photos:    []report.Photo{photo("01-three-quarter", 2400, 1600), photo("02-end", 500, 700)},
			Price:     &report.Price{Amount: 1450, Currency: "GBP", Note: "collected"}, Available: "in stock",
			Delivery:  &report.Delivery{ShipsTo: []string{"GB", "IE"}, LeadTime: "2 weeks"},
			Guarantee: "Five years.", Returns: "Within 14 days.",
			Base:  &report.Base{Style: "two frames", Material: "steel", Coating: "black"},
			Parts: []report.Part{{Name: "drawer", Material: "oak", Count: 2, Text: report.Text{In: "20 × 12 × 4 in", Cm: "50.8 × 30.5 × 10.2 cm"}}},
			Maker: &report.Maker{Name: "Ostrel Yard", Address: "The Yard\nNowhere", Email: "hello@ostrel.example", Phone: "+44 0000 000000", Web: "ostrel.example"},
		},
		Findings: []piece.Finding{
			{Rank: piece.Doubt, Code: "photo.soft", File: "a.jpg", Message: "looks soft", Remedy: "look at it large"},
			{Rank: piece.Note, Code: "x", File: "piece.yaml", Line: 4, Message: "worth knowing"},
		},
		Costs: &report.Costs{Floor: 971.53, Margin: 428.47, Currency: "GBP"},
		Photos: []report.PhotoRecord{
			{Source: "a.jpg", Name: "01-three-quarter", Before: "overview/01-before.jpg", After: "overview/01-after.jpg", Done: []string{"+0.7 stop"}, Tones: &report.Tones{Before: []int{1, 2, 3}, After: []int{3, 2, 1}}},
			{Source: "broken.jpg", Refused: "not a photo"},
		},
		Drawing: drawing.Piece{
			Outline: [][2]float64{{0, 0}, {1422, 5}, {1400, 406}, {3, 400}}, Length: 1422.4, Width: 406.4, Thickness: 41.3, ResinShare: 0.18, Grain: "along length",
			Height: 762, BaseHeight: 720.7, Footprint: [2]float64{1100, 330}, Parts: []drawing.Part{{Name: "drawer", Length: 500, Width: 300, BelowTop: 95}},
		},
		Accent: "#6b4a2e", AccentDark: "#d9b48f", BaseURL: "https://ostrel.example/pieces", Rights: "© Ostrel Yard",
	}
	return r
}

func photo(name string, w, h int) report.Photo {
	p := report.Photo{File: "photos/" + name + "-2400.jpg", Width: w, Height: h, Alt: "Console table in wych elm, three-quarter view", View: "three-quarter", Upload: "upload/" + name + ".jpg"}
	for _, x := range []int{2400, 1200, 600} {
		x = min(x, w)
		p.Renditions = append(p.Renditions, report.Rendition{Name: "x", File: "photos/" + name + "-" + short(float64(x)) + ".jpg", Width: x, Height: x * h / w, Format: "jpeg"})
	}
	p.Renditions = append(p.Renditions,
		report.Rendition{Name: "1200", File: "photos/" + name + "-1200.webp", Width: min(w, 1200), Height: min(w, 1200) * h / w, Format: "webp"},
		report.Rendition{Name: "square", File: "photos/" + name + "-square.jpg", Width: 1200, Height: 1200, Format: "jpeg"})
	return p
}

// shortest is a piece with nothing but what the spec demands.
func shortest() *report.Report {
	long, wide := 400.0, 180.0
	return &report.Report{Public: report.Public{Serial: "OY-0202", Title: "Board", Kind: "serving board", Finished: "2026-05-05", Quantity: 6, Dimensions: &report.Dimensions{Length: &long, Width: &wide}}}
}

func options(t *testing.T) *Options { return &Options{Words: words(t), Prefer: units.Inches} }
