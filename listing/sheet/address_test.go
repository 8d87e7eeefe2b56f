package sheet

import "testing"

// The QR code says the very address that the page gives itself.
func TestQRCodeSaysThePagesAddress(t *testing.T) {
	r := usual()
	for base, want := range map[string]string{
		"https://ostrel.example/pieces":   "https://ostrel.example/pieces/" + r.Public.Serial + "/",
		"https://ostrel.example/stücke/":  "https://ostrel.example/st%C3%BCcke/" + r.Public.Serial + "/",
		"https://ostrel.example/a%20b/":   "https://ostrel.example/a%20b/" + r.Public.Serial + "/",
		"https://ostrel.example/o'y?s=1&": "https://ostrel.example/o%27y/" + r.Public.Serial + "/?s=1&",
	} {
		r.BaseURL = base
		if got := codeText(r); got != want || r.Address() != want {
			t.Errorf("base %s: the code says %s, the page %s, want %s", base, got, r.Address(), want)
		}
	}
}
