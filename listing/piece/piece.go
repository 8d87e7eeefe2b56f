// Package piece reads a maker's spec: piece.yaml and workshop.yaml. It knows
// the words of the spec and the place of every value, and nothing of photos,
// paper or sums.
package piece

import "slabfolio/listing/units"

// A Date is a calendar day without a time or a zone.
type Date struct{ Year, Month, Day int }

// A Piece is one finished piece as its maker describes it. Optional groups are
// nil when the spec has none of them.
type Piece struct {
	Dir  string // the piece folder, for reading; never printed or written anywhere
	Root string // the folder that was searched, for relative names in messages

	Serial       Value[string]
	Title        Value[string]
	Kind         Value[string] // one of Kinds
	Outdoors     Outdoors      // that it is to stand in the open
	Finished     Value[Date]
	Work         Value[string] // of Works; "made" when absent
	Quantity     Value[int]    // 1 when absent
	Units        Value[units.System]
	Story        Value[string]
	Found        Value[string]
	Mark         Value[string]
	Top          Top
	Base         *Base
	Parts        []Part
	Finish       *Finish
	Glue         []Value[string]
	Materials    []Material
	Log          []LogEntry
	Weighed      Value[units.Mass]
	Price        *Price
	Availability Value[string] // one of availabilities
	Delivery     *Delivery
	Guarantee    Value[string] // falls back to the workshop's
	Returns      Value[string] // falls back to the workshop's
	Buyer        *Buyer        // private
	Packing      *Packing
	Seats        Value[int] // where the maker knows better than the sums
	Costs        *Costs     // private
	Photos       Photos
	Langs        []Value[string]        // of this piece's papers; the workshop's when empty
	Translations map[string]Translation // by language tag, as written
}

// A Translation is the maker's own words in another language.
type Translation struct {
	At       Place
	Title    Value[string]
	Story    Value[string]
	Found    Value[string]
	Mark     Value[string]
	Captions map[string]Value[string] // by file name
}

// A Top is the slab itself.
type Top struct {
	At         Place
	Outline    Outline
	Thickness  Value[units.Length]
	Wood       []Wood
	Resin      []Resin
	Voids      Value[units.Volume]
	Channels   []Channel
	Overhang   Value[units.Length] // beyond the base at each end
	AcrossWood Value[units.Length] // how much of the width is wood where resin runs along it
	Weighed    Value[units.Mass]   // the top alone
}

// An Outline says the shape of the top in exactly one way.
type Outline struct {
	At         Place
	Length     Value[units.Length]
	Width      Value[units.Length]
	Widths     []Value[units.Length] // at equal steps along Length, both ends included
	Points     []Point               // traced
	Diameter   Value[units.Length]
	Photo      Value[string] // a plan photo, with PaperSheet, Marks, or Length and Width
	PaperSheet Value[string] // a4 or letter
	Marks      [][2]float64  // corners of the paper as shares of the photo, clockwise
	ResinAt    [][2]float64  // spots on the resin as shares of the photo
}

// A Point is a corner of a traced outline, x along the length.
type Point struct {
	X, Y units.Length
	At   Place
}

// Wood is one wood of the top.
type Wood struct {
	At              Place
	Species         Value[string] // id, common or botanical name, as written
	Density         Value[units.Density]
	SpecificGravity Value[float64] // basic: oven-dry mass over green volume
	Moisture        *Moisture
	Cut             Value[string]        // through-and-through (default), flat-sawn, rift-sawn, quarter-sawn
	Grain           Value[string]        // along length (default), along width, end grain
	Share           Value[units.Percent] // of the wood
	Country         Value[string]        // ISO 3166-1 alpha-2
	OriginNote      Value[string]
}

// Moisture is a reading of a moisture meter.
type Moisture struct {
	Reading Value[units.Percent]
	On      Value[Date]
	Meter   Value[string]
}

// Resin is one casting in the top.
type Resin struct {
	At       Place
	Material Value[string]        // id or name in the table of materials, or a product of workshop.yaml; epoxy-casting when absent
	Area     Value[units.Percent] // share of the top's face, mean of both faces
	Volume   Value[units.Volume]  // in the finished piece
	Mixed    Amount               // an upper bound
	LeftOver Amount
	Density  Value[units.Density] // cured
	Colour   Value[string]
	Tint     Value[string] // dye, mica, none
	Pours    Value[int]
}

// An Amount is a volume or a mass; at most one is set.
type Amount struct {
	Volume Value[units.Volume]
	Mass   Value[units.Mass]
}

// A Section is a metal section or plate as it is bought.
type Section struct {
	At       Place
	Form     string         // box, tube, bar, angle, plate, channel
	Sizes    []units.Length // box: width, height, wall; tube: diameter, wall; bar: diameter (one) or width, thickness (two); angle: leg, leg, wall; plate: length, width, thickness; channel: width, height, wall
	Length   Value[units.Length]
	Count    Value[int] // 1 when absent
	Material Value[string]
}

// A Channel is a steel section let into the underside.
type Channel = Section

