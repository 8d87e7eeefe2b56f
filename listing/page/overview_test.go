package page

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/report"
)

// pieceOf is a piece of a collection: priced, costed, with what a maker hears of most.
func pieceOf(i int) Entry {
	r := fullest()
	r.Public.Serial, r.Public.Title = fmt.Sprintf("OY-%04d", 1000+i), fmt.Sprintf("Window bench of two slabs and one seam, number %d", i)
	r.Public.Finished = fmt.Sprintf("20%02d-%02d-12", 24+i/100, 1+i%12)
	r.Public.Available = []string{"in stock", "sold", "made to order", "reserved"}[i%4]
	r.Findings = []piece.Finding{
		{Rank: piece.Doubt, Code: "photo.small-print", File: "IMG_2041.jpg", Message: "only 900 pixels along its longer side are left, too few to print well", Remedy: "use the camera's full size; 1340 are needed for the sheet"},
		{Rank: piece.Doubt, Code: "photo.unsure", File: "IMG_2041.jpg", Message: "its square and tall pictures reach beyond the photo, since it is not sure where the piece ends", Remedy: "give the piece's place"},
		{Rank: piece.Note, Code: "photo.views", Message: "no photo shows: end, above, underside, edge, maker's mark, scale", Remedy: "take them if you can"},
	}
	if i%5 == 0 {
		r.Costs.Margin = -265.5
		r.Findings = append(r.Findings, piece.Finding{Rank: piece.Note, Code: "price.below-cost", File: "piece.yaml", Line: 60, Message: "the price is £265.50 below what the piece cost", Remedy: "look at hours and rate, or at the price"})
	}
	r.Photos[0].Before, r.Photos[0].After = "overview/01-three-quarter-before.jpg", "overview/01-three-quarter-after.jpg"
	return Entry{Folder: r.Public.Serial, Report: r}
}

// The overview of 200 pieces has 150 kB at most, one stop of the Tab key in a row,
// and what was sold folds away.
func TestOverviewOfTwoHundred(t *testing.T) {
	var entries []Entry
	for i := range 200 {
		entries = append(entries, pieceOf(i))
	}
	data, err := Overview(entries, nil, options(t))
	if err != nil {
		t.Fatal(err)
	}
	if len(data) > 150_000 {
		t.Errorf("%d bytes, more than 150,000", len(data))
	}
	t.Logf("%d bytes", len(data))
	rows := regexp.MustCompile(`(?s)<li id="p-.*?</li>`).FindAllString(string(data), -1)
	if len(rows) != 200 {
		t.Fatalf("%d rows, want 200", len(rows))
	}
	stops := regexp.MustCompile(`<(a|button|input|select|summary|textarea)\b|tabindex`)
	for _, r := range rows {
		if n := len(stops.FindAllString(r, -1)); n != 1 {
			t.Fatalf("%d stops of the Tab key in %s", n, r)
		}
	}
	board, sold, _ := strings.Cut(string(data), `<details id="sold">`)
	if a, b := strings.Count(board, `<li id="p-`), strings.Count(sold, `<li id="p-`); a != 150 || b != 50 {
		t.Errorf("%d on the board and %d sold, want 150 and 50", a, b)
	}
	if !strings.Contains(rows[0], "£265.50 below what the piece cost") || !strings.Contains(rows[0], "margin −£265.50") {
		t.Errorf("the first row is not one that loses money: %s", rows[0])
	}
	if n := strings.Count(string(data), "IMG_2041"); n != 0 {
		t.Errorf("the photos stand on the overview %d times; they load when a piece is opened", n)
	}
}

// Tonight's list names what is alike once, with the pieces; money comes before
// pixels, and photos of what is sold are left alone.
func TestTonight(t *testing.T) {
	var entries []Entry
	for i := range 12 {
		entries = append(entries, pieceOf(i))
	}
	rows := tonight(entries, options(t))
	var said []string
	for _, r := range rows {
		said = append(said, fmt.Sprintf("%s: %d and %d", r.first.Code, len(r.Pieces), r.More))
	}
	if got, want := strings.Join(said, "; "), "price.below-cost: 2 and 0; photo.small-print: 6 and 3; photo.unsure: 6 and 3"; got != want { // of 0, 5 and 10 the second is sold
		t.Errorf("%s, want %s", got, want)
	}
	for _, p := range rows[1].Pieces {
		if p.Serial == "OY-1001" {
			t.Error("a sold piece's photo is something to do tonight")
		}
	}
}

