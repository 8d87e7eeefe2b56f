package intake

import (
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// upTo begins an interview and goes on to a question by its first words.
func upTo(t *testing.T, earlier *piece.Written, ask string) *Interview {
	t.Helper()
	iv := begin(t, "in", "GBP", earlier)
	sure := map[string]string{"What kind": "coffee table", "What is": "Table", "How long": "44", "How wide": "24", "How thick": "2"}
	for {
		q, ok := iv.Next()
		if !ok {
			t.Fatalf("no question %q", ask)
		}
		if strings.HasPrefix(q.Ask, ask) {
			return iv
		}
		answer := "skip"
		for begins, a := range sure {
			if strings.HasPrefix(q.Ask, begins) {
				answer = a
			}
		}
		iv.Answer(answer)
	}
}

func asks(iv *Interview) string {
	q, _ := iv.Next()
	return q.Ask
}

// Behind a refused answer Enter takes nothing, at any question that proposes
// something; "same" still does.
func TestEnterTakesNothingBehindARefusal(t *testing.T) {
	earlier, err := piece.ParseWritten("piece.yaml", []byte("kind: bench\nserial: a\ntitle: b\ntop: {wood: {species: black-walnut}}\nbase: {style: two frames, material: steel}\nfinish: {family: hardwax-oil}\n"))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ ask, wrong, path, same string }{
		{"What kind", "settle of some kind", "kind", "bench"},
		{"Which wood", "Red oak, cherry", "top.wood", "black-walnut"},
		{"What does it stand on", "40 %", "base", "steel two frames"},
		{"What finish", "the blue tin", "finish", "hardwax-oil"},
	} {
		iv := upTo(t, earlier, c.ask)
		if q, _ := iv.Next(); q.Enter != c.same {
			t.Errorf("%s: proposes %q, want %q", c.ask, q.Enter, c.same)
		}
		if r := iv.Answer(c.wrong); r.Wrong == "" {
			t.Errorf("%s: %q is taken", c.ask, c.wrong)
		}
		for range 2 {
			q, _ := iv.Next()
			r := iv.Answer("")
			if q.Enter != "" || !strings.Contains(r.Wrong, "Enter takes nothing") || !strings.Contains(r.Remedy, c.same) || iv.Known.Find(c.path) != nil || !strings.HasPrefix(asks(iv), c.ask) {
				t.Errorf("%s: Enter behind %q: %+v, %s", c.ask, c.wrong, r, iv.Known.Lines(""))
			}
		}
		if iv.Answer("same"); iv.Known.Find(c.path) == nil || strings.HasPrefix(asks(iv), c.ask) {
			t.Errorf("%s: same is not taken: %s", c.ask, iv.Known.Lines(""))
		}
	}
	w := NewWorkshop()
	for !strings.HasPrefix(asks(w), "Which unit") {
		w.Answer("skip")
	}
	w.Answer("furlongs")
	if r := w.Answer(""); r.Wrong == "" || w.Known.Find("units") != nil {
		t.Errorf("the unit: %+v", r)
	}
}

// Every remedy that says what "yes" takes offers an answer that is taken.
func TestYesTakesWhatIsAnAnswer(t *testing.T) {
	for _, c := range []struct{ ask, answer string }{
		{"Which wood", "cherry"}, {"Which wood", "walnutt"}, {"Which wood", "ash"}, {"What finish", "oil"}, {"What finish", "linseed oil"}, {"What kind", "river tabel"},
		{"How long", "about 30"}, {"How wide", "15,5"}, {"Any resin", "blue, 15"}, {"Any resin", "about half"}, {"What do you ask", "x"}, {"How thick", "16-18"},
		{"Any resin", "90 €"}, {"Any resin", "blue, 90 €"}, {"Any resin", "2026-09-18"}, {"What is", "90 €"}, {"What is", "40 cm"}, {"What does it", "90 €"}, {"What finish", "90 €"}, {"Which wood", "90 €"},
	} {
		iv := upTo(t, nil, c.ask)
		r := iv.Answer(c.answer)
		if _, meant, ok := strings.Cut(r.Remedy, `"yes" takes `); ok && strings.Contains(meant, " or ") {
			t.Errorf("%q: %s", c.answer, r.Remedy)
		} else if yes := iv.Answer("yes"); ok == strings.HasPrefix(asks(iv), c.ask) {
			t.Errorf("%q: %s; then yes: %+v", c.answer, r.Remedy, yes)
		}
	}
}

