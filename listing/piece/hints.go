package piece

import (
	"fmt"
	"strings"

	"slabfolio/listing/units"
)

// otherKeys are what makers call a key, and what it is called here, in one group
// or another.
var otherKeys = map[string]string{
	"name": "title|product|use", "type": "kind|family|chemistry|how", "number": "serial", "id": "serial", "date": "finished|on|bought|delivered", "made": "finished", "completed": "finished", "qty": "quantity",
	"description": "story|style|did|note", "text": "story", "signature": "mark", "signed": "mark", "slab": "top", "species": "top.wood", "timber": "top.wood", "legs": "base",
	"frame": "base|style", "weight": "weighed", "mass": "weight|weighed", "oil": "finish.product", "cost": "costs", "shipping": "delivery", "color": "colour", "epoxy": "resin", "river": "resin",
	"depth": "width|thickness", "mc": "moisture", "humidity": "moisture", "material": "species", "percent": "share", "country": "origin", "amount": "mixed", "sku": "serial", "photo": "photos", "pictures": "photos", "images": "photos",
	"exclude": "leave_out", "hide": "leave_out", "warranty": "guarantee", "client": "buyer", "customer": "buyer", "status": "availability", "adhesive": "glue", "brand": "product", "lot": "batch", "shop": "workshop", "language": "lang",
	"hardware": "parts", "drawers": "parts",
}

// unknown reports a key that is not in the table, with what may be meant.
func (d *decoder) unknown(p pair, keys []Key, path string) {
	message := fmt.Sprintf("%q is not a key that is known here", shorten(p.key))
	if path != "" {
		message = fmt.Sprintf("%q is not a key that is known in %s", shorten(p.key), path)
	}
	if k := tight(keys, p.key); k != nil && p.value.shape == empty {
		d.fault("spec.syntax", p.at, fmt.Sprintf("%q has no space behind its colon", shorten(p.key)), "write "+k.Name+": "+strings.TrimPrefix(p.key, k.Name+":"))
		return
	}
	if rest, ok := strings.CutPrefix(p.key, "-"); ok && rest != "" {
		d.fault("spec.syntax", p.at, fmt.Sprintf("%q has no space behind its hyphen", shorten(p.key)), "write - "+rest)
		d.blanked = append(d.blanked, rest)
		return
	}
	if rest := strings.TrimLeft(p.key, "–—•·‣ "); rest != p.key {
		d.fault("spec.syntax", p.at, fmt.Sprintf("%q begins with a dash or dot that is no plain hyphen", shorten(p.key)), "write - "+rest+": …")
		d.blanked = append(d.blanked, rest)
		return
	}
	lower := strings.ToLower(strings.NewReplacer("-", "_", " ", "_").Replace(p.key))
	if near := nearest(lower, keyNames(keys)); near != "" {
		d.blanked = append(d.blanked, near) // it is not missing, it is misspelt
		d.fault("spec.unknown-key", p.at, message, fmt.Sprintf("did you mean %q", near))
		return
	}
	for _, other := range strings.Split(otherKeys[lower], "|") {
		if find(keys, firstName(other)) != nil {
			d.fault("spec.unknown-key", p.at, message, fmt.Sprintf("did you mean %q", other))
			return
		}
	}
	if places := d.elsewhere(lower, path); len(places) > 0 {
		d.fault("spec.unknown-key", p.at, message, "it belongs in "+strings.Join(places, " or in ")+"; look at how far the line is indented")
		return
	}
	remedy := "known here: " + strings.Join(keyNames(keys), ", ")
	d.fault("spec.unknown-key", p.at, message, remedy)
}

func firstName(path string) string {
	first, _, _ := strings.Cut(path, ".")
	return first
}

// elsewhere lists the groups of the table that hold a key of that name.
func (d *decoder) elsewhere(name, path string) []string {
	var places []string
	var walk func(keys []Key, at string)
	walk = func(keys []Key, at string) {
		for _, k := range keys {
			if k.Name == name && at != path {
				where := at
				if where == "" {
					where = "the outermost level"
				}
				places = append(places, where)
			}
			walk(k.Keys, join(at, k.Name))
		}
	}
	walk(d.root, "")
	if len(places) > 3 {
		places = places[:3]
	}
	return places
}

func keyNames(keys []Key) []string {
	names := make([]string, len(keys))
	for i, k := range keys {
		names[i] = k.Name
	}
	return names
}

// nearest returns the word that is within a typing slip or two of text.
func nearest(text string, words []string) string {
	text = wordKey(text)
	best, bestDistance := "", 3
	for _, w := range words {
		allowed := 2
		if min(len(w), len(text)) <= 4 { // few letters leave little to be near to
			allowed = 1
		}
		a, b := strings.NewReplacer("-", " ", "_", " ").Replace(text), strings.NewReplacer("-", " ", "_", " ").Replace(wordKey(w))
		if dist := distance(a, b); dist <= allowed && dist < bestDistance {
			best, bestDistance = w, dist
		}
	}
	return best
}

