package page

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"slabfolio/listing/report"
)

// shopEntries are pieces of a shop with hostile names, and some that are not for
// anybody's eyes.
func shopEntries() []Entry {
	var entries []Entry
	for i := range 24 {
		e := pieceOf(i)
		pub := &e.Report.Public
		pub.Kind = []string{"desk", "bench", "shelf"}[i%3]
		pub.Available = []string{"in stock", "sold", "reserved", "not for sale", "made to order"}[i%5]
		pub.Dimensions.Length = mm([]float64{500, 609.6, 609.7, 1300, 2500}[i%5])
		if i%4 == 0 {
			pub.Materials[0].Name = "European oak"
		}
		entries = append(entries, e)
	}
	entries[0].Report.Public.Title = "</title></script><script>alert(1)</script> & \x01 ]]> \"x\""
	return entries
}

func shopOptions(t *testing.T) *Options {
	o := options(t)
	o.BaseURL = "https://ostrel.example/pieces/"
	return o
}

// A node is an element of any XML file.
type node struct {
	XMLName  xml.Name
	Attrs    []xml.Attr `xml:",any,attr"`
	Text     string     `xml:",chardata"`
	Children []node     `xml:",any"`
}

func (n *node) all(name string) (found []node) {
	for _, c := range n.Children {
		if c.XMLName.Local == name {
			found = append(found, c)
		}
	}
	return found
}

func (n *node) attr(name string) string {
	i := slices.IndexFunc(n.Attrs, func(a xml.Attr) bool { return a.Name.Local == name })
	if i < 0 {
		return ""
	}
	return n.Attrs[i].Value
}

func parsed(t *testing.T, data []byte) *node {
	t.Helper()
	n := new(node)
	if err := xml.Unmarshal(data, n); err != nil {
		t.Fatalf("%v in\n%s", err, data)
	}
	return n
}

// once fails unless each of the elements stands once in n (RFC 4287: "MUST contain
// exactly one").
func (n *node) once(t *testing.T, names ...string) {
	t.Helper()
	for _, name := range names {
		if got := len(n.all(name)); got != 1 {
			t.Errorf("%d of %s in %s, want one", got, name, n.XMLName.Local)
		}
	}
}

// The feed keeps the rules of RFC 4287: 4.1.1 and 4.1.2, what a feed and an entry
// must and may hold; 3.2, a person has one name; 3.3, dates by RFC 3339; 4.2.6, ids
// are IRIs with a scheme and no two entries share one; 4.2.7, links and their relations;
// 4.1.2, without content there is a link to the other form of it.
func TestFeed(t *testing.T) {
	const atom = "http://www.w3.org/2005/Atom"
	c, err := NewCatalogue(shopEntries(), shopOptions(t))
	if err != nil {
		t.Fatal(err)
	}
	feed := parsed(t, c.Feed)
	if feed.XMLName != (xml.Name{Space: atom, Local: "feed"}) {
		t.Fatalf("the root is %v", feed.XMLName)
	}
	may := map[string][]string{
		"feed":  {"author", "category", "contributor", "generator", "icon", "id", "link", "logo", "rights", "subtitle", "title", "updated", "entry"},
		"entry": {"author", "category", "content", "contributor", "id", "link", "published", "rights", "source", "summary", "title", "updated"},
	}
	feed.once(t, "id", "title", "updated", "author")
	author := feed.all("author")[0]
	author.once(t, "name")
	entries := feed.all("entry")
	if len(entries) != 14 {
		t.Errorf("%d entries, want the 14 on offer", len(entries))
	}
	var ids, days []string
	for _, n := range append([]node{*feed}, entries...) {
		n.once(t, "id", "title", "updated")
		for _, c := range n.Children {
			if c.XMLName.Space != atom || !slices.Contains(may[n.XMLName.Local], c.XMLName.Local) {
				t.Errorf("%v may not stand in %s", c.XMLName, n.XMLName.Local)
			}
		}
		id, updated := n.all("id")[0].Text, n.all("updated")[0].Text
		if u, err := url.Parse(id); err != nil || !u.IsAbs() || slices.Contains(ids, id) && n.XMLName.Local == "entry" && id != ids[0] {
			t.Errorf("the id %q is no address of its own: %v", id, err)
		}
		if _, err := time.Parse(time.RFC3339, updated); err != nil {
			t.Error(err)
		}
		ids, days = append(ids, id), append(days, updated)
		checkLinks(t, &n)
	}
	if days[0] != days[1] || !slices.IsSortedFunc(days[1:], func(a, b string) int { return strings.Compare(b, a) }) {
		t.Errorf("the latest does not stand first, or is not the feed's day: %v", days)
	}
	if again, err := NewCatalogue(shopEntries(), shopOptions(t)); err != nil || !bytes.Equal(again.Feed, c.Feed) {
		t.Errorf("made again it is another: %v", err)
	}
}