// Answers as makers give them, and what stands in the spec then. The sizes are
// trade usage (common practice, no source).
func TestAnswersAsMakersGiveThem(t *testing.T) {
	for _, c := range []struct {
		ask     string
		answers []string
		want    string // a line of the spec
		then    string // the question that is put then; "" for the next whichever
	}{
		{"Which wood", []string{"walnut and blue resin", "black walnut"}, "resin: {colour: blue}", "Any resin"},
		{"Which wood", []string{"walnut, blue resin 18 %", "black walnut"}, "resin: {area: 18 %, colour: blue}", "What does"},
		{"Which wood", []string{"walnut and blue resin", "walnut"}, "wood: {species: walnut}", "Any resin"},
		{"Any resin", []string{"clear with blue swirls about 15 percent"}, "resin: {area: 15 %, colour: clear with blue swirls}", "What does"},
		{"Any resin", []string{"clear with blue swirls, 15", "yes"}, "resin: {colour: clear with blue swirls, area: 15 %}", "What does"},
		{"Any resin", []string{"clear with blue swirls, 15", ""}, "resin: {colour: clear with blue swirls}", "What does"},
		{"Any resin", []string{"blue, about a fifth", "yes"}, "resin: {colour: blue, area: 20 %}", "What does"},
		{"Any resin", []string{"green resin, 3 litres", "mixed 3 litres"}, "resin: {colour: green, mixed: 3 litres}", "What does"},
		{"Any resin", []string{"blue, 180 %", "18 %"}, "resin: {colour: blue, area: 18 %}", "What does"},
		{"Any resin", []string{"walnut and clear with blue swirls resin, 15 %"}, "resin: {area: 15 %, colour: \"clear, blue swirls\"}", "What does"},
		{"Any resin", []string{"amber end, 8 inches long", ""}, "resin: {colour: amber}", "What does"},
		{"Any resin", []string{"amber end, 12 %"}, "resin: {area: 12 %, colour: amber end}", "What does"},
		{"Any resin", []string{"teal, 30 cm wide at one end", "12 %"}, "resin: {colour: teal, area: 12 %}", "What does"},
		{"Which wood", []string{"half european ash half black walnut"}, "{species: european ash, share: 50 %}", "Any resin"},
		{"Which wood", []string{"half ash, half black walnut", "50 % european ash, 50 % black walnut"}, "{species: black walnut, share: 50 %}", "Any resin"},
		{"Which wood", []string{"Black Walnut (Juglans nigra)"}, "Black Walnut (Juglans nigra)", "Any resin"},
		{"What does", []string{"steel hairpin legs 16 in"}, "base: {height: 16 in, material: steel, style: hairpin legs}", "What finish"},
		{"What does", []string{"steel hairpin legs 16 in high"}, "base: {height: 16 in, material: steel, style: hairpin legs}", "What finish"},
		{"What does", []string{"steel hairpin legs 16 in, 11 lb"}, "base: {height: 16 in, material: steel, style: hairpin legs, weight: 11 lb}", "What finish"},
		{"What does", []string{"oak trestles 400 mm"}, "base: {height: 400 mm, style: oak trestles}", "What finish"},
		{"What does", []string{"steel tube 40 mm"}, "base: {material: steel, style: tube 40 mm}", "What finish"},
		{"What does", []string{"steel tube 2 x 2 in"}, "base: {material: steel, style: tube 2 x 2 in}", "What finish"},
		{"Any resin", []string{"blue resin, 15 to 20 %", "18 %"}, "resin: {colour: blue, area: 18 %}", "What does"},
		{"Any resin", []string{"2 pours of blue, 20 %"}, "resin: {area: 20 %, colour: 2 pours of blue}", "What does"},
		{"Any resin", []string{"deep blue 20 %, two pours"}, "resin: {area: 20 %, colour: \"deep blue, two pours\"}", "What does"},
		{"What does", []string{"28 3/4 in high steel frame"}, "base: {height: 28 3/4 in, material: steel, style: frame}", "What finish"},
		{"What does", []string{"steel frame, 28 3/4\" to the underside"}, "base: {height: \"28 3/4\\\"\", material: steel, style: frame}", "What finish"},
		{"What does", []string{"legs of 2 in steel tube, 16 in high, 24 lbs"}, "base: {height: 16 in, material: steel, style: legs of 2 in steel tube, weight: 24 lbs}", "What finish"},
		{"How long", []string{"six feet"}, "outline: {length: 6 ft}", "How wide"},
		{"How long", []string{"six foot two long"}, "outline: {length: 6 ft 2 in}", "How wide"},
		{"How long", []string{"three foot round"}, "outline: {diameter: 3 ft}", "How thick"},
		{"How thick", []string{"one and three-quarter inch"}, "thickness: 1 3/4 in", "Which wood"},
		{"How thick", []string{"1 and 3/4"}, "thickness: 1 3/4 in", "Which wood"},
		{"Which wood", []string{"same", "same", "elm"}, "thickness: 2 in", "Which wood"},
		{"What do you ask", []string{"1.850 EUR", "yes"}, "price: {amount: 1850, currency: EUR}", ""},
		{"What do you ask", []string{"0"}, "", "What do you ask"},
		{"What do you ask", []string{"1850 XYZ"}, "", "What do you ask"},
		{"What do you ask", []string{"$1,850.50"}, "price: {amount: 1850.50, currency: USD}", ""},
		{"What finish", []string{"danish oil, 2 coats, satin"}, "finish: {coats: 2, family: oil-varnish-blend, sheen: satin}", "What do you ask"},
		{"How long", []string{"36 inch round"}, "outline: {diameter: 36 inch}", "How thick"},
		{"How long", []string{"36 in round"}, "outline: {diameter: 36 in}", "How thick"},
		{"How long", []string{"a round top, 36 inches across"}, "outline: {diameter: 36 inches}", "How thick"},
		{"How long", []string{"36 inches across"}, "outline: {diameter: 36 inches}", "How thick"},
		{"How long", []string{"36 in dia."}, "outline: {diameter: 36 in}", "How thick"},
		{"How wide", []string{"44 in dia"}, "outline: {diameter: 44 in}", "How thick"},
		{"How wide", []string{"36 in across"}, "outline: {length: 44 in, width: 36 in}", "How thick"},
		{"How wide", []string{"36 inch round"}, "outline: {length: 44 in}", "How wide"},
		{"How wide", []string{"44 in across"}, "outline: {length: 44 in}", "How wide"},
		{"How wide", []string{"16 1/2 to 18"}, "outline: {length: 44 in}", "How wide"},
		{"How wide", []string{"between 16 and 18"}, "outline: {length: 44 in}", "How wide"},
		{"How wide", []string{"16-1/2"}, "width: 16-1/2 in", "How thick"},
		{"How thick", []string{"inch and three quarters"}, "thickness: 1 3/4 in", "Which wood"},
		{"How thick", []string{"an inch and a half thick"}, "thickness: 1 1/2 in", "Which wood"},
		{"How thick", []string{"two and five eighths"}, "thickness: 2 5/8 in", "Which wood"},
		{"How thick", []string{"three quarters of an inch"}, "thickness: 3/4 in", "Which wood"},
		{"How thick", []string{"two inches"}, "thickness: 2 in", "Which wood"},
		{"How long", []string{"2,20 m x 95,5 cm x 4 cm"}, "outline: {length: 2.20 m, width: 95.5 cm}\n  thickness: 4 cm", "Which wood"},
		{"How long", []string{"15,5"}, "", "How long"},
		{"How wide", []string{"37,38 cm"}, "outline: {length: 44 in}", "How wide"},
		{"Any resin", []string{"yes, blue epoxy, about a fifth", "yes"}, "resin: {colour: blue, area: 20 %}", "What does"},
		{"Any resin", []string{"Ja, rauchgrau, 18,5 %"}, "resin: {area: 18.5 %, colour: rauchgrau}", "What does"},
		{"Any resin", []string{"sí: azul, 12 %"}, "resin: {area: 12 %, colour: azul}", "What does"},
		{"What does", []string{"zwei Stahlkufen, 71 cm hoch, 24,5 kg"}, "base: {height: 71 cm, style: zwei Stahlkufen, weight: 24.5 kg}", "What finish"},
		{"What does", []string{"four hairpin legs 16\" 3 lb each"}, "base: {height: \"16\\\"\", style: four hairpin legs, weight: 12 lb}", "What finish"},
		{"What does", []string{"3 steel legs, 16 in high, 1.1 kg each"}, "base: {height: 16 in, material: steel, style: 3 steel legs, weight: 3.3 kg}", "What finish"},
		{"What does", []string{"zwei Kufen, je 12 kg, 71 cm hoch"}, "base: {height: 71 cm, style: zwei Kufen, weight: 24 kg}", "What finish"},
		{"What does", []string{"hairpin legs, 3 lb each"}, "base: {style: \"hairpin legs, 3 lb each\"}", "What finish"},
		{"What does", []string{"deux pieds, 70 cm de haut, 9 kg"}, "base: {height: 70 cm, style: deux pieds, weight: 9 kg}", "What finish"},
		{"What finish", []string{"hardwax oil, 2 Schichten, matt"}, "finish: {coats: 2, family: hardwax-oil, sheen: matt}", "What do you ask"},
		{"What finish", []string{"hardwax oil, zwei Schichten, seidenmatt"}, "finish: {coats: 2, family: hardwax-oil, sheen: seidenmatt}", "What do you ask"},
		{"What finish", []string{"hardwax oil, deux couches"}, "finish: {coats: 2, family: hardwax-oil}", "What do you ask"},
		{"What finish", []string{"two coats of hardwax oil"}, "finish: {coats: 2, family: hardwax-oil}", "What do you ask"},
		{"What finish", []string{"hardwax oil, tres manos, mate"}, "finish: {coats: 3, family: hardwax-oil, sheen: mate}", "What do you ask"},
		{"What finish", []string{"hardwax oil, 2 lagen"}, "finish: {coats: 2, family: hardwax-oil}", "What do you ask"},
		{"What finish", []string{"hardwax oil, 2 kerrosta", "hardwax oil, 2 coats"}, "finish: {coats: 2, family: hardwax-oil}", "What do you ask"},
		{"What finish", []string{"hardwax oil, 2 kerrosta", "hardwax oil, 2 kerrosta"}, "finish: {family: hardwax-oil, product: 2 kerrosta}", "What do you ask"},
		{"What finish", []string{"hardwax oil, Quillon 3044"}, "finish: {family: hardwax-oil, product: Quillon 3044}", "What do you ask"},
		{"How thick", []string{"36 in round"}, "outline: {length: 44 in, width: 24 in}", "How thick"},
	} {
		iv := upTo(t, nil, c.ask)
		var said []string
		for _, a := range c.answers {
			r := iv.Answer(a)
			said = append(said, strings.Join(r.Notes, "; ")+" | "+r.Wrong+" | "+r.Remedy)
		}
		if got := iv.Known.Lines(""); !strings.Contains(got, c.want) || !strings.HasPrefix(asks(iv), c.then) {
			t.Errorf("%q: want %s and then %q; %q\n%s", c.answers, c.want, c.then, said, got)
		}
		for _, s := range said {
			if strings.Contains(s, "across across") {
				t.Error(s)
			}
		}
	}
	iv := begin(t, "in", "GBP", nil)
	play(t, iv, "side table", "", "skip", "36 in across", "2")
	if got := iv.Known.Lines(""); !strings.Contains(got, "outline: {diameter: 36 in}") || !strings.Contains(got, "thickness: 2 in") {
		t.Errorf("a round top at the thickness: %s", got)
	}
}

