package report

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"slabfolio/listing/units"
	"slabfolio/templates"
)

// pasted are pieces with the shortest and the longest of everything.
func pasted() map[string]*Public {
	mm := func(v float64) *float64 { return &v }
	long := strings.Repeat("The elm stood beside a mill leat, approx. 40 m from the gate, until the bank gave way. We kept the split! It runs 3.5 m. ", 40)
	return map[string]*Public{
		"shortest": {Serial: "OY-1", Title: "Board", Kind: "serving board", Finished: "2026-05-05", Quantity: 1},
		"usual": {Serial: "OY-0208", Title: "Millrace console table", Kind: "console table", Finished: "2026-05-27", Quantity: 1, Story: long, Found: "Two lead shot.", Mark: "A brass pin",
			Dimensions: &Dimensions{Length: mm(1422), Text: Text{In: "56 × 16¼ × 30¼ in", Cm: "142.2 × 41.3 × 76.8 cm"}}, Weight: &Weight{Kg: 32, Text: TextWeights{Lb: "70.5 lb, between 60 and 80", Kg: "32 kg, between 30 and 34"}},
			Materials: []Material{{Name: "Wych elm", Botanical: "Ulmus glabra", Role: "wood", Origin: "United Kingdom"}, {Name: "Cast resin", Detail: "bottle green, translucent", Role: "resin"}},
			Finish:    &Finish{Name: "hardwax oil", Sheen: "satin"}, Base: &Base{Style: "two frames", Material: "steel"}, Maker: &Maker{Name: "Ostrel Yard"}, Seats: 2},
		"longest": {Serial: strings.Repeat("X", 60), Title: strings.Repeat("Wide river table ", 30), Kind: "other", Finished: "2026-05-27", Story: strings.Repeat("word ", 500),
			Materials: slices.Repeat([]Material{{Name: "American black walnut", Role: "wood"}}, 40), Maker: &Maker{Name: strings.Repeat("Yard ", 50)}},
		"one word": {Serial: "OY-2", Title: strings.Repeat("Tischplatte", 20), Kind: "desk", Finished: "2026-05-27", Story: strings.Repeat("x", 3000)},
	}
}

// Texts keep to their lengths, end at a word or a sentence, say nothing that is not
// the maker's or a figure, and never the same thing twice, in every language.
func TestTextsToPaste(t *testing.T) {
	for _, lang := range templates.Langs() {
		words, err := templates.Open(lang)
		if err != nil {
			t.Fatal(err)
		}
		for name, pub := range pasted() {
			b := &builder{words: words, r: &Report{Public: *pub}}
			b.paste()
			x := b.r.Public.Texts
			check := func(kind string, texts map[int]string) {
				for n, s := range texts {
					if c := utf8.RuneCountInString(s); c > n || c == 0 || s != strings.TrimSpace(s) {
						t.Errorf("%s, %s: %s of %d characters has %d: %q", lang, name, kind, n, c, s)
					}
					for _, odd := range []string{"..", " .", " ,", ",,", "  ", "{{", "<no value>"} {
						if strings.Contains(s, odd) {
							t.Errorf("%s, %s: %s of %d characters holds %q: %q", lang, name, kind, n, odd, s)
						}
					}
				}
			}
			check("title", map[int]string{60: x.Titles.Upto60, 100: x.Titles.Upto100, 140: x.Titles.Upto140})
			check("description", map[int]string{160: x.Descriptions.Upto160, 300: x.Descriptions.Upto300, 1000: x.Descriptions.Upto1000})
			if utf8.RuneCountInString(x.Captions.Plain) > captionLength+utf8.RuneCountInString(pub.Title)+2 || !strings.HasPrefix(x.Captions.Tagged, x.Captions.Plain) || !strings.Contains(x.Captions.Tagged, "#") && name != "longest" {
				t.Errorf("%s, %s: captions %q", lang, name, x.Captions)
			}
			if strings.Contains(x.Captions.Plain, "#") {
				t.Errorf("%s, %s: a tag stands in the plain caption", lang, name)
			}
			if n := len(x.Keywords); n > dozenKeywords || n < 1 || len(slices.Compact(slices.Sorted(slices.Values(x.Keywords)))) != n {
				t.Errorf("%s, %s: keywords %q", lang, name, x.Keywords)
			}
			if strings.ContainsAny(strings.Join(x.Keywords, ""), "()") {
				t.Errorf("%s, %s: brackets among the keywords %q", lang, name, x.Keywords)
			}
			if name == "usual" && (len(x.Bullets) != fiveBullets || len(x.Keywords) != dozenKeywords) {
				t.Errorf("%s: %d bullets, %d keywords", lang, len(x.Bullets), len(x.Keywords))
			}
			own := strings.ToLower(pub.Title + pub.Story)
			for _, praise := range []string{"beautiful", "stunning", "unique", "perfect", "handmade", "luxur", "timeless", "einzigartig", "wunderschön", "perfekt", "handgemacht"} {
				for _, s := range append(append([]string{x.Titles.Upto140, x.Descriptions.Upto1000, x.Captions.Tagged}, x.Bullets...), x.Keywords...) {
					if strings.Contains(strings.ToLower(s), praise) && !strings.Contains(own, praise) {
						t.Errorf("%s, %s: praise that the maker did not write: %q", lang, name, s)
					}
				}
			}
		}
	}
}

