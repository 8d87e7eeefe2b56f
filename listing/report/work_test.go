package report

import (
	"fmt"
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/templates"
)

// Who made a piece is said where the maker says it or nothing says otherwise; a title or
// a story that tells of restoring the piece is asked about, and no paper says "made" then.
// A crack, a barn or a knot that was repaired is no piece.
func TestWhoMadeIt(t *testing.T) {
	for lines, want := range map[string]string{
		"":                 "",
		"work: made\n":     "",
		"work: restored\n": "restored",
		"work: repaired\n": "repaired",
		"story: We restored this old farm table and gave it a new top.\n":        workUnsaid,
		"story: An old bench that came to us. The bench was repaired.\n":         workUnsaid,
		"story: One leg was broken. We repaired the leg.\n":                      workUnsaid,
		"story: Nobody knows who made it.\n":                                     workUnsaid,
		"story: Ein alter Tisch, von uns restauriert.\n":                         workUnsaid,
		"story: Une table ancienne que nous avons restaurée.\n":                  workUnsaid,
		"work: made\nstory: We restored this old farm table.\n":                  "",
		"story: A crack across the top was repaired with three keys.\n":          "",
		"story: The beams come from a restored barn beside the mill.\n":          "",
		"story: The table is made from a restored barn.\n":                       "",
		"story: Oiled again, it shines as on the first day.\n":                   "",
		"log: [{date: 2026-08-02, did: repaired the leg}]\n":                     "",
		"found: A knot, repaired with resin.\n":                                  "",
		"story: Die Risse wurden repariert, der Rest blieb, wie er war.\n":       "",
		"story: La fissure a été réparée avec une clé en noyer, rien de plus.\n": "",
	} {
		r := build(t, spec(t, strings.Replace(longBoard, "SPECIES", "european-oak", 1)+lines), nil)
		f, asked := found(r, "work.unsaid")
		if r.Public.Work != want || asked != (want == workUnsaid) || asked && (f.Rank != piece.Doubt || !strings.Contains(f.Remedy, "work: restored, repaired or made")) {
			t.Errorf("%q: %q %+v, want %q", lines, r.Public.Work, f, want)
		}
	}
	r := build(t, spec(t, strings.Replace(strings.Replace(longBoard, "SPECIES", "european-oak", 1), "title: Long board", "title: Restaurierter Küchentisch", 1)), nil)
	if r.Public.Work != workUnsaid {
		t.Errorf("the title: %q", r.Public.Work)
	}
}

// What is said instead names the workshop, and says in no language that it made the
// piece; every work has its phrases.
func TestWorkInWords(t *testing.T) {
	made := map[string]string{"en": "made by", "de": "hergestellt von", "fr": "réalisation", "es": "hecha por", "nl": "gemaakt door"}
	for _, lang := range templates.Langs() {
		words, err := templates.Open(lang)
		if err != nil {
			t.Fatal(err)
		}
		base, _, _ := strings.Cut(lang, "-")
		for _, work := range append(piece.Works[1:], workUnsaid) {
			p := spec(t, strings.Replace(longBoard, "SPECIES", "european-oak", 1)+"work: restored\n")
			w := &piece.Workshop{Name: piece.Of("Ostrel Yard")}
			r, err := Build(p, w, Options{Words: words})
			if err != nil {
				t.Fatal(err)
			}
			r.Public.Work = work
			pub := &r.Public
			all := []string{pub.WorkLabel(words), pub.WorkBy(words), words.Say("sheet.certificate.head."+work, nil), words.Say("sheet.certificate.claim."+work, nil)}
			all = append(all, fmt.Sprint((&copywriter{pub: pub, words: words}).sentences()))
			for _, s := range all {
				if s == "" || strings.Contains(strings.ToLower(s), made[base]) {
					t.Errorf("%s, %s: %q", lang, work, s)
				}
			}
			if !strings.Contains(all[1], "Ostrel Yard") || !strings.Contains(all[4], "Ostrel Yard") {
				t.Errorf("%s, %s: %q", lang, work, all)
			}
		}
		if label := words.Say("sheet.name.maker", nil); !strings.EqualFold(label, made[base]) { // so that the words looked for are those of the papers
			t.Errorf("%s: %q", lang, label)
		}
	}
}
