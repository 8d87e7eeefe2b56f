package report

import "testing"

// A product that repeats its family's name says it once.
func TestFinishIsCalledOnce(t *testing.T) {
	for _, c := range []struct{ name, product, want string }{
		{"hardwax oil", "hardwax oil, clear, tin 3", "hardwax oil, clear, tin 3"},
		{"hardwax oil", "Hardwax Oil 7", "Hardwax Oil 7"},
		{"oil and varnish blend", "wiping oil, tin 9", "oil and varnish blend, wiping oil, tin 9"},
		{"shellac", "", "shellac"},
		{"", "tin 4", "tin 4"},
	} {
		if got := (&Finish{Name: c.name, Product: c.product}).Called(); got != c.want {
			t.Errorf("%q and %q: %q, want %q", c.name, c.product, got, c.want)
		}
	}
}

// 70.548 lb are 32 kg by the pound of 0.45359237 kg (1959 agreement). What a maker
// read as 700 lb is 317.515 kg, and stays 700 lb.
func TestWhatTheScaleSaid(t *testing.T) {
	b := &builder{words: words(t)}
	for kg, want := range map[float64]TextWeights{32: {"70.5 lb", "32 kg"}, 1.4: {"3.1 lb", "1.4 kg"}, 317.514659: {"700 lb", "317.5 kg"}, 31.4: {"69.2 lb", "31.4 kg"}} {
		if got := b.scaleTexts(kg); got != want {
			t.Errorf("%g kg: %q, want %q", kg, got, want)
		}
	}
}
