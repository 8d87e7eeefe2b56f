package linear

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"math"

	"github.com/kovidgoyal/imaging/prism/meta/icc"

	"slabfolio/imaging/colour"
)

// A profile is an ICC profile that the engine understands, and the transform
// that it gave: device values 0…1 to sRGB code values, not clipped, relative
// colorimetric, no black-point compensation.
type profile struct {
	channels int
	lut      bool // it has tables; else curves and a matrix
	engine   *icc.Pipeline
}

// errProfile says that a profile cannot be used for a picture of its channels.
var errProfile = errors.New("the colour profile cannot be read")

// safely runs f, which uses the engine, and makes an error of a panic: a crafted
// profile may break it at any colour.
func safely(f func() error) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("%w: %v", errProfile, r)
		}
	}()
	return f()
}

// readProfile gives the engine a profile for a picture of the given channels. It
// must run under safely.
func readProfile(data []byte, channels int) (*profile, error) {
	if err := checkProfile(data); err != nil {
		return nil, err
	}
	d, err := icc.DecodeProfile(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("%w: %w", errProfile, err)
	}
	want := map[icc.ColorSpace]int{icc.ColorSpaceGray: 1, icc.ColorSpaceRGB: 3, icc.ColorSpaceCMYK: 4}[d.Header.DataColorSpace]
	if want != channels {
		return nil, fmt.Errorf("%w: it is for %d channels, the picture has %d", errProfile, want, channels)
	}
	const clamp, mapGamut, optimise = false, false, true
	in := channels
	if in == 1 {
		in = 3 // the engine's grey transform takes three and reads the first
	}
	e, err := d.CreateTransformerToSRGB(icc.RelativeColorimetricRenderingIntent, false, in, clamp, mapGamut, optimise)
	if err != nil && channels == 1 {
		e, err = d.CreateTransformerToSRGB(icc.RelativeColorimetricRenderingIntent, false, 1, clamp, mapGamut, optimise)
	}
	if err != nil {
		return nil, fmt.Errorf("%w: %w", errProfile, err)
	}
	p := &profile{channels: channels, engine: e}
	p.lut = !d.IsMatrixShaper() || d.TagTable.Has(icc.AToB0TagSignature) || d.TagTable.Has(icc.AToB1TagSignature)
	return p, p.checkCorners()
}

// checkProfile looks at the bounds of an ICC profile's header and tag table
// (ICC.1, 7.2 and 7.3) before the engine trusts them.
func checkProfile(data []byte) error {
	if len(data) < 132 || string(data[36:40]) != "acsp" {
		return errProfile
	}
	n := binary.BigEndian.Uint32(data[128:])
	if n > 256 || 132+12*int(n) > len(data) {
		return errProfile
	}
	for i := range int(n) {
		e := data[132+12*i:]
		at, size := int64(binary.BigEndian.Uint32(e[4:])), int64(binary.BigEndian.Uint32(e[8:]))
		if at+size > int64(len(data)) || !holdsItsTables(data[at:at+size]) {
			return errProfile
		}
	}
	return nil
}

// holdsItsTables reports whether the curves and the colour table of a tag (ICC.1,
// 10.6 and 10.12) are as long as they say. The engine makes room for what a curve
// says before it looks: two gigabytes of it for a profile of 3,000 bytes.
func holdsItsTables(tag []byte) bool {
	switch {
	case len(tag) < 12:
		return true // the engine refuses it
	case string(tag[:4]) == "curv":
		return holdsCurve(tag)
	case string(tag[:4]) != "mAB " && string(tag[:4]) != "mBA ":
		return true
	}
	for at := 0; at+12 <= len(tag); at++ { // curves lie in it where its offsets say, whatever those are
		if string(tag[at:at+4]) == "curv" && !holdsCurve(tag[at:]) {
			return false
		}
	}
	if len(tag) < 32 {
		return false
	}
	table := int64(binary.BigEndian.Uint32(tag[24:]))
	if table == 0 {
		return true
	}
	return table+20 <= int64(len(tag)) && (tag[table+16] == 1 || tag[table+16] == 2) // bytes of a value
}

