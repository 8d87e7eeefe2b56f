package page

import (
	"strings"
	"testing"

	"slabfolio/listing/report"
)

// A piece that somebody ordered, and one whose size is not known, stand in no catalogue;
// the first is no offer on its own page either. Two that are sold as one are one offer.
func TestWhatIsNoOffer(t *testing.T) {
	o := &Options{Words: words(t)}
	long := 400.0
	of := func(change func(*report.Public)) *report.Report {
		r := &report.Report{Public: report.Public{Serial: "A1", Title: "Reed bench", Available: "made to order", Quantity: 1, Price: &report.Price{Amount: 640, Currency: "USD"}, Dimensions: &report.Dimensions{Length: &long}}}
		change(&r.Public)
		return r
	}
	for name, c := range map[string]struct {
		change          func(*report.Public)
		listed, offered bool
	}{
		"usual":   {func(*report.Public) {}, true, true},
		"ordered": {func(p *report.Public) { p.Taken = true }, false, false},
		"no size": {func(p *report.Public) { p.Dimensions = nil }, false, true},
		"pair":    {func(p *report.Public) { p.Quantity, p.Price.Together = 2, true }, true, true},
	} {
		r := of(c.change)
		if onSale(&r.Public) != c.listed {
			t.Errorf("%s: in the catalogue %v", name, !c.listed)
		}
		m := offer(r, o)
		if (m != nil) != c.offered {
			t.Errorf("%s: offer %v", name, m)
		}
		if name == "pair" && (m["inventoryLevel"] != nil || m["eligibleQuantity"] == nil || strings.Contains(priceAsked(&r.Public, o), "each")) {
			t.Errorf("a pair for 640: %v, %s", m, priceAsked(&r.Public, o))
		}
	}
}

// A photo of fewer pixels than a place of the catalogue has is shown square like the
// others, and no attribute of the page stands empty (HTML, 4.8.4.2.1: srcset holds one
// candidate or more).
func TestASmallPhotoInTheCatalogue(t *testing.T) {
	p := &report.Photo{File: "photos/01-front-2400.jpg", Width: 293, Height: 300, Alt: "bench"}
	for _, width := range []int{293, 0} {
		p.Renditions = []report.Rendition{{File: "photos/01-front-2400.jpg", Width: 293, Height: 300, Format: "jpeg"}}
		if width > 0 {
			p.Renditions = append(p.Renditions, report.Rendition{File: "photos/01-front-square.jpg", Width: width, Height: width, Format: "jpeg"})
		}
		if got := shopPhotoOf(p, ""); got.SrcSet == "" || width > 0 && got.Height != width {
			t.Errorf("%+v", got)
		}
	}
	long := 400.0
	r := &report.Report{Public: report.Public{Serial: "A1", Title: "Reed bench", Quantity: 1, Dimensions: &report.Dimensions{Length: &long}, Photos: []report.Photo{{File: "photos/01.jpg", Width: 200, Height: 200, Alt: "bench"}}}}
	c, err := NewCatalogue([]Entry{{Report: r}}, &Options{Words: words(t)})
	if err != nil {
		t.Fatal(err)
	}
	if html := string(c.HTML); strings.Contains(html, `srcset=""`) || strings.Contains(html, `sizes=""`) || !strings.Contains(html, "photos/01.jpg") {
		t.Error(html)
	}
}
