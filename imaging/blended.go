package imaging

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
	"slices"
	"sync"

	"golang.org/x/image/tiff"

	"slabfolio/imaging/blend"
	"slabfolio/imaging/colour"
	"slabfolio/imaging/decode"
	"slabfolio/imaging/linear"
	"slabfolio/imaging/note"
	"slabfolio/imaging/pixel"
	"slabfolio/imaging/rendition"
)

// A BlendRequest is a set of frames of one view.
type BlendRequest struct {
	Frames   int
	Read     func(i int) ([]byte, error) // the file of a frame; asked for up to three times
	How      string                      // as blend.How; "" means lightest
	Strength []float64                   // by frame, 1 for all of its light; nil: 1 each
	Masks    [][]byte                    // picture files by frame: white where it counts, black where not; nil where there is none
}

// A Blended is the picture made of a set, upright, and what became of each frame.
type Blended struct {
	blend.Result
	W, H   int
	Facts  decode.Facts // of the first frame
	Curved bool         // frames carry a camera's tone curve, so that their light does not add up exactly
	pure   bool
}

// A FrameError says which frame of a set cannot be read, from 0.
type FrameError struct {
	Frame int
	Err   error
}

// Error says what is wrong with the frame.
func (e *FrameError) Error() string { return fmt.Sprintf("frame %d: %v", e.Frame+1, e.Err) }

// Unwrap is what reading the frame gave.
func (e *FrameError) Unwrap() error { return e.Err }

// BlendFrames blends a set. The error is a *FrameError for a frame that cannot be
// read, and a *blend.Refusal for a set that cannot be blended.
func BlendFrames(req BlendRequest, opts *Options) (*Blended, error) {
	if opts == nil {
		opts = &Options{}
	}
	out := &Blended{pure: opts.Pure}
	orientation := 0
	exposures, curved := make([]float64, req.Frames), make([]bool, req.Frames)
	r := blend.Request{How: blend.How(req.How)}
	for i := range req.Frames {
		f := blend.Frame{Open: func() (pixel.Rows, error) {
			src, err := openFrame(req, i, opts)
			if err != nil {
				return nil, err
			}
			if i == 0 { // which is opened before any other
				orientation, out.Facts = src.Orientation, src.Facts
			}
			if src.Orientation != orientation {
				return nil, &FrameError{i, errTurned}
			}
			curved[i], exposures[i] = src.Format != "tiff", src.Facts.ExposureTime
			rows, _ := linear.NewRows(&src.Encoded)
			return rows, nil
		}}
		if i < len(req.Strength) {
			f.Strength = req.Strength[i]
		}
		if i < len(req.Masks) && req.Masks[i] != nil {
			var err error
			if f.Mask, err = maskIn(req.Masks[i], opts); err != nil {
				return nil, &FrameError{i, fmt.Errorf("its mask: %w", err)}
			}
		}
		r.Frames = append(r.Frames, f)
	}
	made, err := blend.Blend(r)
	if err != nil {
		return nil, err
	}
	out.Result, out.Curved = *made, slices.Contains(curved, true)
	if r.How != blend.Bracket && Bracketed(exposures) { // what the camera says comes before what the pictures show
		out.Notes = slices.DeleteFunc(out.Notes, func(n note.Note) bool { return n.Code == "blend.exposed" })
		out.Notes = append(out.Notes, note.Note{Code: "blend.exposed", Values: map[string]float64{"shortest": slices.Min(exposures), "longest": slices.Max(exposures)}})
	}
	out.Picture = pixel.Orient(made.Picture, max(orientation, 1))
	out.W, out.H = out.Picture.W, out.Picture.H
	for i := range out.Frames {
		turnSeen(&out.Frames[i], orientation)
	}
	return out, nil
}

// bracketStep is how many times longer than the next each exposure of a bracket is at least.
const bracketStep = 1.8

// Bracketed reports whether exposure times, in seconds, are those of a bracket: all
// known, and each well apart from the others.
func Bracketed(times []float64) bool {
	times = slices.Sorted(slices.Values(times))
	if len(times) < 2 || times[0] <= 0 {
		return false
	}
	for i := 1; i < len(times); i++ {
		if times[i] < bracketStep*times[i-1] {
			return false
		}
	}
	return true
}

// turnSeen turns a frame's small picture as the whole.
func turnSeen(f *blend.Report, orientation int) {
	m := pixel.New(f.SeenW, f.SeenH)
	for i, v := range f.Seen {
		m.Pix[i] = uint16(v)
	}
	m = pixel.Orient(m, max(orientation, 1))
	f.SeenW, f.SeenH = m.W, m.H
	f.Seen = make([]uint8, len(m.Pix))
	for i, v := range m.Pix {
		f.Seen[i] = uint8(v)
	}
}

var errTurned = errors.New("the camera was turned between it and the first frame")