// A name on a tin is no guess at a kind of finish: what tells the kinds apart is
// listed. A table of any kind is asked back with the tables there are.
func TestRefusalsListWhatThereIs(t *testing.T) {
	for _, answer := range []string{"Quillon Polyq", "polyx", "Hemsworth Original 3044", "the blue tin", "Quillon satin", "Hemsworth matt"} {
		iv := upTo(t, nil, "What finish")
		if r := iv.Answer(answer); !strings.Contains(r.Remedy, `"hardwax-oil" (oil and hard wax from one tin)`) || !strings.Contains(r.Remedy, `"varnish" (oil-based`) || !strings.Contains(r.Remedy, `"shellac"`) {
			t.Errorf("%q: %+v", answer, r)
		}
	}
	for _, answer := range []string{"cafe table", "a round table", "table with drawers", "table, round"} {
		iv := begin(t, "in", "GBP", nil)
		if r := iv.Answer(answer); !strings.Contains(r.Remedy, `"coffee table"`) || !strings.Contains(r.Remedy, `"side table"`) {
			t.Errorf("%q: %+v", answer, r)
		}
	}
}

// What a kind says besides is understood and told: how many there are, and that others
// made it. Names of several languages, from memory.
func TestWhatAKindSaysBesides(t *testing.T) {
	for _, c := range []struct {
		answers []string
		want    string // the first lines of the spec
		title   string // what is proposed then
	}{
		{[]string{"pair of bedside tables"}, "kind: side table\nquantity: 2\n", "Pair of bedside tables"},
		{[]string{"two benches"}, "kind: bench\nquantity: 2\n", "Two benches"},
		{[]string{"a set of four stools"}, "kind: stool\nquantity: 4\n", "A set of four stools"},
		{[]string{"zwei Hocker"}, "kind: stool\nquantity: 2\n", "Zwei Hocker"},
		{[]string{"Paar Sitzbänke"}, "kind: bench\nquantity: 2\n", "Paar Sitzbänke"},
		{[]string{"deux tables basses"}, "kind: coffee table\nquantity: 2\n", "Deux tables basses"},
		{[]string{"una pareja de bancos"}, "kind: bench\nquantity: 2\n", "Una pareja de bancos"},
		{[]string{"2 krukken"}, "kind: stool\nquantity: 2\n", "2 krukken"},
		{[]string{"pair of tables", "side table"}, "kind: side table\nquantity: 2\n", "Side table"},
		{[]string{"restored bench"}, "kind: bench\nwork: restored\n", "Restored bench"},
		{[]string{"repaired stool"}, "kind: stool\nwork: repaired\n", "Repaired stool"},
		{[]string{"restaurierter Esstisch"}, "kind: dining table\nwork: restored\n", "Restaurierter Esstisch"},
		{[]string{"two restored benches"}, "kind: bench\nquantity: 2\nwork: restored\n", "Two restored benches"},
		{[]string{"two benches", "back", "bench"}, "kind: bench\n", "Bench"},
		{[]string{"two side tables"}, "kind: side table\nquantity: 2\n", "Two side tables"},
		{[]string{"two seat bench"}, "kind: bench\n", "Two seat bench"},
		{[]string{"four drawer desk"}, "kind: desk\n", "Four drawer desk"},
		{[]string{"2 m dining table"}, "kind: dining table\n", "2 m dining table"},
		{[]string{"waterfall desk"}, "kind: desk\n", "Waterfall desk"},
		{[]string{"dining tabel"}, "kind: dining table\n", "Dining table"},
		{[]string{"lamp"}, "kind: other\n", "Lamp"},
		{[]string{"cutting board"}, "kind: serving board\n", "Serving board"},
		{[]string{"Esstisch"}, "kind: dining table\n", "Esstisch"},
	} {
		iv := begin(t, "in", "GBP", nil)
		said := play(t, iv, c.answers...)
		q, _ := iv.Next()
		if got := iv.Known.Lines(""); got != "serial: OY-0001\n"+c.want || q.Enter != c.title {
			t.Errorf("%q: title [%s]\n%s", c.answers, q.Enter, said)
		}
	}
}

