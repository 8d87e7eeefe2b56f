package piece

import (
	"strings"
	"testing"
)

// What stands in place of a figure or of a country is asked about as it was meant.
func TestWhatIsMeantInPlaceOfAFigure(t *testing.T) {
	for line, want := range map[string]string{
		"price: {amount: 2.4k}": "amount: 2400", "price: {amount: \"2,4k\"}": "amount: 2400", "price: {amount: $3k}": "amount: 3000", "costs: {rate: 1k}": "rate: 1000",
		"price: {amount: on request}": "leave `price` out", "price: {amount: auf Anfrage}": "leave `price` out", "price: {amount: sur demande}": "leave `price` out", "price: {amount: TBD}": "leave `price` out",
		"quantity: a pair": "quantity: 2", "quantity: ein Paar": "quantity: 2", "quantity: six": "quantity: 6", "quantity: une douzaine": "quantity: 12",
		"delivery: {ships_to: worldwide}": "by their two letters, your own first", "delivery: {ships_to: weltweit}": "by their two letters, your own first",
	} {
		found := ""
		for _, f := range doubtsOf(t, line+"\n") {
			if f.Rank == Fault {
				found += f.Remedy + "\n"
			}
		}
		if !strings.Contains(found, want) {
			t.Errorf("%s: %q, want %q", line, found, want)
		}
	}
	for path, want := range map[string]string{"packing.packages.2.weighed": "packing.packages[3].weighed", "top.wood.0.species": "top.wood[1].species"} {
		_, err := parseAssignment(path + "=1 kg")
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", path, err)
		}
		if also := strings.Replace(want, "[3]", "[2]", 1); also != want && !strings.Contains(err.Error(), also) {
			t.Errorf("%s may be counted from 1: %v", path, err)
		}
	}
}
