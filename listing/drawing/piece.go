package drawing

// A Piece is what the plan and the elevation are drawn from, in millimetres,
// x along the length, y across, origin at the outline's lower left.
type Piece struct {
	Outline    [][2]float64 // closed, counter-clockwise; a circle is a polygon of 180 corners
	Round      bool         // a circle: one diameter is dimensioned
	Length     float64      // extent along x
	Width      float64      // extent along y
	Thickness  float64
	ResinShare float64        // of the face, 0 to 1
	Resin      [][][2]float64 // where the resin lies: what an odd number of these rings go round; nil where it is not known
	Grain      string         // along length, along width, end grain; empty: no strokes
	Height     float64        // floor to the top's upper face; 0: no elevation
	BaseHeight float64        // floor to the underside of the top
	Footprint  [2]float64     // length, width; zero when not known
	Base       Base
	Knee       float64 // room under the piece, floor to what hangs lowest; 0: not told
	Parts      []Part
	Widths     []float64 // measured across at equal steps, if that is how it was said
}

// The forms of base that are drawn; of any other only its room is known.
const (
	Frames   = "frames"   // a frame at either end
	Legs     = "legs"     // a leg at each corner
	Pedestal = "pedestal" // a column in the middle
)

// A Base is how a base is drawn. It has a form where the style's words tell
// it and its sections tell how thick it is; else only the room it takes is known.
type Base struct {
	Form   string
	Wide   float64 // of a frame's or leg's section as the front shows it, in millimetres; the larger side
	Deep   float64 // of the section as the end shows it
	Turned bool    // the section has two different sides, and which one faces the front is not told
	Closed bool    // each frame has a bar at the top and at the bottom
	Round  bool    // legs or column are round
	Plate  float64 // thickness of a plate as large as the footprint on the floor; 0: none
	Style  string  // the maker's own words
}

// A Part hangs below the top.
type Part struct {
	Name                    string
	Length, Width, BelowTop float64
	Count                   int  // how many there are of it; 0 is one
	SideBySide              bool // several hang side by side along the length, as drawers do; else one of them is drawn
}

// Drawn is how many of a part the front shows: all of those that hang side by side and
// have room for that under the top, and else one.
func (d *Piece) Drawn(p Part) int {
	if p.SideBySide && p.Count > 1 && float64(p.Count)*p.Length <= d.Length {
		return p.Count
	}
	return 1
}