// A Base is what the top stands on.
type Base struct {
	At              Place
	Style           Value[string]
	Material        Value[string] // an id or name in the table of materials, or a wood
	Weight          Value[units.Mass]
	Volume          Value[units.Volume]
	Sections        []Section
	Height          Value[units.Length] // floor to the underside of the top
	FootprintLength Value[units.Length]
	FootprintWidth  Value[units.Length]
	Coating         Value[string]
	Feet            Value[string]
	Fixing          *Fixing
}

// A Fixing says how top and base are joined.
type Fixing struct {
	At     Place
	Text   Value[string] // free text, or the fields below
	Method Value[string]
	Bolt   Value[string]
	Count  Value[int]
	Holes  Value[string] // slotted, oversize, round, fixed
	Slot   Value[units.Length]
	Across Value[units.Length] // between the outermost fixings, across the grain
}

// A Part is anything else that is on the piece.
type Part struct {
	At       Place
	Name     Value[string]
	Material Value[string]
	Count    Value[int]
	Size     []Value[units.Length] // length, width, height outside; empty or three
	Walls    Value[units.Length]   // set for a box such as a drawer
	BelowTop Value[units.Length]   // how far it reaches below the underside of the top
	Weight   Value[units.Mass]     // of one
}

// A Finish is what the surface was treated with.
type Finish struct {
	At       Place
	Family   Value[string] // one of FinishFamilies
	Product  Value[string]
	Coats    Value[int]
	Sheen    Value[string]
	LastCoat Value[Date] // Finished when absent

	FoodContact Value[string] // what the product's own sheet documents; falls back to the workshop's entry
}

// A Material is something that went in, for tracing.
type Material struct {
	At        Place
	Use       Value[string]
	Product   Value[string]
	Chemistry Value[string]
	Hardener  Value[string]
	Ratio     Value[string]
	Batch     Value[string]
	Bought    Value[Date]
	Expires   Value[Date]
	Supplier  Value[string]
	Show      Value[bool]
}

// A LogEntry is something that was done to the piece later.
type LogEntry struct {
	At        Place
	Date      Value[Date]
	Did       Value[string]
	Materials []Value[string]
}

// A Price is what the maker asks.
type Price struct {
	At       Place
	Amount   Value[float64]
	Currency Value[string] // ISO 4217; falls back to the workshop's
	Note     Value[string]
}

// Delivery is what the maker offers.
type Delivery struct {
	At       Place
	ShipsTo  []Value[string] // ISO 3166-1 alpha-2
	LeadTime Value[string]
	Assembly Value[string]
}

// A Buyer is who bought the piece. Private.
type Buyer struct {
	At        Place
	Name      Value[string]
	Delivered Value[Date]
}

// Packing is how the piece travels.
type Packing struct {
	At        Place
	How       Value[string] // blanket-wrapped, carton, crate, crate on skid
	Clearance Value[units.Length]
	Legs      Value[string] // one of LegsTravel
	Crate     Value[string] // material of the crate's panels
	Packages  []Package     // the maker's own boxes
}

// A Package is a box that the maker packed.
type Package struct {
	At      Place
	Name    Value[string]
	Size    []Value[units.Length] // length, width, height outside
	Weighed Value[units.Mass]
}

// Costs are the maker's own. Private.
type Costs struct {
	At    Place
	Hours Value[float64]
	Rate  Value[float64] // in the piece's currency, an hour
	Items []CostItem
	Slabs []BoughtSlab // what was bought, for the yield
}

// A CostItem is one thing that was paid for.
type CostItem struct {
	At     Place
	For    Value[string]
	Amount Value[float64]
}

// A BoughtSlab is a slab as it came, before cutting.
type BoughtSlab struct {
	At    Place
	Size  []Value[units.Length] // length, width, thickness
	Count Value[int]
}

// Box is left, top, right, bottom as shares of the upright photo, 0 to 1.
type Box [4]float64

// Photos is what the maker says of the photos. Keys are file names as written.
type Photos struct {
	At        Place
	Main      Value[string]
	Order     []Value[string]
	Views     map[string]Value[string]
	Captions  map[string]Value[string]
	LeaveOut  []Value[string]
	Tone      Value[string] // auto, as shot
	Crop      Value[string] // auto, as shot
	CropBoxes map[string]Value[Box]
	GreyCard  map[string]Value[Box]
	GreyFind  Value[string]            // auto: a card in the photos is to be found
	Turn      map[string]Value[int]    // degrees clockwise: 0, 90, 180 or 270
	Ground    map[string]Value[string] // white, or #rrggbb
	Blends    []Blend
}

// A Blend is a photo to be made from several frames.
type Blend struct {
	At       Place
	Name     Value[string]
	View     Value[string]
	Frames   []Value[string]
	How      Value[string]                   // one of BlendWays; lightest when absent
	Strength map[string]Value[units.Percent] // by frame; 100 % when absent
	Masks    map[string]Value[string]        // by frame: a picture that is white where it counts
}