// Of several pieces it is asked once of how many the price is, unless the answer says so.
func TestOfHowManyAPriceIs(t *testing.T) {
	for _, c := range []struct {
		kind    string
		answers []string
		want    string
		open    bool // the price is asked for still
	}{
		{"pair of side tables", []string{"780"}, "price: {amount: 780}\n", true},
		{"pair of side tables", []string{"780", "for the pair"}, "price: {amount: 780, note: for the pair}\n", false},
		{"pair of side tables", []string{"780", "each"}, "price: {amount: 780, note: each}\n", false},
		{"pair of side tables", []string{"780", ""}, "price: {amount: 780}\n", false},
		{"pair of side tables", []string{"EUR 780 the pair"}, "price: {amount: 780, currency: EUR, note: for the pair}\n", false},
		{"two benches", []string{"600 for both"}, "price: {amount: 600, note: for the pair}\n", false},
		{"two benches", []string{"£400 each"}, "price: {amount: 400, note: each}\n", false},
		{"vier Hocker", []string{"800 zusammen"}, "price: {amount: 800, note: for the set}\n", false},
		{"two benches", []string{"600 for three"}, "", true},
		{"side table", []string{"780 the pair"}, "quantity: 2\n", false},
		{"side table", []string{"400 each"}, "price: {amount: 400, note: each}\n", false},
		{"side table", []string{"400 perhaps"}, "", true},
	} {
		iv := begin(t, "in", "GBP", nil)
		iv.Answer(c.kind)
		for !strings.HasPrefix(asks(iv), "What do you ask") {
			iv.Answer("skip")
		}
		said := play(t, iv, c.answers...)
		if got := iv.Known.Lines(""); !strings.Contains(got, c.want) || c.want == "" && iv.Known.Find("price") != nil || strings.HasPrefix(asks(iv), "What do you ask") != c.open {
			t.Errorf("%s, %q: want %s\n%s", c.kind, c.answers, c.want, said)
		}
		p, _ := piece.ParsePiece("piece.yaml", []byte(iv.Known.Lines("")), piece.Defaults{})
		if together := strings.Contains(c.want, "for the"); p.PricedTogether() != (together || c.want == "quantity: 2\n") {
			t.Errorf("%s, %q: the papers take it otherwise\n%s", c.kind, c.answers, said)
		}
	}
}

