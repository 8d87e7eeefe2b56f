package piece

// A keyType says what a key's value is. The parser, the JSON Schema, the starter
// file and the help text all go by it.
type keyType int

const (
	typeText     keyType = iota // text as written
	typeWord                    // one of Words
	typeSerial                  // letters, digits, - and _
	typeDate                    // 2026-09-18
	typeWhole                   // a whole number
	typeNumber                  // a number
	typeYesNo                   // yes or no
	typeSystem                  // in, cm or mm
	typeLength                  // 54 in
	typeMass                    // 31.4 kg
	typeVolume                  // 4.2 l
	typeAmount                  // a volume or a mass
	typeDensity                 // 1.10 kg/l
	typePercent                 // 8 %
	typeTemp                    // 20 C
	typeDays                    // 3 days
	typeCountry                 // GB
	typeCurrency                // GBP
	typeFile                    // the name of a photo
	typeSizes                   // 80 x 40 x 3 mm, of the section form in Form
	typePoints                  // [[0, 0], [54, 0.5]], lengths
	typeSpots                   // [[0.5, 0.3]], shares of a photo
	typeBox                     // [0.05, 0.10, 0.95, 0.90], shares of a photo
	typeGroup                   // a mapping with Keys
)

// A way is one set of keys that says something whole: all of Need, and any of
// May beside them.
type way struct{ Need, May []string }

// plurality says whether a key may hold several values.
type plurality int

const (
	one        plurality = iota
	oneOrList            // a list, or one value alone
	byFileName           // a mapping from file names to values
	byLanguage           // a mapping from tags of languages to groups
)

// A Reader says who may read a key of a spec.
type Reader int

// The readers, each with all those before it.
const (
	unsaid Reader = iota
	Maker         // the maker alone: costs, the buyer, suppliers
	Owner         // also whoever owns the piece: the record that goes with it
	Anyone        // also the public: it may stand in a listing
)

// langPattern is the form of a language tag: letters, then parts behind hyphens.
const langPattern = `^[A-Za-z]{2,3}(-[A-Za-z0-9]{1,8})*$`

// A Key is one key of a spec file: everything that is known of it stands here
// and nowhere else.
type Key struct {
	Name      string
	Reader    Reader // who may read it; a key that does not say so fails a test
	Field     string // the field of the struct that it fills; empty for a group whose keys fill the struct around it
	Type      keyType
	Many      plurality
	Required  bool
	Min, Max  float64  // in SI units as in package units; both 0: no limit
	Count     [2]int   // least and most entries of a list; both 0: no limit but the file's
	Words     []string // for typeWord
	OneLine   bool     // for typeText: it has to fit on a line
	Free      bool     // Words are only suggestions
	Contained bool     // a text that holds one of Words and no other means that word
	Form      string   // for typeSizes
	Pattern   string   // for typeText: what it has to look like, as a regular expression; empty: anything
	Short     *Key     // a single value in place of the group fills this one
	Keys      []Key    // for typeGroup
	Ways      []way    // for typeGroup: the sets of keys that may stand together
	Help      string   // a sentence for the maker: lower case, no full stop
	Example   string   // a value as it stands in YAML
}

// Limits that several keys share, in millimetres, kilograms, litres.
const (
	maxSide   = 12000 // a table of 12 m is the longest that anybody will ship
	maxKg     = 5000
	maxLitres = 3000
	maxMoney  = 1e8
)

// sectionKeys are the keys of bought steel, by the form that they say.
func sectionKeys(plain string) []Key {
	sizes := func(name, form, help, example string, n int) Key {
		return Key{Name: name, Reader: Anyone, Field: "Sizes", Type: typeSizes, Form: form, Count: [2]int{n, n}, Min: 0.3, Max: 3000, Help: help, Example: example}
	}
	help, example := "box section: width x height x wall", "80 x 40 x 3 mm"
	if plain == "channel" {
		help, example = "channel section: width x height x wall", "40 x 12 x 3 mm"
	}
	keys := []Key{sizes("section", plain, help, example, 3)}
	if plain == "box" {
		tail := []Key{
			sizes("tube", "tube", "or round tube: outside diameter x wall", "48.3 x 3.2 mm", 2),
			sizes("angle", "angle", "or angle section: leg x leg x wall", "40 x 40 x 4 mm", 3),
			sizes("channel", "channel", "or channel section: width x height x wall", "80 x 45 x 6 mm", 3),
			sizes("plate", "plate", "or plate: length x width x thickness; needs no length of its own", "200 x 80 x 6 mm", 3),
			{Name: "bar", Reader: Anyone, Field: "Sizes", Type: typeSizes, Form: "bar", Count: [2]int{1, 2}, Min: 0.3, Max: 3000, Help: "or bar: diameter, or width x thickness", Example: "12 mm"},
		}
		keys = append(keys, tail...)
	}
	return append(keys,
		Key{Name: "length", Reader: Anyone, Field: "Length", Type: typeLength, Min: 1, Max: 50000, Help: "the length of each", Example: "12 in"},
		Key{Name: "count", Reader: Anyone, Field: "Count", Type: typeWhole, Min: 1, Max: 10000, Help: "how many; 1 when left out", Example: "2"},
		Key{Name: "material", Reader: Anyone, Field: "Material", Type: typeText, Help: "when it is not the base's own material", Example: "steel"},
	)
}

