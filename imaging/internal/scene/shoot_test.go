package scene

import (
	"bytes"
	"image/jpeg"
	"math"
	"testing"

	"github.com/rwcarlsen/goexif/exif"
)

// The Exif is read by a library that is not ours.
func TestShootWritesExif(t *testing.T) {
	shot := TestShot(TestOptions{}, 90, 60)
	shot.Exif = Exif{Taken: "2026:03:02 09:30:05", Zone: "+01:00", Exposure: 1.0 / 125, ISO: 200, Private: true}
	file, _ := Shoot(shot)
	x, err := exif.Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[exif.FieldName]string{
		exif.DateTimeOriginal: `"2026:03:02 09:30:05"`, exif.Orientation: "1", exif.ExposureTime: `"1/125"`, exif.FNumber: `"80/10"`,
		exif.ISOSpeedRatings: "200", exif.FocalLength: `"600/10"`, exif.PixelXDimension: "90", exif.PixelYDimension: "60", exif.ColorSpace: "1",
	} {
		tag, err := x.Get(name)
		if err != nil {
			t.Errorf("%s: %v", name, err)
		} else if tag.String() != want {
			t.Errorf("%s is %s, want %s", name, tag, want)
		}
	}
	lat, long, err := x.LatLong()
	if err != nil || math.Abs(lat-0.12014) > 1e-4 || math.Abs(long-0.06118) > 1e-4 {
		t.Errorf("position %v, %v (%v)", lat, long, err)
	}
	for _, name := range []exif.FieldName{exif.Make, exif.Model, exif.Software} {
		if tag, err := x.Get(name); err == nil {
			t.Errorf("%s is written: %s", name, tag)
		}
	}
}

// Orientation 6 means: the stored picture has to be turned clockwise. The
// stored pixel at the lower left is then the upright one at the upper left.
func TestSidewaysIsStoredTurned(t *testing.T) {
	shot := TestShot(TestOptions{Samples: 4}, 64, 96)
	shot.Scene.Sensor = Sensor{}
	shot.Quality = 100
	upright, _ := Shoot(shot)
	shot.Sideways = true
	stored, truth := Shoot(shot)
	a, err := jpeg.Decode(bytes.NewReader(upright))
	if err != nil {
		t.Fatal(err)
	}
	b, err := jpeg.Decode(bytes.NewReader(stored))
	if err != nil {
		t.Fatal(err)
	}
	if b.Bounds().Dx() != 96 || b.Bounds().Dy() != 64 || truth.W != 64 {
		t.Fatalf("stored %v, truth %d wide", b.Bounds(), truth.W)
	}
	var sum float64
	for y := range 96 {
		for x := range 64 {
			_, g, _, _ := a.At(x, y).RGBA()
			_, k, _, _ := b.At(y, 63-x).RGBA()
			sum += math.Abs(float64(g)-float64(k)) / 257
		}
	}
	if mean := sum / (96 * 64); mean > 1.5 {
		t.Errorf("turned upright it differs by %.2f levels on average", mean)
	}
	x, err := exif.Decode(bytes.NewReader(stored))
	if err != nil {
		t.Fatal(err)
	}
	if tag, err := x.Get(exif.Orientation); err != nil || tag.String() != "6" {
		t.Errorf("orientation %v, %v", tag, err)
	}
}

func TestNoisePhotoIsAJPEGOfItsSize(t *testing.T) {
	a := NoisePhoto(640, 427, 5, Exif{Orientation: 8}, 90)
	c, err := jpeg.DecodeConfig(bytes.NewReader(a))
	if err != nil || c.Width != 640 || c.Height != 427 {
		t.Fatalf("%+v, %v", c, err)
	}
	if !bytes.Equal(a, NoisePhoto(640, 427, 5, Exif{Orientation: 8}, 90)) {
		t.Error("the same arguments give another picture")
	}
	if bytes.Equal(a, NoisePhoto(640, 427, 6, Exif{Orientation: 8}, 90)) {
		t.Error("another seed gives the same picture")
	}
}

func BenchmarkNoisePhoto24(b *testing.B) {
	for b.Loop() {
		NoisePhoto(6000, 4000, 1, Exif{}, 92)
	}
}
