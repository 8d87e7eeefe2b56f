package decode

// ReadFacts returns what the camera wrote into the photo in data without decoding
// its picture: nothing where the file says nothing, or cannot be read. The beginning
// of a file is enough for most formats; HEIC and AVIF want the whole of it. It never
// panics.
func ReadFacts(data []byte) (facts Facts) {
	defer func() {
		if recover() != nil {
			facts = Facts{}
		}
	}()
	s := &Source{}
	switch Sniff(data) {
	case "jpeg":
		if j, _ := scanJPEG(data); j != nil { // cut short before its picture, it still holds what it says
			applyExif(s, j.exif, true)
		}
	case "tiff", "raw":
		applyExif(s, data, true)
	case "heic", "avif":
		applyExif(s, scanHEIF(data).exif, false)
	case "webp":
		applyExif(s, scanWebP(data).exif, true)
	case "png":
		applyExif(s, scanPNG(data).exif, true)
	}
	return s.Facts
}