// pieceKeys is the key table of piece.yaml, in the order of the starter file.
var pieceKeys = []Key{
	{Name: "serial", Reader: Anyone, Field: "Serial", Type: typeSerial, Required: true, Help: "the piece's own number, unique in your collection; letters, digits, - and _; it names the output folder", Example: "OY-0201"},
	{Name: "title", Reader: Anyone, Field: "Title", Type: typeText, Required: true, OneLine: true, Help: "what the piece is called", Example: "Tidewater console table"},
	{Name: "kind", Reader: Anyone, Field: "Kind", Type: typeWord, Words: Kinds, Contained: true, Required: true, Help: "what kind of piece it is", Example: "console table"},
	{Name: "finished", Reader: Anyone, Field: "Finished", Type: typeDate, Required: true, Help: "the day the piece was done: year, month, day", Example: "2026-05-30"},
	{Name: "work", Reader: Anyone, Field: "Work", Type: typeWord, Words: Works, Help: "whether you made it, or restored or repaired what others had made; made when left out", Example: "made"},
	{Name: "quantity", Reader: Anyone, Field: "Quantity", Type: typeWhole, Min: 1, Max: 10000, Help: "how many equal pieces this file stands for, 1 when left out; sizes and weights are those of one, costs those of all together", Example: "1"},
	{Name: "units", Reader: Anyone, Field: "Units", Type: typeSystem, Help: "what a length without a unit is read in: in, cm or mm", Example: "in"},
	{Name: "story", Reader: Anyone, Field: "Story", Type: typeText, Help: "a paragraph or two for the buyer", Example: "|\n  This slab lay eleven years in the loft before it became a table.\n  The river follows the crack that the frost made."},
	{Name: "found", Reader: Anyone, Field: "Found", Type: typeText, Help: "what turned up in the wood", Example: "A fence nail near the left end, left where it was."},
	{Name: "mark", Reader: Anyone, Field: "Mark", Type: typeText, Help: "where the piece is signed", Example: "Burnt into the underside, rear left"},
	topKey, baseKey, partsKey, finishKey,
	{Name: "glue", Reader: Owner, Field: "Glue", Type: typeWord, Words: GlueClasses, Free: true, Many: oneOrList, Help: "the glues that hold it together", Example: "[pva-d3]"},
	materialsKey, logKey,
	{Name: "weighed", Reader: Anyone, Field: "Weighed", Type: typeMass, Min: 0.02, Max: maxKg, Help: "the whole piece on a scale, if it was", Example: "28.6 kg"},
	{Name: "price", Reader: Anyone, Field: "Price", Type: typeGroup, Help: "what you ask for it; for one of them where quantity says several", Keys: []Key{
		{Name: "amount", Reader: Anyone, Field: "Amount", Type: typeNumber, Required: true, Max: maxMoney, Help: "the figure alone", Example: "1280"},
		{Name: "currency", Reader: Anyone, Field: "Currency", Type: typeCurrency, Help: "three letters; the workshop's when left out", Example: "GBP"},
		{Name: "note", Reader: Anyone, Field: "Note", Type: typeText, Help: "what the price covers", Example: "collected"},
	}},
	{Name: "availability", Reader: Anyone, Field: "Availability", Type: typeWord, Words: availabilities, Help: "whether it can be had", Example: "in stock"},
	{Name: "delivery", Reader: Anyone, Field: "Delivery", Type: typeGroup, Help: "what you offer", Keys: []Key{
		{Name: "ships_to", Reader: Anyone, Field: "ShipsTo", Type: typeCountry, Many: oneOrList, Help: "countries, by their two letters", Example: "[GB, IE]"},
		{Name: "lead_time", Reader: Anyone, Field: "LeadTime", Type: typeText, Help: "how long until it leaves", Example: "2 weeks"},
		{Name: "assembly", Reader: Anyone, Field: "Assembly", Type: typeText, Help: "what the buyer has to put together", Example: "eight bolts with a 5 mm key"},
	}},
	{Name: "guarantee", Reader: Anyone, Field: "Guarantee", Type: typeText, Help: "the workshop's when left out", Example: "Five years on joints and resin"},
	{Name: "returns", Reader: Anyone, Field: "Returns", Type: typeText, Help: "the workshop's when left out", Example: "Within 14 days, in its packing"},
	{Name: "buyer", Reader: Maker, Field: "Buyer", Type: typeGroup, Help: "who has it now", Keys: []Key{
		{Name: "name", Reader: Maker, Field: "Name", Type: typeText, Help: "stays private", Example: "the buyer's name"},
		{Name: "delivered", Reader: Maker, Field: "Delivered", Type: typeDate, Help: "the day it was handed over", Example: "2026-06-20"},
	}},
	{Name: "packing", Reader: Anyone, Field: "Packing", Type: typeGroup, Help: "how it travels", Keys: []Key{
		{Name: "how", Reader: Anyone, Field: "How", Type: typeWord, Words: PackingHow, Help: "the packing", Example: "crate"},
		{Name: "clearance", Reader: Anyone, Field: "Clearance", Type: typeLength, Max: 1000, Help: "room for padding on every side", Example: "3 in"},
		{Name: "legs", Reader: Anyone, Field: "Legs", Type: typeWord, Words: LegsTravel, Help: "whether the base travels on the piece, beside it, or packed flat with the top", Example: "off"},
		{Name: "crate", Reader: Anyone, Field: "Crate", Type: typeText, Help: "what the crate is made of", Example: "plywood"},
		{Name: "packages", Reader: Anyone, Field: "Packages", Type: typeGroup, Many: oneOrList, Count: [2]int{1, 100}, Help: "your own boxes, where you know them", Keys: []Key{
			{Name: "name", Reader: Anyone, Field: "Name", Type: typeText, Required: true, OneLine: true, Help: "what is in it", Example: "top"},
			{Name: "size", Reader: Anyone, Field: "Size", Type: typeLength, Many: oneOrList, Count: [2]int{3, 3}, Required: true, Min: 10, Max: maxSide, Help: "length, width and height outside", Example: "[54 in, 20 in, 6 in]"},
			{Name: "weighed", Reader: Anyone, Field: "Weighed", Type: typeMass, Min: 0.02, Max: maxKg, Help: "packed, on a scale", Example: "24 kg"},
		}},
	}},
	{Name: "seats", Reader: Anyone, Field: "Seats", Type: typeWhole, Max: 100, Help: "how many it seats, where you know better", Example: "2"},
	costsKey, photosKey,
	{Name: "lang", Reader: Anyone, Field: "Langs", Type: typeText, Many: oneOrList, Count: [2]int{1, 20}, Pattern: langPattern, Help: "the languages of this piece's papers, where they differ from the workshop's", Example: "[en-GB, de]"},
	{Name: "translations", Reader: Anyone, Field: "Translations", Type: typeGroup, Many: byLanguage, Help: "your own words in another language", Keys: []Key{
		{Name: "title", Reader: Anyone, Field: "Title", Type: typeText, OneLine: true, Help: "the title", Example: "Konsole"},
		{Name: "story", Reader: Anyone, Field: "Story", Type: typeText, Help: "the story", Example: "Ein Absatz."},
		{Name: "found", Reader: Anyone, Field: "Found", Type: typeText, Help: "what turned up in the wood", Example: "Ein Nagel."},
		{Name: "mark", Reader: Anyone, Field: "Mark", Type: typeText, Help: "where the piece is signed", Example: "Unten links eingebrannt"},
		{Name: "captions", Reader: Anyone, Field: "Captions", Type: typeText, Many: byFileName, Help: "the lines below photos", Example: "{IMG_0304.jpg: Der Nagel}"},
	}},
}

