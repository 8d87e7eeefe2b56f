package page

import (
	"bytes"
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/report"
	"slabfolio/testdata/beside"
)

// A vocabulary is schema.org's own data, release 30.0: classes with what they are
// below, properties with what may have them and what they may hold.
type vocabulary struct {
	above  map[string][]string // class or member of an enumeration -> the classes it belongs to
	domain map[string][]string
	holds  map[string][]string
}

func readVocabulary(t *testing.T) *vocabulary {
	t.Helper()
	var file struct {
		Graph []map[string]any `json:"@graph"`
	}
	if err := json.Unmarshal(beside.Read(t, "reference/schemaorg-30.0.jsonld"), &file); err != nil {
		t.Fatal(err)
	}
	v := &vocabulary{map[string][]string{}, map[string][]string{}, map[string][]string{}}
	for _, n := range file.Graph {
		id, _ := n["@id"].(string)
		types := ids(n["@type"])
		if slices.Contains(types, "rdf:Property") {
			v.domain[id], v.holds[id] = ids(n["schema:domainIncludes"]), ids(n["schema:rangeIncludes"])
			continue
		}
		for _, c := range types {
			if strings.HasPrefix(c, "schema:") { // a member of an enumeration, or a data type
				v.above[id] = append(v.above[id], c)
			}
		}
		v.above[id] = append(v.above[id], ids(n["rdfs:subClassOf"])...)
	}
	if len(v.above) < 1000 || len(v.domain) < 1000 {
		t.Fatalf("%d classes and %d properties read", len(v.above), len(v.domain))
	}
	return v
}

// ids are the names in a value of JSON-LD: one, or several, plain or as nodes.
func ids(v any) (out []string) {
	switch v := v.(type) {
	case string:
		return []string{v}
	case map[string]any:
		id, _ := v["@id"].(string)
		return []string{id}
	case []any:
		for _, x := range v {
			out = append(out, ids(x)...)
		}
	}
	return out
}

// is reports whether a class is one of some, or below one.
func (v *vocabulary) is(class string, of []string) bool {
	if slices.Contains(of, class) {
		return true
	}
	return slices.ContainsFunc(v.above[class], func(c string) bool { return v.is(c, of) })
}

// walk checks a node and all that is in it, and returns what is wrong.
func (v *vocabulary) walk(path string, node map[string]any) (wrong []string) {
	var types []string
	for _, c := range ids(node["@type"]) {
		types = append(types, "schema:"+c)
		if _, ok := v.above["schema:"+c]; !ok {
			wrong = append(wrong, path+" is a "+c+", which is no class")
		}
	}
	if len(types) == 0 {
		wrong = append(wrong, path+" has no type")
	}
	for key, value := range node {
		if strings.HasPrefix(key, "@") {
			continue
		}
		at := path + "." + key
		domain, ok := v.domain["schema:"+key]
		if !ok {
			wrong = append(wrong, at+" is no property")
			continue
		}
		if !slices.ContainsFunc(types, func(c string) bool { return v.is(c, domain) }) {
			wrong = append(wrong, fmt.Sprintf("%s does not belong to %v", at, types))
		}
		values, many := value.([]any)
		if !many {
			values = []any{value}
		}
		for _, x := range values {
			wrong = append(wrong, v.value(at, x, v.holds["schema:"+key])...)
		}
	}
	return wrong
}

var isoDate = regexp.MustCompile(`^\d{4}-\d\d-\d\d`)

func (v *vocabulary) value(at string, x any, holds []string) []string {
	fits := func(classes ...string) bool {
		return slices.ContainsFunc(classes, func(c string) bool { return v.is(c, holds) || slices.Contains(holds, c) })
	}
	ok := false
	switch x := x.(type) {
	case map[string]any:
		for _, c := range ids(x["@type"]) {
			ok = ok || fits("schema:"+c)
		}
		if wrong := v.walk(at, x); len(wrong) > 0 {
			return wrong
		}
	case float64:
		ok = fits("schema:Number", "schema:Float") || x == float64(int(x)) && fits("schema:Integer")
	case bool:
		ok = fits("schema:Boolean")
	case string:
		member, isMember := strings.CutPrefix(x, "https://schema.org/")
		switch {
		case isMember:
			ok = fits("schema:" + member)
		case isoDate.MatchString(x) && fits("schema:Date", "schema:DateTime"):
			ok = true
		case strings.Contains(x, "://") || strings.HasPrefix(x, "photos/"):
			ok = fits("schema:URL", "schema:Text")
		default:
			ok = fits("schema:Text")
		}
	}
	if !ok {
		return []string{fmt.Sprintf("%s holds %v, which is none of %v", at, x, holds)}
	}
	return nil
}

