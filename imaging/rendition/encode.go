package rendition

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"math"

	"slabfolio/imaging/native"
)

// leastQuality is where meeting a size budget stops: below it blocks show on
// smooth grounds. What is still too large then is made of fewer pixels.
const leastQuality = 75

// withinBudget encodes at the quality of s and, where the result is larger than
// s.MaxBytes less extra, at lower and lower ones. Each step is guessed from the
// last: around these qualities a photo loses about 2.5 % of its bytes a step.
func withinBudget(s Size, extra int, encode func(quality int) ([]byte, error)) ([]byte, int, error) {
	q := s.Quality
	for {
		data, err := encode(q)
		if err != nil {
			return nil, 0, err
		}
		over := float64(len(data)+extra) / float64(max(s.MaxBytes, 1))
		if s.MaxBytes <= 0 || over <= 1 || q <= min(leastQuality, s.Quality) {
			return data, q, nil
		}
		step := max(int(math.Ceil(math.Log(over)/math.Log(1.03))), 1)
		q = max(q-step, min(leastQuality, s.Quality))
	}
}

func (p *Picture) jpegWithin(s Size, extra int, pure bool) ([]byte, int, error) {
	m := p.full()
	defer giveBack(m)
	return withinBudget(s, extra, func(q int) ([]byte, error) { return encodeJPEG(m, q, pure) })
}

func (p *Picture) webpWithin(s Size, extra int, pure bool) ([]byte, int, error) {
	m := p.limited()
	defer giveBack(m)
	return withinBudget(s, extra, func(q int) ([]byte, error) { return encodeWebP(m, q, pure) })
}

// encodeJPEG encodes baseline JPEG, 4:2:0, without metadata: by the machine's
// libjpeg-turbo where there is one and pure is not asked for, else by image/jpeg.
func encodeJPEG(m *image.YCbCr, quality int, pure bool) ([]byte, error) {
	if !pure {
		data, err := native.EncodeJPEG(m, quality)
		if !errors.Is(err, native.ErrUnavailable) {
			return data, err
		}
	}
	var b bytes.Buffer
	b.Grow(len(m.Y) / 4)
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: quality}); err != nil {
		return nil, fmt.Errorf("jpeg: %w", err)
	}
	return b.Bytes(), nil
}
