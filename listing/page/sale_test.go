package page

import "testing"

// The heading over the terms names the price where there is one, and only there.
func TestTermsHead(t *testing.T) {
	o := options(t)
	for _, c := range []struct {
		availability string
		price        bool
		want         string
	}{
		{"in stock", true, "Price and delivery"}, {"in stock", false, "Delivery"},
		{"sold", true, "Price and guarantee"}, {"sold", false, "Guarantee"},
	} {
		pub := &fullest().Public
		pub.Available = c.availability
		if !c.price {
			pub.Price = nil
		}
		if got := termsHead(pub, o); got != c.want {
			t.Errorf("%s, price %v: %q, want %q", c.availability, c.price, got, c.want)
		}
	}
}
