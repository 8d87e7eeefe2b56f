package subject

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"math"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/pixel"
)

// drawn is a picture made of whole numbers alone: a slab on two legs before a
// wall of boards.
func drawn() *pixel.Image {
	m := pixel.New(300, 200)
	for y := range m.H {
		row := m.Row(y)
		for x := range m.W {
			v := uint16(22000 + 3000*(x/25%2) + 37*(x*y%61))
			if y > 150 {
				v = uint16(9000 + 50*(x%97))
			}
			c := [3]uint16{v, v, v}
			if x > 60 && x < 240 && (y > 90 && y < 112 || y < 170 && y >= 112 && (x < 80 || x > 220)) {
				c = [3]uint16{uint16(14000 + 200*(y%7)), 7000, 2500}
			}
			copy(row[3*x:], c[:])
		}
	}
	return m
}

// The same scores on every machine: the hash covers each of them.
func TestScoresToTheBit(t *testing.T) {
	s := scoreOf(inputOf(drawn(), false, 0))
	b := make([]byte, 2*len(s))
	n := 0
	for i, v := range s {
		binary.LittleEndian.PutUint16(b[2*i:], uint16(v))
		if v > 0 {
			n++
		}
	}
	phototest.Golden(t, "drawn.golden", []string{fmt.Sprintf("sha256:%x cells:%d", sha256.Sum256(b), n)})
}

// However narrow or small a picture is, what is seen of it has its mean.
func TestNarrowPictures(t *testing.T) {
	for _, size := range [][2]int{{1, 1}, {1, 700}, {3, 2}, {16, 900}, {289, 288}} {
		m := pixel.New(size[0], size[1])
		for i := range m.Pix {
			m.Pix[i] = uint16(i * 7919)
		}
		g := inputOf(m, false, 0)
		var sum, want float64
		for i := range inputSide * inputSide {
			sum += float64(g.v[4*i] + middle)
		}
		for i := 0; i < len(m.Pix); i += 3 {
			want += float64(codes()[m.Pix[i]])
		}
		sum, want = sum/(inputSide*inputSide), want/float64(size[0]*size[1])
		if math.Abs(sum-want) > 1 { // sixteenths of a code
			t.Errorf("%v: seen at a mean of %.1f, is %.1f", size, sum, want)
		}
	}
}
