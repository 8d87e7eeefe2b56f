package report

import (
	"slices"
	"strings"
)

// Public is what anyone may see of a piece: exactly what listing.json holds.
// It has no field that could carry a cost, a buyer or a supplier.
type Public struct {
	Serial   string `json:"serial"`
	Title    string `json:"title"`
	Kind     string `json:"kind"`
	Finished string `json:"finished"`       // YYYY-MM-DD
	Work     string `json:"work,omitempty"` // restored, repaired; unsaid where others seem to have made it; absent for what the workshop made
	Quantity int    `json:"quantity"`
	Taken    bool   `json:"taken,omitempty"` // made for a buyer, or ordered by one, and so on offer to nobody else
	Set      bool   `json:"set,omitempty"`   // the pieces of the quantity belong together, as the title says
	Story    string `json:"story,omitempty"`
	Found    string `json:"found,omitempty"`
	Mark     string `json:"mark,omitempty"`

	Dimensions *Dimensions     `json:"dimensions,omitempty"`
	Weight     *Weight         `json:"weight,omitempty"`
	Movement   *Movement       `json:"movement,omitempty"`
	Seats      int             `json:"seats,omitempty"`
	Shipping   *Shipping       `json:"shipping,omitempty"`
	Materials  []Material      `json:"materials"`
	Finish     *Finish         `json:"finish,omitempty"`
	Care       []Paragraph     `json:"care"`
	Cautions   []Paragraph     `json:"cautions"`
	Photos     []Photo         `json:"photos"`
	Price      *Price          `json:"price,omitempty"`
	Available  string          `json:"availability,omitempty"`
	Delivery   *Delivery       `json:"delivery,omitempty"`
	Guarantee  string          `json:"guarantee,omitempty"`
	Returns    string          `json:"returns,omitempty"`
	Base       *Base           `json:"base,omitempty"`
	Parts      []Part          `json:"parts,omitempty"`
	Maker      *Maker          `json:"maker,omitempty"`
	Lang       string          `json:"lang,omitempty"`           // of the texts, an IETF tag
	Shown      []ShownMaterial `json:"products,omitempty"`       // materials with show: yes
	Texts      *Texts          `json:"texts,omitempty"`          // to paste into the forms of shops
	Languages  LanguageTexts   `json:"languages,omitempty"`      // the same in each language of the page, where there are several
	Composite  string          `json:"composite_wood,omitempty"` // what a label in the US says of panels in the piece
}

// Dimensions are of the assembled piece, in SI; absent ones are nil.
type Dimensions struct {
	Length       *float64 `json:"length_mm,omitempty"`
	Width        *float64 `json:"width_mm,omitempty"`
	Height       *float64 `json:"height_mm,omitempty"`
	TopThickness *float64 `json:"top_thickness_mm,omitempty"`
	TopArea      *float64 `json:"top_area_m2,omitempty"`
	WoodArea     *float64 `json:"wood_area_m2,omitempty"`
	ResinArea    *float64 `json:"resin_area_m2,omitempty"`
	Knee         *float64 `json:"knee_clearance_mm,omitempty"`
	Text         Text     `json:"text"` // "54 × 16 × 30 in", "137.2 × 40.6 × 76.2 cm"
}

// Text is the same for people, in both systems.
type Text struct {
	In string `json:"in"`
	Cm string `json:"cm"`
}

// Weight is of one piece, assembled.
type Weight struct {
	Kg      float64     `json:"kg"`
	Low     float64     `json:"low_kg"`
	High    float64     `json:"high_kg"`
	Weighed *float64    `json:"weighed_kg,omitempty"`
	Text    TextWeights `json:"text"` // what the scale said, "69.2 lb", "31.4 kg"; else the estimate, "31 kg, between 28 and 34"
}

// Shown is the weight for people, in kg: what the scale said, else the estimate.
func (w *Weight) Shown() float64 {
	if w.Weighed != nil {
		return *w.Weighed
	}
	return w.Kg
}

// TextWeights is a weight for people, in both systems.
type TextWeights struct {
	Lb string `json:"lb"`
	Kg string `json:"kg"`
}

// Values are the weights without their ranges: "69 lb", "31 kg".
func (t TextWeights) Values() (lb, kg string) {
	lb, _, _ = strings.Cut(t.Lb, ", ")
	kg, _, _ = strings.Cut(t.Kg, ", ")
	return lb, kg
}

// Movement is the seasonal movement across the width of the piece, an upper bound.
type Movement struct {
	Across float64 `json:"across_mm"`
	FromRH float64 `json:"from_rh"`
	ToRH   float64 `json:"to_rh"`
	FromMC float64 `json:"from_mc"`
	ToMC   float64 `json:"to_mc"`
	Text   string  `json:"text"`
	Moves  string  `json:"-"` // Across for people: "4 mm (3⁄16 in)"

	settles, reading string // how far wet wood still shrinks once, for people, and its reading
}

// Shipping is what the buyer needs to know of the journey.
type Shipping struct {
	Packages     []Package `json:"packages"`
	PeopleToLift int       `json:"people_to_lift,omitempty"` // absent for what no hands lift
	Lift         string    `json:"lift,omitempty"`           // one, one-with-care, two, more, machine
	Text         string    `json:"text"`
}

