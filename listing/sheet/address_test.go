package sheet

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"slabfolio/listing/report"
)

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
		of := *r
		of.PageFolder = "de/"
		german, query, _ := strings.Cut(want, "?")
		if german += "de/"; query != "" {
			german += "?" + query
		}
		if got := codeText(&of); got != german {
			t.Errorf("base %s: the code of the German papers says %s, want %s", base, got, german)
		}
	}
}

// A base whose style names its material says that once.
func TestBaseSaysItsMaterialOnce(t *testing.T) {
	for style, want := range map[string]string{"two steel hoops": "two steel hoops, clear wax", "two frames": "steel, two frames, clear wax"} {
		if got := new(doc).baseText(&report.Base{Style: style, Material: "steel", Coating: "clear wax"}, ""); got != want {
			t.Errorf("%s: %q, want %q", style, got, want)
		}
	}
}

// A certificate has no row for a mark that is not there, and takes back no guarantee
// that the listing gives.
func TestCertificateSaysNothingOfWhatThereIsNot(t *testing.T) {
	pdftotext := reference(t, "pdftotext")
	r := usual()
	for mark, rows := range map[string]int{"Burnt into": 1, "": 0} {
		r.Public.Mark = mark
		data, err := Certificate(r, options(t))
		if err != nil {
			t.Fatal(err)
		}
		name := filepath.Join(t.TempDir(), "certificate.pdf")
		if err := os.WriteFile(name, data, 0o644); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(pdftotext, "-raw", name, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(string(out)), " ")
		if got := strings.Count(text, " Mark: "); got != rows {
			t.Errorf("mark %q: %d rows, want %d:\n%s", mark, got, rows, text)
		}
		if strings.Contains(text, "no guarantee and") || !strings.Contains(text, "it adds no guarantee") {
			t.Errorf("the claim: %s", text)
		}
	}
}
