package templates

import "testing"

func TestEveryPhraseParses(t *testing.T) {
	for _, lang := range Langs() {
		w, err := Open(lang)
		if err != nil {
			t.Fatal(err)
		}
		if len(w.IDs()) == 0 {
			t.Fatalf("%s: no phrases", lang)
		}
		for _, id := range w.IDs() {
			if _, err := w.phrase(id); err != nil {
				t.Errorf("%s: %s: %v", lang, id, err)
			}
		}
	}
}

func TestSayPutsDataIn(t *testing.T) {
	w, err := Open("en")
	if err != nil {
		t.Fatal(err)
	}
	if got := w.Say("general.between", map[string]any{"Low": "28", "High": "34"}); got != "between 28 and 34" {
		t.Errorf("got %q", got)
	}
}
