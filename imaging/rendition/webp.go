package rendition

import (
	"bytes"
	"fmt"
	"image"

	"github.com/gen2brain/webp"
)

// webpMethod is the encoder's effort, 0 to 6.
const webpMethod = 4

// encodeWebP encodes lossy WebP without metadata. The library is touched here
// alone; it compiles its module at first use.
func encodeWebP(m *image.NYCbCrA, quality int, pure bool) ([]byte, error) {
	var b bytes.Buffer
	if err := webp.Encode(&b, m, webp.Options{Quality: quality, Method: webpMethod}); err != nil {
		return nil, fmt.Errorf("webp: %w", err)
	}
	return b.Bytes(), nil
}
