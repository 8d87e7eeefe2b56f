package wood

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/templates"
)

// Every name that the papers have for a wood in another language is understood, or
// asked about with that wood among the answers; none is another wood's. Two languages may
// call two woods alike.
func TestForeignNamesAreUnderstood(t *testing.T) {
	tab, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	sure, asked := 0, 0
	for _, n := range templates.NamesOf("wood") {
		s, err := tab.AtHome(strings.ToUpper(n.Lang)).Lookup(n.Text)
		var several *AmbiguousError
		switch {
		case err == nil && s.ID == n.ID:
			sure++
		case err == nil && n.ID == "southern-magnolia" && s.ID == "cucumbertree": // in English magnolia is the name of that one
			sure++
		case errors.As(err, &several) && slices.Contains(several.Among, n.ID):
			asked++
		default:
			t.Errorf("%s: %q is %s, and read as %q, %v", n.Lang, n.Text, n.ID, s.ID, err)
		}
	}
	t.Logf("%d names are understood, %d are asked about", sure, asked)
	if sure < 500 || asked > sure/5 {
		t.Errorf("%d names are understood, %d are asked about", sure, asked)
	}
}

// The trade names of EN 13556:2003 (from memory) for what most workshops of the four
// languages use, as makers write them: alone, in compounds, with the word for wood.
func TestEverydayForeignNames(t *testing.T) {
	tab, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	for said, botanical := range map[string]string{
		"Buche": "Fagus sylvatica", "buche": "Fagus sylvatica", "Eiche": "Quercus robur", "Esche": "Fraxinus excelsior", "Nussbaum": "Juglans regia", "Bergahorn": "Acer pseudoplatanus", "Lärche": "Larix decidua", "Fichte": "Picea abies",
		"chêne": "Quercus robur", "Chene": "Quercus robur", "hêtre": "Fagus sylvatica", "bois de hêtre": "Fagus sylvatica", "frêne": "Fraxinus excelsior", "noyer": "Juglans regia", "chêne massif": "Quercus robur", "merisier": "Prunus avium",
		"roble": "Quercus robur", "haya": "Fagus sylvatica", "nogal": "Juglans regia", "madera de fresno": "Fraxinus excelsior", "castaño": "Castanea sativa",
		"beuk": "Fagus sylvatica", "Linde": "Tilia cordata", "Lindenholz": "Tilia cordata", "Walnuss": "Juglans regia", "walnoot": "Juglans regia", "els": "Alnus glutinosa", "es": "Fraxinus excelsior", "Edelkastanie": "Castanea sativa", "gewone esdoorn": "Acer pseudoplatanus", "beukenhout": "Fagus sylvatica",
		"beuken": "Fagus sylvatica", "essen": "Fraxinus excelsior", "Europees eiken": "Quercus robur",
	} {
		s, err := tab.Lookup(said)
		if err != nil || !strings.HasPrefix(s.Botanical, botanical) || s.ReadFrom != said {
			t.Errorf("%q: %s (%s) from %q, %v; want %s", said, s.ID, s.Botanical, s.ReadFrom, err, botanical)
		}
	}
	for said, among := range map[string]string{
		"Buchenholz": "european-beech", "Eichenholz": "european-oak", "eik": "european-oak", "eikenhout": "european-oak", "Kirsch": "european-cherry", "Kirsche": "european-cherry", "cerisier": "european-cherry", "Ulme": "wych-elm", "Rüster": "wych-elm", "iep": "wych-elm", "Ulmenholz": "wych-elm", "Ahorn": "sycamore-maple", "noten": "european-walnut", "érable": "sycamore-maple", "arce": "sycamore-maple",
	} {
		_, err := tab.AtHome("DE").Lookup(said)
		f, ok := tab.Unknown(err, piece.Place{})
		if !ok || !strings.Contains(f.Remedy, among) {
			t.Errorf("%q: %v, %+v, want %s", said, err, f, among)
		}
	}
	for _, said := range []string{"the", "plywood", "of", "mystery wood", "xyz", "Spanplatte", "madera", "bois", "hout", "Holz"} { // no wood's name
		if s, err := tab.Lookup(said); err == nil {
			t.Errorf("%q is read as %s", said, s.ID)
		} else if f, _ := tab.Unknown(err, piece.Place{}); strings.Contains(f.Remedy, "european") {
			t.Errorf("%q: %+v", said, f)
		}
	}
}

