package report

import (
	"strings"
	"testing"
)

// Two stools that are sold as one: size and weight are those of each, the price is that
// of both, however it was written.
func TestWhatIsSoldTogether(t *testing.T) {
	text := "serial: A1\ntitle: Pair of bar stools\nkind: stool\nfinished: 2026-09-18\nquantity: 2\ntop: {outline: {diameter: 13 in}, thickness: 1 1/2 in, wood: {species: white-oak}}\n" +
		"base: {material: white-oak, weight: 3 lb, height: 27 in, footprint: {length: 16 in, width: 16 in}}\ncosts: {hours: 10, rate: 40}\n"
	read := func(price string) *Report { return build(t, spec(t, text+"price: "+price+"\n"), nil) }
	each, pair := read("{amount: 320, currency: USD, note: each}"), read("{amount: 640, currency: USD, note: for the pair}")
	if !each.Public.PricedEach() || each.Public.Price.Note != "" || each.Public.Price.Amount != 320 {
		t.Errorf("each: %+v", each.Public.Price)
	}
	if pair.Public.PricedEach() || pair.Public.Price.Note != "for the pair" || pair.Public.Price.Amount != 640 {
		t.Errorf("the pair: %+v", pair.Public.Price)
	}
	if *each.Public.Dimensions.Length != *pair.Public.Dimensions.Length || each.Public.Weight.Kg != pair.Public.Weight.Kg {
		t.Error("how the price is told changes what one stool is")
	}
	if each.Costs.Margin != pair.Costs.Margin {
		t.Errorf("320 each leave %v, 640 for both %v", each.Costs.Margin, pair.Costs.Margin)
	}
	var a, b Month
	a.add(each)
	b.add(pair)
	if a.Asked != 640 || b.Asked != 640 {
		t.Errorf("asked in all: %v and %v", a.Asked, b.Asked)
	}
	for _, r := range []*Report{each, pair} {
		if said := r.Public.Texts.Descriptions.Upto1000; !strings.Contains(said, "A set of 2; size and weight are those of each.") {
			t.Error(said)
		}
	}
	if _, ok := found(pair, "quantity.title"); ok {
		t.Error("a quantity that agrees with the title is doubted")
	}
}

// What is made to order is an offer until somebody has ordered it; what is in stock stays
// as its maker says, who is asked.
func TestAPieceWithABuyerIsOnOfferToNobodyElse(t *testing.T) {
	for _, c := range []struct {
		availability, buyer string
		forSale             bool
	}{
		{"commission", "{name: Frau Probe}", false}, {"made to order", "{name: Frau Probe}", false}, {"made to order", "{delivered: 2026-09-20}", false},
		{"", "{name: Frau Probe}", false}, {"commission", "", true}, {"made to order", "", true}, {"", "", true},
		{"in stock", "{name: Frau Probe}", true}, {"reserved", "{name: Frau Probe}", true}, {"sold", "{name: Frau Probe}", false}, {"not for sale", "", false},
	} {
		text := "serial: A1\ntitle: Stool\nkind: stool\nfinished: 2026-09-18\ntop: {outline: {diameter: 13 in}, thickness: 1 1/2 in, wood: {species: white-oak}}\n"
		for key, value := range map[string]string{"availability": c.availability, "buyer": c.buyer} {
			if value != "" {
				text += key + ": " + value + "\n"
			}
		}
		r := build(t, spec(t, text), nil)
		if r.Public.ForSale() != c.forSale {
			t.Errorf("%q with buyer %q is for sale: %v", c.availability, c.buyer, !c.forSale)
		}
		if _, told := found(r, "availability.taken"); told != r.Public.Taken {
			t.Errorf("%q with buyer %q: told %v", c.availability, c.buyer, told)
		}
	}
}

// What is sold as one is sent as one: the packages are those of all, unless each is sold
// by itself. The maker's own boxes are all there are.
func TestASetIsSentTogether(t *testing.T) {
	const text = "serial: A1\ntitle: Three boards\nkind: serving board\nfinished: 2026-09-18\nquantity: 3\ntop: {outline: {length: 16 in, width: 7 in}, thickness: 7/8 in, wood: {species: olive}}\n"
	read := func(price, packing string) *Report {
		return build(t, spec(t, text+"price: {amount: 145, currency: GBP, note: "+price+"}\npacking: "+packing+"\n"), nil)
	}
	each, set := read("each", "{how: carton}"), read("the set of three", "{how: carton}")
	if n := len(each.Public.Shipping.Packages); n != 1 || each.SentTogether || !strings.Contains(strings.Join(each.Freight.Notes, " "), "one of 3") {
		t.Errorf("each by itself: %d packages, together %t: %q", n, each.SentTogether, each.Freight.Notes)
	}
	if n := len(set.Public.Shipping.Packages); n != 3 || !set.SentTogether || strings.Contains(strings.Join(set.Freight.Notes, " "), "one of 3") {
		t.Errorf("the set: %d packages, together %t: %q", n, set.SentTogether, set.Freight.Notes)
	}
	one, all := each.Figures["freight.gross_kg"].Value, set.Figures["freight.gross_kg"].Value
	if all < 2.9*one || all > 3.1*one {
		t.Errorf("one board is sent with %.1f kg, three with %.1f", one, all)
	}
	if said := set.Public.Shipping.Text; !strings.Contains(said, "three packages") && !strings.Contains(said, "3 packages") {
		t.Error(said)
	}
	if _, ok := found(set, "packing.together"); !ok {
		t.Error("nobody asks whether three boards travel in one box")
	}
	box := read("the set of three", "{packages: [{name: box, size: [18 in, 9 in, 6 in], weighed: 5 kg}]}")
	if n := len(box.Public.Shipping.Packages); n != 1 || !box.SentTogether || strings.Contains(strings.Join(box.Freight.Notes, " "), "one of 3") {
		t.Errorf("in one box: %d packages: %q", n, box.Freight.Notes)
	}
}