// No two photos of a piece are described alike, whatever their captions say.
func TestNoAltTextTwice(t *testing.T) {
	words, err := templates.Open("en")
	if err != nil {
		t.Fatal(err)
	}
	long := strings.Repeat("the seam and the knot below it ", 20)
	var photos []Pictured
	for _, caption := range []string{"", "", "The seam", "the seam", "The seam (photo 1 of 2 like it)", "The seam (photo 2 of 2 like it)", long, long + "x", long + "y", "", "The seam."} {
		photos = append(photos, Pictured{View: "seam", Caption: caption})
	}
	seen := map[string]int{}
	for i, alt := range AltTexts(words, pasted()["usual"], photos) {
		if j, ok := seen[strings.ToLower(alt)]; ok {
			t.Errorf("photos %d and %d are both %q", j, i, alt)
		}
		if n := utf8.RuneCountInString(alt); n > maxAlt {
			t.Errorf("photo %d: %d characters", i, n)
		}
		seen[strings.ToLower(alt)] = i
	}
}

// Texts in several languages are one object in JSON, and come back as they were: the
// overview reads the reports of earlier runs.
func TestLanguageTextsAsJSON(t *testing.T) {
	given := LanguageTexts{{"de", &Texts{Titles: Titles{Upto60: "Tisch"}}}, {"en-GB", &Texts{Titles: Titles{Upto60: "Table"}}}}
	data, err := json.Marshal(Public{Languages: given})
	if err != nil {
		t.Fatal(err)
	}
	var loose struct {
		Languages map[string]struct {
			Titles map[string]string `json:"titles"`
		} `json:"languages"`
	}
	if err := json.Unmarshal(data, &loose); err != nil || loose.Languages["en-GB"].Titles["60"] != "Table" {
		t.Errorf("%v: %s", err, data)
	}
	var back Public
	if err := json.Unmarshal(data, &back); err != nil || len(back.Languages) != 2 || back.Languages[0].Tag != "de" || back.Languages[1].Texts.Titles.Upto60 != "Table" {
		t.Errorf("%v: %+v", err, back.Languages)
	}
	if none, err := json.Marshal(Public{}); err != nil || strings.Contains(string(none), "languages") {
		t.Errorf("of one language: %v %s", err, none)
	}
}

// pastedIn are the texts of a piece in a language.
func pastedIn(t *testing.T, lang string, pub Public) *Texts {
	t.Helper()
	words, err := templates.Open(lang)
	if err != nil {
		t.Fatal(err)
	}
	b := &builder{words: words, r: &Report{Public: pub}}
	b.paste()
	return b.r.Public.Texts
}

// No text names a material that the piece does not hold, keywords can be pasted in a
// row with commas between, and no country or serial is one; in every language.
func TestKeywordsAreTrueAndWhole(t *testing.T) {
	resin := map[string]string{"en": "resin", "de": "harz", "fr": "résine", "es": "resina", "nl": "hars"}
	board := Public{Serial: "OY-31", Title: "Board, oak; walnut", Kind: "serving board", Finished: "2026-05-05", Quantity: 1, Maker: &Maker{Name: "Ostrel, Yard & Co"},
		Materials: []Material{{Name: "European oak", Role: "wood", Origin: "Germany"}, {Name: "American black walnut", Role: "wood", Origin: "Slovenia"}}, Finish: &Finish{Name: "oil, then wax"}}
	for lang, word := range resin {
		x := pastedIn(t, lang, board)
		for _, k := range append(slices.Clone(x.Keywords), x.Captions.Tagged) {
			if strings.Contains(strings.ToLower(k), word) {
				t.Errorf("%s: %q of a board without resin", lang, k)
			}
		}
		for _, k := range x.Keywords {
			if strings.ContainsAny(k, ",;") || k == "germany" || k == "slovenia" || k == "oy-31" {
				t.Errorf("%s: keyword %q", lang, k)
			}
		}
		cast := board
		cast.Materials = []Material{{Name: "Cast resin", Role: "resin"}}
		if x := pastedIn(t, lang, cast); !strings.Contains(strings.ToLower(strings.Join(x.Keywords, ",")), word) {
			t.Errorf("%s: no keyword for the resin: %q", lang, x.Keywords)
		}
	}
}