// Of several woods of a name those of the workshop's side of the ocean are asked first:
// Quercus robur grows in Europe and Quercus alba in North America, and so on (the ranges
// of the floras, from memory).
func TestWoodsOfHomeFirst(t *testing.T) {
	tab, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	for country, want := range map[string]map[string]string{
		"DE": {"oak": "european-oak", "ash": "european-ash", "walnut": "european-walnut", "beech": "european-beech", "cherry": "european-cherry", "eik": "european-oak"},
		"GB": {"oak": "european-oak", "elm": "wych-elm"},
		"US": {"oak": "white-oak", "ash": "white-ash", "walnut": "black-walnut", "beech": "american-beech", "cherry": "black-cherry"},
		"CA": {"oak": "white-oak"},
		"":   {"oak": "white-oak"},
		"JP": {"oak": "white-oak"},
	} {
		for said, first := range want {
			_, err := tab.AtHome(country).Lookup(said)
			var several *AmbiguousError
			if !errors.As(err, &several) || several.Among[0] != first {
				t.Errorf("%s in %q: %v, want %s first", said, country, err, first)
				continue
			}
			f, _ := tab.Unknown(err, piece.Place{})
			if !strings.HasPrefix(f.Remedy, "write "+first) {
				t.Errorf("%s in %q: %q", said, country, f.Remedy)
			}
		}
	}
	for _, id := range inEurope {
		if _, ok := tab.byID[strings.ReplaceAll(id, "-", " ")]; !ok {
			t.Errorf("%s is no wood of the table", id)
		}
	}
}

// A wood is known as the papers print it, with its botanical name in brackets behind it,
// and not where the two are of different woods (names of Wood Handbook, table 5-3).
func TestANameInBracketsIsTheSameWood(t *testing.T) {
	tab, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range tab.species {
		if plain := strings.TrimSpace(strings.Split(s.Name, "(")[0]); s.Botanical != "" && !strings.Contains(s.Botanical, "/") && plain == s.Name {
			if got, err := tab.Lookup(plain + " (" + s.Botanical + ")"); err != nil || got.ID != s.ID {
				t.Errorf("%s (%s): %s, %v", plain, s.Botanical, got.ID, err)
			}
		}
	}
	for said, want := range map[string]string{"Black Walnut (Juglans nigra)": "black-walnut", "walnut (Juglans nigra)": "black-walnut", "Juglans nigra (black walnut)": "black-walnut", "Ulme (Ulmus glabra)": "wych-elm", "red oak (Juglans nigra)": "", "black walnut (from the yard)": ""} {
		if got, err := tab.Lookup(said); got.ID != want || want == "" && err == nil {
			t.Errorf("%s: %s, %v", said, got.ID, err)
		}
	}
}

// Two woods in one line are told to go in a list.
func TestSeveralWoodsInOneName(t *testing.T) {
	tab, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	for said, want := range map[string]string{
		"oak and walnut": "{species: oak, share: … %}, {species: walnut, share: … %}", "Eiche und Nussbaum": "{species: Eiche, share: … %}", "oak/ash/elm": "{species: elm", "chêne et noyer": "{species: noyer", "bog oak with worm": "", "mystery and more": "",
	} {
		_, err := tab.Lookup(said)
		f, ok := tab.Unknown(err, piece.Place{})
		if !ok || strings.Contains(f.Remedy, "go in a list") != (want != "") || !strings.Contains(f.Remedy, want) {
			t.Errorf("%s: %+v", said, f)
		}
	}
}
