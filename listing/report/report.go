// Package report makes the one value that every document is made from, so that
// no two documents can disagree: it resolves names against the tables, runs the
// calculators, and holds the result, public and private apart.
package report

import (
	"slabfolio/listing/drawing"
	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// A Report is everything that is known of one piece. Its JSON is report.json.
type Report struct {
	Public      Public                   `json:"public"`
	Findings    []piece.Finding          `json:"findings"`
	Figures     map[string]figure.Figure `json:"figures"`
	WeightParts []WeightPart             `json:"weight_parts"`
	Stability   *Stability               `json:"stability,omitempty"`
	Freight     *Freight                 `json:"freight,omitempty"`
	Movement    []WoodMovement           `json:"movement"`
	Costs       *Costs                   `json:"costs,omitempty"`
	Buyer       *Buyer                   `json:"buyer,omitempty"`
	Record      []Record                 `json:"record,omitempty"` // materials that went in, for tracing
	Glue        []string                 `json:"glue,omitempty"`
	Log         []LogRecord              `json:"log,omitempty"`    // what was done to it later
	Listed      []string                 `json:"listed,omitempty"` // botanical names of woods whose trade is regulated
	Absent      map[string]string        `json:"absent"`
	Photos      []PhotoRecord            `json:"photos"`
	Codecs      string                   `json:"codecs"`
	Accent      string                   `json:"accent,omitempty"`      // "#6b4a2e", from the wood of the piece; 4.5:1 on white
	AccentDark  string                   `json:"accent_dark,omitempty"` // the same for dark backgrounds

	// What the writers need beside the JSON.
	Drawing drawing.Piece `json:"-"`
	Prefer  units.System  `json:"-"` // printed first
	Paper   string        `json:"-"` // a4 or letter
	Lang    string        `json:"-"`
	BaseURL string        `json:"-"`
	Rights  string        `json:"-"` // copyright line

	PageFolder string `json:"-"` // of its listing page below that of the default language, with its slash: "de/"; empty for that one

	Sealed  *Sealed `json:"-"` // the record of the piece, where one was sealed
	Home    string  `json:"-"` // the workshop's country, ISO 3166-1; empty where nothing tells it
	Tariff  string  `json:"-"` // the heading of the Harmonized System that the kind of piece falls under
	Abroad  bool    `json:"-"` // it is offered across a customs border
	Packing string  `json:"-"` // how it is packed: carton, crate-on-skid

	SentTogether bool `json:"-"` // its packages are those of all pieces of a quantity, which are sold as one
	Light        bool `json:"-"` // each of its packages is a parcel that one person carries
	SolidPacking bool `json:"-"` // the packing holds solid wood, which borders ask about
}

// Sealed is the latest sealed record of a piece.
type Sealed struct {
	Name string // of the bag
	Sum  string // SHA-512 of its manifest-sha512.txt, in hexadecimal
}

// A WeightPart is one line of the weight.
type WeightPart struct {
	Name    string  `json:"name"`
	Kg      float64 `json:"kg"`
	Low     float64 `json:"low_kg"`
	High    float64 `json:"high_kg"`
	Volume  float64 `json:"volume_l,omitempty"`
	Density float64 `json:"density_kg_m3,omitempty"`
	Source  string  `json:"source"`
}

// Stability is private: in print it would read as a rating.
type Stability struct {
	TipLoad float64            `json:"tip_load_kg"`
	Edge    string             `json:"edge"` // end, side, corner
	Cases   map[string]float64 `json:"cases,omitempty"`
}

// Freight is what a carrier computes with. Private.
type Freight struct {
	Gross        float64            `json:"gross_kg"`
	Density      float64            `json:"density_lb_ft3"`
	Class        string             `json:"freight_class"`
	Classes      string             `json:"freight_classes,omitempty"` // for people: over the range of the weight, the higher first
	Volumetric   float64            `json:"volumetric_kg"`
	ByDivisor    map[string]float64 `json:"by_divisor,omitempty"`
	LoadingMetre float64            `json:"loading_metres,omitempty"`
	Mode         map[string]string  `json:"mode,omitempty"` // region -> parcel or freight, with the limit
	Notes        []string           `json:"notes,omitempty"`
	Lift         string             `json:"-"` // which of the notes is of the lift
}

// A WoodMovement is the movement of one wood of the piece, in every direction.
type WoodMovement struct {
	Wood      string  `json:"wood"`
	Across    float64 `json:"across_mm"`
	Thickness float64 `json:"thickness_mm"`
	Along     float64 `json:"along_mm"`
	FromRH    float64 `json:"from_rh"`
	ToRH      float64 `json:"to_rh"`
	FromMC    float64 `json:"from_mc"`
	ToMC      float64 `json:"to_mc"`
	Rule      string  `json:"rule"`
	Source    string  `json:"source"`
}

// Costs are the maker's own.
type Costs struct {
	Hours       float64 `json:"hours,omitempty"` // of the whole batch; the money is for one piece
	Labour      float64 `json:"labour"`
	Items       float64 `json:"items"`
	Floor       float64 `json:"floor"`
	Margin      float64 `json:"margin,omitempty"`
	MarginPct   float64 `json:"margin_pct,omitempty"` // of the price
	Currency    string  `json:"currency,omitempty"`
	Yield       float64 `json:"yield_pct,omitempty"` // by face
	YieldVolume float64 `json:"yield_volume_pct,omitempty"`
	BoardFt     float64 `json:"board_feet,omitempty"`
}

// A Buyer is who bought the piece.
type Buyer struct {
	Name      string `json:"name,omitempty"`
	Delivered string `json:"delivered,omitempty"`
}

// A Record is one material that went in.
type Record struct {
	Use       string `json:"use,omitempty"`
	Product   string `json:"product,omitempty"`
	Chemistry string `json:"chemistry,omitempty"`
	Hardener  string `json:"hardener,omitempty"`
	Ratio     string `json:"ratio,omitempty"`
	Batch     string `json:"batch,omitempty"`
	Bought    string `json:"bought,omitempty"`  // YYYY-MM-DD
	Expires   string `json:"expires,omitempty"` // YYYY-MM-DD
	Supplier  string `json:"supplier,omitempty"`
}

// A LogRecord is something that was done to the piece later.
type LogRecord struct {
	Date      string   `json:"date"`
	Did       string   `json:"did"`
	Materials []string `json:"materials"`
}

// A PhotoRecord says what became of one source file.
type PhotoRecord struct {
	Source  string             `json:"source"`         // relative to the piece folder
	Name    string             `json:"name,omitempty"` // "01-three-quarter"; empty when it is not published
	View    string             `json:"view,omitempty"`
	Before  string             `json:"before,omitempty"` // small pictures for the overview, relative to the piece's output folder
	After   string             `json:"after,omitempty"`
	Tones   *Tones             `json:"histogram,omitempty"`
	Outputs []string           `json:"outputs,omitempty"`
	Refused string             `json:"refused,omitempty"` // why
	Done    []string           `json:"done,omitempty"`    // in words: "+0.7 stop", "cropped to the piece"
	Steps   []PhotoStep        `json:"steps,omitempty"`   // a line for each step, done or not
	Numbers map[string]float64 `json:"numbers,omitempty"`
}

// A PhotoStep is one step of a photo's way through the tool: reading, colour,
// framing, inspection, tone, renditions.
type PhotoStep struct {
	Step    string             `json:"step"`
	Did     string             `json:"did"`               // in words; "left as it was" when that is so
	Numbers map[string]float64 `json:"numbers,omitempty"` // that the step went by, as under PhotoRecord.Numbers
}

// Tones is a photo's histogram of lightness before and after, 64 steps of
// sRGB-coded luma from black to white, each a share of the pixels in 1/10000.
type Tones struct {
	Before []int `json:"before"`
	After  []int `json:"after"`
}

// publicStep is by how much a measure of Public may be off the drawing's, which is not
// rounded to hundredths, mm.
const publicStep = 0.01

// OneDiameter reports whether one diameter says how far the whole piece reaches: a
// round top, and no base that reaches further.
func (r *Report) OneDiameter() bool {
	d := r.Public.Dimensions
	return r.Drawing.Round && d != nil && d.Length != nil && d.Width != nil && *d.Length <= r.Drawing.Length+publicStep && *d.Width <= r.Drawing.Width+publicStep
}
