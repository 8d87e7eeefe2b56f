package pixel

import "fmt"

// Upright returns the size of a stored picture of w × h once its Exif
// orientation (1 to 8; anything else counts as 1) has been put right.
func Upright(w, h, orientation int) (int, int) {
	if orientation >= 5 && orientation <= 8 {
		return h, w
	}
	return w, h
}

// storedBox turns a box of the upright picture of uw × uh into one of the
// picture as it is stored.
func storedBox(x0, y0, x1, y1 float64, uw, uh, orientation int) [4]float64 {
	w, h := float64(uw), float64(uh)
	switch orientation {
	case 2:
		return [4]float64{w - x1, y0, w - x0, y1}
	case 3:
		return [4]float64{w - x1, h - y1, w - x0, h - y0}
	case 4:
		return [4]float64{x0, h - y1, x1, h - y0}
	case 5:
		return [4]float64{y0, x0, y1, x1}
	case 6:
		return [4]float64{y0, w - x1, y1, w - x0}
	case 7:
		return [4]float64{h - y1, w - x1, h - y0, w - x0}
	case 8:
		return [4]float64{h - y1, x0, h - y0, x1}
	}
	return [4]float64{x0, y0, x1, y1}
}

// Orient returns the picture turned and mirrored as its Exif orientation asks
// for; m itself when nothing is to be done.
func Orient(m *Image, orientation int) *Image {
	if orientation < 2 || orientation > 8 {
		return m
	}
	w, h := Upright(m.W, m.H, orientation)
	out := Unset(w, h)
	// Where stored pixel (0, 0) goes, and the steps along stored rows and columns.
	origin, dx, dy := 0, 1, w
	switch orientation {
	case 2:
		origin, dx, dy = w-1, -1, w
	case 3:
		origin, dx, dy = w*h-1, -1, -w
	case 4:
		origin, dx, dy = w*(h-1), 1, -w
	case 5:
		dx, dy = w, 1
	case 6:
		origin, dx, dy = w-1, w, -1
	case 7:
		origin, dx, dy = w*h-1, -w, -1
	case 8:
		origin, dx, dy = w*(h-1), -w, 1
	}
	for y := range m.H {
		at := (origin + y*dy) * 3
		row := m.Row(y)
		for ; len(row) >= 3; row = row[3:] {
			p := out.Pix[at : at+3 : at+3]
			p[0], p[1], p[2] = row[0], row[1], row[2]
			at += dx * 3
		}
	}
	return out
}

// clockwise gives for each Exif orientation the one of the same stored picture
// turned by another quarter clockwise; Exif 2.32, tag 0x0112.
var clockwise = [9]int{1: 6, 2: 7, 3: 8, 4: 5, 5: 2, 6: 3, 7: 4, 8: 1}

// Turned is the Exif orientation of a stored picture of the given one (0 is
// taken for 1) that is turned further by degrees clockwise. It returns an error
// unless degrees is a multiple of 90.
func Turned(orientation, degrees int) (int, error) {
	if degrees%90 != 0 {
		return orientation, fmt.Errorf("a turn by %d degrees; 90, 180 and 270 work", degrees)
	}
	if orientation < 1 || orientation > 8 {
		orientation = 1
	}
	for range (degrees/90%4 + 4) % 4 {
		orientation = clockwise[orientation]
	}
	return orientation, nil
}
