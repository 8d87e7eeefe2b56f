package units

import (
	"encoding/json"
	"os"
	"slices"
	"strings"
	"testing"

	"golang.org/x/text/currency"
	"golang.org/x/text/language"
)

// Against the list that Debian's iso-codes has: what is money there is money here,
// and nothing else but the two codes that are younger than its copy.
func TestCurrenciesAreThoseOfISO4217(t *testing.T) {
	data, err := os.ReadFile("/usr/share/iso-codes/json/iso_4217.json")
	if err != nil {
		if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
			t.Fatal(err)
		}
		t.Skip("iso-codes is not installed")
	}
	var list map[string][]struct {
		Code string `json:"alpha_3"`
	}
	if err := json.Unmarshal(data, &list); err != nil {
		t.Fatal(err)
	}
	const funds = " BOV CHE CHW CLF COU MXV USN UYI UYW "
	const noMoney = " XAG XAU XBA XBB XBC XBD XDR XPD XPT XSU XTS XUA XXX "
	theirs := map[string]bool{"XCG": true, "ZWG": true} // of 2025 and 2024
	for _, c := range list["4217"] {
		if !strings.Contains(funds+noMoney, " "+c.Code+" ") {
			theirs[c.Code] = true
		}
	}
	ours := strings.Fields(currencies)
	for _, c := range ours {
		if !theirs[c] {
			t.Errorf("%s is no money of ISO 4217", c)
		}
		delete(theirs, c)
	}
	if len(theirs) > 0 || len(ours) < 150 {
		t.Errorf("missing of %d: %v", len(ours), theirs)
	}
	for _, c := range strings.Fields(withoutCents) {
		if !IsCurrency(c) {
			t.Errorf("%s has no cents and is no currency", c)
		}
	}
	for _, c := range []string{"XYZ", "XXX", "GB", "", " ", "DEM"} {
		if IsCurrency(c) {
			t.Errorf("%q passes for money", c)
		}
	}
}

// What a country pays with, against Unicode CLDR as golang.org/x/text has it. Two have
// taken the euro since that copy: Croatia in 2023, Bulgaria in 2026 (from memory).
func TestCountriesPayWithWhatCLDRSays(t *testing.T) {
	since := map[string]string{"HR": "EUR", "BG": "EUR"}
	countries := slices.Clone(euro)
	for c := range moneyOf {
		countries = append(countries, c)
	}
	for _, c := range countries {
		want := since[c]
		if want == "" {
			theirs, ok := currency.FromRegion(language.MustParseRegion(c))
			if !ok {
				t.Fatalf("CLDR has no money for %s", c)
			}
			want = theirs.String()
		}
		if got := CurrencyIn(c); got != want || !IsCurrency(got) {
			t.Errorf("CurrencyIn(%q) = %q, want %q", c, got, want)
		}
	}
	for _, c := range []string{"", " ", "AT BE", "XX"} {
		if got := CurrencyIn(c); got != "" {
			t.Errorf("CurrencyIn(%q) = %q, want nothing", c, got)
		}
	}
}