// A doubt about the papers of a sold piece stands on the list, behind the rest; its
// photos do not, and nor does what was only worth knowing.
func TestTonightOfSoldPieces(t *testing.T) {
	of := func(serial, available string, findings ...piece.Finding) Entry {
		r := fullest()
		r.Public.Serial, r.Public.Available, r.Findings = serial, available, findings
		return Entry{Folder: serial, Report: r}
	}
	base := piece.Finding{Rank: piece.Doubt, Code: "base.missing", Message: "no base is described"}
	tree := piece.Finding{Rank: piece.Doubt, Code: "wood.namesake", Message: "which tree"}
	tips := piece.Finding{Rank: piece.Doubt, Code: "stability.tips", Message: "it tips"}
	soft := piece.Finding{Rank: piece.Doubt, Code: "photo.soft", File: "a.jpg", Message: "it looks out of focus"}
	cost := piece.Finding{Rank: piece.Note, Code: "price.below-cost", Message: "below what it cost"}
	for _, c := range []struct {
		entries []Entry
		want    string
	}{
		{[]Entry{of("OY-1", "sold", tree, soft, cost)}, "wood.namesake"},
		{[]Entry{of("OY-1", "sold", soft, cost)}, ""},
		{[]Entry{of("OY-1", "sold", tree, tips), of("OY-2", "in stock", soft)}, "stability.tips photo.soft wood.namesake"},
		{[]Entry{of("OY-1", "sold", tree, base), of("OY-2", "in stock", base, soft)}, "base.missing photo.soft wood.namesake"},
	} {
		var codes []string
		for _, row := range tonight(c.entries, options(t)) {
			codes = append(codes, row.first.Code)
		}
		if got := strings.Join(codes, " "); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

// A thing that is the matter with a photo names the photo, and how many more there are.
func TestTonightNamesThePhoto(t *testing.T) {
	soft := func(file, message string) piece.Finding {
		return piece.Finding{Rank: piece.Doubt, Code: "photo.soft", File: file, Message: message}
	}
	of := func(serial string, findings ...piece.Finding) Entry {
		r := fullest()
		r.Public.Serial, r.Public.Available, r.Findings = serial, "in stock", findings
		return Entry{Folder: serial, Report: r}
	}
	for _, c := range []struct {
		entries []Entry
		where   string
	}{
		{[]Entry{of("OY-1", soft("yard/OY-1/IMG_2041.jpg", "it is soft"))}, "IMG_2041.jpg"},
		{[]Entry{of("OY-1", soft("a.jpg", "it is soft"), soft("b.jpg", "it is soft"), soft("c.jpg", "it is soft"))}, "a.jpg and 2 more"},
		{[]Entry{of("OY-1", soft("a.jpg", "5 % is soft"), soft("b.jpg", "9 % is soft")), of("OY-2", soft("d.jpg", "8 % is soft"), soft("e.jpg", "8 % is soft"))}, "OY-1, a.jpg and 1 more"},
		{[]Entry{of("OY-1", soft("a.jpg", "it is soft")), of("OY-2", soft("d.jpg", "it is soft"))}, ""},
		{[]Entry{of("OY-1", piece.Finding{Rank: piece.Doubt, Code: "base.missing", File: "piece.yaml", Message: "no base"})}, ""},
	} {
		if rows := tonight(c.entries, options(t)); len(rows) != 1 || rows[0].Where != c.where {
			t.Errorf("%d rows, said of %q, want %q", len(rows), rows[0].Where, c.where)
		}
	}
}

// Money is written as the currency's readers write it, negative amounts too.
func TestMoneyOnTheOverview(t *testing.T) {
	e := pieceOf(0)
	for amount, want := range map[float64]string{-265: "margin −£265<", 1890: "margin £1,890<", -0.5: "margin −£0.50<", -1234567.25: "margin −£1,234,567.25<", 0: "margin £0<"} {
		e.Report.Costs.Margin = amount
		data, err := Overview([]Entry{e}, nil, options(t))
		if err != nil || !strings.Contains(string(data), want) {
			t.Errorf("%.2f: %v; %q is not there", amount, err, want)
		}
	}
}

// A piece of an earlier version has no page for its maker: its row leads to what
// there is.
func TestPieceWithoutPage(t *testing.T) {
	e := pieceOf(1)
	e.Unpaged = true
	data, err := Overview([]Entry{e}, []LeftOut{{Dir: "x", Findings: make([]piece.Finding, 9)}}, options(t))
	if err != nil || !strings.Contains(string(data), `href="OY-1001/report.json"`) || strings.Contains(string(data), "OY-1001/overview/index.html") {
		t.Errorf("%v; %s", err, data)
	}
	if !strings.Contains(string(data), "and 6 more; slabfolio check tells them all") {
		t.Error("the findings of a piece that was left out are cut without a word")
	}
}

// Every phrase that the script says is said, and each is used by it.
func TestPhrasesOfPointing(t *testing.T) {
	for _, id := range pointPhrases {
		stem := strings.TrimRight(regexp.MustCompile(`^(help|point|paste|corner)-.*`).ReplaceAllString(id, "$1-"), " ")
		if !strings.Contains(pointScript, stem) {
			t.Errorf("nothing says %s", id)
		}
	}
	var r report.Report
	if _, err := PieceOverview(&r, &Pointing{}, func(string) bool { return false }, options(t)); err != nil {
		t.Error(err)
	}
}
