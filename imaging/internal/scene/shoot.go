package scene

import (
	"bytes"
	"image"
	"image/jpeg"
	"math"
	"sync"

	"slabfolio/imaging/pixel"
)

// A Shot is a scene as a photographer takes it: size, file, Exif.
type Shot struct {
	Name     string // of the file
	Scene    Scene
	W, H     int // of the upright picture, pixels
	Exif     Exif
	Quality  int  // of the JPEG; 92 when 0
	Sideways bool // the camera stood on its side: stored turned, Exif orientation 6
}

// Shoot draws the shot and returns it as a JPEG file with Exif in front, and
// the truth about the upright picture. Where the scene's camera has no aperture the Exif says
// f/8 all the same.
func Shoot(s Shot) ([]byte, Truth) {
	img, truth := Render(s.Scene, s.W, s.H)
	if s.Sideways {
		img = turnLeft(img)
		s.Exif.Orientation = 6
	}
	if s.Exif.Focal == 0 {
		s.Exif.Focal = s.Scene.Camera.Focal
	}
	if s.Exif.Stop == 0 {
		s.Exif.Stop = 8
		if s.Scene.Camera.Stop > 0 {
			s.Exif.Stop = s.Scene.Camera.Stop
		}
	}
	return EncodeJPEG(img, s.Exif, s.Quality), truth
}

// EncodeJPEG returns the linear picture as an sRGB JPEG (4:2:0) with the given
// Exif. A quality of 0 means 92.
func EncodeJPEG(img *pixel.Image, e Exif, quality int) []byte {
	if quality == 0 {
		quality = 92
	}
	var b bytes.Buffer
	// Writing to memory cannot fail, and sizes over 65535 are no photos.
	if err := jpeg.Encode(&b, encoded(img), &jpeg.Options{Quality: quality}); err != nil {
		panic("scene: " + err.Error())
	}
	return withExif(b.Bytes(), e, img.W, img.H)
}

// withExif puts the Exif segment right behind a JPEG's start.
func withExif(file []byte, e Exif, w, h int) []byte {
	out := append([]byte{}, file[:2]...) // SOI
	out = append(out, e.segment(w, h)...)
	return append(out, file[2:]...)
}

// turnLeft returns the picture turned a quarter anticlockwise, as a camera
// stores it that a viewer must turn clockwise.
func turnLeft(m *pixel.Image) *pixel.Image {
	out := pixel.New(m.H, m.W)
	for y := range out.H {
		row := out.Row(y)
		for x := range out.W {
			// Row y of the stored picture is column W-1-y of the upright one.
			from := m.Row(x)[3*(m.W-1-y):]
			copy(row[3*x:3*x+3], from[:3])
		}
	}
	return out
}

// curve is the sRGB curve (IEC 61966-2-1) for 16-bit linear values.
var curve = sync.OnceValue(func() *[65536]uint8 {
	var t [65536]uint8
	for i := range t {
		f := float64(i) / 65535
		if f <= 0.0031308 {
			f *= 12.92
		} else {
			f = 1.055*math.Pow(f, 1/2.4) - 0.055
		}
		t[i] = uint8(math.Round(f * 255))
	}
	return &t
})

// encoded returns the picture in 8-bit sRGB.
func encoded(m *pixel.Image) *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, m.W, m.H))
	t := curve()
	for i, o := 0, 0; i < len(m.Pix); i, o = i+3, o+4 {
		out.Pix[o], out.Pix[o+1], out.Pix[o+2], out.Pix[o+3] = t[m.Pix[i]], t[m.Pix[i+1]], t[m.Pix[i+2]], 255
	}
	return out
}
