package blend

import (
	"slices"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/pixel"
)

// throughFrames does each of the frames in turn, brought into place. While one is
// done the next is opened: one decoded file is in memory at a time.
func (j *job) throughFrames(list []int, do func(i int, m *pixel.Image)) error {
	type opened struct {
		rows pixel.Rows
		err  error
	}
	next := make(chan opened, 1)
	open := func(i int) {
		rows, err := j.req.Frames[i].Open()
		next <- opened{rows, err}
	}
	go open(list[0])
	for k, i := range list {
		o := <-next
		if o.err != nil {
			return o.err
		}
		if err := j.read(i, o.rows); err != nil {
			return err
		}
		o.rows = nil // and gone, before the next is there
		if k+1 < len(list) {
			go open(list[k+1])
		}
		m, err := j.place(j.now, i)
		if err != nil {
			if k+1 < len(list) {
				<-next
			}
			return err
		}
		do(i, m)
	}
	return nil
}

// read takes frame i into memory and takes hot pixels out.
func (j *job) read(i int, rows pixel.Rows) error {
	w, h := rows.Size()
	if err := j.sized(i, w, h); err != nil {
		return err
	}
	if j.now == nil {
		j.now = pixel.New(w, h)
	}
	m := j.now
	bands(h, func(y0, y1 int) {
		for y := y0; y < y1; y++ {
			rows.Row(m.Row(y), y)
		}
	})
	if j.req.How != Bracket {
		mendHotPixels(m)
	}
	return nil
}

// A pixel is hot where it is more than hotTimes the third brightest of its eight
// neighbours, and more than hotLeast of white above it, and at most hotMost so bright
// hang together: nothing that a lens draws is so sharp, and what is longer is a line.
const (
	hotTimes = 2.0
	hotLeast = 0.02
	hotFloor = 1310 // hotLeast of 65535
	hotMost  = 3
)

// beside is the place next to i of n, mirrored at either end.
func beside(i, step, n int) int {
	if i+step < 0 || i+step >= n {
		return max(i-step, 0)
	}
	return i + step
}

// mendHotPixels gives hot pixels the median of their neighbours.
func mendHotPixels(m *pixel.Image) {
	if m.W < 2 || m.H < 2 {
		return
	}
	type fix struct {
		at  int
		pix [3]uint16
	}
	half := [2][]fix{}
	bands(m.H, func(y0, y1 int) {
		var list []fix
		for y := y0; y < y1; y++ {
			up, row, down := m.Row(beside(y, -1, m.H)), m.Row(y), m.Row(beside(y, 1, m.H))
			for x := range m.W {
				c := 3 * x
				v := max(row[c], row[c+1], row[c+2])
				if v < hotFloor {
					continue
				}
				l, r := 3*beside(x, -1, m.W), 3*beside(x, 1, m.W)
				// Cheap first: three neighbours that are nearly as bright.
				if nearlyAs(v, row, l)+nearlyAs(v, row, r)+nearlyAs(v, up, c)+nearlyAs(v, down, c) > 2 {
					continue
				}
				var near [3][8]uint16
				hot := false
				for k := range 3 {
					near[k] = [8]uint16{up[l+k], up[c+k], up[r+k], row[l+k], row[r+k], down[l+k], down[c+k], down[r+k]}
					slices.Sort(near[k][:])
					third := float32(near[k][5])
					if v := float32(row[c+k]); v > hotTimes*third && v > third+hotLeast*65535 {
						hot = hot || together(m, x, y, k) <= hotMost
					}
				}
				if hot {
					list = append(list, fix{3*y*m.W + c, [3]uint16{near[0][3], near[1][3], near[2][3]}})
				}
			}
		}
		if y0 == 0 {
			half[0] = list
		} else {
			half[1] = list
		}
	})
	for _, list := range half {
		for _, f := range list {
			copy(m.Pix[f.at:f.at+3], f.pix[:])
		}
	}
}

// nearlyAs is 1 where the pixel at a place of a row is not so much darker than v that v
// may be hot beside it, else 0.
func nearlyAs(v uint16, row []uint16, at int) int {
	if float32(v) < hotTimes*float32(max(row[at], row[at+1], row[at+2])) {
		return 1
	}
	return 0
}