var topKey = Key{Name: "top", Reader: Anyone, Field: "Top", Type: typeGroup, Required: true, Help: "the slab itself", Example: "{outline: {length: 48 in, width: 15 in}, thickness: 1 5/8 in, wood: {species: european-ash}}", Keys: []Key{
	{Name: "outline", Reader: Anyone, Field: "Outline", Type: typeGroup, Required: true, Help: "its shape seen from above, finished size, said in exactly one way", Ways: outlineWays, Keys: []Key{
		{Name: "length", Reader: Anyone, Field: "Length", Type: typeLength, Min: 10, Max: maxSide, Help: "with width, a rectangle", Example: "48 in"},
		{Name: "width", Reader: Anyone, Field: "Width", Type: typeLength, Min: 10, Max: maxSide, Help: "with length, a rectangle", Example: "15 in"},
		{Name: "widths", Reader: Anyone, Field: "Widths", Type: typeLength, Many: oneOrList, Count: [2]int{2, 1000}, Max: maxSide, Help: "with length: measured across at equal steps along it, both ends included", Example: "[14 1/2 in, 15 in, 15 1/4 in, 14 7/8 in, 14 in]"},
		{Name: "points", Reader: Anyone, Field: "Points", Type: typePoints, Count: [2]int{3, 20000}, Max: maxSide, Help: "or a traced outline, corner by corner, x along the length", Example: "[[0, 0], [48, 0.5], [47.5, 15], [0.25, 14.5]]"},
		{Name: "diameter", Reader: Anyone, Field: "Diameter", Type: typeLength, Min: 10, Max: maxSide, Help: "or round", Example: "32 in"},
		{Name: "photo", Reader: Anyone, Field: "Photo", Type: typeFile, Help: "or measured from a photo taken straight from above, with", Example: "plan.jpg"},
		{Name: "paper_sheet", Reader: Anyone, Field: "PaperSheet", Type: typeWord, Words: paperSizes, Help: "a sheet of paper lying on the top", Example: "a4"},
		{Name: "marks", Reader: Anyone, Field: "Marks", Type: typeSpots, Count: [2]int{4, 4}, Help: "and, where the sheet is hard to see, its corners as shares of the photo, clockwise", Example: "[[0.41, 0.40], [0.55, 0.40], [0.55, 0.62], [0.41, 0.62]]"},
		{Name: "resin_at", Reader: Anyone, Field: "ResinAt", Type: typeSpots, Count: [2]int{1, 100}, Help: "a spot or more on the resin as shares of the photo, to measure its part of the face", Example: "[[0.5, 0.3]]"},
	}},
	{Name: "thickness", Reader: Anyone, Field: "Thickness", Type: typeLength, Required: true, Min: 2, Max: 600, Help: "the finished thickness", Example: "1 5/8 in"},
	{Name: "wood", Reader: Anyone, Field: "Wood", Type: typeGroup, Many: oneOrList, Count: [2]int{1, 50}, Required: true, Help: "one wood or more", Keys: woodKeys, Short: &Key{Name: "wood", Reader: Anyone, Field: "Species", Type: typeText, Help: "its common or botanical name", Example: "european-ash"}},
	{Name: "resin", Reader: Anyone, Field: "Resin", Type: typeGroup, Many: oneOrList, Count: [2]int{1, 50}, Help: "leave it out when there is none; a list when there are several", Keys: []Key{
		{Name: "material", Reader: Anyone, Field: "Material", Type: typeText, Help: "the resin, by name; a casting epoxy when left out", Example: "epoxy-casting"},
		{Name: "area", Reader: Anyone, Field: "Area", Type: typePercent, Min: 0.01, Max: 100, Help: "its share of the top's face, mean of both faces", Example: "18 %"},
		{Name: "volume", Reader: Anyone, Field: "Volume", Type: typeVolume, Min: 0.001, Max: maxLitres, Help: "or its volume in the finished piece", Example: "3.6 l"},
		{Name: "mixed", Reader: Anyone, Field: "Mixed", Type: typeAmount, Min: 0.001, Max: maxLitres, Help: "or what was mixed, by volume or mass", Example: "5.2 l"},
		{Name: "left_over", Reader: Anyone, Field: "LeftOver", Type: typeAmount, Max: maxLitres, Help: "and what of it was left in the pot", Example: "0.3 l"},
		{Name: "density", Reader: Anyone, Field: "Density", Type: typeDensity, Min: 500, Max: 3000, Help: "cured, from the data sheet", Example: "1.10 kg/l"},
		{Name: "colour", Reader: Anyone, Field: "Colour", Type: typeText, Help: "in your own words", Example: "smoke grey, translucent"},
		{Name: "tint", Reader: Anyone, Field: "Tint", Type: typeWord, Words: tints, Help: "what colours it", Example: "dye"},
		{Name: "pours", Reader: Anyone, Field: "Pours", Type: typeWhole, Min: 1, Max: 200, Help: "in how many layers it was cast", Example: "2"},
	}},
	{Name: "voids", Reader: Anyone, Field: "Voids", Type: typeVolume, Max: maxLitres, Help: "holes, cut-outs, routed pockets", Example: "0 l"},
	{Name: "channels", Reader: Anyone, Field: "Channels", Type: typeGroup, Many: oneOrList, Count: [2]int{1, 200}, Help: "steel let into the underside", Ways: sectionWays[:1], Keys: sectionKeys("channel")},
	{Name: "overhang", Reader: Anyone, Field: "Overhang", Type: typeLength, Max: maxSide / 2, Help: "how far the top reaches beyond the base at each end", Example: "5 in"},
	{Name: "across_wood", Reader: Anyone, Field: "AcrossWood", Type: typeLength, Min: 1, Max: maxSide, Help: "how much of the width is wood where resin runs along it, for the movement", Example: "11 in"},
	{Name: "weighed", Reader: Anyone, Field: "Weighed", Type: typeMass, Min: 0.02, Max: maxKg, Help: "the top alone on a scale, if it was", Example: "16.2 kg"},
}}

