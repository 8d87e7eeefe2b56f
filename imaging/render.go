package imaging

import (
	"fmt"
	"image/color"
	"math"
	"sync"

	"slabfolio/imaging/pixel"
	"slabfolio/imaging/rendition"
	"slabfolio/imaging/tone"
)

// Develop decides the tone of a set and prepares its photos for Render. The set
// is all the photos of one piece; nil entries, for photos that could not be
// opened, are passed over.
func Develop(photos []*Photo) {
	var samples []tone.Sample
	var which []*Photo
	for _, p := range photos {
		if p == nil || p.small == nil {
			continue
		}
		which = append(which, p)
		s := p.sample()
		s.Grey, s.AsShot, s.Right = p.grey, p.asShot, p.matrix != nil
		samples = append(samples, s)
	}
	treatments := tone.Plan(samples)
	inHalves(len(which), func(from, to int) {
		for i := from; i < to; i++ {
			which[i].develop(treatments[i])
		}
	})
}

// sample is what tone is told of a photo.
func (p *Photo) sample() tone.Sample {
	return tone.Sample{Small: p.small, Piece: p.Frame.Mask, Plain: p.Frame.Plain, Sure: p.Frame.Confidence}
}

// inHalves does the first and the second half of n things side by side.
func inHalves(n int, do func(from, to int)) {
	var wg sync.WaitGroup
	wg.Go(func() { do(0, n/2) })
	do(n/2, n)
	wg.Wait()
}

// develop takes the treatment over and makes the small pictures that show it.
func (p *Photo) develop(t tone.Treatment) {
	p.Tone = t
	p.Notes = append(p.Notes, t.Notes...)
	p.Done = append(p.Done, t.Done...)
	p.Numbers["exposure_ev"] = t.EV
	p.Numbers["white_r"], p.Numbers["white_g"], p.Numbers["white_b"] = t.White[0], t.White[1], t.White[2]
	p.Numbers["white_confidence"] = t.Confidence
	p.Numbers["light_group"] = float64(t.Group)
	p.learnGround()
	p.learnGrounds()
	p.after()
}

// Render makes the files of all sizes, in their order. It returns an error when
// a size makes no sense, an encoder fails or the photo is closed.
func (p *Photo) Render(sizes []rendition.Size, meta rendition.Meta) ([]rendition.File, error) {
	m, err := p.tonedMaster()
	if err != nil {
		return nil, err
	}
	d := darkroom{p: p, m: m}
	defer d.release()
	files := make([]rendition.File, len(sizes))
	for i, s := range sizes {
		if err := s.Check(); err != nil {
			return nil, err
		}
		meta.Painted = d.p.painted(s)
		if files[i], err = d.encode(s, meta); err != nil {
			return nil, err
		}
	}
	return files, nil
}

// smallest is the share of its width down to which a rendition is made smaller for
// its budget of bytes before its quality is lowered.
const smallest = 0.8

// encode makes the file of one size within its budget of bytes: of fewer pixels
// first, then at a lower quality, then of fewer still. A smaller picture is
// crisp; a coarser one shows blocks.
func (d *darkroom) encode(s rendition.Size, meta rendition.Meta) (rendition.File, error) {
	opts := &rendition.Options{Pure: d.p.opts.Pure}
	ask, full := s, 0
	ask.MaxBytes = 0
	for {
		pic, err := d.picture(ask)
		if err != nil {
			return rendition.File{}, fmt.Errorf("make %s of %s: %w", s.Name, d.p.Name, err)
		}
		full = max(full, pic.W)
		f, err := pic.Encode(ask, meta, opts)
		over := float64(len(f.Data)) / float64(max(s.MaxBytes, 1))
		if err != nil || s.MaxBytes <= 0 || over <= 1 || pic.W < 64 {
			f.Size = s
			d.recordBudget(f, full)
			return f, err
		}
		least := int(smallest * float64(full))
		if f.Width <= least {
			if ask.MaxBytes == 0 { // as small as it may be at full quality
				ask.MaxBytes = s.MaxBytes
				continue
			}
			least = 0
		}
		ask.Width = max(int(0.98*float64(f.Width)/math.Sqrt(over)), least)
	}
}

// recordBudget records what the budget of a size left of it.
func (d *darkroom) recordBudget(f rendition.File, full int) {
	if f.Width < full {
		d.p.Numbers["width_"+f.Size.Name] = float64(f.Width)
	}
	if f.Quality < f.Size.Quality {
		d.p.Numbers["quality_"+f.Size.Name] = float64(f.Quality)
	}
}

