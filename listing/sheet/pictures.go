package sheet

// morePictures sets up to three further photos in one row at the foot of the
// last page, where there is room to spare; a sheet is no album.
func (d *doc) morePictures() error {
	const between = 4.0
	if len(d.o.Pictures) < 2 {
		return nil
	}
	more := d.o.Pictures[1:min(len(d.o.Pictures), 4)]
	var wide float64 // of all at height 1
	for _, p := range more {
		if p.Width <= 0 || p.Height <= 0 {
			return nil
		}
		wide += float64(p.Width) / float64(p.Height)
	}
	full := d.w - d.left - d.right
	h := min((full-between*float64(len(more)-1))/wide, d.room()-3*d.step(), 52)
	if h < 26 {
		return nil
	}
	top := d.h - d.bottom - h
	x := d.left
	for _, p := range more {
		w := h * float64(p.Width) / float64(p.Height)
		if err := d.picture(p, x, top, w, h); err != nil {
			return err
		}
		x += w + between
	}
	return nil
}
