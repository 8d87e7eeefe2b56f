package piece

import (
	"strings"
	"testing"
)

// A key in the wrong place: indentation is named only where it can be what went wrong.
func TestWhereAKeyBelongs(t *testing.T) {
	const head = "serial: OY-1\ntitle: Desk\nkind: desk\nfinished: 2026-01-02\n"
	const top = "top: {outline: {length: 2 m, width: 1 m}, thickness: 4 cm, wood: [{species: european-ash}]}\n"
	const indented, translated = "how far the line is indented", "a translation takes title, story, found, mark and captions"
	for _, c := range []struct{ text, says, not string }{
		{head + top + "translations: {en-GB: {colour: smoke}}\n", translated, indented},
		{head + top + "translations:\n  de:\n    colour: Rauch\n    title: Tisch\n", translated, indented},
		{head + top + "translations:\n  de:\n    glasses: 3\n", translated, indented},
		{head + top + "base:\n  species: oak\n", "it belongs in top.wood", indented},
		{head + top + "base:\n  material: steel\n  thickness: 4 cm\n", "it belongs in top", ""},
		{head + "top:\n  outline: {length: 2 m, width: 1 m}\n  thickness: 4 cm\n  species: oak\n", indented, "known here"},
		{head + "top:\n  outline: {length: 2 m, width: 1 m}\n  thickness: 4 cm\n  wood: [{species: oak}]\n  price: {amount: 20}\n", indented, "known here"},
		{head + "top: {outline: {length: 2 m, width: 1 m}, thickness: 4 cm, wood: [{species: oak}], price: {amount: 20}}\n", "look at the brackets", indented},
	} {
		_, found := ParsePiece("piece.yaml", []byte(c.text), Defaults{})
		remedy := ""
		for _, f := range found {
			if f.Code == "spec.unknown-key" {
				remedy = f.Remedy
			}
		}
		if !strings.Contains(remedy, c.says) || c.not != "" && strings.Contains(remedy, c.not) {
			t.Errorf("%s\nremedy %q, want %q and not %q; all: %+v", strings.TrimPrefix(c.text, head), remedy, c.says, c.not, found)
		}
	}
}
