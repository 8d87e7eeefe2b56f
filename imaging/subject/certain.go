package subject

// signs are what can be told of an answer without knowing the truth, each 0 to 1.
type signs struct {
	alike float64 // least overlap of a look with the mean, intersection over union
	firm  float64 // share of what may be piece that is nowhere near a toss-up
	whole float64 // share of the mask that is one patch
	still float64 // area of the mask's box over that of what may be piece
	rim   float64 // share of the photo's rim that is piece
	share float64 // of the photo
}

func (v *answer) signs() signs {
	s := signs{alike: 1, share: float64(v.n) / (Side * Side)}
	if v.n == 0 {
		return signs{}
	}
	for _, l := range v.looks {
		s.alike = min(s.alike, overlap(l, v.mean))
	}
	main, may, doubt, rim := 0, 0, 0, 0
	for i, m := range v.mean {
		if v.main[i] {
			main++
		}
		if m > -quarter {
			may++
			if m < quarter {
				doubt++
			}
		}
		if x, y := i%Side, i/Side; v.main[i] && (x == 0 || y == 0 || x == Side-1 || y == Side-1) {
			rim++
		}
	}
	s.whole = float64(main) / float64(v.n)
	s.firm = 1 - float64(doubt)/float64(may)
	s.still = area(v.box(v.main)) / area(v.box(v.may))
	s.rim = float64(rim) / (4*Side - 4)
	return s
}

func area(b [4]float64) float64 { return (b[2] - b[0]) * (b[3] - b[1]) }

// overlap is the intersection over the union of what two scores take for the piece.
func overlap(a, b Score) float64 {
	both, either := 0, 0
	for i := range a {
		if a[i] > 0 && b[i] > 0 {
			both++
		}
		if a[i] > 0 || b[i] > 0 {
			either++
		}
	}
	return float64(both) / float64(max(1, either))
}

// What each sign must reach for the answer to be certain, set on the real photos
// of the tests and seen to hold on drawn rooms. Of those whose box misses some of a
// piece, and where what is found does not leave the frame, one has alike at 0.33,
// all others have still at 0.79 or less.
const (
	leastAlike = 0.80
	leastFirm  = 0.65
	leastWhole = 0.95
	leastStill = 0.92
	leastShare = 0.01
	mostShare  = 0.85
	mostRim    = 0.04 // more, and the piece is cut off
)

// surely is the certainty from which on a sighting stands by itself.
const surely = 0.90

// certainty reaches surely where every sign reaches what it must, and less
// as the furthest behind falls short.
func (v *answer) certainty() float64 {
	s := v.signs()
	if s.share < leastShare || s.share > mostShare {
		return 0
	}
	c := min(s.alike/leastAlike, s.firm/leastFirm, s.whole/leastWhole, s.still/leastStill)
	if c >= 1 && s.rim > mostRim {
		c = 0.99
	}
	return min(1, surely*c)
}
