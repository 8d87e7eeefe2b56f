package piece

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"
	"unicode"

	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/spelling"
)

// nearest returns the word that is within a typing slip or two of text.
func nearest(text string, words []string) string {
	text = spacesForHyphens(text)
	best, bestDistance := "", 3
	for _, w := range words {
		allowed := 2
		if min(len(w), len(text)) <= 4 { // few letters leave little to be near to
			allowed = 1
		}
		if dist := spelling.Distance(text, spacesForHyphens(w), bestDistance); dist <= allowed && dist < bestDistance {
			best, bestDistance = w, dist
		}
	}
	return best
}

// otherNames are the names of otherKeys that are long enough to be known by with a
// slip of the finger in them.
var otherNames = sync.OnceValue(func() []string {
	return slices.DeleteFunc(slices.Sorted(maps.Keys(otherKeys)), func(name string) bool { return len(name) < 5 })
})

// slipped is the key among keys that a name with a slip of the finger stands for, such
// as weighed for wieght; empty where there is none.
func slipped(name string, keys []Key) string {
	if len(name) < 5 {
		return ""
	}
	for _, other := range strings.Split(otherKeys[nearest(name, otherNames())], "|") {
		if find(keys, firstName(other)) != nil {
			return other
		}
	}
	return ""
}

// spacesForHyphens is wordKey with spaces for hyphens and underlines.
func spacesForHyphens(word string) string { return hyphens.Replace(wordKey(word)) }

var hyphens = strings.NewReplacer("-", " ", "_", " ")

// otherKeys are what makers call a key, and what it is called here, in one group
// or another.
var otherKeys = map[string]string{
	"name": "species|title|product|use|style", "type": "kind|family|chemistry|how|species", "wood": "species", "number": "serial", "id": "serial", "date": "finished|on|bought|delivered", "made": "finished", "completed": "finished", "qty": "quantity",
	"description": "story|style|did|note", "text": "story", "signature": "mark", "signed": "mark", "slab": "top", "species": "top.wood", "timber": "top.wood|species", "legs": "base",
	"frame": "base|style", "weight": "weighed", "mass": "weight|weighed", "oil": "finish.product", "cost": "costs", "shipping": "delivery", "color": "colour", "epoxy": "resin", "river": "resin",
	"depth": "width|thickness", "mc": "moisture", "humidity": "moisture", "material": "species", "percent": "share|area", "percentage": "share|area", "share": "area", "country": "origin", "amount": "mixed", "sku": "serial", "photo": "photos", "pictures": "photos", "images": "photos",
	"exclude": "leave_out", "hide": "leave_out", "warranty": "guarantee", "client": "buyer", "customer": "buyer", "status": "availability", "adhesive": "glue", "brand": "product", "lot": "batch", "shop": "workshop", "language": "lang",
	"hardware": "parts", "drawers": "parts",
}