// structured returns every block of structured data in a page.
func structured(t *testing.T, html []byte) (all []map[string]any) {
	t.Helper()
	for rest := html; ; {
		_, after, ok := bytes.Cut(rest, []byte(`<script type="application/ld+json">`))
		if !ok {
			return all
		}
		block, next, _ := bytes.Cut(after, []byte("</script>"))
		var m map[string]any
		if err := json.Unmarshal(block, &m); err != nil {
			t.Fatalf("%v in %s", err, block)
		}
		all, rest = append(all, m), next
	}
}

// shipped is a piece with packages and all terms.
func shipped() *report.Report {
	r := many()
	r.Public.Shipping.Packages = []report.Package{{Name: "top", Length: 1600, Width: 600, Height: 160, Gross: 31.26}, {Length: 900, Width: 800, Height: 120, Gross: 22}}
	r.Public.Maker.Country = "GB"
	r.Public.Returns = "Within 30 days, unused, carriage at the buyer's cost"
	return r
}

// Every type, property and value of the pages' structured data is schema.org's own,
// by the vocabulary of release 30.0.
func TestStructuredDataKeepsToTheVocabulary(t *testing.T) {
	v := readVocabulary(t)
	for _, odd := range []string{`{"@type":"Produkt"}`, `{"@type":"Product","length":3}`, `{"@type":"Brand","price":3}`, `{"@type":"Offer","seller":"me"}`, `{"@type":"Offer","availability":"https://schema.org/GB"}`} {
		var m map[string]any
		if err := json.Unmarshal([]byte(odd), &m); err != nil || len(v.walk("odd", m)) == 0 {
			t.Errorf("nothing is found wrong with %s (%v)", odd, err)
		}
	}
	all := pages(t)
	sold, batch := shipped(), shipped()
	sold.Public.Available, batch.Public.Quantity = "sold", 4
	for name, r := range map[string]*report.Report{"shipped.html": shipped(), "sold.html": sold, "batch.html": batch} {
		html, err := Listing(r, options(t))
		if err != nil {
			t.Fatal(err)
		}
		all[name] = html
	}
	blocks := 0
	for name, html := range all {
		if !strings.HasSuffix(name, ".html") {
			continue
		}
		for _, m := range structured(t, html) {
			blocks++
			for _, wrong := range v.walk(name, m) {
				t.Error(wrong)
			}
		}
	}
	if blocks < 5 {
		t.Errorf("%d blocks of structured data were found", blocks)
	}
}

// What a shop's reader looks for is there, under the names that it knows.
func TestStructuredDataOfAnOffer(t *testing.T) {
	html, err := Listing(shipped(), options(t))
	if err != nil {
		t.Fatal(err)
	}
	m := structured(t, html)[0]
	for path, want := range map[string]string{
		"@type": "[Product IndividualProduct]", "brand.name": "Ostrel Yard", "material": "Wych elm, Casting resin, Steel", "color": "sea green",
		"weight.value": "30.9", "weight.minValue": "<nil>", "offers.seller.address.addressCountry": "GB", "offers.seller.address.@type": "PostalAddress",
		"offers.shippingDetails.0.weight.value": "31.3", "offers.shippingDetails.1.width.value": "900", "offers.shippingDetails.0.shippingDestination.addressCountry": "[GB IE]",
		"offers.hasMerchantReturnPolicy.merchantReturnDays": "30", "offers.hasMerchantReturnPolicy.returnFees": "https://schema.org/ReturnFeesCustomerResponsibility",
		"offers.deliveryLeadTime.value": "2", "offers.deliveryLeadTime.unitCode": "WEE", "image.1.caption": "The seam, with the left knot below it and the place where two flattened lead shot were found",
		"image.0.license.name": "© Ostrel Yard", "image.0.contentUrl": "https://ostrel.example/pieces/OY-0201/photos/01-2400x1600.jpg", "image.0.width.value": "2400",
	} {
		if got := fmt.Sprint(at(m, strings.Split(path, ".")...)); got != want {
			t.Errorf("%s is %s, want %s", path, got, want)
		}
	}
	gone := shipped()
	gone.Public.Available = "sold"
	if html, err = Listing(gone, options(t)); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{"offers.shippingDetails", "offers.eligibleRegion", "offers.deliveryLeadTime"} {
		if got := at(structured(t, html)[0], strings.Split(path, ".")...); got != nil {
			t.Errorf("of a piece that is sold, %s is %v", path, got)
		}
	}
	for _, odd := range []string{"Ships to", "Lead time", "Ask about this piece"} {
		if bytes.Contains(html, []byte(odd)) {
			t.Errorf("the page of a piece that is sold says %q", odd)
		}
	}
	if !bytes.Contains(html, []byte("Ask for a similar piece")) {
		t.Error("the page of a piece that is sold offers none like it")
	}
}