// A finish is known by what the tin's language calls it (names from memory); one that may
// be several is asked back.
func TestFinishesInOtherLanguages(t *testing.T) {
	for answer, want := range map[string]string{
		"danish oil, three coats": "oil-varnish-blend", "boiled linseed oil": "linseed-oil-boiled", "Hartwachsöl, 2 Aufträge": "hardwax-oil", "huile-cire": "hardwax-oil", "hardwaxolie": "hardwax-oil", "aceite-cera": "hardwax-oil", "2k oil": "hardwax-oil-2k", "Leinölfirnis": "linseed-oil-boiled",
		"Schellack": "shellac", "goma laca": "shellac", "cire d'abeille": "wax", "bijenwas": "wax", "unbehandelt": "bare", "shellack": "shellac", "tung-oel": "tung-oil",
		"Leinöl": "", "huile": "", "vernis": "", "lak": "", "hardwax": "", "old wax": "",
	} {
		iv := upTo(t, nil, "What finish")
		r := iv.Answer(answer)
		if got := iv.text("finish.family"); got != want || want == "" && r.Wrong == "" || want != "" && len(r.Notes) == 0 {
			t.Errorf("%q: %q, want %q; %+v", answer, got, want, r)
		}
	}
}

// Sides of the slab itself are shown as parts, so that they weigh something: how, in the
// maker's own sizes, as a spec takes it.
func TestSidesOfTheSlabAreShownAsParts(t *testing.T) {
	iv := begin(t, "in", "GBP", nil)
	said := play(t, iv, "waterfall desk", "", "1,37 m", "26\"", "1.75 in", "wych elm", "none", "waterfall: two sides of the slab, mitred, 28 in high")
	const want = "parts: [{name: side, material: wych elm, count: 2, size: [28 in, 26 in, 1 3/4 in]}]"
	if !strings.Contains(said, want) {
		t.Error(said)
	}
	p, findings := piece.ParsePiece("piece.yaml", []byte(iv.Known.Lines("")+want+"\nfinished: 2026-05-01\n"), piece.Defaults{})
	if len(p.Parts) != 1 || len(findings) > 0 {
		t.Errorf("%+v", findings)
	}
	iv = begin(t, "in", "GBP", nil)
	if said := play(t, iv, "desk", "", "54", "26", "2", "wych elm", "none", "steel frame, 28 in high"); strings.Contains(said, "parts:") {
		t.Error(said)
	}
}