// outlineWays are the ways of saying an outline.
var outlineWays = []way{
	{Need: []string{"length", "width"}},
	{Need: []string{"length", "widths"}},
	{Need: []string{"points"}},
	{Need: []string{"diameter"}},
	{Need: []string{"photo", "paper_sheet"}, May: []string{"marks", "resin_at"}},
	{Need: []string{"photo", "length", "width"}, May: []string{"resin_at"}},
}

// sectionWays are the ways of saying what a piece of steel is.
var sectionWays = []way{
	{Need: []string{"section", "length"}, May: []string{"count", "material"}},
	{Need: []string{"tube", "length"}, May: []string{"count", "material"}},
	{Need: []string{"angle", "length"}, May: []string{"count", "material"}},
	{Need: []string{"channel", "length"}, May: []string{"count", "material"}},
	{Need: []string{"plate"}, May: []string{"count", "material"}},
	{Need: []string{"bar", "length"}, May: []string{"count", "material"}},
}

var woodKeys = []Key{
	{Name: "species", Reader: Anyone, Field: "Species", Type: typeText, Required: true, Help: "its common or botanical name", Example: "european-ash"},
	{Name: "density", Reader: Anyone, Field: "Density", Type: typeDensity, Min: 80, Max: 1600, Help: "for a wood that the table does not hold", Example: "680 kg/m3"},
	{Name: "specific_gravity", Reader: Anyone, Field: "SpecificGravity", Type: typeNumber, Min: 0.08, Max: 1.5, Help: "or its basic specific gravity: oven-dry mass over green volume", Example: "0.55"},
	{Name: "moisture", Reader: Anyone, Field: "Moisture", Type: typeGroup, Help: "what the meter said, if you measured", Keys: []Key{
		{Name: "reading", Reader: Anyone, Field: "Reading", Type: typePercent, Min: 1, Max: 200, Help: "the reading", Example: "9 %"},
		{Name: "on", Reader: Anyone, Field: "On", Type: typeDate, Help: "the day", Example: "2026-04-11"},
		{Name: "meter", Reader: Anyone, Field: "Meter", Type: typeText, Help: "the kind of meter", Example: "pin"},
	}, Short: &Key{Name: "reading", Field: "Reading", Type: typePercent, Min: 1, Max: 200, Example: "9 %"}},
	{Name: "cut", Reader: Anyone, Field: "Cut", Type: typeWord, Words: Cuts, Help: "how it lay in the log; through-and-through when left out", Example: "through-and-through"},
	{Name: "grain", Reader: Anyone, Field: "Grain", Type: typeWord, Words: Grains, Help: "which way the grain runs; along length when left out", Example: "along length"},
	{Name: "share", Reader: Anyone, Field: "Share", Type: typePercent, Min: 0.1, Max: 100, Help: "its share of the wood, where there are several; the shares make 100 %", Example: "100 %"},
	{Name: "origin", Reader: Anyone, Type: typeGroup, Help: "where the tree stood", Keys: []Key{
		{Name: "country", Reader: Anyone, Field: "Country", Type: typeCountry, Help: "its two letters", Example: "GB"},
		{Name: "note", Reader: Anyone, Field: "OriginNote", Type: typeText, Help: "what is worth telling", Example: "felled by a storm"},
	}},
}