// checkLinks holds the links of a feed or entry to RFC 4287, 4.2.7.
func checkLinks(t *testing.T, n *node) {
	t.Helper()
	var rels []string
	for _, l := range n.all("link") {
		u, err := url.Parse(l.attr("href"))
		if err != nil || !u.IsAbs() || !strings.HasPrefix(u.String(), "https://ostrel.example/pieces/") {
			t.Errorf("a link leads to %q: %v", l.attr("href"), err)
		}
		rels = append(rels, l.attr("rel")+" "+l.attr("type"))
	}
	want := []string{"alternate text/html"}
	if n.XMLName.Local == "feed" {
		want = append(want, "self application/atom+xml")
	}
	slices.Sort(rels)
	if len(slices.Compact(slices.Clone(rels))) != len(rels) {
		t.Errorf("%s has two links of one kind: %q", n.XMLName.Local, rels)
	}
	for _, w := range want {
		if !slices.Contains(rels, w) {
			t.Errorf("%s lacks its link %s: %q", n.XMLName.Local, w, rels)
		}
	}
}

// The sitemap keeps the protocol 0.9 of sitemaps.org: addresses are whole, shorter
// than 2,048 letters, below the sitemap's own folder and each once; days are W3C dates.
func TestSitemap(t *testing.T) {
	c, err := NewCatalogue(shopEntries(), shopOptions(t))
	if err != nil {
		t.Fatal(err)
	}
	m := parsed(t, c.Sitemap)
	if m.XMLName != (xml.Name{Space: "http://www.sitemaps.org/schemas/sitemap/0.9", Local: "urlset"}) {
		t.Fatalf("the root is %v", m.XMLName)
	}
	var all []string
	for _, u := range m.all("url") {
		u.once(t, "loc", "lastmod")
		loc := u.all("loc")[0].Text
		if len(loc) >= 2048 || !strings.HasPrefix(loc, "https://ostrel.example/pieces/") {
			t.Errorf("%q does not lie below the sitemap", loc)
		}
		if _, err := time.Parse(time.DateOnly, u.all("lastmod")[0].Text); err != nil {
			t.Error(err)
		}
		all = append(all, loc)
	}
	if slices.Sort(all); len(all) != 15 || len(slices.Compact(all)) != 15 {
		t.Errorf("%d addresses, want the page and 14 pieces: %q", len(all), all)
	}
}

// Where no address is known there is no feed: RFC 4287 wants addresses in it.
func TestNoFeedWithoutAddress(t *testing.T) {
	c, err := NewCatalogue(shopEntries(), options(t))
	if err != nil || c.Feed != nil || c.Sitemap != nil || c.Web != nil || bytes.Contains(c.HTML, []byte("feed.xml")) {
		t.Errorf("%v; %s", err, c.HTML)
	}
	empty, err := NewCatalogue(nil, shopOptions(t))
	if err != nil {
		t.Fatal(err)
	}
	feed := parsed(t, empty.Feed)
	feed.once(t, "id", "title", "updated", "author")
}

