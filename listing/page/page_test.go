package page

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"html"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"slabfolio/listing/report"
	"slabfolio/listing/units"
	"slabfolio/templates"
	"slabfolio/testdata/golden"
)

func pages(t *testing.T) map[string][]byte {
	t.Helper()
	o := options(t)
	out := map[string][]byte{}
	put := func(name string, data []byte, err error) {
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		out[name] = data
	}
	for name, r := range map[string]*report.Report{"fullest": fullest(), "shortest": shortest()} {
		html, err := Listing(r, o)
		put(name+".html", html, err)
		text, err := Text(r, o)
		put(name+".txt", text, err)
	}
	entries := []Entry{{Folder: "OY-0202", Report: shortest()}, {Folder: "OY-0201", Report: fullest()}}
	left := []LeftOut{{Dir: "OY-0203", Findings: fullest().Findings}}
	overview, err := Overview(entries, left, o)
	put("overview.html", overview, err)
	c, err := NewCatalogue(entries, o)
	if err != nil {
		t.Fatal(err)
	}
	out["catalogue.html"], out["catalogue.csv"], out["catalogue.json"] = c.HTML, c.CSV, c.JSON
	web := *o
	web.BaseURL = "https://ostrel.example/pieces"
	c, err = NewCatalogue(entries, &web)
	put("catalogue-web.html", c.Web, err)
	out["feed.xml"], out["sitemap.xml"] = c.Feed, c.Sitemap
	empty, err := Overview(nil, nil, o)
	put("overview-empty.html", empty, err)
	there := func(name string) bool { return name != "shipping.pdf" }
	pointed := &Pointing{Names: map[string]string{"a.jpg": "a.jpg"}, Boxes: []GivenBox{{Name: `"a, </script>.jpg"`, Box: [4]float64{0.1, 0.2, 0.9, 0.8}}}, Photos: Block{Line: 12, Indent: 2}, Outline: Block{Line: 7, Indent: 4}}
	of, err := PieceOverview(fullest(), pointed, there, o)
	put("overview-piece.html", of, err)
	of, err = PieceOverview(shortest(), nil, there, o)
	put("overview-piece-shortest.html", of, err)
	return out
}

func TestGolden(t *testing.T) {
	for name, data := range pages(t) {
		t.Run(name, func(t *testing.T) { golden.Check(t, "testdata/"+name, string(data)) })
	}
}

// No page may ask for anything outside its folder. A page for others has no script;
// on the maker's own one runs, and its letters are those that the page's policy
// admits (Content Security Policy level 3, 6.7.3.3: hashes of inline scripts), so
// that no other can.
func TestPagesStandAlone(t *testing.T) {
	loads := regexp.MustCompile(`(?i)(?:src|srcset|poster|data)="\s*(?:https?:|//)|<link[^>]+stylesheet|@import|url\([^#]|<[^>]+\son[a-z]+=|javascript:`)
	script := regexp.MustCompile(`(?is)<script([^>]*)>(.*?)</script`)
	for name, data := range pages(t) {
		if !strings.HasSuffix(name, ".html") {
			continue
		}
		if m := loads.Find(data); m != nil {
			t.Errorf("%s asks for something outside: %s", name, m)
		}
		for _, m := range script.FindAllSubmatch(data, -1) {
			sum := sha256.Sum256(m[2])
			admitted := "script-src &#39;sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "&#39;"
			switch kind := string(m[1]); {
			case strings.Contains(kind, `type="application/ld+json"`), strings.Contains(kind, `type="application/json"`):
			case strings.HasPrefix(name, "overview") && strings.Contains(html.UnescapeString(string(data)), html.UnescapeString(admitted)):
			default:
				t.Errorf("%s has a script that its policy does not admit: %.80s", name, m[2])
			}
		}
	}
}

// schema.org data must be JSON that a reader gets back, whatever the story says.
func TestStructuredDataIsJSON(t *testing.T) {
	data := pages(t)["fullest.html"]
	_, rest, _ := bytes.Cut(data, []byte(`<script type="application/ld+json">`))
	block, _, ok := bytes.Cut(rest, []byte("</script>"))
	if !ok {
		t.Fatal("no structured data")
	}
	var m map[string]any
	if err := json.Unmarshal(block, &m); err != nil {
		t.Fatalf("%v in %s", err, block)
	}
	if got, want := m["description"], fullest().Public.Story; got != want {
		t.Errorf("description %q, want %q", got, want)
	}
	if got := m["depth"].(map[string]any)["value"]; got != 406.4 {
		t.Errorf("depth %v, want 406.4", got)
	}
}

