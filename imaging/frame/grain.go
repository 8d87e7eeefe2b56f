package frame

import "math"

// What makes a photo one of grain and nothing else, set on the real photos of the
// tests: of 89 two are, and each of the others misses one of these by a third or two of them.
const (
	grainBlocks  = 6    // across and down
	grainAligned = 30   // of all blocks: so many run the one way
	grainWithin  = 30.0 // degrees
	grainOneWay  = 0.15 // coherence from which on a block runs one way
	grainOverall = 0.50 // coherence of all gradients together
	grainEdge    = 10.0 // root mean square of the gradient in the strongest block, L* over two pixels: more is an outline
)

// A tensor is the sum of gradients of a part of a picture, each times itself: the
// structure tensor. Its coherence tells how far they point one way.
type tensor struct{ xx, yy, xy, n float64 }

func (s tensor) coherence() float64 {
	return math.Hypot(s.xx-s.yy, 2*s.xy) / (s.xx + s.yy + 1e-9)
}

// twice is double the angle of the direction that the gradients point.
func (s tensor) twice() float64 { return math.Atan2(2*s.xy, s.xx-s.yy) }

func (s tensor) strength() float64 { return math.Sqrt((s.xx + s.yy) / math.Max(s.n, 1)) }

// grainAlone reports whether the picture shows grain from edge to edge and
// nothing else: it runs one way nearly everywhere, and no edge stands out of it
// where something begins or ends.
func (c *labCopy) grainAlone() bool {
	var all tensor
	var blocks [grainBlocks * grainBlocks]tensor
	for i := range blocks {
		s := c.tensor(i%grainBlocks, i/grainBlocks)
		if s.strength() > grainEdge {
			return false
		}
		blocks[i] = s
		all.xx, all.yy, all.xy = all.xx+s.xx, all.yy+s.yy, all.xy+s.xy
	}
	if all.coherence() < grainOverall {
		return false
	}
	var x, y float64
	for _, s := range blocks { // each block counts alike
		sin, cos := math.Sincos(s.twice())
		x, y = x+float64(s.coherence()*cos), y+float64(s.coherence()*sin)
	}
	mean, aligned := math.Atan2(y, x), 0
	for _, s := range blocks {
		off := math.Abs(math.Remainder(s.twice()-mean, 2*math.Pi)) / 2 * 180 / math.Pi
		if s.coherence() > grainOneWay && off < grainWithin {
			aligned++
		}
	}
	return aligned >= grainAligned
}

// tensor is that of one block, counted from the left and the top.
func (c *labCopy) tensor(bx, by int) (s tensor) {
	for y := max(by*c.h/grainBlocks, 1); y < min((by+1)*c.h/grainBlocks, c.h-1); y++ {
		for x := max(bx*c.w/grainBlocks, 1); x < min((bx+1)*c.w/grainBlocks, c.w-1); x++ {
			i := y*c.w + x
			dx, dy := float64(c.l[i+1]-c.l[i-1]), float64(c.l[i+c.w]-c.l[i-c.w])
			s.xx, s.yy, s.xy = s.xx+float64(dx*dx), s.yy+float64(dy*dy), s.xy+float64(dx*dy)
			s.n++
		}
	}
	return s
}
