package subject

import "slabfolio/imaging/pixel"

// A Sighting is where the net takes the piece to be.
type Sighting struct {
	Mask      []uint8    // Side × Side cells over the whole photo, 255 on all that may be piece
	Box       [4]float64 // left, top, right, bottom of that in shares of the photo; the whole photo where there is nothing
	May       [4]float64 // the same of every cell that any of the looks gives one chance in twenty, wherever it lies
	Certainty float64    // 0 to 1; see [Find]
}

// Find looks for the piece in a photo's reduced copy: as it is, mirrored, and
// from a little farther. The mask is the largest
// patch that the mean of the three takes for the piece, with what hangs on it
// and has one chance in four.
//
// What it says is worth something only as far as the certainty goes, which is
// the least of what can be told of an answer without knowing the truth: how
// alike the three looks are, how little of the outline is in doubt, how far the
// mask is one shape, whether the box stays where it is when what may be piece
// is counted in. The certainty is 0 where nothing, next to nothing or nearly
// everything is taken for the piece.
func Find(small *pixel.Image) Sighting {
	looks := []Score{scoreOf(inputOf(small, false, 0)), scoreOf(inputOf(small, true, 0)).mirrored(), scoreOf(inputOf(small, false, farther)).nearer(farther)}
	v := combined(looks)
	s := Sighting{Mask: mask(v.may), Box: v.box(v.may), May: v.box(v.chance(-twentieth))}
	s.Certainty = v.certainty()
	return s
}

// farther is the margin of the third look, a share of the side.
const farther = 0.10

// mirrored swaps left and right.
func (s Score) mirrored() Score {
	out := make(Score, len(s))
	for i := range s {
		out[i] = s[i/Side*Side+Side-1-i%Side]
	}
	return out
}

// nearer is the part of s that lies within the margin, over the whole grid.
func (s Score) nearer(margin float64) Score {
	out := make(Score, len(s))
	m := int(margin*1000 + 0.5)
	at := func(i int) int { return ((2*i+1)*1000 + 2*m*Side) / (2 * (1000 + 2*m)) }
	for y := range Side {
		for x := range Side {
			out[y*Side+x] = s[at(y)*Side+at(x)]
		}
	}
	return out
}

// answer is what several looks say together.
type answer struct {
	looks []Score
	mean  Score
	main  []bool // the largest patch of what the mean takes for the piece
	may   []bool // what any look gives one chance in four, where it hangs together with main
	n     int    // cells that the mean takes for the piece
}

// quarter is the logit of one chance in four, ln 3; twentieth that of one in twenty, ln 19.
const (
	quarter   = unity * 11 / 10
	twentieth = unity * 3
)

// chance tells the cells that any look gives more than a logit.
func (v *answer) chance(logit int) []bool {
	set := make([]bool, Side*Side)
	for i := range set {
		for _, l := range v.looks {
			set[i] = set[i] || int(l[i]) > logit
		}
	}
	return set
}

func combined(looks []Score) *answer {
	v := &answer{looks: looks, mean: make(Score, Side*Side)}
	is, may := make([]bool, Side*Side), make([]bool, Side*Side)
	for i := range v.mean {
		sum, most := 0, looks[0][i]
		for _, l := range looks {
			sum += int(l[i])
			most = max(most, l[i])
		}
		v.mean[i] = int16(sum / len(looks))
		is[i], may[i] = v.mean[i] > 0, most > -quarter
		if is[i] {
			v.n++
		}
	}
	v.main = largest(is)
	v.may = touching(may, v.main)
	return v
}

// mask is 255 where a cell is set.
func mask(set []bool) []uint8 {
	m := make([]uint8, len(set))
	for i, is := range set {
		if is {
			m[i] = 255
		}
	}
	return m
}

// box is the box of the cells that are set, in shares.
func (v *answer) box(set []bool) [4]float64 {
	x0, y0, x1, y1 := Side, Side, 0, 0
	for i, is := range set {
		if is {
			x0, y0, x1, y1 = min(x0, i%Side), min(y0, i/Side), max(x1, i%Side+1), max(y1, i/Side+1)
		}
	}
	if x1 == 0 {
		return [4]float64{0, 0, 1, 1}
	}
	return [4]float64{float64(x0) / Side, float64(y0) / Side, float64(x1) / Side, float64(y1) / Side}
}
