package piece

import "slabfolio/listing/units"

// A Workshop is who the maker is, and the defaults for every piece.
type Workshop struct {
	Dir  string // the folder of workshop.yaml; empty when there is none
	Text []byte // the file as read, for the archive

	Name, Address, Email, Phone, Web Value[string]
	Country                          Value[string] // ISO 3166-1 alpha-2

	Currency  Value[string]
	Units     Value[units.System]
	Paper     Value[string]   // a4, letter
	Langs     []Value[string] // of the papers and the page, the default first
	Copyright Value[string]
	Returns   Value[string]
	Guarantee Value[string]
	BaseURL   Value[string]
	Out       Value[string]
	Jobs      Value[int]
	Codecs    Value[string]
	Cache     Value[string]
	Only      Value[string] // photos, documents, listing
	Quiet     Value[bool]
	JSON      Value[bool]
	Force     Value[bool]
	Open      Value[bool]

	Region   Region
	Label    LabelSheet
	CareCard CareCard
	Sizes    []Size
	Resins   []ResinProduct
	Finishes []FinishProduct
	Glues    []GlueProduct
	Woods    []WoodEntry
}

// A LabelSheet is a sheet of labels as it is bought.
type LabelSheet struct {
	Rows, Columns      Value[int]
	Width, Height      Value[units.Length]
	Left, Top          Value[units.Length]
	GapAcross, GapDown Value[units.Length]
}

// A CareCard is how the care card is printed.
type CareCard struct {
	Size  Value[string]
	Sheet Value[bool]
}

// A Region is the indoor climate where the pieces will live.
type Region struct {
	HeatingSeasonRH Value[units.Percent]
	SummerRH        Value[units.Percent]
	Temperature     Value[units.Celsius]
}

// A Size is a rendition that the maker wants.
type Size struct {
	At      Place
	Preset  Value[string] // one of SizePresets, in place of all the rest
	Name    Value[string]
	Width   Value[int]    // pixels
	Ratio   Value[string] // "4:5"; the photo's own when absent
	Format  Value[string] // jpeg, webp
	Quality Value[int]    // 1 to 100
	Ground  Value[string] // white, or #rrggbb: the piece on a plain ground
}

// A ResinProduct is a resin that the maker uses, with what its data sheet says.
type ResinProduct struct {
	At        Place
	Product   Value[string]
	Chemistry Value[string]
	Density   Value[units.Density]
	PourDepth Value[units.Length]  // the deepest layer that the sheet allows
	Heat      Value[units.Celsius] // heat deflection temperature

	FoodContact Value[string] // what the resin's own sheet documents
}

// A FinishProduct is a finish that the maker uses, with what its sheet says.
type FinishProduct struct {
	At           Place
	Product      Value[string]
	Family       Value[string]
	LightUseDays Value[int]
	CureDaysFrom Value[int]
	CureDaysTo   Value[int]
	Clean        Value[string]
	Avoid        Value[string]
	Renew        Value[string]
	FoodContact  Value[string] // what the product's own sheet documents
}

// A GlueProduct is a glue that the maker uses.
type GlueProduct struct {
	At      Place
	Product Value[string]
	Class   Value[string]
}

// A WoodEntry is a wood that the maker adds, or overrides.
type WoodEntry struct {
	At              Place
	ID, Name        Value[string]
	Botanical       Value[string]
	SpecificGravity Value[float64] // basic
	Density         Value[units.Density]
	At12            bool // Density is at 12 % moisture
	Radial          Value[units.Percent]
	Tangential      Value[units.Percent]
	Volumetric      Value[units.Percent]
	Stiffness       Value[float64] // modulus of elasticity along the grain, GPa
	Source          Value[string]
}