// PDFPicture returns the framed photo as a JPEG of quality 88 for a PDF, exactly w
// pixels wide unless the photo has fewer, without profile or metadata: PDF
// readers take it as it is.
func (p *Photo) PDFPicture(w int) (rendition.File, error) {
	m, err := p.tonedMaster()
	if err != nil {
		return rendition.File{}, err
	}
	s := rendition.Size{Name: "the picture for the documents", Width: w, Format: "jpeg", Quality: 88}
	if err := s.Check(); err != nil {
		return rendition.File{}, err
	}
	d := darkroom{p: p, m: m}
	defer d.release()
	pic, err := d.picture(s)
	if err != nil {
		return rendition.File{}, fmt.Errorf("make %s of %s: %w", s.Name, p.Name, err)
	}
	return pic.Encode(s, rendition.Meta{}, &rendition.Options{Pure: p.opts.Pure, Bare: true})
}

// A darkroom makes the pictures of one photo and keeps those that others can be
// made from.
type darkroom struct {
	p       *Photo
	m       *pixel.Image // the master
	grounds []*groundedPhoto
	ready   []ready
}

// A groundedPhoto is the photo on one ground of its own.
type groundedPhoto struct {
	ground *color.NRGBA // nil: where it stands
	m      *pixel.Image
	own    []*pixel.Image // of the photo's own shape, linear, in the order made
}

// ready is a developed picture, for the next size that asks for the same.
type ready struct {
	w, h, rw, rh int
	on           *groundedPhoto
	ground       *color.NRGBA
	pic          *rendition.Picture
}

// on returns the master on the ground of a size.
func (d *darkroom) on(s rendition.Size) *groundedPhoto {
	var c *color.NRGBA
	if d.p.formOf(s).cut {
		c = d.p.groundOf(s.Ground)
	}
	for _, o := range d.grounds {
		if sameColour(o.ground, c) {
			return o
		}
	}
	o := &groundedPhoto{ground: c, m: d.m}
	if c != nil {
		o.m = d.p.cutout.putOnGround(d.m, d.p.inSmall(d.p.master), linearOf(*c))
	}
	d.grounds = append(d.grounds, o)
	return o
}

// inSmall tells where a pixel of a master lies in the reduced copy.
func (p *Photo) inSmall(g master) func(x, y float64) (float64, float64) {
	through := p.Frame.Source(p.W, p.H)
	kx, ky := float64(p.small.W)/float64(p.W), float64(p.small.H)/float64(p.H)
	return func(x, y float64) (float64, float64) {
		x, y = through.Apply(g.x0+x/g.kx, g.y0+y/g.ky)
		return x * kx, y * ky
	}
}

// release gives back what the pictures were made in.
func (d *darkroom) release() {
	for _, r := range d.ready {
		r.pic.Release()
	}
	for _, g := range d.grounds {
		for _, m := range g.own {
			m.Release()
		}
	}
	if d.m != d.p.master.pix { // it came from the disk for this once
		d.m.Release()
	}
	d.ready, d.grounds, d.m = nil, nil, nil
}

// picture returns the photo at a size, developed; it lives until release.
func (d *darkroom) picture(s rendition.Size) (*rendition.Picture, error) {
	g := d.p.master
	w, h := s.Fit(g.cw, g.ch)
	if s.RatioW > 0 {
		w, h = s.Width, 0
	}
	on := d.on(s)
	for _, r := range d.ready {
		if r.w == w && r.h == h && r.rw == s.RatioW && r.rh == s.RatioH && r.on == on && (s.RatioW == 0 || sameColour(r.ground, s.Ground)) {
			return r.pic, nil
		}
	}
	var pic *rendition.Picture
	if s.RatioW > 0 {
		m, shrunk, err := d.shaped(s)
		if err != nil {
			return nil, err
		}
		pic = rendition.Develop(m, rendition.SharpenAmount(shrunk))
		m.Release()
	} else {
		amount := rendition.SharpenAmount(float64(d.p.CropW) / float64(w))
		if w == g.cw && h == g.ch { // as the master has it
			pic = rendition.DevelopPart(on.m, g.left, g.top, w, h, amount)
		} else {
			m, err := d.plain(on, w, h)
			if err != nil {
				return nil, err
			}
			pic = rendition.Develop(m, amount)
		}
	}
	d.ready = append(d.ready, ready{w, h, s.RatioW, s.RatioH, on, s.Ground, pic})
	return pic, nil
}

// plain returns the photo's own crop at w × h: from the smallest picture made so
// far that is at least twice as large, else from the master.
func (d *darkroom) plain(on *groundedPhoto, w, h int) (*pixel.Image, error) {
	g := d.p.master
	from := on.m
	quad := pixel.Box(float64(g.left), float64(g.top), float64(g.left+g.cw), float64(g.top+g.ch))
	for _, o := range on.own {
		if o.W >= 2*w && o.W < from.W {
			from, quad = o, pixel.Quad{}
		}
	}
	m, err := pixel.Resample(from.Rows(), pixel.Region{Quad: quad, W: w, H: h})
	if err == nil {
		on.own = append(on.own, m)
	}
	return m, err
}

func sameColour(a, b *color.NRGBA) bool { return a == b || a != nil && b != nil && *a == *b }
