package frame

// A part is one connected patch of a mask.
type part struct {
	area           int
	x0, y0, x1, y1 int // x1, y1 exclusive
	weight         float64
}

// parts labels the 8-connected patches of mask (non-zero is set); label 0 is
// none, patch k is parts[k-1]. weight adds up strength over each patch.
func parts(mask []uint8, w, h int, strength []float32) (labels []int32, list []part) {
	labels = make([]int32, w*h)
	var stack []int32
	for start := range mask {
		if mask[start] == 0 || labels[start] != 0 {
			continue
		}
		list = append(list, part{x0: w, y0: h})
		p, id := &list[len(list)-1], int32(len(list))
		labels[start] = id
		stack = append(stack[:0], int32(start))
		for len(stack) > 0 {
			i := int(stack[len(stack)-1])
			stack = stack[:len(stack)-1]
			x, y := i%w, i/w
			p.area++
			if strength != nil {
				p.weight += float64(strength[i])
			}
			p.x0, p.y0, p.x1, p.y1 = min(p.x0, x), min(p.y0, y), max(p.x1, x+1), max(p.y1, y+1)
			for j := max(0, y-1); j <= min(h-1, y+1); j++ {
				for k := max(0, x-1); k <= min(w-1, x+1); k++ {
					if q := j*w + k; mask[q] != 0 && labels[q] == 0 {
						labels[q] = id
						stack = append(stack, int32(q))
					}
				}
			}
		}
	}
	return labels, list
}

// close3 fills gaps of up to two pixels: a dilation by one, then an erosion.
func close3(mask []uint8, w, h int) {
	tmp := make([]uint8, len(mask))
	spread(mask, tmp, w, h, false)
	spread(tmp, mask, w, h, true)
}

// spread writes to dst the 3×3 maximum of src, or with shrink the minimum.
// Pixels beyond the edge count as their neighbours inside.
func spread(src, dst []uint8, w, h int, shrink bool) {
	pick := func(a, b uint8) uint8 { return max(a, b) }
	if shrink {
		pick = func(a, b uint8) uint8 { return min(a, b) }
	}
	row := make([]uint8, len(src))
	for y := range h {
		for x := range w {
			i := y*w + x
			v := src[i]
			if x > 0 {
				v = pick(v, src[i-1])
			}
			if x < w-1 {
				v = pick(v, src[i+1])
			}
			row[i] = v
		}
	}
	for y := range h {
		for x := range w {
			i := y*w + x
			v := row[i]
			if y > 0 {
				v = pick(v, row[i-w])
			}
			if y < h-1 {
				v = pick(v, row[i+w])
			}
			dst[i] = v
		}
	}
}
