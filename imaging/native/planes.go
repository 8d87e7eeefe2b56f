//go:build (linux || darwin) && (amd64 || arm64) && !nodynamic

package native

import (
	"errors"
	"image"

	"slabfolio/imaging/spare"
)

// errInput says that a picture is of no kind that the library takes.
var errInput = errors.New("native codec: picture of the wrong kind")

// planes are the planes of a YCbCr or grey picture as libjpeg-turbo wants them:
// widths and heights padded to whole blocks of chroma.
type planes struct {
	pix    [3][]byte
	stride [3]int32
	n      int
}

// TurboJPEG's numbers for chroma subsampling.
const (
	samp444  = 0
	samp422  = 1
	samp420  = 2
	sampGrey = 3
	samp440  = 4
	samp411  = 5
)

// ratioOf maps TurboJPEG's numbers to Go's, with the factors of luma to chroma.
func ratioOf(samp int32) (r image.YCbCrSubsampleRatio, fx, fy int, ok bool) {
	switch samp {
	case samp444:
		return image.YCbCrSubsampleRatio444, 1, 1, true
	case samp422:
		return image.YCbCrSubsampleRatio422, 2, 1, true
	case samp420:
		return image.YCbCrSubsampleRatio420, 2, 2, true
	case samp440:
		return image.YCbCrSubsampleRatio440, 1, 2, true
	case samp411:
		return image.YCbCrSubsampleRatio411, 4, 1, true
	}
	return 0, 1, 1, false
}

func pad(n, to int) int { return (n + to - 1) / to * to }

// newPlanes asks for planes of a w×h picture.
func newPlanes(w, h, fx, fy, n int) *planes {
	p := &planes{n: n}
	pw, ph := pad(w, fx), pad(h, fy)
	for i := range n {
		if i > 0 {
			p.pix[i] = spare.Take[byte](pw / fx * (ph / fy))
			p.stride[i] = int32(pw / fx)
			continue
		}
		p.pix[0] = spare.Take[byte](pw * ph)
		p.stride[0] = int32(pw)
	}
	return p
}