// otherWords are what makers say for a word of the spec.
var otherWords = map[string]string{
	"sofa table": "console table", "hall table": "console table", "console": "console table", "end table": "side table", "bedside table": "side table", "nightstand": "side table", "writing desk": "desk",
	"chopping board": "serving board", "cutting board": "serving board", "charcuterie board": "serving board", "cheese board": "serving board", "board": "serving board", "wall art": "wall panel", "shelves": "shelf",
	"slab": "through-and-through", "plain-sawn": "flat-sawn", "live sawn": "through-and-through", "quartered": "quarter-sawn", "crown cut": "flat-sawn",
	"lengthwise": "along length", "long grain": "along length", "cross grain": "along width", "endgrain": "end grain",
	"hirnholz": "end grain", "stirnholz": "end grain", "bois de bout": "end grain", "testa": "end grain", "veta de testa": "end grain", "kops": "end grain", "kopshout": "end grain", "längs": "along length", "quer": "along width",
	"auf lager": "in stock", "lagernd": "in stock", "vorrätig": "in stock", "en stock": "in stock", "disponible": "in stock", "en existencias": "in stock", "op voorraad": "in stock", "in voorraad": "in stock",
	"verkauft": "sold", "vendu": "sold", "vendue": "sold", "vendido": "sold", "vendida": "sold", "verkocht": "sold", "reserviert": "reserved", "réservé": "reserved", "réservée": "reserved", "reservado": "reserved", "reservada": "reserved", "gereserveerd": "reserved",
	"auf bestellung": "made to order", "sur commande": "made to order", "por encargo": "made to order", "bajo pedido": "made to order", "op bestelling": "made to order", "unverkäuflich": "not for sale", "pas à vendre": "not for sale", "no está en venta": "not for sale", "niet te koop": "not for sale",
	"available": "in stock", "for sale": "in stock", "ready": "in stock", "made-to-order": "made to order", "bespoke": "commission", "keep": "not for sale", "private": "not for sale",
	"hard wax oil": "hardwax-oil", "boiled linseed oil": "linseed-oil-boiled", "raw linseed oil": "linseed-oil-raw", "danish oil": "oil-varnish-blend", "tung": "tung-oil",
	"mineral oil": "board-oil", "chopping board oil": "board-oil", "beeswax": "wax", "epoxy": "epoxy-topcoat", "none": "bare", "unfinished": "bare", "french polish": "shellac", "waterborne polyurethane": "polyurethane-waterborne", "water-based polyurethane": "polyurethane-waterborne", "waterborne poly": "polyurethane-waterborne", "oil-based polyurethane": "varnish", "oil-based poly": "varnish", "2k polyurethane": "polyurethane-2k", "2k poly": "polyurethane-2k", "two-pack polyurethane": "polyurethane-2k", "2k lacquer": "polyurethane-2k", "acid-cured lacquer": "conversion-varnish", "pure tung oil": "tung-oil", "teak oil": "oil-varnish-blend",
	"pigment": "mica", "pigments": "mica", "pearl": "mica", "pearl powder": "mica", "mica powder": "mica", "metallic": "mica", "metallic powder": "mica", "clear": "none", "alcohol ink": "dye", "blanket": "blanket-wrapped", "box": "carton", "cardboard": "carton", "skid": "crate on skid", "pallet": "crate on skid",
	"top": "above", "plan": "above", "rear": "back", "bottom": "underside", "under": "underside", "hero": "three-quarter", "main": "three-quarter", "signature": "maker's mark", "side": "edge", "closeup": "detail", "close-up": "detail", "joint": "seam", "room": "in room", "foot": "feet", "lifestyle": "in room",
	"schreibtisch": "desk", "esstisch": "dining table", "couchtisch": "coffee table", "konsolentisch": "console table", "konsole": "console table", "beistelltisch": "side table", "nachttisch": "side table", "sitzbank": "bench", "bank": "bench", "hocker": "stool", "wandregal": "shelf", "regal": "shelf", "servierbrett": "serving board", "schneidebrett": "serving board", "brett": "serving board", "wandpaneel": "wall panel", "wandbild": "wall panel", "sonstiges": "other", "stuhl": "other",
	"bureau": "desk", "table de salle à manger": "dining table", "table à manger": "dining table", "table basse": "coffee table", "table d'appoint": "side table", "table de chevet": "side table", "banc": "bench", "tabouret": "stool", "étagère murale": "shelf", "étagère": "shelf", "planche à servir": "serving board", "planche à découper": "serving board", "planche": "serving board", "panneau mural": "wall panel", "autre": "other", "chaise": "other",
	"escritorio": "desk", "mesa de comedor": "dining table", "mesa de centro": "coffee table", "consola": "console table", "mesa auxiliar": "side table", "mesita de noche": "side table", "banco": "bench", "taburete": "stool", "estante de pared": "shelf", "estante": "shelf", "tabla de servir": "serving board", "tabla de cortar": "serving board", "panel mural": "wall panel", "otro": "other", "silla": "other",
	"eettafel": "dining table", "salontafel": "coffee table", "consoletafel": "console table", "bijzettafel": "side table", "nachtkastje": "side table", "bankje": "bench", "kruk": "stool", "wandplank": "shelf", "plank": "shelf", "serveerplank": "serving board", "snijplank": "serving board", "overig": "other", "stoel": "other", "chair": "other", "cabinet": "other", "bed": "other", "coaster": "other", "coasters": "other", "lamp": "other", "mirror": "other", "bowl": "other",
	"slot": "slotted", "slots": "slotted", "oversized": "oversize", "as-shot": "as shot", "original": "as shot", "us letter": "letter", "jpg": "jpeg", "true": "on", "false": "off", "yes": "on", "no": "off",
}

