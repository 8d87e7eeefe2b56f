// Package cost adds up what a piece cost its maker and what the slabs gave. All
// of it is private: nothing here may reach a buyer.
package cost

import "slabfolio/listing/units"

// An Item is one thing that was paid for.
type Item struct {
	For    string
	Amount float64
}

// A Slab is a slab as it was bought, in millimetres.
type Slab struct {
	Length, Width, Thickness float64
	Count                    int
}

// Input is what the maker noted, in one currency. Zero stands for "not noted".
type Input struct {
	Hours, Rate   float64
	Items         []Item
	Price         float64 // asked for one piece
	Quantity      int     // pieces that hours, items and slabs went into
	Slabs         []Slab
	WoodAreaMM2   float64 // wood in the face of one finished piece
	WoodVolumeMM3 float64 // wood in one finished piece
}

// A Sum is what one piece cost.
type Sum struct {
	Labour, Items, Floor float64 // for one piece: Floor is the price below which money is lost
	Margin               float64 // price less floor, in money
	MarginPct            float64 // of the price
	Priced               bool
	YieldPct             float64 // face of the finished wood over the face of the slabs bought; 0 when not known
	YieldVolumePct       float64 // the same by volume
	BoardFeet            float64 // of the slabs bought: length x width x thickness in inches over 144, for the whole batch
}

// mm3PerBoardFoot is 144 cubic inches.
const mm3PerBoardFoot = 144 * units.MillimetresPerInch * units.MillimetresPerInch * units.MillimetresPerInch

// Of adds up what one piece cost. Hours, items and slabs are those of the whole batch.
func Of(in Input) Sum {
	n := float64(max(1, in.Quantity))
	s := Sum{Labour: in.Hours * in.Rate / n}
	for _, it := range in.Items {
		s.Items += it.Amount / n
	}
	s.Floor = s.Labour + s.Items
	if in.Price > 0 {
		s.Priced = true
		s.Margin = in.Price - s.Floor
		s.MarginPct = 100 * s.Margin / in.Price
	}
	var area, volume float64
	for _, b := range in.Slabs {
		c := float64(max(1, b.Count))
		area += c * b.Length * b.Width
		volume += c * b.Length * b.Width * b.Thickness
	}
	s.BoardFeet = volume / mm3PerBoardFoot
	if area > 0 && in.WoodAreaMM2 > 0 {
		s.YieldPct = 100 * n * in.WoodAreaMM2 / area
	}
	if volume > 0 && in.WoodVolumeMM3 > 0 {
		s.YieldVolumePct = 100 * n * in.WoodVolumeMM3 / volume
	}
	return s
}
