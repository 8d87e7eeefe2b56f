//go:build (linux || darwin) && (amd64 || arm64) && !nodynamic

package native

import (
	"bytes"
	"errors"
	"image"
	"image/jpeg"
	"os"
	"testing"
)

// A picture of odd size encodes to the same bytes whatever lies behind its planes
// in memory, and its last column and row are its own.
func TestOddSizesReadNothingBehindThem(t *testing.T) {
	for _, size := range [][2]int{{33, 21}, {32, 21}, {33, 20}, {1, 1}, {17, 16}, {16, 17}} {
		w, h := size[0], size[1]
		cw, ch := (w+1)/2, (h+1)/2
		var files [][]byte
		for _, junk := range []byte{0, 90, 255} {
			plane := func(n int, v func(i int) byte) []byte {
				p := bytes.Repeat([]byte{junk}, n+4096)
				for i := range n {
					p[i] = v(i)
				}
				return p[:n:n]
			}
			m := &image.YCbCr{
				Y:  plane(w*h, func(i int) byte { return byte(100 + 3*(i%w)%50) }),
				Cb: plane(cw*ch, func(int) byte { return 120 }), Cr: plane(cw*ch, func(int) byte { return 140 }),
				YStride: w, CStride: cw, SubsampleRatio: image.YCbCrSubsampleRatio420, Rect: image.Rect(0, 0, w, h),
			}
			data, err := EncodeJPEG(m, 95)
			if errors.Is(err, ErrUnavailable) {
				if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
					t.Fatal("libturbojpeg is not installed")
				}
				t.Skip("libturbojpeg is not installed")
			}
			if err != nil {
				t.Fatal(err)
			}
			files = append(files, data)
			back, err := jpeg.Decode(bytes.NewReader(data))
			if err != nil {
				t.Fatal(err)
			}
			y := back.(*image.YCbCr)
			for _, at := range [][2]int{{w - 1, h - 1}, {w - 1, 0}, {0, h - 1}} {
				got, want := int(y.Y[at[1]*y.YStride+at[0]]), int(m.Y[at[1]*w+at[0]])
				if got-want > 4 || want-got > 4 {
					t.Errorf("%d × %d: luma at %v is %d, want %d", w, h, at, got, want)
				}
			}
		}
		if !bytes.Equal(files[0], files[1]) || !bytes.Equal(files[0], files[2]) {
			t.Errorf("%d × %d: the bytes hang on what lies behind the picture", w, h)
		}
	}
}
