package scene

// A Piece is one piece of the demo workshop as it is built and photographed.
// Its spec in testdata/demo must say the same sizes; a test there compares.
type Piece struct {
	Folder    string  // under testdata/demo
	Length    float64 // of the top, mm
	Width     float64
	Thickness float64
	Under     float64 // floor to the underside of the top, mm; 0 without a base
	Area      float64 // of the top's outline, mm²
	Resin     float64 // share of the resin in the top's face, 0 to 1
	Shots     []Shot  // what a listing can show
	Work      []Shot  // what other pictures and figures are made of: frames of one view, a plan with a sheet of paper
}

// Demo returns the pieces of the demo workshop.
func Demo() []Piece {
	return []Piece{console(), bench(), coffeeTable(), boards(), desk(), shelf()}
}

const inch = 25.4

func newPiece(folder string, o Outline, thickness, under, resin float64) Piece {
	lo, hi := o.Bounds()
	return Piece{Folder: folder, Length: hi[0] - lo[0], Width: hi[1] - lo[1], Thickness: thickness, Under: under, Area: o.Area(), Resin: resin}
}

// centred stands an outline's middle over the origin at height z.
func centred(o Outline, z float64) Place {
	lo, hi := o.Bounds()
	return Place{Move: Vec{-(lo[0] + hi[0]) / 2, -(lo[1] + hi[1]) / 2, z}}
}

// landscape and portrait are the sizes of the demo's photos.
const (
	longSide  = 3000
	shortSide = 2000
)

func take(name string, s Scene, cam Camera, taken string) Shot {
	s.Camera = cam
	if s.Samples == 0 {
		s.Samples = 5
	}
	return Shot{Name: name, Scene: s, W: longSide, H: shortSide, Quality: 92,
		Exif: Exif{Taken: taken, Zone: "+01:00", Exposure: 1.0 / 15, ISO: 100}}
}

// work is a shot that no listing shows as it is, so a smaller one does.
func work(name string, s Scene, cam Camera, taken string) Shot {
	t := take(name, s, cam, taken)
	t.W, t.H, t.Quality = 2400, 1600, 88
	return t
}
