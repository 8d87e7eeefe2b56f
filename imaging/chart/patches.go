package chart

import (
	"slabfolio/imaging/pixel"
	"slabfolio/imaging/spare"
)

// A calmPatch is a calm place of a photo: the ends of its rows and columns.
type calmPatch struct {
	n        int
	mean     [3]float64    // linear colour
	ends     []pixel.Point // of its rows, the corners of the pixels
	rows     float64       // pixels between the ends of its rows
	columns  float64       // the same of its columns
	touching bool          // it reaches the photo's edge
}

// patches are the calm places that are half as large as a card or larger.
func patches(m *pixel.Image, rough []uint8, limit uint8) (all []calmPatch) {
	w, h := m.W, m.H
	seen := make([]bool, len(rough))
	least := max(int(cardShare/2*float64(w*h)), int(cardSide*cardSide))
	// Each pixel comes into the list once: those from next on are still to be looked
	// around.
	room := spare.Take[int32](len(rough))
	defer spare.Give(room)
	for start, v := range rough {
		if v > limit || seen[start] {
			continue
		}
		list := append(room[:0], int32(start))
		seen[start] = true
		for next := 0; next < len(list); next++ {
			i := int(list[next])
			for _, d := range [4]int{1, -1, w, -w} {
				if k := i + d; rough[k] <= limit && !seen[k] {
					seen[k] = true
					list = append(list, int32(k))
				}
			}
		}
		if len(list) >= least && float64(len(list)) < cardMost*float64(w*h) {
			all = append(all, patchOf(m, list))
		}
	}
	return all
}

func patchOf(m *pixel.Image, list []int32) calmPatch {
	w, h := m.W, m.H
	p := calmPatch{n: len(list)}
	// The ends of each row and each column, one past the last; 0, 0: none.
	rows, columns := make([][2]int, h), make([][2]int, w)
	widen := func(s *[2]int, v int) {
		if s[1] == 0 {
			s[0] = v
		}
		s[0], s[1] = min(s[0], v), max(s[1], v+1)
	}
	var sum [3]uint64
	for _, at := range list {
		i := int(at)
		x, y := i%w, i/w
		for c := range sum {
			sum[c] += uint64(m.Pix[3*i+c])
		}
		widen(&rows[y], x)
		widen(&columns[x], y)
		p.touching = p.touching || x < 3 || y < 3 || x > w-4 || y > h-4
	}
	for c := range sum {
		p.mean[c] = float64(sum[c]) / (65535 * float64(len(list)))
	}
	for y, s := range rows {
		p.rows += float64(s[1] - s[0])
		if s[1] > 0 {
			for _, x := range s {
				p.ends = append(p.ends, pixel.Point{X: float64(x), Y: float64(y)}, pixel.Point{X: float64(x), Y: float64(y + 1)})
			}
		}
	}
	for _, s := range columns {
		p.columns += float64(s[1] - s[0])
	}
	return p
}
