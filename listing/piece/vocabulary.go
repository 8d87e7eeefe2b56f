package piece

import (
	"path"
	"slices"
	"strings"
	"unicode"
)

// Kinds are the kinds of piece that the spec knows.
var Kinds = []string{"desk", "dining table", "coffee table", "console table", "side table", "bench", "stool", "shelf", "serving board", "wall panel", "other"}

// Availabilities say whether a piece can be had.
var Availabilities = []string{"in stock", "made to order", "commission", "reserved", "sold", "not for sale"}

// FinishFamilies are the families of finish that care and cure hang on.
var FinishFamilies = []string{
	"hardwax-oil", "hardwax-oil-2k", "linseed-oil-raw", "linseed-oil-boiled", "tung-oil", "board-oil", "oil-varnish-blend", "varnish",
	"polyurethane-waterborne", "polyurethane-2k", "conversion-varnish", "nitrocellulose-lacquer", "shellac", "wax", "soap", "epoxy-topcoat", "bare",
}

// GlueClasses are the words for glues that the tool knows: the durability
// classes of EN 204 for the first three, families for the rest. A glue may be
// any other text as well.
var GlueClasses = []string{"pva-d2", "pva-d3", "pva-d4", "hide-glue", "polyurethane-glue", "epoxy", "cyanoacrylate"}

// Views are what a photo can show, in the order in which a listing shows them.
var Views = []string{
	"three-quarter", "front", "end", "back", "above", "underside", "edge", "end grain", "seam", "detail", "raking light", "backlit resin",
	"drawer", "fixing", "feet", "flaw", "scale", "in use", "in room", "maker's mark", PackedView,
}

// PartViews are the views that show a part of the piece, which goes on beyond
// the frame; the others show all of it, or what it is used for.
var PartViews = []string{
	"seam", "edge", "end grain", "detail", "drawer", "fixing", "feet", "flaw", "maker's mark", "raking light", "backlit resin",
}

// PackedView is the view of how the piece left. It is private: evidence, and
// never published.
const PackedView = "packed"

// Cuts say how a board lay in the log; the first is the default.
var Cuts = []string{"through-and-through", "flat-sawn", "rift-sawn", "quarter-sawn"}

// Grains say which way the grain runs in the top; the first is the default.
var Grains = []string{"along length", "along width", "end grain"}

// PackingHow says how a piece travels.
var PackingHow = []string{"blanket-wrapped", "carton", "crate", "crate on skid"}

// LegsTravel says how a base travels: on the piece, off it, or packed flat beside
// the top.
var LegsTravel = []string{"on", "off", "with the top"}

// BlendWays say how frames become one photo; the first is the default.
var BlendWays = []string{"lightest", "added", "even", "bracket"}

// Tints say what colours a resin.
var Tints = []string{"dye", "mica", "none"}

// Holes say how the fixings let the wood move.
var Holes = []string{"slotted", "oversize", "round", "fixed"}

// SizePresets are photo sizes by shape and purpose: the main picture of a shop, a post
// with a picture, a print, the whole of a phone, and a form or a mail that takes no
// large files.
var SizePresets = []string{
	"square on white", "4:5", "4:5 on white", "3:2", "3:2 on white", "9:16 upright", "9:16 upright on white", "small under 500 kB",
}

// PaperSizes are the sheets that documents are made for and that measure a plan
// photo.
var PaperSizes = []string{"a4", "letter"}

// viewWords are the words of a file name that name a view, longest first. The
// views themselves come first, then what makers call them.
var viewWords = func() []struct {
	words []string
	view  string
} {
	type entry = struct {
		words []string
		view  string
	}
	var list []entry
	for _, v := range Views {
		list = append(list, entry{nameWords(v), v})
	}
	for _, more := range [][2]string{ // word, view
		{"threequarter", "three-quarter"}, {"3 4", "three-quarter"}, {"three quarters", "three-quarter"}, {"rear", "back"}, {"top", "above"}, {"plan", "above"},
		{"overhead", "above"}, {"under", "underside"}, {"bottom", "underside"}, {"below", "underside"}, {"endgrain", "end grain"}, {"live edge", "edge"}, {"raking", "raking light"},
		{"backlit", "backlit resin"}, {"back lit", "backlit resin"}, {"foot", "feet"}, {"room", "in room"}, {"makers mark", "maker's mark"}, {"mark", "maker's mark"}, {"signature", "maker's mark"},
		{"inuse", "in use"}, {"inroom", "in room"}, {"joint", "seam"}, {"close up", "detail"}, {"closeup", "detail"}, {"details", "detail"}, {"drawers", "drawer"}, {"packing", "packed"},
	} {
		list = append(list, entry{nameWords(more[0]), more[1]})
	}
	// Most words first; among equals the order above, so nothing hangs on chance.
	slices.SortStableFunc(list, func(a, b entry) int { return len(b.words) - len(a.words) })
	return list
}()

// ViewInFileName returns the view that a photo's file name tells, or "". Words
// are parted by -, _, spaces, dots and the change from letters to digits, so
// "OY-0142_end grain2.jpg" shows the end grain and "backdrop.jpg" shows no back.
// The longest match wins, then the one that stands first in the name.
func ViewInFileName(name string) string {
	if i := strings.LastIndexAny(name, `/\`); i >= 0 {
		name = name[i+1:]
	}
	if i := strings.LastIndexByte(name, '.'); i > 0 {
		name = name[:i]
	}
	have := nameWords(name)
	best, bestAt, bestLen := "", len(have), 0
	for _, entry := range viewWords {
		if len(entry.words) < bestLen {
			break
		}
		for at := 0; at+len(entry.words) <= len(have) && at < bestAt; at++ {
			if slices.Equal(have[at:at+len(entry.words)], entry.words) {
				best, bestAt, bestLen = entry.view, at, len(entry.words)
			}
		}
	}
	return best
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
// maker's and makers are one word.
func nameWords(name string) []string {
	var words []string
	var word []rune
	flush := func() {
		if len(word) > 0 {
			words = append(words, string(word))
			word = word[:0]
		}
	}
	for _, r := range name {
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