// severalWords are what makers say that can mean one of several words of the spec:
// they are asked back, with what tells the words apart.
var severalWords = map[string][]string{
	"table": {"dining table", "coffee table", "console table", "side table"}, "tisch": {"dining table", "coffee table", "console table", "side table"}, "mesa": {"dining table", "coffee table", "console table", "side table"}, "tafel": {"dining table", "coffee table", "console table", "side table"}, "hardwax": {"hardwax-oil", "wax"}, "hard wax": {"hardwax-oil", "wax"},
	"polyurethane": {"polyurethane-waterborne", "polyurethane-2k", "varnish"}, "poly": {"polyurethane-waterborne", "polyurethane-2k", "varnish"}, "pu": {"polyurethane-waterborne", "polyurethane-2k", "varnish"},
	"oil": {"hardwax-oil", "oil-varnish-blend", "linseed-oil-boiled", "tung-oil", "board-oil"}, "linseed oil": {"linseed-oil-boiled", "linseed-oil-raw"}, "linseed": {"linseed-oil-boiled", "linseed-oil-raw"},
	"lacquer": {"nitrocellulose-lacquer", "conversion-varnish", "polyurethane-2k"}, "2k": {"hardwax-oil-2k", "polyurethane-2k"}, "acrylic": {"polyurethane-waterborne", "varnish"}, "water-based": {"polyurethane-waterborne", "varnish"},
}

// tellApart says what a word of the spec means, where makers take one for another.
var tellApart = map[string]string{
	"polyurethane-waterborne": "thinned with water", "polyurethane-2k": "mixed with a hardener", "varnish": "oil-based, thinned with white spirit", "hardwax-oil": "oil and hard wax from one tin", "hardwax-oil-2k": "oil mixed with a hardener",
	"wax": "wax alone", "oil-varnish-blend": "oil with varnish in it, such as Danish oil", "linseed-oil-boiled": "with driers, dry in a day or two", "linseed-oil-raw": "without driers, dry in weeks", "tung-oil": "pure tung oil",
	"board-oil": "for boards, never dries", "nitrocellulose-lacquer": "dries in minutes, dissolves again", "conversion-varnish": "acid-cured, mixed with a hardener",
}

// otherWord is the word that makers say another one for, behind a key.
func otherWord(said string, k *Key) (word string, ok bool) {
	if k.Name == "family" && finishNames()[said] != "" {
		return finishNames()[said], true
	}
	word, ok = otherWords[said]
	return word, ok
}

// mostWords is how many words of a text are looked through for the thing that it
// names; a longer one is a sentence.
const mostWords = 8