// at follows a path into JSON.
func at(v any, path ...string) any {
	for _, p := range path {
		switch x := v.(type) {
		case map[string]any:
			v = x[p]
		case []any:
			var i int
			if _, err := fmt.Sscan(p, &i); err != nil || i >= len(x) {
				return nil
			}
			v = x[i]
		default:
			return nil
		}
	}
	return v
}

// A maker's terms are read only where they are plain.
func TestTermsAreReadWhereTheyArePlain(t *testing.T) {
	for text, want := range map[string]string{
		"10 days": "value:10 DAY", "2 weeks": "value:2 WEE", "2 to 3 weeks": "min:2 max:3 WEE", "2-3 Wochen": "min:2 max:3 WEE", "a fortnight": "", "2 weeks after the frost": "", "": "",
	} {
		got := ""
		if q := leadTime(text); q != nil && q["value"] != nil {
			got = fmt.Sprintf("value:%v %v", q["value"], q["unitCode"])
		} else if q != nil {
			got = fmt.Sprintf("min:%v max:%v %v", q["minValue"], q["maxValue"], q["unitCode"])
		}
		if got != want {
			t.Errorf("lead time %q: %q, want %q", text, got, want)
		}
	}
	for text, want := range map[string]string{
		"Within 14 days.": "14 MerchantReturnFiniteReturnWindow ", "None": "<nil> MerchantReturnNotPermitted ", "Ask me": "<nil>  ", "7 days to tell me, 14 days to send it": "<nil>  ",
		"30-day returns, free returns": "30 MerchantReturnFiniteReturnWindow FreeReturn",
	} {
		m := returnPolicy(&report.Public{Returns: text})
		short := func(key string) string { s, _ := m[key].(string); return strings.TrimPrefix(s, "https://schema.org/") }
		if got := fmt.Sprintf("%v %s %s", m["merchantReturnDays"], short("returnPolicyCategory"), short("returnFees")); got != want {
			t.Errorf("returns %q: %q, want %q", text, got, want)
		}
		if m["description"] != text {
			t.Errorf("returns %q: the maker's own words are %v", text, m["description"])
		}
	}
}

// The address of a page is one and the same wherever it stands, escaped once: in
// canonical, Open Graph and structured data; the QR code is held to it in sheet.
func TestAddressesAreEqual(t *testing.T) {
	for _, base := range []string{"https://ostrel.example/pieces", "https://ostrel.example/pieces/", "https://ostrel.example/st%C3%BCcke/", "https://ostrel.example/stücke", "https://ostrel.example/o'yard(1)/", "https://ostrel.example/?shop=a&b=c", "https://ostrel.example/a%20b"} {
		r := shipped()
		r.BaseURL = base
		html, err := Listing(r, options(t))
		if err != nil {
			t.Fatal(err)
		}
		unescape := strings.NewReplacer("&amp;", "&", "&#43;", "+", "&#39;", "'")
		var found []string
		for _, pattern := range []string{`rel="canonical" href="([^"]*)"`, `property="og:url" content="([^"]*)"`} {
			if m := regexp.MustCompile(pattern).FindSubmatch(html); m != nil {
				found = append(found, unescape.Replace(string(m[1])))
			}
		}
		ld := structured(t, html)[0]
		found = append(found, fmt.Sprint(ld["url"]), fmt.Sprint(at(ld, "offers", "url")), r.Address())
		if len(slices.Compact(slices.Clone(found))) != 1 || len(found) != 5 || strings.Contains(found[0], "%25") {
			t.Errorf("base %s: %q", base, found)
		}
		image := regexp.MustCompile(`property="og:image" content="([^"]*)"`).FindSubmatch(html)
		if image == nil || !strings.HasPrefix(unescape.Replace(string(image[1])), strings.SplitN(found[0], "?", 2)[0]+"photos/01-") || strings.Contains(string(image[1]), "cphotos") {
			t.Errorf("base %s: the picture is at %s", base, image)
		}
		for _, want := range []string{`property="og:locale" content="en_GB"`, `property="og:site_name" content="Ostrel Yard"`} {
			if !bytes.Contains(html, []byte(want)) {
				t.Errorf("no %s", want)
			}
		}
	}
}
