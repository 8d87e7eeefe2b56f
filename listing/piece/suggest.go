package piece

import (
	"strings"

	"slabfolio/listing/spelling"
)

// nearest returns the word that is within a typing slip or two of text.
func nearest(text string, words []string) string {
	text = spaced(text)
	best, bestDistance := "", 3
	for _, w := range words {
		allowed := 2
		if min(len(w), len(text)) <= 4 { // few letters leave little to be near to
			allowed = 1
		}
		if dist := spelling.Distance(text, spaced(w), bestDistance); dist <= allowed && dist < bestDistance {
			best, bestDistance = w, dist
		}
	}
	return best
}

// spaced is wordKey with spaces for hyphens and underlines.
func spaced(word string) string { return hyphens.Replace(wordKey(word)) }

var hyphens = strings.NewReplacer("-", " ", "_", " ")

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

// otherWords are what makers say for a word of the spec.
var otherWords = map[string]string{
	"table": "dining table", "sofa table": "console table", "hall table": "console table", "console": "console table", "end table": "side table", "bedside table": "side table", "nightstand": "side table", "writing desk": "desk",
	"chopping board": "serving board", "cutting board": "serving board", "charcuterie board": "serving board", "cheese board": "serving board", "board": "serving board", "wall art": "wall panel", "shelves": "shelf",
	"slab": "through-and-through", "plain-sawn": "flat-sawn", "live sawn": "through-and-through", "quartered": "quarter-sawn", "crown cut": "flat-sawn",
	"lengthwise": "along length", "long grain": "along length", "cross grain": "along width", "endgrain": "end grain",
	"available": "in stock", "for sale": "in stock", "ready": "in stock", "made-to-order": "made to order", "bespoke": "commission", "keep": "not for sale", "private": "not for sale",
	"hard wax oil": "hardwax-oil", "hardwax": "hardwax-oil", "linseed": "linseed-oil-boiled", "boiled linseed oil": "linseed-oil-boiled", "raw linseed oil": "linseed-oil-raw", "linseed oil": "linseed-oil-boiled", "danish oil": "oil-varnish-blend", "tung": "tung-oil",
	"mineral oil": "board-oil", "chopping board oil": "board-oil", "lacquer": "nitrocellulose-lacquer", "polyurethane": "polyurethane-waterborne", "poly": "polyurethane-waterborne", "2k": "polyurethane-2k", "beeswax": "wax", "epoxy": "epoxy-topcoat", "none": "bare", "unfinished": "bare", "oil": "hardwax-oil",
	"pigment": "mica", "pigments": "mica", "pearl": "mica", "pearl powder": "mica", "mica powder": "mica", "metallic": "mica", "metallic powder": "mica", "clear": "none", "alcohol ink": "dye", "blanket": "blanket-wrapped", "box": "carton", "cardboard": "carton", "skid": "crate on skid", "pallet": "crate on skid",
	"top": "above", "plan": "above", "rear": "back", "bottom": "underside", "under": "underside", "hero": "three-quarter", "main": "three-quarter", "signature": "maker's mark", "side": "edge", "closeup": "detail", "close-up": "detail", "joint": "seam", "room": "in room", "foot": "feet", "lifestyle": "in room",
	"slot": "slotted", "slots": "slotted", "oversized": "oversize", "as-shot": "as shot", "original": "as shot", "us letter": "letter", "jpg": "jpeg", "true": "on", "false": "off", "yes": "on", "no": "off",
}