// The country is asked once, and taken by letters or name (ISO 3166-1).
func TestCountryOfTheWorkshop(t *testing.T) {
	for answer, want := range map[string]string{"GB": "GB", "uk": "GB", "U.K.": "GB", "England": "GB", "ireland": "IE", "The Netherlands": "NL", "USA": "US", "united states": "US", "germany": "DE", "de": "DE", "Côte d’Ivoire": "CI", "Georgia": "", "GE": "GE", "Georgien": "", "Narnia": "", "EU": "", "ZZ": "", "QQ": ""} {
		iv := NewWorkshop()
		iv.Answer("Ostrel Yard")
		iv.Answer("skip")
		r := iv.Answer(answer)
		if got := iv.text("workshop.country"); got != want || (want == "") != (r.Wrong != "") {
			t.Errorf("%q: %q, want %q; %+v", answer, got, want, r)
		}
	}
}

// Dollars that are not said whose are the workshop's, where it has dollars.
func TestDollarsAreTheWorkshops(t *testing.T) {
	for _, c := range []struct{ money, answer, want string }{
		{"CAD", "$1,850", "price: {amount: 1850}"}, {"AUD", "1850 dollars", "price: {amount: 1850}"}, {"CAD", "US$1,850", "price: {amount: 1850, currency: USD}"}, {"GBP", "$1,850", "price: {amount: 1850, currency: USD}"}, {"CAD", "1850 US dollars", "price: {amount: 1850, currency: USD}"},
	} {
		iv := begin(t, "in", c.money, nil)
		for !strings.HasPrefix(asks(iv), "What do you ask") {
			iv.Answer("skip")
		}
		if iv.Answer(c.answer); !strings.Contains(iv.Known.Lines(""), c.want+"\n") {
			t.Errorf("%s %s: %s", c.money, c.answer, iv.Known.Lines(""))
		}
	}
}