// A title names all the woods or none beside those of the maker's own title, and does
// not say again what kind of piece it is.
func TestTitleNamesAllWoodsOrNone(t *testing.T) {
	woods := []Material{{Name: "European ash", Role: "wood", Share: 60}, {Name: "American black walnut", Role: "wood", Share: 40}}
	for length := 5; length < 60; length++ {
		pub := Public{Title: strings.Repeat("x", length), Kind: "bench", Materials: woods, Finished: "2026-05-05"}
		for n, title := range pastedTitles(pastedIn(t, "en", pub)) {
			if ash, walnut := strings.Contains(title, "ash"), strings.Contains(title, "walnut"); ash != walnut {
				t.Errorf("one wood of two in %d characters: %q", n, title)
			}
		}
	}
	for _, c := range []struct{ lang, title, kind, again string }{
		{"en", "Riverbend table", "dining table", "dining table"}, {"de", "Tisch am Bach", "dining table", "Esstisch"}, {"fr", "Table du moulin", "coffee table", "table basse"},
	} {
		pub := Public{Title: c.title, Kind: c.kind, Finished: "2026-05-05"}
		if title := pastedIn(t, c.lang, pub).Titles.Upto140; strings.Contains(title, c.again) {
			t.Errorf("%s: %q", c.lang, title)
		}
		pub.Title = "Millrace"
		if title := pastedIn(t, c.lang, pub).Titles.Upto140; !strings.Contains(title, c.again) {
			t.Errorf("%s: the kind is missing in %q", c.lang, title)
		}
	}
}

func pastedTitles(x *Texts) map[int]string {
	return map[int]string{60: x.Titles.Upto60, 100: x.Titles.Upto100, 140: x.Titles.Upto140}
}

// Short texts do not end on how the wood moves, a base says its material once, and a
// batch says how many there are and that the figures are those of one.
func TestShortTextsOfABatchAndABase(t *testing.T) {
	pub := Public{Serial: "OY-6", Title: "Boards", Kind: "serving board", Quantity: 6, Finished: "2026-05-05", Base: &Base{Style: "two steel hoops", Material: "steel", Coating: "clear wax"},
		Weight: &Weight{Text: TextWeights{Lb: "2 lb", Kg: "0.9 kg"}}, Movement: &Movement{Text: "Across the grain it grows."}}
	x := pastedIn(t, "en", pub)
	if got := x.Descriptions.Upto160 + x.Descriptions.Upto300 + x.Captions.Plain; strings.Contains(got, "Across the grain") {
		t.Errorf("a short text tells how the wood moves: %q", got)
	}
	if !strings.Contains(x.Descriptions.Upto1000, "Across the grain it grows.") {
		t.Errorf("the long one does not: %q", x.Descriptions.Upto1000)
	}
	all := strings.Join(append(x.Bullets, x.Descriptions.Upto1000, x.Captions.Plain), "\n")
	if !strings.Contains(all, "two steel hoops, clear wax") || strings.Contains(all, "hoops, steel") {
		t.Errorf("the base: %q", all)
	}
	if strings.Count(all, "One of a batch of 6; size and weight are those of each.") != 2 || !strings.Contains(all, "Weight of one") {
		t.Errorf("the batch: %q", all)
	}
	for style, want := range map[string]string{"two steel hoops": "two steel hoops", "two frames": "two frames, steel", "": "steel", "stainless-steel legs": "stainless-steel legs"} {
		if got := strings.Join((&Base{Style: style, Material: "steel"}).Words(), ", "); got != want {
			t.Errorf("%q: %q, want %q", style, got, want)
		}
	}
}

