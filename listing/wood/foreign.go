package wood

import (
	"slices"
	"strings"
	"sync"

	"slabfolio/listing/spelling"
	"slabfolio/templates"
)

// foreign are the names of woods in the languages of the papers but English, in plain
// letters, with the ids of the woods that they are the trade's name of.
var foreign = sync.OnceValue(func() map[string][]string {
	names := map[string][]string{}
	for _, n := range templates.NamesOf("wood") {
		if key := spelling.Plain(n.Text); !slices.Contains(names[key], n.ID) {
			names[key] = append(names[key], n.ID)
		}
	}
	return names
})

// otherForeignNames are everyday names of woods that the papers have no use for, each with
// the trade's name, of any of the languages, that means the same (from memory).
var otherForeignNames = map[string]string{
	"ulme": "orme", "ruester": "orme", "ruster": "orme", "feldulme": "orme", "iep": "orme", "iepen": "orme", "olm": "orme", "olmen": "orme", "ahorn": "erable", "arce": "erable",
	"linde": "tilleul", "linden": "tilleul", "lindehout": "tilleul", "lindenhout": "tilleul", "kirsche": "kers", "kirschholz": "kers", "cerisier": "kers", "cerise": "kers", "kersenboom": "kers",
	"walnuss": "nussbaum", "walnoot": "nussbaum", "walnoten": "nussbaum", "notenhout": "nussbaum", "kastanie": "chataignier", "edelkastanie": "chataignier", "esskastanie": "chataignier", "tamme kastanje": "chataignier",
	"robinier": "robinie", "robinier faux acacia": "robinie", "pappel": "peuplier", "populierenhout": "peuplier", "birne": "birnbaum", "peer": "birnbaum", "apfel": "apfelbaum", "zeder": "cedre", "ceder": "cedre",
	"beuk": "buche", "beuken": "buche", "rotbuche": "buche", "es": "esche", "essen": "esche", "gewone esdoorn": "bergahorn", "berk": "birke", "berken": "birke", "els": "erle", "elzen": "erle", "den": "kiefer", "grove den": "kiefer", "fijnspar": "fichte",
	"haagbeuk": "hainbuche", "weissbuche": "hainbuche", "douglas": "douglasie", "chene rouvre": "eiche", "chene pedoncule": "eiche",
}

// otherForeign is the trade's name for an everyday name of a wood, or for its compound:
// Ulmenholz, iepenhout; "" for any other.
func otherForeign(key string) string {
	bare := bareForeign(key)
	if len(foreign()[key]) > 0 || len(foreign()[bare]) > 0 {
		return "" // the papers have it themselves
	}
	if other := otherForeignNames[bare]; other != "" {
		return other
	}
	for _, w := range []string{"holz", "hout"} {
		if front, ok := strings.CutSuffix(bare, w); ok && len(front) > 2 {
			for _, name := range []string{front, strings.TrimSuffix(front, "n"), strings.TrimSuffix(front, "en"), front + "e"} { // Ulmenholz, iepenhout, Kirschholz
				if other := otherForeignNames[name]; other != "" {
					return other
				}
			}
		}
	}
	return ""
}

// Words that stand beside a wood's name and say no more than that it is one.
var (
	woodBefore = []string{"bois de ", "bois d ", "madera de ", "massief ", "massiv ", "holz der "}
	woodBehind = []string{" massif", " massive", " maciza", " macizo", " massiv", " massief", " bois", " holz", " hout"}
	// woodWithin ends compounds: Buchenholz, beukenhout, Nussbaum.
	woodWithin = []string{"massivholz", "holz", "hout", "baum", "boom"}
)

// bareForeign is a plain name without such words.
func bareForeign(key string) string {
	for _, w := range woodBefore {
		key = strings.TrimPrefix(key, w)
	}
	for _, w := range woodBehind {
		key = strings.TrimSuffix(key, w)
	}
	return key
}

// stem is a word without the endings that it takes in compounds and as an adjective:
// Buche, Buchen and Buchenholz are one, and so are eik, eiken and eikenhout.
func stem(word string) string {
	for _, w := range woodWithin {
		if rest, ok := strings.CutSuffix(word, w); ok && len(rest) >= 3 {
			word = rest
			break
		}
	}
	for _, ending := range []string{"en", "n", "e"} {
		if rest, ok := strings.CutSuffix(word, ending); ok && len(rest) >= 3 {
			return rest
		}
	}
	return word
}

// inForeign returns the woods that a plain name means in another language of the
// papers. It is sure where the trade of one of them calls one wood so and that of none
// another.
func (t *Table) inForeign(key string) (at []int, sure bool) {
	bare := bareForeign(key)
	if bare == "" || len(bare) > 60 {
		return nil, false
	}
	ids := foreign()[key]
	if len(ids) == 0 {
		ids = foreign()[bare]
	}
	if len(ids) > 0 {
		at = t.placed(ids)
		return at, len(at) == 1
	}
	for name, of := range foreign() { // Buchenholz, beuken
		if stem(name) == stem(bare) {
			ids = append(ids, of...)
		}
	}
	if len(ids) == 0 && !strings.Contains(bare, " ") { // eik, of Europees eiken and others
		for name, of := range foreign() {
			if slices.ContainsFunc(strings.Fields(name), func(w string) bool { return len(w) >= 3 && stem(w) == stem(bare) }) {
				ids = append(ids, of...)
			}
		}
	}
	return t.placed(ids), false
}

// placed are the woods of some ids, each once, in the table's order.
func (t *Table) placed(ids []string) (at []int) {
	for _, id := range ids {
		if i, ok := t.byID[spelling.Plain(id)]; ok && !slices.Contains(at, i) {
			at = append(at, i)
		}
	}
	slices.Sort(at)
	return at
}
