package rendition

import (
	"bytes"
	"errors"
	"fmt"
	"image"

	"github.com/gen2brain/webp"

	"slabfolio/imaging/native"
)

// webpMethod is the encoder's effort, 0 to 6.
const webpMethod = 4

// encodeWebP encodes lossy WebP without metadata: by the machine's libwebp where
// there is one and pure is not asked for, else by the same code as a wasm module.
// The package is touched here alone; it compiles its module at first use.
func encodeWebP(m *image.YCbCr, quality int, pure bool) ([]byte, error) {
	if !pure {
		data, err := native.EncodeWebP(m, quality, webpMethod)
		if !errors.Is(err, native.ErrUnavailable) {
			return data, err
		}
	}
	opaque := &image.NYCbCrA{YCbCr: *m, A: bytes.Repeat([]byte{255}, len(m.Y)), AStride: m.YStride}
	var b bytes.Buffer
	if err := webp.Encode(&b, opaque, webp.Options{Quality: quality, Method: webpMethod}); err != nil {
		return nil, fmt.Errorf("webp: %w", err)
	}
	return b.Bytes(), nil
}