// together counts the pixels that hang together with the one at (x, y) and are no more
// than hotTimes darker than it in a channel, itself with them, up to one more than are hot.
func together(m *pixel.Image, x, y, channel int) int {
	least := float32(m.Row(y)[3*x+channel]) / hotTimes
	list := [hotMost + 1][2]int{{x, y}}
	n := 1
	for k := 0; k < n; k++ {
		for dy := -1; dy <= 1; dy++ {
			for dx := -1; dx <= 1; dx++ {
				u, v := list[k][0]+dx, list[k][1]+dy
				if u < 0 || v < 0 || u >= m.W || v >= m.H || float32(m.Row(v)[3*u+channel]) < least || slices.Contains(list[:n], [2]int{u, v}) {
					continue
				}
				if list[n] = [2]int{u, v}; n == hotMost {
					return n + 1
				}
				n++
			}
		}
	}
	return n
}

// weightRow fills dst with how much frame i counts along row y: the maker's
// mask, less a lamp that was masked and what lies beyond its rim; nil where it is 1 all along.
func (j *job) weightRow(dst []float32, i, y int) []float32 {
	mask, lamp := j.req.Frames[i].Mask, j.looks[i].lamp
	by := j.moves[i]
	// The map is straight, so a row lies within the frame where both its ends do.
	moved := by != (move{}) && !(j.within(by, 0, y) && j.within(by, j.w-1, y))
	if mask == nil && lamp == nil && !moved {
		return nil
	}
	for x := range dst {
		dst[x] = 1
	}
	l, fy, any := &j.looks[i], (float32(y)+0.5)/float32(j.h), moved
	for x := range dst {
		if mask == nil && lamp == nil {
			break
		}
		fx := (float32(x) + 0.5) / float32(j.w)
		if mask != nil {
			dst[x] = maskAt(mask, fx, fy)
		}
		if lamp != nil {
			dst[x] *= 1 - planeAt(lamp, l.w, l.h, fx, fy)
		}
		any = any || dst[x] < 1
	}
	if moved { // nothing is known beyond the frame's rim
		x0, x1 := 0, j.w
		for x0 < x1 && !j.within(by, x0, y) {
			x0++
		}
		for x1 > x0 && !j.within(by, x1-1, y) {
			x1--
		}
		clear(dst[:x0])
		clear(dst[x1:])
	}
	if !any {
		return nil
	}
	return dst
}

// within reports whether a pixel of the reference lies in a frame that stands off by a move.
func (j *job) within(by move, x, y int) bool {
	u, v := by.at(float64(x)+0.5, float64(y)+0.5, float64(j.w)/2, float64(j.h)/2)
	return u >= 1 && v >= 1 && u <= float64(j.w)-1 && v <= float64(j.h)-1
}

func maskAt(m *pixel.Mask, x, y float32) float32 {
	fx, fy := max(x*float32(m.W)-0.5, 0), max(y*float32(m.H)-0.5, 0)
	i, k := min(int(fx), m.W-1), min(int(fy), m.H-1)
	i1, k1 := min(i+1, m.W-1), min(k+1, m.H-1)
	dx, dy := fx-float32(i), fy-float32(k)
	up := float32(m.Pix[k*m.W+i])*(1-dx) + float32(m.Pix[k*m.W+i1])*dx
	down := float32(m.Pix[k1*m.W+i])*(1-dx) + float32(m.Pix[k1*m.W+i1])*dx
	return (up*(1-dy) + down*dy) / 255
}

func planeAt(p []float32, w, h int, x, y float32) float32 {
	fx, fy := max(x*float32(w)-0.5, 0), max(y*float32(h)-0.5, 0)
	i, k := min(int(fx), w-1), min(int(fy), h-1)
	i1, k1 := min(i+1, w-1), min(k+1, h-1)
	dx, dy := fx-float32(i), fy-float32(k)
	return (p[k*w+i]*(1-dx)+p[k*w+i1]*dx)*(1-dy) + (p[k1*w+i]*(1-dx)+p[k1*w+i1]*dx)*dy
}

// seenSide is the longer side of a frame's small picture.
const seenSide = 240

// seen is a small sRGB picture of a copy.
func seen(m *pixel.Image) (pix []uint8, w, h int) {
	w, h = pixel.FitWithin(m.W, m.H, seenSide, seenSide)
	small, err := pixel.Resample(m.Rows(), pixel.Region{W: w, H: h})
	if err != nil {
		return nil, 0, 0
	}
	enc := colour.EncodeTable()
	pix = make([]uint8, 3*w*h)
	for i, v := range small.Pix {
		pix[i] = enc[v]
	}
	return pix, w, h
}
