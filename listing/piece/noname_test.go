package piece

import (
	"strings"
	"testing"

	"slabfolio/listing/piece/yamltext"
)

// A figure with its unit is told from words, whatever language writes it; a bare number
// or a text with more in it is none.
func TestReadsLike(t *testing.T) {
	for text, want := range map[string]string{
		"90 €": "money", "€90": "money", "£1,850": "money", "1.850,- €": "money", "90 EUR": "money", "US$ 40": "money", "90 euros": "money", "120 Franken": "money",
		"40 cm": "a measure", "1 3/4 in": "a measure", "4' 6\"": "a measure", "31 kg": "a measure", "5.6 l": "a measure", "18 %": "a measure", "20 C": "a measure", "84 x 38 x 2 in": "a measure", "3 days": "a measure",
		"2026-09-18": "a date", "18.9.2026": "a date", "3rd March 2026": "a date",
		"": "", "blue": "", "smoke grey, 18 %": "", "RAL 9005": "", "90": "", "770": "", "M8": "", "No. 5": "", "top 2": "", "pen 3": "", "0012": "", "2K": "", "Table of 2026": "", "Bench, 120 cm": "", "3/4": "", "12-B": "", "1:1": "",
	} {
		if got := ReadsLike(text); got != want {
			t.Errorf("%q reads like %q, want %q", text, got, want)
		}
	}
}

// Every key that takes a name or a colour doubts money, a measure and a date, and takes
// its own example; every such key is one of the tables.
func TestNoNames(t *testing.T) {
	examples := map[string]string{}
	var walk func(keys []Key, at string)
	walk = func(keys []Key, at string) {
		for _, k := range keys {
			path := KeyPath(at, k.Name)
			examples[path] = k.Example
			walk(k.Keys, path)
		}
	}
	walk(pieceKeys, "")
	walk(workshopKeys, "")
	for path := range takesName {
		example, there := examples[path]
		if !there {
			t.Errorf("%s is no key", path)
			continue
		}
		for text, doubted := range map[string]bool{"90 €": true, "40 cm": true, "2026-09-18": true, strings.Trim(example, `"[]`): false} {
			d := &decoder{s: &source{Text: &yamltext.Text{}}}
			d.doubtNoName(text, Place{Line: 1}, path)
			if got := len(d.s.findings) == 1; got != doubted {
				t.Errorf("%s: %q is doubted: %v", path, text, got)
			}
		}
	}
	_, found := ParsePiece("piece.yaml", []byte("serial: A\ntitle: 40 cm\nkind: desk\nfinished: 2026-09-18\ntop: {outline: {length: 50 in, width: 20 in}, thickness: 2 in, wood: [{species: european-oak}], resin: [{area: 10 %, colour: 90 €}]}\nparts: [{name: 90 EUR, count: 1}]\ntranslations: {de: {title: 3 kg}}\n"), Defaults{})
	var codes []string
	for _, f := range found {
		codes = append(codes, f.Code)
	}
	if strings.Join(codes, " ") != strings.TrimSpace(strings.Repeat("spec.no-name ", 4)) {
		t.Errorf("%+v", found)
	}
}