// Words to search by are put together as each language does: compounds and cases in
// German, "en", "de", "van" before the wood (common practice of each language, no
// source; the German dative: Duden, die Grammatik, from memory).
func TestWordsToSearchBy(t *testing.T) {
	mm := func(v float64) *float64 { return &v }
	for lang, c := range map[string]struct {
		wood, base, resin string
		want              string
	}{
		"de":    {"Amerikanischer Nussbaum", "Stahl", "Gießharz", "Esstisch|Amerikanischer Nussbaum|Gießharz|Esstisch aus Amerikanischem Nussbaum|Esstisch mit Gießharz|Esstisch aus Holz|Stahlgestell|Esstisch 214 cm|Quercus robur|Flusstisch|Esstisch für 8 Personen"},
		"fr":    {"orme de montagne", "chêne", "résine coulée", "table de salle à manger|orme de montagne|résine|table de salle à manger en bois|piètement en chêne|table de salle à manger 214 cm|Quercus robur|Flusstisch|table de salle à manger pour 8 personnes"},
		"es":    {"olmo", "acero", "resina colada", "mesa de comedor|olmo|resina|mesa de comedor de olmo|mesa de comedor de madera y resina|mesa de comedor de madera|base de acero|mesa de comedor de 214 cm|Quercus robur|Flusstisch|mesa de comedor para 8 personas"},
		"nl":    {"bergiep", "staal", "giethars", "eettafel|bergiep|giethars|eettafel van bergiep|eettafel met giethars|houten eettafel|stalen onderstel|eettafel 214 cm|Quercus robur|Flusstisch|eettafel voor 8 personen"},
		"en-US": {"Elm", "steel", "Cast resin", "dining table|elm|resin|elm dining table|resin dining table|wooden dining table|steel base|84 in dining table|Quercus robur|Flusstisch|dining table for 8"},
	} {
		words, err := templates.Open(lang)
		if err != nil {
			t.Fatal(err)
		}
		b := &builder{words: words, r: &Report{Public: Public{Serial: "OY-9", Title: "Flusstisch", Kind: "dining table", Finished: "2026-05-05", Quantity: 1, Seats: 8,
			Dimensions: &Dimensions{Length: mm(2140)}, Base: &Base{Material: c.base},
			Materials: []Material{{Name: c.wood, Botanical: "Quercus robur / Q. petraea", Role: "wood"}, {Name: c.resin, Detail: "deep blue with a slow shimmer", Role: "resin"}}}}}
		b.r.Prefer = units.Centimetres
		b.paste()
		if got := strings.Join(b.r.Public.Texts.Keywords, "|"); got != c.want {
			t.Errorf("%s:\ngot  %s\nwant %s", lang, got, c.want)
		}
	}
}

// A title that names the wood in the maker's own words is not given it once more; one
// that does not gets it, and a word that every wood has is no name of one.
func TestTitlesNameAWoodOnce(t *testing.T) {
	for _, c := range []struct {
		lang, title, wood string
		twice             bool
	}{
		{"en-GB", "Serving boards in pale maple", "Sycamore maple", false},
		{"en-GB", "Long walnut bench", "Black walnut", false},
		{"en-GB", "A board of good wood", "Rosewood", true},
		{"en-GB", "Serving boards", "Sycamore maple", true},
		{"de", "Servierbretter aus hellem Ahorn", "Bergahorn", false},
		{"de", "Brett aus gutem Holz", "Palisanderholz", true},
		{"fr", "Planches en noyer clair", "Noyer noir", false},
		{"es", "Tablas de nogal", "Nogal europeo", false},
		{"nl", "Planken van licht esdoorn", "Gewone esdoorn", false},
	} {
		words, err := templates.Open(c.lang)
		if err != nil {
			t.Fatal(err)
		}
		w := &copywriter{pub: &Public{Title: c.title, Kind: "serving board", Quantity: 1, Materials: []Material{{Name: c.wood, Role: "wood"}}}, words: words, metric: true}
		got := strings.Contains(strings.ToLower(w.title(140)), strings.ToLower(c.wood))
		if got != c.twice {
			t.Errorf("%s: %q with %s is titled %q", c.lang, c.title, c.wood, w.title(140))
		}
	}
}

// A title that has room for one size has the one that its readers think in.
func TestATitleHasItsReadersSize(t *testing.T) {
	for _, first := range []units.System{units.Centimetres, units.Inches} {
		for _, title := range []string{"Table", "Table of tests by the mill", "Long table of tests by the old mill", "Long table of tests by the old mill leat"} {
			pub := &Public{Serial: "OY-1", Title: title, Kind: "dining table", Quantity: 1, Dimensions: &Dimensions{Text: Text{In: "54 × 16 × 30 in", Cm: "137.2 × 40.6 × 76.2 cm"}}}
			words, err := templates.Open("en")
			if err != nil {
				t.Fatal(err)
			}
			b := &builder{words: words, r: &Report{Public: *pub, Prefer: first}}
			b.paste()
			for n, s := range pastedTitles(b.r.Public.Texts) {
				cm, in := strings.Contains(s, " cm"), strings.Contains(s, " in")
				if first == units.Inches {
					cm, in = in, cm
				}
				if in && !cm {
					t.Errorf("%s first, %d characters: %q", first, n, s)
				}
			}
		}
	}
}