// RFC 4180: CRLF records, the same number of fields in each; a cell that a
// spreadsheet would compute is made text. The byte order mark makes spreadsheets read
// UTF-8; numbers have a decimal point; a page has its address where that is known.
func TestCatalogueCSV(t *testing.T) {
	r := shortest()
	r.Public.Title = "=HYPERLINK(\"x\"), \"quoted\"\nnext"
	c, err := NewCatalogue([]Entry{{Folder: "OY-0202", Report: r}}, options(t))
	if err != nil {
		t.Fatal(err)
	}
	if n := bytes.Count(c.CSV, []byte("\r\n")); n < 2 {
		t.Errorf("%d CRLF", n)
	}
	rows, err := csv.NewReader(bytes.NewReader(c.CSV)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(c.CSV, []byte("\xef\xbb\xbfserial,")) || bytes.Count(c.CSV, []byte("\ufeff")) != 1 {
		t.Errorf("the table begins with %q", c.CSV[:min(len(c.CSV), 12)])
	}
	if got := rows[1][len(rows[1])-1]; got != "OY-0202/listing/index.html" {
		t.Errorf("the page is %s", got)
	}
	if got := rows[1][1]; !strings.HasPrefix(got, "'=") {
		t.Errorf("title cell %q can be taken for a formula", got)
	}
}

func TestCatalogueCSVHasAddressesAndDecimalPoints(t *testing.T) {
	o := options(t)
	o.BaseURL = "https://ostrel.example/stücke"
	r := fullest()
	r.BaseURL = o.BaseURL
	c, err := NewCatalogue([]Entry{{Folder: "OY-0201", Report: r}}, o)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(c.CSV)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	row := map[string]string{}
	for i, name := range rows[0] {
		row[name] = rows[1][i]
	}
	for name, want := range map[string]string{"length_mm": "1422.4", "weight_kg": "30.9", "price": "1450.00", "currency": "GBP", "page": r.Address()} {
		if row[name] != want {
			t.Errorf("%s is %q, want %q", name, row[name], want)
		}
	}
}

func TestNothingPrivateInCatalogue(t *testing.T) {
	all := pages(t)
	for _, name := range []string{"catalogue.html", "catalogue.csv", "catalogue.json", "fullest.html", "fullest.txt"} {
		for _, word := range []string{"971.53", "428.47", "looks soft"} {
			if bytes.Contains(all[name], []byte(word)) {
				t.Errorf("%s holds %q", name, word)
			}
		}
	}
}

// The checker of the W3C's and WHATWG's HTML, as an independent reader.
func TestHTMLChecker(t *testing.T) {
	jar := findJar()
	if jar == "" {
		if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
			t.Fatal("vnu.jar is missing: npm install vnu-jar, and say where in SLABFOLIO_NODE_MODULES")
		}
		t.Skip("vnu.jar is missing")
	}
	dir := t.TempDir()
	var files []string
	for name, data := range pages(t) {
		if strings.HasSuffix(name, ".html") {
			path := filepath.Join(dir, name)
			if err := os.WriteFile(path, data, 0o644); err != nil {
				t.Fatal(err)
			}
			files = append(files, path)
		}
	}
	out, err := exec.Command("java", append([]string{"-jar", jar, "--stdout"}, files...)...).CombinedOutput()
	if err != nil || bytes.Contains(out, []byte("error:")) {
		t.Errorf("%v\n%s", err, out)
	}
}

func findJar() string {
	path := filepath.Join(os.Getenv("SLABFOLIO_NODE_MODULES"), "vnu-jar", "build", "dist", "vnu.jar")
	if _, err := os.Stat(path); err != nil {
		return ""
	}
	return path
}

// Many products leave the facts for a section of their own; none is lost.
func TestManyProductsHaveTheirOwnSection(t *testing.T) {
	for _, n := range []int{mostProducts, mostProducts + 1, 40} {
		r := fullest()
		for i := range n {
			r.Public.Shown = append(r.Public.Shown, report.ShownMaterial{Use: "glue", Product: fmt.Sprintf("product %d.", i)})
		}
		html, err := Listing(r, options(t))
		if err != nil {
			t.Fatal(err)
		}
		for i := range n {
			if got := strings.Count(string(html), fmt.Sprintf("Glue, product %d.", i)); got != 1 {
				t.Errorf("of %d: product %d stands there %d times", n, i, got)
			}
		}
		if apart := strings.Contains(string(html), `id="made-with"`); apart != (n > mostProducts) {
			t.Errorf("%d products: own section %v", n, apart)
		}
	}
}

// "other" is a word for the spec, not for a buyer: no page, text or feed has it, nor what
// another language once had in its place.
func TestOtherIsNoKind(t *testing.T) {
	r := shortest()
	r.Public.Kind, r.Public.Title = "other", "Coasters"
	word := regexp.MustCompile(`(?i)\bother\b|Möbelstück|\bmeuble\b|\bmueble\b|\bmeubel\b|sonstiges|\b[ao]utre\b|\botro\b|overig`)
	for _, lang := range templates.Langs() {
		w, err := templates.Open(lang)
		if err != nil {
			t.Fatal(err)
		}
		o := &Options{Words: w, Prefer: units.Centimetres, BaseURL: "https://ostrel.example/pieces/"}
		text, err1 := Text(r, o)
		web, err2 := Listing(r, o)
		shop, err3 := NewCatalogue([]Entry{{Report: r}}, o)
		if err := errors.Join(err1, err2, err3); err != nil {
			t.Fatal(err)
		}
		for name, data := range map[string][]byte{"text": text, "page": web, "catalogue": shop.HTML, "feed": shop.Feed} {
			if hit := word.Find(data); hit != nil {
				t.Errorf("%s, %s: %q in %s", lang, name, hit, data)
			}
		}
	}
}