// Nothing that is the maker's own stands in what covers the public pieces, and
// nothing of what is sold or not for sale on the page, in feed and sitemap.
func TestNothingPrivateInShop(t *testing.T) {
	entries := shopEntries()
	for _, e := range entries {
		e.Report.Buyer = &report.Buyer{Name: "Secret Buyer", Delivered: "2026-01-01"}
		e.Report.Costs.Hours = 777.25
	}
	c, err := NewCatalogue(entries, shopOptions(t))
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{"page": c.HTML, "web": c.Web, "feed": c.Feed, "sitemap": c.Sitemap, "CSV": c.CSV, "JSON": c.JSON} {
		for _, word := range []string{"971.53", "428.47", "265.5", "777.25", "Secret", "looks soft", "below what the piece cost", "piece.yaml", "IMG_2041"} {
			if bytes.Contains(data, []byte(word)) {
				t.Errorf("%s holds %q", name, word)
			}
		}
		for _, serial := range []string{"OY-1001", "OY-1003"} {
			if name != "CSV" && name != "JSON" && bytes.Contains(data, []byte(serial)) {
				t.Errorf("%s holds %s, which is not on offer", name, serial)
			}
		}
	}
	if bytes.Contains(c.HTML, []byte("<script>alert")) || bytes.Contains(c.Web, []byte("<script>alert")) {
		t.Error("a title became a script")
	}
}

// The list of pieces says how many there are, and where each stands. That its words
// are schema.org's is seen to with those of the other pages.
func TestItemList(t *testing.T) {
	c, err := NewCatalogue(shopEntries(), shopOptions(t))
	if err != nil {
		t.Fatal(err)
	}
	block := regexp.MustCompile(`(?s)<script type="application/ld\+json">(.*?)</script>`).FindSubmatch(c.Web)
	var list struct {
		NumberOfItems   int
		ItemListElement []struct {
			Position  int
			Name, URL string
		}
	}
	if err := json.Unmarshal(block[1], &list); err != nil {
		t.Fatal(err)
	}
	if n := len(list.ItemListElement); n != 14 || list.NumberOfItems != 14 {
		t.Errorf("%d items, said to be %d", n, list.NumberOfItems)
	}
	for i, item := range list.ItemListElement {
		if item.Position != i+1 || item.Name == "" || !strings.HasPrefix(item.URL, "https://ostrel.example/pieces/OY-10") {
			t.Errorf("%+v", item)
		}
	}
}

// Photos are of one shape: square renditions where there are any. A workshop
// without squares has the photo's own shape, in the same square.
func TestShopPhotos(t *testing.T) {
	p := photo("01-front", 2400, 1600)
	if got := shopPhotoOf(&p, "x/"); got.Src != "x/photos/01-front-square.jpg" || got.Width != got.Height || got.WebP != "" {
		t.Errorf("%+v", got)
	}
	p.Renditions = append(p.Renditions, report.Rendition{File: "q.webp", Width: 1200, Height: 1200, Format: "webp"}, report.Rendition{File: "q6.jpg", Width: 600, Height: 600, Format: "jpeg"}, report.Rendition{File: "q6.webp", Width: 600, Height: 600, Format: "webp"})
	if got := shopPhotoOf(&p, "x/"); got.Src != "x/q6.jpg" || got.SrcSet != "x/q6.jpg 600w, x/photos/01-front-square.jpg 1200w" || got.WebP != "x/q6.webp 600w, x/q.webp 1200w" {
		t.Errorf("%+v", got)
	}
	p.Renditions = p.Renditions[:3]
	if got := shopPhotoOf(&p, ""); got.Src != "photos/01-front-600.jpg" || got.Width != 600 || got.Height != 400 {
		t.Errorf("%+v", got)
	}
}

// The address of the page is one in canonical link, Open Graph and structured data,
// and the page at that address finds its pieces below it.
func TestShopAddresses(t *testing.T) {
	c, err := NewCatalogue(shopEntries(), shopOptions(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		`<link rel="canonical" href="https://ostrel.example/pieces/">`, `<meta property="og:url" content="https://ostrel.example/pieces/">`, `"url":"https://ostrel.example/pieces/"`,
		`<meta property="og:image" content="https://ostrel.example/pieces/OY-10`, `<meta property="og:site_name" content="Ostrel Yard">`,
	} {
		if !bytes.Contains(c.Web, []byte(want)) || !bytes.Contains(c.HTML, []byte(want)) {
			t.Errorf("%s is not there", want)
		}
	}
	if !bytes.Contains(c.Web, []byte(`<a href="OY-1002/">`)) || !bytes.Contains(c.HTML, []byte(`<a href="../OY-1002/listing/index.html">`)) {
		t.Error("the pieces are not found")
	}
}
