package subject

import (
	"math"
	"sync"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/pixel"
)

// codes takes a linear value, 0 to 65535, to the sRGB code (IEC 61966-2-1) in
// sixteenths, 0 to 4080: the net was trained on coded pictures.
var codes = sync.OnceValue(func() *[65536]uint16 {
	var t [65536]uint16
	for i := range t {
		t[i] = uint16(colour.Encode(float64(i)/65535)*4080 + 0.5)
	}
	return &t
})

// middle is taken off each code: the net's zero is at 0.45 of the full code,
// and one unit of it is a quarter of that, 1020 steps.
const middle = 1836

// inputOf scales a picture to the size that the net sees, by the mean of the coded
// pixels under each new one. mirrored swaps left and right. A margin above 0
// shows the picture smaller, with that share of the side added all round as
// its edge carried on; below 0 it cuts that share off all round.
func inputOf(m *pixel.Image, mirrored bool, margin float64) *grid {
	g := newGrid(inputSide, inputSide, 4)
	across := spans(m.W, margin)
	down := spans(m.H, margin)
	rows := make([][]int32, m.H)
	for y, s := range down {
		var sum [inputSide * 3]int64
		for k := s.first; k < s.first+len(s.weight); k++ {
			j := max(0, min(m.H-1, k))
			if rows[j] == nil {
				rows[j] = inputRow(m.Row(j), across)
			}
			w := s.weight[k-s.first]
			for i, v := range rows[j] {
				sum[i] += w * int64(v)
			}
		}
		for i, v := range sum {
			x := i / 3
			if mirrored {
				x = inputSide - 1 - x
			}
			g.v[(y*inputSide+x)*4+i%3] = int16((v+spanUnit/2)/spanUnit - middle)
		}
	}
	return g
}

// A span is the pixels under one new pixel and their weights, which add up to
// spanUnit.
type span struct {
	first  int
	weight []int64
}

const spanUnit = 1 << 16

// spans lays inputSide new pixels over n old ones.
func spans(n int, margin float64) []span {
	// Whole numbers throughout: the photo is n·u units long, a new pixel is step.
	const u = 1 << 12
	m := int(math.Round(margin * u))
	step := n * (u + 2*m)
	list := make([]span, inputSide)
	for i := range list {
		lo := -n*m*inputSide + i*step // in units of 1/(u·inputSide) of a pixel
		hi := lo + step
		unit := u * inputSide
		first := floorDiv(lo, unit)
		s := span{first: first}
		left := int64(spanUnit)
		for k := first; k*unit < hi; k++ {
			cover := min(hi, (k+1)*unit) - max(lo, k*unit)
			w := int64(cover) * spanUnit / int64(step)
			s.weight = append(s.weight, w)
			left -= w
		}
		s.weight[len(s.weight)/2] += left
		list[i] = s
	}
	return list
}

func floorDiv(a, b int) int {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

// inputRow is one row of the picture, coded and scaled across.
func inputRow(row []uint16, across []span) []int32 {
	t, n := codes(), len(row)/3
	out := make([]int32, 3*len(across))
	for i, s := range across {
		var r, g, b int64
		for k, w := range s.weight {
			j := max(0, min(n-1, s.first+k))
			p := row[3*j : 3*j+3]
			r += w * int64(t[p[0]])
			g += w * int64(t[p[1]])
			b += w * int64(t[p[2]])
		}
		out[3*i], out[3*i+1], out[3*i+2] = int32((r+spanUnit/2)/spanUnit), int32((g+spanUnit/2)/spanUnit), int32((b+spanUnit/2)/spanUnit)
	}
	return out
}
