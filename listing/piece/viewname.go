package piece

import (
	"path"
	"slices"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// wholeViews are the views that show the piece from a side. A word beside theirs may
// say that only a part of that side is shown.
var wholeViews = []string{"three-quarter", "front", "end", "back", "above", "underside"}

// viewsCalled are what makers call the views in file names, in the languages of the
// papers (from memory). A word that means something else in another of them is left
// out: dos is French for the back and Spanish for two, Firma is German for a company.
var viewsCalled = sync.OnceValue(func() map[string]string {
	return map[string]string{
		"three-quarter": "threequarter, 3 4, three quarters, schrägansicht, schräg, dreiviertel, dreiviertelansicht, trois quarts, tres cuartos, driekwart",
		"front":         "vorne, vorn, von vorne, vorderseite, vorderansicht, frontansicht, face avant, vue de face, de face, avant, devant, frente, frontal, delante, parte delantera, voorkant, vooraanzicht, voorzijde",
		"end":           "stirnseite, schmalseite, petit côté, testero, kopse kant",
		"back":          "rear, hinten, von hinten, rückseite, rückansicht, arrière, derrière, face arrière, trasera, parte trasera, detrás, atrás, achterkant, achteraanzicht, achterzijde",
		"above":         "top, plan, overhead, oben, von oben, draufsicht, aufsicht, dessus, vue de dessus, du dessus, arriba, desde arriba, cenital, boven, van boven, bovenkant, bovenaanzicht",
		"underside":     "under, bottom, below, unten, von unten, unterseite, untersicht, dessous, vue de dessous, abajo, debajo, desde abajo, onder, van onder, onderkant, onderzijde",
		"edge":          "live edge, kante, baumkante, waldkante, bord, bord vif, chant, canto, canto vivo, borde, borde vivo, rand, boomkant, boomrand",
		"end grain":     "endgrain, hirnholz, stirnholz, bois de bout, veta de testa, kopshout",
		"seam":          "joint, fuge, leimfuge, naht, junta, naad, lijmnaad",
		"detail":        "close up, closeup, details, detailansicht, detailaufnahme, nahaufnahme, makroaufnahme, détail, détails, gros plan, detalle, detalles, primer plano, detailfoto",
		"raking light":  "raking, streiflicht, lumière rasante, luz rasante, strijklicht",
		"backlit resin": "backlit, back lit, durchleuchtet, rétroéclairé, rétroéclairage, retroiluminado, retroiluminada, doorlicht",
		"drawer":        "drawers, schublade, schubladen, tiroir, tiroirs, cajón, cajones, lade, laden, schuiflade",
		"fixing":        "befestigung, fixation, fixations, fijación, bevestiging",
		"feet":          "foot, füße, fuß, pieds, piètement, patas, poten, voeten",
		"flaw":          "makel, fehlstelle, défaut, defecto, gebrek",
		"scale":         "maßstab, größenvergleich, échelle, escala",
		"in use":        "inuse, im gebrauch, in gebrauch, en situation, en uso, in gebruik",
		"in room":       "room, inroom, im raum, wohnraum, dans la pièce, ambiente, en ambiente, interieur, in kamer",
		"maker's mark":  "makers mark, mark, signature, signatur, brandstempel, brandzeichen, marca, brandmerk, handtekening",
		PackedView:      "packing, verpackt, verpackung, emballé, emballage, embalado, embalaje, verpakt, ingepakt, verpakking",
	}
})

// A viewWord is what names a view in a file name, word by word.
type viewWord struct {
	words []string
	view  string
}

// viewWords are the words of a file name that name a view, longest first. The
// views themselves come first, then what makers call them.
var viewWords = sync.OnceValue(func() []viewWord {
	var list []viewWord
	for _, v := range Views {
		list = append(list, viewWord{nameWords(v), v})
	}
	for _, v := range Views {
		for called := range strings.SplitSeq(viewsCalled()[v], ", ") {
			for _, spelt := range spellings(called) {
				if words := nameWords(spelt); len(words) > 0 {
					list = append(list, viewWord{words, v})
				}
			}
		}
	}
	// Most words first; among equals the order above, so nothing hangs on chance.
	slices.SortStableFunc(list, func(a, b viewWord) int { return len(b.words) - len(a.words) })
	return list
})

// withoutMarks are the letters with a mark as people without that key type them.
var withoutMarks = sync.OnceValue(func() [2]*strings.Replacer {
	return [2]*strings.Replacer{
		strings.NewReplacer("ä", "ae", "ö", "oe", "ü", "ue", "ß", "ss"),
		strings.NewReplacer("ä", "a", "ö", "o", "ü", "u", "ß", "ss", "é", "e", "è", "e", "ê", "e", "ô", "o", "á", "a", "ó", "o", "í", "i"),
	}
})

// spellings are the ways of typing a word.
func spellings(word string) []string {
	return slices.Compact([]string{word, withoutMarks()[0].Replace(word), withoutMarks()[1].Replace(word)})
}

// ViewInFileName returns the view that a photo's file name tells, or "". Words
// are parted by -, _, spaces, dots and the change from letters to digits, so
// "OY-0142_end grain2.jpg" shows the end grain and "backdrop.jpg" shows no back.
// The longest match wins, then the one that stands first in the name. A part of the
// piece wins over the side that it is seen from: "bench top detail.jpg" is a detail,
// "front edge.jpg" an edge. One that says anywhere that the piece is packed is private,
// whatever side it shows. A name that tells none so is parted at its capitals too:
// "TopView.jpg".
func ViewInFileName(name string) string {
	if i := strings.LastIndexAny(name, `/\`); i >= 0 {
		name = name[i+1:]
	}
	if i := strings.LastIndexByte(name, '.'); i > 0 {
		name = name[:i]
	}
	if view := viewIn(withoutNotViews(nameWords(name))); view != "" {
		return view
	}
	return viewIn(withoutNotViews(nameWords(parted(name))))
}

// viewIn returns the view that the words of a name tell, or "".
func viewIn(have []string) string {
	if view, _, n := firstView(have, func(v string) bool { return v == PackedView }); n > 0 {
		return view
	}
	best, at, n := firstView(have, func(string) bool { return true })
	if !slices.Contains(wholeViews, best) {
		return best
	}
	if view, _, n := firstView(have, func(v string) bool { return v == "detail" }); n > 0 {
		return view
	}
	if view, part, more := firstView(have, func(v string) bool { return slices.Contains(PartViews, v) }); more > 0 && (part == at+n || part+more == at) {
		return view
	}
	return best
}

// firstView is the view that the words of a name tell among those wanted: where its
// words stand, and how many they are.
func firstView(have []string, wanted func(view string) bool) (view string, at, n int) {
	at = len(have)
	for _, entry := range viewWords() {
		if len(entry.words) < n {
			break
		}
		for i := 0; i+len(entry.words) <= len(have) && i < at && wanted(entry.view); i++ {
			if slices.Equal(have[i:i+len(entry.words)], entry.words) {
				view, at, n = entry.view, i, len(entry.words)
			}
		}
	}
	return view, at, n
}

// cardNames are what makers call photos of a grey card or a colour chart, word by word, in
// the languages of the papers (common practice, no source).
var cardNames = [][]string{
	{"grey", "card"}, {"gray", "card"}, {"greycard"}, {"graycard"}, {"colour", "chart"}, {"color", "chart"}, {"colour", "checker"}, {"color", "checker"}, {"colorchecker"}, {"colourchecker"},
	{"colour", "card"}, {"color", "card"}, {"colour", "target"}, {"color", "target"}, {"white", "balance"}, {"graukarte"}, {"farbkarte"}, {"farbtafel"}, {"charte", "de", "gris"}, {"carte", "grise"}, {"charte", "de", "couleurs"},
	{"carta", "gris"}, {"carta", "de", "grises"}, {"carta", "de", "color"}, {"grijskaart"}, {"kleurenkaart"},
}

// CardInFileName reports whether a photo's file name says that it shows a grey card or a
// colour chart. "chart" and "card" do so alone, with no word but numbers beside them.
func CardInFileName(name string) bool {
	have := nameWords(strings.TrimSuffix(name, path.Ext(name)))
	for _, words := range cardNames {
		for at := 0; at+len(words) <= len(have); at++ {
			if slices.Equal(have[at:at+len(words)], words) {
				return true
			}
		}
	}
	plain := slices.DeleteFunc(slices.Clone(have), func(w string) bool { return strings.Trim(w, "0123456789") == "" })
	return len(plain) == 1 && (plain[0] == "chart" || plain[0] == "card")
}

// nameWords cuts a name into lower-case words. Apostrophes vanish, so that
// maker's and makers are one word; a letter and its mark are one letter.
func nameWords(name string) []string {
	var words []string
	var word []rune
	flush := func() {
		if len(word) > 0 {
			words = append(words, string(word))
			word = word[:0]
		}
	}
	for _, r := range norm.NFC.String(name) {
		switch {
		case r == '\'' || r == '’':
			continue
		case unicode.IsLetter(r) || unicode.IsMark(r):
			if len(word) > 0 && unicode.IsDigit(word[len(word)-1]) {
				flush()
			}
			word = append(word, unicode.ToLower(r))
		case unicode.IsDigit(r):
			if len(word) > 0 && !unicode.IsDigit(word[len(word)-1]) {
				flush()
			}
			word = append(word, r)
		default:
			flush()
		}
	}
	flush()
	return words
}
