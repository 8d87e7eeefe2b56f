package scene

import "math"

// A Backdrop is a roll of paper: the floor, then a curve up into a wall.
type Backdrop struct {
	Colour Vec     // linear
	Bend   float64 // y where the floor begins to rise, mm
	Radius float64 // of the curve, mm; the wall stands at Bend + Radius
}

// rollTop is the height at which the roll of paper hangs, mm.
const rollTop = 3200

// hit returns where a ray meets the backdrop, and its normal there.
func (b Backdrop) hit(o, d Vec) (dist float64, n Vec, ok bool) {
	if d.Z < 0 {
		s := -o.Z / d.Z
		if y := o.Y + s*d.Y; s > 0 && y <= b.Bend {
			return s, Vec{0, 0, 1}, true
		}
	}
	// The curve: part of a lying cylinder.
	oy, oz := o.Y-b.Bend, o.Z-b.Radius
	k := d.Y*d.Y + d.Z*d.Z
	if k > 0 {
		h := oy*d.Y + oz*d.Z
		q := h*h - k*(oy*oy+oz*oz-b.Radius*b.Radius)
		if q >= 0 {
			s := (-h + math.Sqrt(q)) / k
			y, z := oy+s*d.Y, oz+s*d.Z
			if s > 1e-6 && y >= 0 && z <= 0 {
				return s, Vec{0, -y / b.Radius, -z / b.Radius}, true
			}
		}
	}
	if d.Y > 0 {
		s := (b.Bend + b.Radius - o.Y) / d.Y
		if z := o.Z + s*d.Z; s > 0 && z >= b.Radius && z < rollTop {
			return s, Vec{0, -1, 0}, true
		}
	}
	return 0, Vec{}, false
}
