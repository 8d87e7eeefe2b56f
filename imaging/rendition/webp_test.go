package rendition

import (
	"bytes"
	"image"
	"math/rand"
	"testing"

	"github.com/gen2brain/webp"
)

// beside keeps memory in use.
var beside []byte

// The portable WebP encoder sees the picture and nothing beside it in memory: the
// same bytes each time, whatever was done between, and a picture that is opaque.
func TestPortableWebPIsTheSameEachTime(t *testing.T) {
	for _, size := range [][2]int{{300, 200}, {301, 199}, {64, 97}} {
		m := image.NewYCbCr(image.Rect(0, 0, size[0], size[1]), image.YCbCrSubsampleRatio420)
		r := rand.New(rand.NewSource(1))
		for i := range m.Y {
			m.Y[i] = uint8(r.Intn(40) + i%200)
		}
		for i := range m.Cb {
			m.Cb[i], m.Cr[i] = 120, 140
		}
		var first []byte
		for run := range 4 {
			data, err := encodeWebP(m, 80, true)
			if err != nil {
				t.Fatal(err)
			}
			if first == nil {
				first = data
			}
			if !bytes.Equal(data, first) {
				t.Errorf("%v: run %d gives %d bytes, the first %d", size, run, len(data), len(first))
			}
			beside = make([]byte, len(m.Y)*4) // other memory than before
			for i := range beside {
				beside[i] = byte(r.Intn(256))
			}
			got, err := webp.Decode(bytes.NewReader(data))
			if err != nil {
				t.Fatal(err)
			}
			if _, _, _, a := got.At(size[0]/2, size[1]/2).RGBA(); a != 65535 {
				t.Errorf("%v: run %d: alpha %d", size, run, a)
			}
		}
	}
}
