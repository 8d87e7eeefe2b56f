package imaging

import (
	"fmt"

	"slabfolio/imaging/decode"
	"slabfolio/imaging/linear"
	"slabfolio/imaging/measure"
	"slabfolio/imaging/pixel"
	"slabfolio/imaging/rendition"
)

// A PlanRequest is a photo of a top from above and what is known of the top.
// Places are shares of the upright photo.
type PlanRequest struct {
	Data        []byte // the file; not kept
	Paper       string // "a4", "letter", or "" to tell it by its ratio
	Marks       *[4][2]float64
	LengthMM    float64 // as taped; 0: not
	WidthMM     float64
	ThicknessMM float64 // 0: not known
	ResinAt     [][2]float64
}

// A Plan is what was measured in such a photo.
type Plan struct {
	measure.Result
	W, H     int              // of the upright photo
	Scale    float64          // of a pixel in Result: 1, or more where the photo was measured on a smaller copy
	Refused  *measure.Refusal // why the top was not measured; nil when it was
	Picture  []byte           // JPEG of the photo with what was found drawn over it
	Original []byte           // JPEG of the same size without
	facts    decode.Facts
}

// planSide is the longer side of the copy that a large photo is measured on,
// planPicture that of the pictures for people.
const (
	planSide    = 5000
	planPicture = 1600
)

// MeasurePlan measures the top in a photo. The error is a *decode.Refusal when
// the file cannot be read; a photo whose top cannot be measured is no error.
func MeasurePlan(req PlanRequest, opts *Options) (*Plan, error) {
	if opts == nil {
		opts = &Options{}
	}
	m, p, err := openPlan(req.Data, opts)
	if err != nil {
		return nil, err
	}
	at := func(q [2]float64) measure.Point {
		return measure.Point{X: q[0] * float64(m.W), Y: q[1] * float64(m.H)}
	}
	r := measure.Request{Photo: m, Focal35: p.facts.FocalLength35, Paper: measure.Kind(req.Paper),
		LengthMM: req.LengthMM, WidthMM: req.WidthMM, ThicknessMM: req.ThicknessMM}
	if req.Marks != nil {
		r.Marks = &[4]measure.Point{at(req.Marks[0]), at(req.Marks[1]), at(req.Marks[2]), at(req.Marks[3])}
	}
	for _, s := range req.ResinAt {
		r.ResinAt = append(r.ResinAt, at(s))
	}
	found, err := measure.Top(r)
	if err != nil {
		p.Refused = err.(*measure.Refusal) // Top gives no other
	}
	if p.Picture, p.Original, err = planPictures(m, found, opts); err != nil {
		return nil, err
	}
	p.Result = found.Scaled(p.Scale)
	return p, nil
}

// openPlan decodes a photo, upright and in linear light.
func openPlan(data []byte, opts *Options) (*pixel.Image, *Plan, error) {
	src, err := decode.Decode(data, &decode.Options{MaxPixels: opts.MaxPixels, Pure: opts.Pure})
	if err != nil {
		return nil, nil, err
	}
	converted, _ := linear.NewRows(&src.Encoded)
	p := &Plan{facts: src.Facts}
	p.W, p.H = pixel.Upright(src.W, src.H, src.Orientation)
	w, h := pixel.FitWithin(p.W, p.H, planSide, planSide)
	p.Scale = float64(p.W) / float64(w)
	m, err := pixel.Resample(converted, pixel.Region{Orientation: src.Orientation, W: w, H: h})
	if err != nil {
		return nil, nil, fmt.Errorf("read the photo: %w", err)
	}
	return m, p, nil
}

// planPictures are the photo with what was found drawn over it, and without.
func planPictures(m *pixel.Image, r measure.Result, opts *Options) (drawn, plain []byte, err error) {
	over, err := measure.Draw(m, r, planPicture)
	if err != nil {
		return nil, nil, err
	}
	bare, err := measure.Draw(m, measure.Result{}, planPicture)
	if err != nil {
		return nil, nil, err
	}
	for _, one := range []struct {
		m  *pixel.Image
		to *[]byte
	}{{over, &drawn}, {bare, &plain}} {
		pic := rendition.Develop(one.m, 0)
		f, err := pic.Encode(rendition.Size{Name: "plan", Width: one.m.W, Format: "jpeg", Quality: 85}, rendition.Meta{}, &rendition.Options{Pure: opts.Pure, Bare: true})
		pic.Release()
		if err != nil {
			return nil, nil, err
		}
		*one.to = f.Data
	}
	return drawn, plain, nil
}