// holdsCurve reports whether a curve has the points that it counts.
func holdsCurve(curve []byte) bool {
	return 12+2*int64(binary.BigEndian.Uint32(curve[8:])) <= int64(len(curve))
}

// to asks the engine for one colour: device values in, linear sRGB out, neither
// clipped.
func (p *profile) to(in [4]float64) [3]float64 {
	var c [3]float64
	if p.channels == 4 {
		var o [4]float64
		p.engine.TransformGeneral(o[:], in[:])
		c = [3]float64{o[0], o[1], o[2]}
	} else {
		c[0], c[1], c[2] = p.engine.Transform(in[0], in[1], in[2])
	}
	for i, v := range c {
		if v < 0 {
			c[i] = v / 12.92 // the engine goes on straight below black
		} else {
			c[i] = colour.Decode(v)
		}
	}
	return c
}

// code is to, in sRGB code values, below black as Encode has it.
func (p *profile) code(in [4]float64) [3]float64 {
	c := p.to(in)
	return [3]float64{colour.Encode(c[0]), colour.Encode(c[1]), colour.Encode(c[2])}
}

// grey is the linear light of a grey level.
func (p *profile) grey(v float64) float64 { return p.to([4]float64{v, v, v})[1] }

// checkCorners asks for the corners of the device space: the engine may find a broken
// table only on use, and a profile that makes no numbers is none.
func (p *profile) checkCorners() error {
	for k := range 16 {
		in := [4]float64{float64(k & 1), float64(k >> 1 & 1), float64(k >> 2 & 1), float64(k >> 3 & 1)}
		for _, v := range p.code(in) {
			if math.IsNaN(v) || math.Abs(v) > 16 {
				return fmt.Errorf("%w: it gives no colours", errProfile)
			}
		}
	}
	return nil
}

// rgb returns the row transform of an RGB profile.
func (p *profile) rgb(s deviceScale) transform {
	if !p.lut {
		if f, ok := p.fused(s); ok {
			return f
		}
	}
	return transform{row: newCube(p).rows(s)}
}

// fused reads curves and matrix out of the engine's transform, and checks them
// against it.
func (p *profile) fused(s deviceScale) (t transform, ok bool) {
	black := p.to([4]float64{})
	var m colour.Matrix
	for j := range 3 {
		var in [4]float64
		in[j] = 1
		v := p.to(in)
		for i := range 3 {
			m[i][j] = v[i] - black[i]
		}
	}
	for i := range 3 {
		if math.Abs(black[i]) > 1e-4 || m[i][i] == 0 {
			return transform{}, false
		}
	}
	var c [3][]float64
	for j := range 3 {
		c[j] = sampleEngine(s, func(v float64) float64 {
			var in [4]float64
			in[j] = v
			// The largest coefficient of the column tells the curve best.
			out := p.to(in)
			i := 0
			for k := range 3 {
				if math.Abs(m[k][j]) > math.Abs(m[i][j]) {
					i = k
				}
			}
			return (out[i] - black[i]) / m[i][j]
		})
	}
	// A grid of mixed colours, off the axes from which the model was read.
	for _, r := range []float64{0.1, 0.35, 0.6, 0.9} {
		for _, g := range []float64{0.15, 0.4, 0.7, 0.95} {
			for _, b := range []float64{0.05, 0.3, 0.55, 0.85} {
				at := func(j int, v float64) float64 { return c[j][int(v*float64(s))] }
				q := func(v float64) float64 { return math.Floor(v*float64(s)) / float64(s) }
				model := m.Apply([3]float64{at(0, r), at(1, g), at(2, b)})
				truth := p.to([4]float64{q(r), q(g), q(b)})
				for i := range 3 {
					if math.Abs(model[i]-truth[i]) > 5e-4 {
						return transform{}, false
					}
				}
			}
		}
	}
	return shaper(s, c, m), true
}
