package sheet

import (
	"strings"
	"testing"

	"slabfolio/listing/report"
	"slabfolio/templates"
)

// Of a coaster nobody asks who lifts it, and no carrier about ramps and stairs; of what
// two people lift both stand on the shipping sheet.
func TestShippingOfNextToNothing(t *testing.T) {
	for what, light := range map[string]bool{"coaster": true, "table": false} {
		r := fullest()
		r.Public.Weight = &report.Weight{Kg: 30, Low: 28, High: 33, Text: report.TextWeights{Lb: "66 lb", Kg: "30 kg"}}
		if light {
			r.Public.Shipping = &report.Shipping{Packages: r.Public.Shipping.Packages}
			r.Public.Weight = &report.Weight{Kg: 0.08, Low: 0.07, High: 0.1, Text: report.TextWeights{Lb: "2.8 oz", Kg: "80 g"}}
		}
		pdf, err := Shipping(r, options(t))
		if err != nil {
			t.Fatal(err)
		}
		text := textOf(t, reference(t, "pdftotext"), pdf)
		if got := strings.Contains(text, ballotBox); got == light {
			t.Errorf("%s: boxes for ramps and stairs are there: %v", what, got)
		}
		if got := strings.Contains(text, "local rules for lifting"); got == light {
			t.Errorf("%s: who lifts is said: %v", what, got)
		}
	}
}

// A parcel that one person carries has no freight class, no floor of a trailer and no
// stairs to ask about, in any language.
func TestShippingOfAParcel(t *testing.T) {
	for _, lang := range templates.Langs() {
		w, err := templates.Open(lang)
		if err != nil {
			t.Fatal(err)
		}
		var said [2]string
		for i, light := range []bool{false, true} {
			r := fullest()
			r.Light, r.Home = light, "US"
			o := options(t)
			o.Words = w
			pdf, err := Shipping(r, o)
			if err != nil {
				t.Fatal(err)
			}
			said[i] = textOf(t, reference(t, "pdftotext"), pdf)
		}
		stairs := map[string]string{"en": "stairs", "de": "Treppe", "fr": "escalier", "es": "escaleras", "nl": "trap"}[lang[:2]]
		if !strings.Contains(said[0], stairs) || strings.Contains(said[1], stairs) {
			t.Errorf("%s: stairs of a table and of a parcel: %v, %v", lang, strings.Contains(said[0], stairs), strings.Contains(said[1], stairs))
		}
		if class := w.Say("sheet.ship.class", nil); !strings.Contains(said[0], class) || strings.Contains(said[1], class) {
			t.Errorf("%s: %q stands with a table and a parcel: %v, %v", lang, class, strings.Contains(said[0], class), strings.Contains(said[1], class))
		}
	}
}

// Two boxes are two crates: what holds of each is said of each.
func TestEachOfSeveralPackages(t *testing.T) {
	for packages, want := range map[int]string{1: "n a crate", 2: "ach in a crate"} {
		r := fullest()
		r.Packing = "crate"
		one := r.Public.Shipping.Packages[0]
		r.Public.Shipping = &report.Shipping{Packages: []report.Package{one, one}[:packages]}
		pdf, err := Shipping(r, options(t))
		if err != nil {
			t.Fatal(err)
		}
		text := textOf(t, reference(t, "pdftotext"), pdf)
		if !strings.Contains(text, want) || packages == 1 && strings.Contains(text, "ach in a crate") {
			t.Errorf("%d packages: no %q in\n%s", packages, want, text)
		}
	}
}

// A carrier is asked for all pieces that are sold as one, which are worth their price; of
// others for one, which is worth its share.
func TestMailForASet(t *testing.T) {
	for _, together := range []bool{false, true} {
		r := fullest()
		r.Public.Quantity, r.SentTogether = 3, together
		r.Public.Price = &report.Price{Amount: 150, Currency: "GBP", Note: "the set", Together: true}
		pdf, err := Shipping(r, options(t))
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(textOf(t, reference(t, "pdftotext"), pdf)), " ")
		if got := strings.Contains(text, "carriage of 3 × "); got != together {
			t.Errorf("together %t: the mail asks for three: %t", together, got)
		}
		if want := map[bool]string{false: "worth £50.", true: "worth £150."}[together]; !strings.Contains(text, want) {
			t.Errorf("together %t: %q is missing:\n%s", together, want, text)
		}
	}
}