// Where no currency is known the figure is noted and its currency asked for; the letters
// or the name alone answer that.
func TestCurrencyAloneAnswersForAPrice(t *testing.T) {
	for _, answer := range []string{"GBP", "gbp", "pounds", "1450 GBP"} {
		iv := begin(t, "in", "", nil)
		for !strings.HasPrefix(asks(iv), "What do you ask") {
			iv.Answer("skip")
		}
		iv.Answer("1450")
		iv.Answer(answer)
		if got := iv.Known.Lines(""); !strings.Contains(got, "price: {amount: 1450, currency: GBP}\n") || strings.HasPrefix(asks(iv), "What do you ask") {
			t.Errorf("%s: %s", answer, got)
		}
	}
}

// Whoever goes back finds the answer that was given, and Enter, "same" and "skip" keep
// it; another takes its place, and a wrong one does not.
func TestBackKeepsTheAnswer(t *testing.T) {
	for _, enter := range []string{"", "same", "skip"} {
		iv := begin(t, "in", "GBP", nil)
		play(t, iv, "bench", "back")
		if q, _ := iv.Next(); q.Enter != "bench" {
			t.Errorf("%q: proposes %q, want bench", enter, q.Enter)
		}
		if r := iv.Answer(enter); r.Open || iv.text("kind") != "bench" || !strings.HasPrefix(asks(iv), "What is it called") {
			t.Errorf("%q: %+v, %s", enter, r, iv.Known.Lines(""))
		}
		play(t, iv, "back", "settle of some kind", "")
		if q, _ := iv.Next(); q.Enter != "" || iv.text("kind") != "bench" {
			t.Errorf("%q behind a wrong one: proposes %q; %s", enter, q.Enter, iv.Known.Lines(""))
		}
		if play(t, iv, "stool"); iv.text("kind") != "stool" {
			t.Error(iv.Known.Lines(""))
		}
	}
	iv := upTo(t, nil, "Any resin")
	play(t, iv, "blue", "20 %", "back")
	if q, _ := iv.Next(); q.Enter != "blue, 20 %" {
		t.Errorf("two halves: %q", q.Enter)
	}
	if play(t, iv, ""); !strings.Contains(iv.Known.Lines(""), "resin: {colour: blue, area: 20 %}") {
		t.Error(iv.Known.Lines(""))
	}
}