var baseKey = Key{Name: "base", Reader: Anyone, Field: "Base", Type: typeGroup, Help: "what the top stands on", Keys: []Key{
	{Name: "style", Reader: Anyone, Field: "Style", Type: typeText, Help: "in your own words", Example: "two welded frames"},
	{Name: "material", Reader: Anyone, Field: "Material", Type: typeText, Help: "steel, another material, or a wood", Example: "steel"},
	{Name: "weight", Reader: Anyone, Field: "Weight", Type: typeMass, Min: 0.02, Max: maxKg, Help: "weighed; or", Example: "9.4 kg"},
	{Name: "volume", Reader: Anyone, Field: "Volume", Type: typeVolume, Min: 0.01, Max: maxLitres, Help: "its volume of solid material; or", Example: "14 l"},
	{Name: "sections", Reader: Anyone, Field: "Sections", Type: typeGroup, Many: oneOrList, Count: [2]int{1, 200}, Help: "the steel that it was made of", Ways: sectionWays, Keys: sectionKeys("box")},
	{Name: "height", Reader: Anyone, Field: "Height", Type: typeLength, Min: 5, Max: 3000, Help: "from the floor to the underside of the top", Example: "28 3/8 in"},
	{Name: "footprint", Reader: Anyone, Type: typeGroup, Help: "the size of what stands on the floor", Keys: []Key{
		{Name: "length", Reader: Anyone, Field: "FootprintLength", Type: typeLength, Min: 10, Max: maxSide, Help: "along the top", Example: "40 in"},
		{Name: "width", Reader: Anyone, Field: "FootprintWidth", Type: typeLength, Min: 10, Max: maxSide, Help: "across it", Example: "12 in"},
	}},
	{Name: "coating", Reader: Anyone, Field: "Coating", Type: typeText, Help: "what is on the metal", Example: "black powder coat"},
	{Name: "feet", Reader: Anyone, Field: "Feet", Type: typeText, Help: "what touches the floor", Example: "levelling"},
	{Name: "fixing", Reader: Anyone, Field: "Fixing", Type: typeGroup, Help: "how top and base are joined; a few words will do as well", Keys: []Key{
		{Name: "method", Reader: Anyone, Field: "Method", Type: typeText, Help: "in your own words", Example: "threaded inserts"},
		{Name: "bolt", Reader: Anyone, Field: "Bolt", Type: typeText, Help: "the thread", Example: "M8"},
		{Name: "count", Reader: Anyone, Field: "Count", Type: typeWhole, Min: 1, Max: 1000, Help: "how many", Example: "8"},
		{Name: "holes", Reader: Anyone, Field: "Holes", Type: typeWord, Words: Holes, Help: "how they let the wood move", Example: "slotted"},
		{Name: "slot", Reader: Anyone, Field: "Slot", Type: typeLength, Min: 1, Max: 300, Help: "the length of a slot", Example: "12 mm"},
		{Name: "across", Reader: Anyone, Field: "Across", Type: typeLength, Min: 1, Max: maxSide, Help: "between the outermost fixings, across the grain", Example: "10 in"},
	}, Short: &Key{Name: "fixing", Field: "Text", Type: typeText, Example: "eight bolts in slotted holes"}},
}}