// A Package is one thing that a carrier takes.
type Package struct {
	Name   string  `json:"name,omitempty"`
	Length float64 `json:"length_mm"`
	Width  float64 `json:"width_mm"`
	Height float64 `json:"height_mm"`
	Gross  float64 `json:"gross_kg,omitempty"` // absent where the maker did not weigh a box
	Low    float64 `json:"low_kg,omitempty"`
	High   float64 `json:"high_kg,omitempty"`
	Text   Text    `json:"text"`
}

// A Material is a wood, a resin or a metal of the piece.
type Material struct {
	Name      string  `json:"name"`
	Botanical string  `json:"botanical,omitempty"`
	Share     float64 `json:"share_pct,omitempty"` // of the top's volume
	Origin    string  `json:"origin,omitempty"`
	Detail    string  `json:"detail,omitempty"` // "smoke grey, translucent", "through-and-through"
	Role      string  `json:"role"`             // wood, resin, base, part
}

// Finish is what the surface was treated with, and from when it can be used.
type Finish struct {
	Family       string `json:"family"`
	Name         string `json:"name"` // for people: "hardwax oil"
	Product      string `json:"product,omitempty"`
	Coats        int    `json:"coats,omitempty"`
	Sheen        string `json:"sheen,omitempty"`          // for people: a usual word in the buyer's language, any other as the maker wrote it
	LightUseFrom string `json:"light_use_from,omitempty"` // YYYY-MM-DD
	FullCureFrom string `json:"full_cure_from,omitempty"`
	FullCureTo   string `json:"full_cure_to,omitempty"`
}

// Called is the name and the product, for people. A product that begins with the
// name says it already: "hardwax oil, clear".
func (f *Finish) Called() string {
	switch {
	case f.Product == "":
		return f.Name
	case f.Name == "" || strings.HasPrefix(strings.ToLower(f.Product), strings.ToLower(f.Name)):
		return f.Product
	}
	return f.Name + ", " + f.Product
}

// A Paragraph is one piece of care or one caution.
type Paragraph struct {
	ID    string `json:"id"`              // the text's name in templates/, such as "care.clean.hardwax-oil"
	Group string `json:"group,omitempty"` // care: first-weeks, daily, clean, avoid, renew, climate; cautions: lift, tip, heat, food, rags …
	Head  string `json:"head,omitempty"`  // two or three words
	Text  string `json:"text"`
}

// A Photo is one published photo.
type Photo struct {
	File       string      `json:"file"` // relative to listing/: "photos/01-three-quarter-2400.jpg"
	Width      int         `json:"width"`
	Height     int         `json:"height"`
	Alt        string      `json:"alt"`
	View       string      `json:"view,omitempty"`
	Caption    string      `json:"caption,omitempty"`
	Upload     string      `json:"upload"` // "upload/01-three-quarter.jpg"
	Renditions []Rendition `json:"renditions"`
}

// A Rendition is one file of a photo.
type Rendition struct {
	Name   string `json:"name"` // 2400, 1200, 600, square, portrait
	File   string `json:"file"`
	Width  int    `json:"width"`
	Height int    `json:"height"`
	Format string `json:"format"` // jpeg, webp
}

// ForSale reports whether a piece may still be had: it is not gone, and was not made for
// a buyer who is known.
func (p *Public) ForSale() bool {
	return !p.Taken && p.Available != "sold" && p.Available != "not for sale"
}

// Sized reports whether it is known how large the piece is; what is not stands on no
// page over the collection and on no price list.
func (p *Public) Sized() bool { return p.Dimensions != nil && p.Dimensions.Length != nil }

// A Price is what the maker asks.
type Price struct {
	Amount   float64 `json:"amount"`
	Currency string  `json:"currency"`
	Note     string  `json:"note,omitempty"`
	Together bool    `json:"together,omitempty"` // of all pieces of a quantity at once, as the note says
}

// PricedEach reports whether there are several pieces, and the price is that of one.
func (p *Public) PricedEach() bool { return p.Quantity > 1 && p.Price != nil && !p.Price.Together }

// Delivery is what the maker offers.
type Delivery struct {
	ShipsTo  []string `json:"ships_to,omitempty"`
	LeadTime string   `json:"lead_time,omitempty"`
	Assembly string   `json:"assembly,omitempty"`
}

// Base is what the top stands on.
type Base struct {
	Style    string `json:"style,omitempty"`
	Material string `json:"material,omitempty"`
	Coating  string `json:"coating,omitempty"`
	Feet     string `json:"feet,omitempty"`
	Fixing   string `json:"fixing,omitempty"`
}

// Words are style, material and coating, without a material that the style names
// already: "two steel hoops", not "two steel hoops, steel".
func (b *Base) Words() []string {
	material := b.Material
	if strings.Contains(" "+plain(b.Style), " "+plain(material)) {
		material = ""
	}
	return slices.DeleteFunc([]string{b.Style, material, b.Coating}, func(s string) bool { return s == "" })
}

// A Part is a drawer, an apron, a shelf.
type Part struct {
	Name     string `json:"name"`
	Material string `json:"material,omitempty"`
	Count    int    `json:"count"`
	Text     Text   `json:"text,omitzero"` // size, where known
}

// A Maker is how the buyer reaches the workshop.
type Maker struct {
	Name    string `json:"name,omitempty"`
	Address string `json:"address,omitempty"`
	Country string `json:"country,omitempty"` // ISO 3166-1, two letters
	Email   string `json:"email,omitempty"`
	Phone   string `json:"phone,omitempty"`
	Web     string `json:"web,omitempty"`
}

// ShownMaterial is a material that the maker chose to show.
type ShownMaterial struct {
	Use     string `json:"use"`
	Product string `json:"product"`
}
