package piece

// Kinds are the kinds of piece that the spec knows.
var Kinds = []string{"desk", "dining table", "coffee table", "console table", "side table", "bench", "stool", "shelf", "serving board", "wall panel", "other"}

// Works say what the workshop did to the piece; the first is the default.
var Works = []string{"made", "restored", "repaired"}

// availabilities say whether a piece can be had.
var availabilities = []string{"in stock", "made to order", "commission", "reserved", "sold", "not for sale"}

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

// tints say what colours a resin.
var tints = []string{"dye", "mica", "none"}

// Holes say how the fixings let the wood move.
var Holes = []string{"slotted", "oversize", "round", "fixed"}

// SizePresets are photo sizes by shape and purpose: the main picture of a shop, a post
// with a picture, a print, the whole of a phone, and a form or a mail that takes no
// large files.
var SizePresets = []string{
	"square on white", "4:5", "4:5 on white", "3:2", "3:2 on white", "9:16 upright", "9:16 upright on white", "small under 500 kB",
}

// paperSizes are the sheets that documents are made for and that measure a plan
// photo.
var paperSizes = []string{"a4", "letter"}
