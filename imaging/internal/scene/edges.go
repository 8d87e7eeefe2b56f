package scene

import "slabfolio/imaging/pixel"

// edgeBlur is how far the blur of a lens reaches, pixels.
const edgeBlur = 8

// ShootEdges is Shoot for a large picture of which the edges count: within reach pixels of
// the outline of the subject, and of straight lines between the scene's marks, every pixel
// is drawn, elsewhere the picture is a smaller one, 1/shrink as wide, enlarged. It takes
// about a sixth of the time.
func ShootEdges(s Shot, shrink, reach int) ([]byte, Truth, error) {
	rough, known := Render(s.Scene, s.W/shrink, s.H/shrink)
	img, err := pixel.Resample(rough.Rows(), pixel.Region{W: s.W, H: s.H})
	if err != nil {
		return nil, Truth{}, err
	}
	within := func(r int) func(x, y int) bool {
		near := nearEdges(known, (r+shrink-1)/shrink)
		return func(x, y int) bool { return near[min(y/shrink, known.H-1)*known.W+min(x/shrink, known.W-1)] }
	}
	// The lens blurs what is drawn with what is not: so far beyond is drawn and not taken.
	taken := within(reach)
	s.Scene.only = within(reach + edgeBlur)
	fine, truth := Render(s.Scene, s.W, s.H)
	for y := range s.H {
		from, to := fine.Row(y), img.Row(y)
		for x := range s.W {
			if taken(x, y) {
				copy(to[3*x:3*x+3], from[3*x:3*x+3])
			}
		}
	}
	s.Exif.Focal, s.Exif.Stop = s.Scene.Camera.Focal, 8
	return EncodeJPEG(img, s.Exif, s.Quality), truth, nil
}

// nearEdges marks what lies within r pixels of the mask's rim or of a line from one of
// the marks to the next.
func nearEdges(t Truth, r int) []bool {
	near := make([]bool, t.W*t.H)
	mark := func(cx, cy int) {
		for y := max(cy-r, 0); y <= min(cy+r, t.H-1); y++ {
			for x := max(cx-r, 0); x <= min(cx+r, t.W-1); x++ {
				near[y*t.W+x] = true
			}
		}
	}
	for y := 1; y < t.H; y++ {
		for x := 1; x < t.W; x++ {
			if m := t.Mask[y*t.W+x]; m != t.Mask[y*t.W+x-1] || m != t.Mask[(y-1)*t.W+x] {
				mark(x, y)
			}
		}
	}
	for i, a := range t.Marks {
		b := t.Marks[(i+1)%len(t.Marks)]
		for k := range 200 {
			f := float64(k) / 200
			mark(int(a[0]+f*(b[0]-a[0])), int(a[1]+f*(b[1]-a[1])))
		}
	}
	return near
}
