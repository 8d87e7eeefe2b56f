package linear_test

import (
	"bytes"
	"image"
	"os"
	"path/filepath"
	"testing"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/linear"
)

// FuzzProfile: no profile makes NewRows or Row panic, whatever the picture. Each try
// is of one picture: what a sound profile costs are its tables, once for each.
func FuzzProfile(f *testing.F) {
	pictures := []image.Image{
		image.NewNRGBA(image.Rect(0, 0, 3, 2)), image.NewGray(image.Rect(0, 0, 3, 2)),
		image.NewCMYK(image.Rect(0, 0, 3, 2)), image.NewYCbCr(image.Rect(0, 0, 3, 2), image.YCbCrSubsampleRatio420),
	}
	add := func(profile []byte) {
		for i := range pictures {
			f.Add(profile, uint8(i))
		}
	}
	ours, err := os.ReadFile(filepath.Join("testdata", "srgb.icc")) // as our own pictures carry it
	if err != nil {
		f.Fatal(err)
	}
	add(ours)
	for _, cut := range []int{0, 127, 128, 132, len(ours) - 1} {
		add(ours[:cut])
	}
	for _, change := range [][2]string{{"RGB ", "GRAY"}, {"RGB ", "CMYK"}, {"XYZ ", "Lab "}, {"para", "curv"}, {"rTRC", "kTRC"}, {"rXYZ", "A2B0"}, {"para", "mft2"}, {"para", "mAB "}} {
		add(bytes.ReplaceAll(ours, []byte(change[0]), []byte(change[1])))
	}
	// Profiles of others, where they lie beside the repository.
	others, _ := filepath.Glob(filepath.Join("..", "..", "..", "shared", "photos", "profiles", "*.icc"))
	for _, name := range others {
		if data, err := os.ReadFile(name); err == nil && len(data) < 1<<16 {
			add(data)
		}
	}
	f.Fuzz(func(_ *testing.T, profile []byte, picture uint8) {
		m := pictures[int(picture)%len(pictures)]
		rows, _ := linear.NewRows(&colour.Encoded{Image: m, Profile: profile})
		rows.Row(make([]uint16, 9), 1)
	})
}