var partsKey = Key{Name: "parts", Reader: Anyone, Field: "Parts", Type: typeGroup, Many: oneOrList, Count: [2]int{1, 500}, Help: "drawers, aprons, shelves, stretchers, hardware", Keys: []Key{
	{Name: "name", Reader: Anyone, Field: "Name", Type: typeText, Required: true, OneLine: true, Help: "what it is", Example: "drawer"},
	{Name: "material", Reader: Anyone, Field: "Material", Type: typeText, Help: "a wood or another material", Example: "black-walnut"},
	{Name: "count", Reader: Anyone, Field: "Count", Type: typeWhole, Min: 1, Max: 10000, Help: "how many; 1 when left out", Example: "1"},
	{Name: "size", Reader: Anyone, Field: "Size", Type: typeLength, Many: oneOrList, Count: [2]int{3, 3}, Min: 0.3, Max: maxSide, Help: "length, width and height outside", Example: "[18 in, 11 in, 3 1/2 in]"},
	{Name: "walls", Reader: Anyone, Field: "Walls", Type: typeLength, Min: 1, Max: 300, Help: "the walls of a box such as a drawer", Example: "1/2 in"},
	{Name: "below_top", Reader: Anyone, Field: "BelowTop", Type: typeLength, Max: 3000, Help: "how far it reaches below the underside of the top", Example: "3 3/4 in"},
	{Name: "weight", Reader: Anyone, Field: "Weight", Type: typeMass, Min: 0.001, Max: maxKg, Help: "of one, when you know it", Example: "1.1 kg"},
}}