// distance is the number of single-letter slips (one letter more, less, another
// or two changed over) between two words, at most 9.
func distance(a, b string) int {
	r, s := []rune(a), []rune(b)
	if len(r) > 40 || len(s) > 40 || len(r)-len(s) > 9 || len(s)-len(r) > 9 {
		return 9
	}
	rows := make([][]int, len(r)+1)
	for i := range rows {
		rows[i] = make([]int, len(s)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(r); i++ {
		for j := 1; j <= len(s); j++ {
			cost := 1
			if r[i-1] == s[j-1] {
				cost = 0
			}
			rows[i][j] = min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+cost)
			if i > 1 && j > 1 && r[i-1] == s[j-2] && r[i-2] == s[j-1] {
				rows[i][j] = min(rows[i][j], rows[i-2][j-2]+1)
			}
		}
	}
	return min(rows[len(r)][len(s)], 9)
}

// otherWords are what makers say for a word of the spec.
var otherWords = map[string]string{
	"table": "dining table", "sofa table": "console table", "hall table": "console table", "console": "console table", "end table": "side table", "bedside table": "side table", "nightstand": "side table", "writing desk": "desk",
	"chopping board": "serving board", "cutting board": "serving board", "charcuterie board": "serving board", "cheese board": "serving board", "board": "serving board", "wall art": "wall panel", "shelves": "shelf",
	"slab": "through-and-through", "plain-sawn": "flat-sawn", "live sawn": "through-and-through", "quartered": "quarter-sawn", "crown cut": "flat-sawn",
	"lengthwise": "along length", "long grain": "along length", "cross grain": "along width", "endgrain": "end grain",
	"available": "in stock", "for sale": "in stock", "ready": "in stock", "made-to-order": "made to order", "bespoke": "commission", "keep": "not for sale", "private": "not for sale",
	"hard wax oil": "hardwax-oil", "hardwax": "hardwax-oil", "linseed": "linseed-oil-boiled", "boiled linseed oil": "linseed-oil-boiled", "raw linseed oil": "linseed-oil-raw", "linseed oil": "linseed-oil-boiled", "danish oil": "oil-varnish-blend", "tung": "tung-oil",
	"mineral oil": "board-oil", "chopping board oil": "board-oil", "lacquer": "nitrocellulose-lacquer", "polyurethane": "polyurethane-waterborne", "poly": "polyurethane-waterborne", "2k": "polyurethane-2k", "beeswax": "wax", "epoxy": "epoxy-topcoat", "none": "bare", "unfinished": "bare", "oil": "hardwax-oil",
	"pigment": "mica", "clear": "none", "alcohol ink": "dye", "blanket": "blanket-wrapped", "box": "carton", "cardboard": "carton", "skid": "crate on skid", "pallet": "crate on skid",
	"top": "above", "plan": "above", "rear": "back", "bottom": "underside", "under": "underside", "hero": "three-quarter", "main": "three-quarter", "signature": "maker's mark", "side": "edge", "closeup": "detail", "close-up": "detail", "joint": "seam", "room": "in room", "foot": "feet", "lifestyle": "in room",
	"slot": "slotted", "slots": "slotted", "oversized": "oversize", "as-shot": "as shot", "original": "as shot", "us letter": "letter", "jpg": "jpeg", "true": "on", "false": "off", "yes": "on", "no": "off",
}

// wordRemedy says which words are right.
func wordRemedy(text string, k *Key) string {
	all := strings.Join(k.Words, ", ")
	if near := nearest(text, k.Words); near != "" {
		return fmt.Sprintf("did you mean %q", near)
	}
	if other, ok := otherWords[wordKey(text)]; ok {
		for _, w := range k.Words {
			if w == other {
				return fmt.Sprintf("did you mean %q; all the words: %s", other, all)
			}
		}
	}
	return "use one of: " + all
}

// line shows the key as it stands in a file.
func (k *Key) line() string { return k.Name + ": " + k.Example }

// remedy shows how a key is written.
func (k *Key) remedy() string {
	switch {
	case k.Type == typeGroup && k.Example != "":
		return "write it like this: " + k.line()
	case k.Type == typeGroup:
		return "write it like this: " + k.Name + ": " + groupExample(k.Keys)
	case k.Type == typeWord && !k.Free:
		return "write one of: " + strings.Join(k.Words, ", ")
	case strings.HasPrefix(k.Example, "|"):
		return "write it like this: " + k.Name + ": a line of text"
	}
	return "write it like this: " + k.line()
}

func (k *Key) fileRemedy() string { return "write the name of a photo alone, like this: IMG_2041.jpg" }

// groupExample shows a group on one line: with the keys that it needs, or with
// its first two.
func groupExample(keys []Key) string {
	var needed, first []string
	for i := range keys {
		k := &keys[i]
		if k.Type == typeGroup || strings.HasPrefix(k.Example, "|") {
			continue
		}
		if k.Required {
			needed = append(needed, k.line())
		}
		if len(first) < 2 {
			first = append(first, k.line())
		}
	}
	if len(needed) > 0 {
		first = needed
	}
	return "{" + strings.Join(first, ", ") + "}"
}

// what names the type of a key, for messages.
func (k *Key) what() string {
	switch k.Type {
	case typeLength, typeSizes, typePoints:
		return "a length"
	case typeMass:
		return "a mass"
	case typeVolume:
		return "a volume"
	case typeAmount:
		return "an amount"
	case typeDensity:
		return "a density"
	case typePercent:
		return "a share"
	case typeTemp:
		return "a temperature"
	case typeDays:
		return "a time"
	}
	return "a number"
}

// limit writes a limit of a key with its unit.
func (k *Key) limit(v float64) string {
	switch k.Type {
	case typeLength, typeSizes, typePoints:
		if v >= 1000 {
			return trim(v/1000) + " m"
		}
		return trim(v) + " mm"
	case typeMass:
		return trim(v) + " kg"
	case typeVolume:
		return trim(v) + " l"
	case typeAmount:
		return trim(v) + " l or kg"
	case typeDensity:
		return units.Density(v).Exact()
	case typePercent:
		return trim(v) + " %"
	case typeTemp:
		return trim(v) + " C"
	case typeDays:
		return trim(v) + " days"
	}
	return trim(v)
}