// wordsNear returns the words of a key that a text may mean, the likeliest alone when
// it is a slip of the hand; nil when nothing is near.
func wordsNear(text string, k *Key) []string {
	if near := nearest(text, k.Words); near != "" {
		return []string{near}
	}
	known := func(said string) []string {
		all := severalWords[said]
		if k.Name == "family" && all == nil {
			all = severalFinishes[said]
		}
		if one, ok := otherWord(said, k); ok {
			all = []string{one}
		}
		return slices.DeleteFunc(slices.Clone(all), func(w string) bool { return !slices.Contains(k.Words, w) })
	}
	said := wordKey(text)
	if found := known(said); len(found) > 0 {
		return found
	}
	words := strings.Fields(said)
	for i := 1; i < min(len(words), mostWords); i++ { // what is said last names the thing: a bistro table is a table
		if found := known(strings.Join(words[i:], " ")); len(found) > 0 {
			return found
		}
	}
	if k.Contained { // a table with drawers is a table, Hocker aus Eiche a stool
		for _, w := range words[:min(len(words), mostWords)] {
			if found := known(strings.Trim(w, ",;.")); len(found) > 0 {
				return found
			}
		}
	}
	var holds []string // "sold out" holds "sold"
	for _, w := range k.Words {
		if strings.Contains(" "+hyphens.Replace(said)+" ", " "+hyphens.Replace(w)+" ") && !slices.Contains(words, "not") && !slices.Contains(words, "no") {
			holds = append(holds, w)
		}
	}
	if len(holds) > 0 {
		return holds
	}
	sayings := append(slices.Sorted(maps.Keys(otherWords)), slices.Sorted(maps.Keys(severalWords))...) // names of finishes in other languages are taken to the letter: satin is near savon
	sayings = slices.DeleteFunc(sayings, func(s string) bool { return len(known(s)) == 0 })
	if near := nearest(said, sayings); near != "" && (len(near) > 4 || len(near) == len(said)) { // a letter more on a short word is another word
		return known(near)
	}
	if last := words[max(len(words)-1, 0):]; len(words) > 1 && len(words) < 8 { // a river tabel
		if near := nearest(last[0], sayings); near != "" && len(last[0]) > 3 && (len(near) > 4 || len(near) == len(last[0])) {
			return known(near)
		}
	}
	return nil
}

// sameWord returns the word of a key that a text is but for hyphens, spaces and
// case, or that it holds where it says more: a river coffee table is a coffee
// table. It returns "" unless one word alone is meant.
func sameWord(text string, k *Key) string {
	bare := strings.NewReplacer(" ", "", "-", "", "_", "")
	said := wordKey(text)
	var found []string
	for _, w := range k.Words {
		switch {
		case bare.Replace(wordKey(w)) == bare.Replace(said):
			return w
		case k.Contained && strings.Contains(" "+hyphens.Replace(said)+" ", " "+w+" "):
			found = append(found, w)
		}
	}
	if len(found) != 1 {
		return ""
	}
	return found[0]
}

// ParseKind reads a kind of piece as the key kind is read. The note says what was
// read where that is not what was written; the error is a *SetError with what may
// be meant.
func ParseKind(text string) (kind, note string, err error) {
	return parseWord(text, find(pieceKeys, "kind"), "kind of piece")
}

// digitsOf are the digits of a word, which no slip changes.
func digitsOf(word string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsDigit(r) {
			return r
		}
		return -1
	}, word)
}

// ParseFinish reads a family of finish as ParseKind does a kind.
func ParseFinish(text string) (family, note string, err error) {
	return parseWord(text, find(finishKey.Keys, "family"), "kind of finish")
}

func parseWord(text string, k *Key, what string) (word, note string, err error) {
	for _, w := range k.Words {
		if wordKey(w) == wordKey(text) {
			return w, "", nil
		}
	}
	if w := sameWord(text, k); w != "" {
		return w, fmt.Sprintf("%q is read as %q", yamltext.Shorten(text), w), nil
	}
	said := wordKey(text)
	if w, _ := otherWord(said, k); slices.Contains(k.Words, w) {
		return w, fmt.Sprintf("%q is read as %s", yamltext.Shorten(text), toldApart([]string{w})[0]), nil
	}
	if w := nearest(text, k.Words); len(said) > 4 && w != "" && spelling.Distance(spacesForHyphens(text), spacesForHyphens(w), 2) == 1 && digitsOf(said) == digitsOf(w) {
		return w, fmt.Sprintf("%q is read as %q", yamltext.Shorten(text), w), nil // a slip of the hand
	}
	return "", "", &SetError{fmt.Sprintf("no %s %q", what, yamltext.Shorten(text)), wordRemedy(text, k)}
}