func openFrame(req BlendRequest, i int, opts *Options) (*decode.Source, error) {
	data, err := req.Read(i)
	if err != nil {
		return nil, &FrameError{i, err}
	}
	src, err := decode.Decode(data, &decode.Options{MaxPixels: opts.MaxPixels, Pure: opts.Pure})
	if err != nil {
		return nil, &FrameError{i, err}
	}
	return src, nil
}

// maskIn reads a mask: how light it is, in sRGB code.
func maskIn(data []byte, opts *Options) (*pixel.Mask, error) {
	src, err := decode.Decode(data, &decode.Options{MaxPixels: opts.MaxPixels, Pure: opts.Pure})
	if err != nil {
		return nil, err
	}
	converted, _ := linear.NewRows(&src.Encoded)
	w, h := converted.Size()
	m := &pixel.Mask{W: w, H: h, Pix: make([]uint8, w*h)}
	enc, row := colour.EncodeTable(), make([]uint16, 3*w)
	for y := range h {
		converted.Row(row, y)
		for x := range w {
			m.Pix[y*w+x] = enc[row[3*x+1]]
		}
	}
	return m, nil
}

// LookAt is what tells how like the views of two opened photos are; nil for one
// that is closed.
func LookAt(p *Photo) *blend.Look {
	if p.small == nil {
		return nil
	}
	return blend.LookAt(p.small)
}

// code16 is the sRGB curve from 16-bit linear light to 16 bits.
var code16 = sync.OnceValue(func() *[65536]uint16 {
	t := new([65536]uint16)
	for i := range t {
		t[i] = uint16(colour.Encode(float64(i)/65535)*65535 + 0.5)
	}
	return t
})

// Encode writes the picture as "png" or "tiff", 16 bits a channel in sRGB, or as
// "jpeg".
func (b *Blended) Encode(format string) ([]byte, error) {
	if format == "jpeg" {
		pic := rendition.Develop(b.Picture, 0)
		defer pic.Release()
		f, err := pic.Encode(rendition.Size{Name: "blend", Width: b.W, Format: "jpeg", Quality: 95},
			rendition.Meta{Taken: b.Facts.Taken, Composite: true}, &rendition.Options{Pure: b.pure})
		return f.Data, err
	}
	code := code16()
	img := image.NewNRGBA64(image.Rect(0, 0, b.W, b.H))
	for y := range b.H {
		row, to := b.Picture.Row(y), img.Pix[y*img.Stride:]
		for x := range b.W {
			for c := range 3 {
				v := code[row[3*x+c]]
				to[8*x+2*c], to[8*x+2*c+1] = uint8(v>>8), uint8(v)
			}
			to[8*x+6], to[8*x+7] = 255, 255
		}
	}
	var out bytes.Buffer
	var err error
	if format == "tiff" {
		err = tiff.Encode(&out, img, nil)
	} else {
		e := png.Encoder{CompressionLevel: png.BestSpeed}
		err = e.Encode(&out, img)
	}
	return out.Bytes(), err
}

// Sheet is a JPEG of the frames side by side, each with a bar under it that is
// as long as its share of the light in the picture; a frame that was left out is
// dimmed and has none.
func (b *Blended) Sheet() ([]byte, error) {
	const gap, bar = 6, 6
	fw, fh := b.Frames[0].SeenW, b.Frames[0].SeenH
	columns := 2
	for columns*columns < len(b.Frames) && columns < 8 {
		columns++
	}
	columns = min(columns, len(b.Frames))
	lines := (len(b.Frames) + columns - 1) / columns
	m := pixel.New(columns*(fw+gap)+gap, lines*(fh+bar+2*gap)+gap)
	dec := colour.DecodeTable()
	for i := range m.Pix {
		m.Pix[i] = dec[238]
	}
	most := 0.0
	for _, f := range b.Frames {
		most = max(most, f.Share)
	}
	for i, f := range b.Frames {
		x0, y0 := gap+(i%columns)*(fw+gap), gap+(i/columns)*(fh+bar+2*gap)
		for y := range fh {
			for x := range 3 * fw {
				v := dec[f.Seen[y*3*fw+x]]
				if f.LeftOut {
					v = v/4 + dec[238]*3/4
				}
				m.Row(y0 + y)[3*x0+x] = v
			}
		}
		for y := y0 + fh + gap/2; y < y0+fh+gap/2+bar; y++ {
			for x := range int(f.Share / max(most, 1e-9) * float64(fw)) {
				copy(m.Row(y)[3*(x0+x):], []uint16{dec[90], dec[90], dec[90]})
			}
		}
	}
	pic := rendition.Develop(m, 0)
	defer pic.Release()
	f, err := pic.Encode(rendition.Size{Name: "frames", Width: m.W, Format: "jpeg", Quality: 85}, rendition.Meta{}, &rendition.Options{Pure: b.pure, Bare: true})
	return f.Data, err
}