var finishKey = Key{Name: "finish", Reader: Anyone, Field: "Finish", Type: typeGroup, Help: "what the surface was treated with", Keys: []Key{
	{Name: "family", Reader: Anyone, Field: "Family", Type: typeWord, Words: FinishFamilies, Help: "care and curing times hang on it", Example: "hardwax-oil"},
	{Name: "product", Reader: Anyone, Field: "Product", Type: typeText, Help: "printed: the buyer needs it to renew the finish", Example: "the name on the tin"},
	{Name: "coats", Reader: Anyone, Field: "Coats", Type: typeWhole, Max: 100, Help: "how many", Example: "2"},
	{Name: "sheen", Reader: Anyone, Field: "Sheen", Type: typeText, Help: "in your own words", Example: "satin"},
	{Name: "last_coat", Reader: Anyone, Field: "LastCoat", Type: typeDate, Help: "the day of the last coat; finished when left out", Example: "2026-05-28"},
	{Name: "food_contact", Reader: Anyone, Field: "FoodContact", Type: typeText, Help: "what the product's own sheet documents on food, and no more", Example: "what the sheet says"},
}}

var materialsKey = Key{Name: "materials", Reader: Owner, Field: "Materials", Type: typeGroup, Many: oneOrList, Count: [2]int{1, 1000}, Help: "what went in, for tracing", Keys: []Key{
	{Name: "use", Reader: Owner, Field: "Use", Type: typeText, Help: "what it was for", Example: "casting resin"},
	{Name: "product", Reader: Owner, Field: "Product", Type: typeText, Help: "the name on the tin", Example: "the name on the tin"},
	{Name: "chemistry", Reader: Owner, Field: "Chemistry", Type: typeText, Help: "what it is", Example: "epoxy"},
	{Name: "hardener", Reader: Owner, Field: "Hardener", Type: typeText, Help: "the second part", Example: "the name on the tin"},
	{Name: "ratio", Reader: Owner, Field: "Ratio", Type: typeText, Help: "how it was mixed", Example: "\"2:1\""},
	{Name: "batch", Reader: Owner, Field: "Batch", Type: typeText, Help: "the number on the tin, as it stands there", Example: "0012"},
	{Name: "bought", Reader: Owner, Field: "Bought", Type: typeDate, Help: "the day", Example: "2026-03-02"},
	{Name: "expires", Reader: Owner, Field: "Expires", Type: typeDate, Help: "the day on the tin", Example: "2027-03-02"},
	{Name: "supplier", Reader: Maker, Field: "Supplier", Type: typeText, Help: "who sold it", Example: "the merchant's name"},
	{Name: "show", Reader: Owner, Field: "Show", Type: typeYesNo, Help: "yes: the buyer may see use and product", Example: "no"},
}}

var logKey = Key{Name: "log", Reader: Owner, Field: "Log", Type: typeGroup, Many: oneOrList, Count: [2]int{1, 1000}, Help: "what was done to it later", Keys: []Key{
	{Name: "date", Reader: Owner, Field: "Date", Type: typeDate, Required: true, Help: "the day", Example: "2027-01-09"},
	{Name: "did", Reader: Owner, Field: "Did", Type: typeText, Required: true, Help: "what was done", Example: "oiled again"},
	{Name: "materials", Reader: Owner, Field: "Materials", Type: typeText, Many: oneOrList, Help: "with what", Example: "[the name on the tin]"},
}}

var costsKey = Key{Name: "costs", Reader: Maker, Field: "Costs", Type: typeGroup, Help: "yours alone", Keys: []Key{
	{Name: "hours", Reader: Maker, Field: "Hours", Type: typeNumber, Max: 100000, Help: "hours of work", Example: "38"},
	{Name: "rate", Reader: Maker, Field: "Rate", Type: typeNumber, Max: maxMoney, Help: "what an hour costs", Example: "30"},
	{Name: "items", Reader: Maker, Field: "Items", Type: typeGroup, Many: oneOrList, Count: [2]int{1, 1000}, Help: "what was paid for", Keys: []Key{
		{Name: "for", Reader: Maker, Field: "For", Type: typeText, Required: true, Help: "what", Example: "slab"},
		{Name: "amount", Reader: Maker, Field: "Amount", Type: typeNumber, Required: true, Max: maxMoney, Help: "the figure alone", Example: "210"},
	}},
	{Name: "slabs", Reader: Maker, Field: "Slabs", Type: typeGroup, Many: oneOrList, Count: [2]int{1, 200}, Help: "the slabs as they came, for the yield", Keys: []Key{
		{Name: "size", Reader: Maker, Field: "Size", Type: typeLength, Many: oneOrList, Count: [2]int{3, 3}, Required: true, Min: 1, Max: maxSide, Help: "length, width and thickness", Example: "[80 in, 20 in, 2 1/4 in]"},
		{Name: "count", Reader: Maker, Field: "Count", Type: typeWhole, Min: 1, Max: 1000, Help: "how many; 1 when left out", Example: "1"},
	}},
}}

