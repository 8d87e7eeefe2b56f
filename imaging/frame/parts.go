package frame

import "slabfolio/imaging/spare"

// A part is one connected patch of a mask.
type part struct {
	area           int
	x0, y0, x1, y1 int // x1, y1 exclusive
	weight         float64
}

// parts labels the 8-connected patches of mask (non-zero is set); label 0 is
// none, patch k is parts[k-1]. weight adds up strength over each patch. The labels are
// in memory from spare.
func parts(mask []uint8, w, h int, strength []float32) (labels []int32, list []part) {
	labels = spare.Take[int32](w * h)
	clear(labels)
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
			left, right := max(0, x-1), min(w-1, x+1)
			for j := max(0, y-1); j <= min(h-1, y+1); j++ {
				on, to := mask[j*w+left:j*w+right+1], labels[j*w+left:j*w+right+1]
				for k, v := range on {
					if v != 0 && to[k] == 0 {
						to[k] = id
						stack = append(stack, int32(j*w+left+k))
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
	row := make([]uint8, len(src))
	for y := range h {
		in, out := src[y*w:(y+1)*w], row[y*w:(y+1)*w]
		copy(out, in)
		pick(out[1:], in, shrink)
		pick(out, in[1:], shrink)
	}
	copy(dst, row)
	pick(dst[w:], row, shrink)
	pick(dst, row[w:], shrink)
}

// pick takes into dst what is more in src, or with less what is less, as far as
// both go.
func pick(dst, src []uint8, less bool) {
	n := min(len(dst), len(src))
	dst, src = dst[:n], src[:n]
	if less {
		for i, v := range src {
			dst[i] = min(dst[i], v)
		}
		return
	}
	for i, v := range src {
		dst[i] = max(dst[i], v)
	}
}
