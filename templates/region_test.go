package templates

import (
	"regexp"
	"slices"
	"strings"
	"testing"
)

func open(t *testing.T, lang string) *Words {
	t.Helper()
	w, err := Open(lang)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// CLDR 44, the long dates of en and en_GB, and of en_US (from memory): "d MMMM y"
// and "MMMM d, y".
func TestDaysOfEachRegion(t *testing.T) {
	for lang, want := range map[string]string{"en": "18\u00a0September 2026", "en-GB": "18\u00a0September 2026", "en-US": "September\u00a018, 2026"} {
		if got := open(t, lang).Day("2026-09-18"); got != want {
			t.Errorf("%s: %q, want %q", lang, got, want)
		}
	}
	for _, none := range []string{"soon", ""} {
		if got := open(t, "en").Day(none); got != none {
			t.Errorf("%q became %q", none, got)
		}
	}
}

func TestRegionOf(t *testing.T) {
	for _, c := range []struct{ lang, country, currency, paper, want string }{
		{"en", "US", "", "a4", "en-US"},
		{"en", "GB", "USD", "letter", "en"},
		{"en", "", "USD", "a4", "en-US"},
		{"en", "", "GBP", "letter", "en"},
		{"en", "", "", "letter", "en-US"},
		{"en", "", "", "a4", "en"},
		{"en-GB", "US", "USD", "letter", "en-GB"},
		{"de", "US", "USD", "letter", "de"},
	} {
		if got := RegionOf(c.lang, c.country, c.currency, c.paper); got != c.want {
			t.Errorf("%v: %s", c, got)
		}
	}
}

// british are endings and words that are spelt otherwise in the United States
// (common practice, no source) (and a tool that is called otherwise).
var british = regexp.MustCompile(`(?i)\b(\w*colour\w*|gr[e]y[a-z]*|\w*(centi|milli|kilo)?metres?|litres?|draughts?|mould\w*|fibres?|centre\w*|\w+elled|(?:lev|lab|trav|mod)elling|trolleys?|aluminium|plough\w*|storey\w*|kerb\w*|whilst|favour\w*|neighbour\w*|harbour\w*|odour\w*|vapour\w*|cheque\w*)\b`)

func TestEnglishOfTheUnitedStatesIsSpeltSo(t *testing.T) {
	w, en := open(t, "en-US"), open(t, "en")
	inBraces := regexp.MustCompile(`\{\{.*?\}\}`)
	changed := 0
	for _, id := range w.IDs() {
		text, _ := w.text(id)
		for _, word := range british.FindAllString(inBraces.ReplaceAllString(text, " "), -1) {
			t.Errorf("%s: %q: %s", id, word, text)
		}
		if a, b := inBraces.FindAllString(text, -1), inBraces.FindAllString(en.parsed[id], -1); strings.Join(a, "") != strings.Join(b, "") && !strings.HasPrefix(id, "general.") {
			t.Errorf("%s: what is put in changed from %q to %q", id, b, a)
		}
		if text != en.parsed[id] {
			changed++
		}
	}
	for id, want := range map[string]string{"aluminium-6061": "aluminum", "concrete-gfrc": "glass-fiber concrete"} {
		if got, ok := w.Named("material", id); !ok || got != want {
			t.Errorf("%s is called %q, want %q", id, got, want)
		}
	}
	named := len(slices.DeleteFunc(w.IDs(), func(id string) bool {
		return !strings.HasPrefix(id, "name.material.") && !strings.HasPrefix(id, "name.wood.")
	}))
	if changed < 10 || len(w.IDs())-named != len(en.IDs()) {
		t.Errorf("%d of %d phrases differ from those of en, which has %d", changed, len(w.IDs()), len(en.IDs()))
	}
	s, err := newSpeller("colour\tcolor\npallet truck\tpallet jack\n")
	if err != nil {
		t.Fatal(err)
	}
	if got, want := s.text("Colour, {{.Colour}} colour; a pallet truck, no colourist"), "Color, {{.Colour}} color; a pallet jack, no colourist"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if _, err := newSpeller("colour color\n"); err == nil {
		t.Error("a line without a tab is taken")
	}
}
