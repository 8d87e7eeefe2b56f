package page

import (
	"fmt"
	"strings"
	"testing"

	"slabfolio/listing/report"
	"slabfolio/templates"
)

// The heading over the terms names what stands below it, and nothing else: no price and
// no guarantee where there is none, in any language.
func TestTermsHead(t *testing.T) {
	delivery := &report.Delivery{LeadTime: "2 weeks"}
	for _, c := range []struct {
		pub  report.Public
		want string
	}{
		{report.Public{Available: "in stock", Price: &report.Price{Amount: 5, Currency: "GBP"}, Delivery: delivery, Guarantee: "Five years"}, "Price and delivery"},
		{report.Public{Available: "in stock", Price: &report.Price{Amount: 5, Currency: "GBP"}, Guarantee: "Five years"}, "Price and guarantee"},
		{report.Public{Available: "in stock", Price: &report.Price{Amount: 5, Currency: "GBP"}}, "Price"},
		{report.Public{Available: "in stock", Delivery: delivery}, "Availability and delivery"},
		{report.Public{Available: "sold", Price: &report.Price{Amount: 5, Currency: "GBP"}, Delivery: delivery, Guarantee: "Five years"}, "Availability and guarantee"},
		{report.Public{Available: "sold", Price: &report.Price{Amount: 5, Currency: "GBP"}, Returns: "14 days"}, "Availability"},
		{report.Public{Available: "not for sale"}, "Availability"},
		{report.Public{Returns: "14 days"}, "Returns"},
		{report.Public{}, ""},
	} {
		for _, lang := range []string{"en", "de", "fr", "es", "nl"} {
			words, err := templates.Open(lang)
			if err != nil {
				t.Fatal(err)
			}
			below, head := terms(&report.Report{Public: c.pub}, &Options{Words: words})
			if lang == "en" && head != c.want {
				t.Errorf("%+v: %q, want %q", c.pub, head, c.want)
			}
			for _, id := range []string{"price", "guarantee", "availability", "returns"} {
				name := strings.ToLower(words.Say("page."+id, nil))
				if strings.Contains(strings.ToLower(head), name) && !strings.Contains(strings.ToLower(fmt.Sprint(below)), name) {
					t.Errorf("%s: %q stands over %v", lang, head, below)
				}
			}
		}
	}
}

// What a piece was sold for stands neither on its page nor in the words for machines.
func TestPriceOfWhatIsGone(t *testing.T) {
	for _, available := range []string{"in stock", "sold", "not for sale"} {
		r, o := fullest(), options(t)
		r.Public.Price, r.Public.Available = &report.Price{Amount: 1937, Currency: "GBP"}, available
		html, err := Listing(r, o)
		if err != nil {
			t.Fatal(err)
		}
		text, err := Text(r, o)
		if err != nil {
			t.Fatal(err)
		}
		said := strings.Count(strings.ReplaceAll(string(html)+string(text), ",", ""), "1937")
		if (said > 0) != (available == "in stock") {
			t.Errorf("%s: the price is said %d times", available, said)
		}
	}
}

// Of a piece that others made the words for machines say neither that it is new nor that
// it was made on the day that it was done here (schema.org 30.0: OfferItemCondition).
func TestConditionOfWhatOthersMade(t *testing.T) {
	for work, want := range map[string]string{"": "NewCondition", "restored": "RefurbishedCondition", "repaired": "UsedCondition", "unsaid": ""} {
		r := fullest()
		r.Public.Work, r.Public.Available, r.Public.Price = work, "in stock", &report.Price{Amount: 5, Currency: "GBP"}
		html, err := Listing(r, options(t))
		if err != nil {
			t.Fatal(err)
		}
		m := structured(t, html)[0]
		for _, path := range []string{"itemCondition", "offers.itemCondition"} {
			got, _ := at(m, strings.Split(path, ".")...).(string)
			if strings.TrimPrefix(got, "https://schema.org/") != want {
				t.Errorf("%q: %s is %q, want %q", work, path, got, want)
			}
		}
		if day := at(m, "productionDate"); (day != nil) != (work == "") {
			t.Errorf("%q: made on %v", work, day)
		}
	}
}