var photosKey = Key{Name: "photos", Reader: Anyone, Field: "Photos", Type: typeGroup, Help: "what you want to say about the photos", Keys: []Key{
	{Name: "main", Reader: Anyone, Field: "Main", Type: typeFile, Help: "the photo that comes first", Example: "IMG_0301.jpg"},
	{Name: "order", Reader: Anyone, Field: "Order", Type: typeFile, Many: oneOrList, Help: "the photos in order; the rest follow by name", Example: "[IMG_0301.jpg, IMG_0304.jpg]"},
	{Name: "views", Reader: Anyone, Field: "Views", Type: typeWord, Words: Views, Many: byFileName, Help: "what a photo shows", Example: "{IMG_0301.jpg: three-quarter, IMG_0304.jpg: detail}"},
	{Name: "captions", Reader: Anyone, Field: "Captions", Type: typeText, Many: byFileName, Help: "a line below a photo", Example: "{IMG_0304.jpg: The nail}"},
	{Name: "leave_out", Reader: Maker, Field: "LeaveOut", Type: typeFile, Many: oneOrList, Help: "photos that are not to be published", Example: "[IMG_0310.jpg]"},
	{Name: "tone", Reader: Anyone, Field: "Tone", Type: typeWord, Words: []string{"auto", "as shot"}, Help: "as shot leaves exposure and colour alone", Example: "auto"},
	{Name: "crop", Reader: Anyone, Field: "Crop", Type: typeWord, Words: []string{"auto", "as shot"}, Help: "as shot means no straightening, no crop", Example: "auto"},
	{Name: "crop_boxes", Reader: Anyone, Field: "CropBoxes", Type: typeBox, Many: byFileName, Help: "left, top, right, bottom as shares of the photo, where you know better", Example: "{IMG_0301.jpg: [0.05, 0.10, 0.95, 0.90]}"},
	{Name: "grey_card", Reader: Anyone, Field: "GreyCard", Type: typeBox, Many: byFileName, Help: "a box on a neutral card, for exact colour; or auto, to have a grey card or a chart of 24 colours found", Example: "{IMG_0301.jpg: [0.71, 0.80, 0.75, 0.85]}",
		Short: &Key{Name: "grey_card", Reader: Anyone, Field: "GreyFind", Type: typeWord, Words: []string{"auto"}, Help: "auto: a grey card or a chart of 24 colours in one of the photos is found, puts the colours of the others right and is left out", Example: "auto"}},
	{Name: "turn", Reader: Anyone, Field: "Turn", Type: typeWhole, Many: byFileName, Max: 270, Help: "degrees clockwise, for a photo that lies on its side: 90, 180 or 270", Example: "{IMG_0302.jpg: 90}"},
	{Name: "ground", Reader: Anyone, Field: "Ground", Type: typeText, Many: byFileName, Pattern: `^([wW]hite|#[0-9a-fA-F]{6})$`, Help: "the piece on a plain ground: white, or a colour as #rrggbb in quotes", Example: "{IMG_0301.jpg: white}"},
	{Name: "blends", Reader: Anyone, Field: "Blends", Type: typeGroup, Many: oneOrList, Count: [2]int{1, 100}, Help: "light-painting frames, blended into one photo", Keys: []Key{
		{Name: "name", Reader: Anyone, Field: "Name", Type: typeFile, Required: true, Help: "the name of the photo that is made", Example: "front-light"},
		{Name: "view", Reader: Anyone, Field: "View", Type: typeWord, Words: Views, Help: "what it shows", Example: "front"},
		{Name: "frames", Reader: Anyone, Field: "Frames", Type: typeFile, Many: oneOrList, Count: [2]int{2, 200}, Required: true, Help: "the frames, two or more", Example: "[light-1.jpg, light-2.jpg, light-3.jpg]"},
		{Name: "how", Reader: Anyone, Field: "How", Type: typeWord, Words: BlendWays, Help: "how the frames are put together; lightest when left out", Example: "lightest"},
		{Name: "strength", Reader: Anyone, Field: "Strength", Type: typePercent, Many: byFileName, Max: 100, Help: "how much of a frame counts", Example: "{light-2.jpg: 60 %}"},
		{Name: "masks", Reader: Anyone, Field: "Masks", Type: typeFile, Many: byFileName, Help: "a picture for a frame, white where the frame counts and black where it does not", Example: "{light-2.jpg: light-2-mask.png}"},
	}},
}}
