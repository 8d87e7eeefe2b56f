// Package weight adds up what a piece weighs from what it is made of, with a
// range and a source to every part. What the parts have in common (the density
// of one tree, the thickness of one top) is kept apart by cause, so that the
// range of the sum is neither too narrow nor too wide. Weights are of one
// piece; the quantity is not in them.
package weight

import (
	"slabfolio/listing/figure"
	"slabfolio/listing/geometry"
	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// A Role says what a part is to the piece.
type Role string

// The roles.
const (
	RoleTop     Role = "top"     // the whole top, weighed
	RoleWood    Role = "wood"    // a wood of the top
	RoleResin   Role = "resin"   // a resin of the top
	RoleChannel Role = "channel" // steel let into the top
	RoleBase    Role = "base"    // what the top stands on
	RolePart    Role = "part"    // a drawer, an apron, hardware
	RoleFinish  Role = "finish"  // the film on the surface
)

// A Part is one line of the weight: all pieces of its kind together.
type Part struct {
	Role      Role
	Index     int    // which of the spec's woods, resins, channels, sections or parts
	Name      string // for people: "Wych elm", "drawer"
	Material  string // id in the table of woods or of materials; empty where it was weighed
	Count     int
	Kg        float64
	Low       float64 // with High the 90 % range
	High      float64
	VolumeL   float64 // litres of the material; 0 where it was weighed
	Density   float64 // kg/m³; 0 where it was weighed
	Source    string  // where the numbers came from
	Rule      string  // what was done
	Uncertain figure.Uncertain
}

// Tables are what the estimate looks things up in.
type Tables struct {
	Woods     Woods
	Materials *Materials
}

// Woods is a table of woods, as far as it tells how heavy they are.
type Woods interface {
	// Standing returns the density of a wood of the top as it stands there.
	Standing(w piece.Wood) (figure.Density, error)
	// StandingBeside returns the density of a wood that a part names, beside a top.
	StandingBeside(name string, top []piece.Wood) (figure.Density, error)
	// Unknown returns what there is to say of a wood of the top that cannot be told
	// from its name; false where the error is of another kind.
	Unknown(err error, where piece.Place) (piece.Finding, bool)
}

// An Input is a piece with what was found out about it.
type Input struct {
	Piece   *piece.Piece
	Outline *geometry.Outline // nil where the outline is not known
	// ResinShare is the share of the face that is resin, 0 to 1, measured from
	// a photo; used where the spec's first resin has no amount. Its Low and
	// High are the 90 % range.
	ResinShare *figure.Figure
	First      units.System // of sizes and weights in findings
}

// An Estimate is the weight of one piece.
type Estimate struct {
	Parts []Part           // in the order wood, resin, channels, base, parts, finish
	Total *figure.Figure   // kg; nil where a part cannot be known
	Sum   figure.Uncertain // Total with its causes; of the known parts where Total is nil
	Top   *figure.Figure   // kg, the top alone, with its finish
	Base  *figure.Figure   // kg

	// The top's volumes in litres and shares; nil where not known.
	TopVolume   *figure.Figure
	WoodVolume  *figure.Figure
	ResinVolume *figure.Figure
	ResinShare  *figure.Figure // of the face, 0 to 1
	WoodArea    *figure.Figure // m² of the face
	ResinArea   *figure.Figure // m² of the face

	Findings []piece.Finding
	Absent   map[string]string // figure to why
}
