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

// 70.548 lb are 32 kg by the pound of 0.45359237 kg (1959 agreement).
func TestOnScale(t *testing.T) {
	for kg, want := range map[float64]TextWeights{32: {"70.5 lb", "32.0 kg"}, 1.4: {"3.1 lb", "1.4 kg"}} {
		if got := (&Weight{Weighed: &kg}).OnScale(); got != want {
			t.Errorf("%g kg: %q, want %q", kg, got, want)
		}
	}
	if got := (&Weight{Kg: 3}).OnScale(); got != (TextWeights{}) {
		t.Errorf("not weighed: %q", got)
	}
}
