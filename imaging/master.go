package imaging

import (
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"unsafe"

	"slabfolio/imaging/pixel"
)

// masterPixels bounds a master: a crop much taller than wide is taken smaller
// than its renditions might like rather than fill the memory.
const masterPixels = 12_000_000

// A master is the part of the straightened photo that renditions need, in
// linear light. The photo's own crop lies at whole pixels within it, so the
// largest rendition is a plain cut.
type master struct {
	w, h   int
	left   int // of the own crop, in the master
	top    int
	cw, ch int // of the own crop
	x0, y0 float64
	kx, ky float64 // master pixels a pixel of the straightened photo; (x0, y0) is its corner there

	pix   *pixel.Image // nil when on disk or dropped
	toned bool         // pix has its tone
	file  string       // when on disk
}

// errClosed is returned by Render and PDFPicture after Close, and for a photo that was
// opened to be looked at only.
var errClosed = errors.New("the photo is closed")

// takeMaster fetches the master from the decoded rows.
func (p *Photo) takeMaster(r pixel.Rows, orientation int) error {
	m := p.plan()
	through := p.Frame.Source(p.W, p.H)
	x1, y1 := m.x0+float64(m.w)/m.kx, m.y0+float64(m.h)/m.ky
	q := pixel.Box(m.x0, m.y0, x1, y1)
	if !through.Plain() {
		for i, c := range q {
			q[i].X, q[i].Y = through.Apply(c.X, c.Y)
		}
	}
	var err error
	m.pix, err = pixel.Resample(r, pixel.Region{Orientation: orientation, Quad: q, W: m.w, H: m.h})
	if err != nil {
		return fmt.Errorf("take the framed part: %w", err)
	}
	p.master = m
	if p.opts.MasterDir == "" {
		return nil
	}
	return p.master.toFile(p.opts.MasterDir)
}

// plan works out which part of the straightened photo is wanted and at which
// scale: enough for every size, none larger than the photo has it.
func (p *Photo) plan() master {
	c := p.Frame.Crop
	w, h := float64(p.W), float64(p.H)
	x0, y0, x1, y1 := c[0]*w, c[1]*h, c[2]*w, c[3]*h
	ux0, uy0, ux1, uy1 := x0, y0, x1, y1
	k := 0.0
	for _, s := range p.opts.Sizes {
		need := x1 - x0
		if s.RatioW > 0 && s.RatioH > 0 {
			f := p.shapeOf(p.formOf(s)).source
			in := p.inside()
			ux0, uy0 = math.Min(ux0, math.Max(f[0], in[0])), math.Min(uy0, math.Max(f[1], in[1]))
			ux1, uy1 = math.Max(ux1, math.Min(f[2], in[2])), math.Max(uy1, math.Min(f[3], in[3]))
			need = f[2] - f[0]
		}
		k = math.Max(k, float64(s.Width)/need)
	}
	if k == 0 || k > 1 {
		k = 1
	}
	k = math.Min(k, math.Sqrt(masterPixels/((ux1-ux0)*(uy1-uy0))))
	m := master{cw: max(int(math.Round((x1-x0)*k)), 1), ch: max(int(math.Round((y1-y0)*k)), 1)}
	m.kx, m.ky = float64(m.cw)/(x1-x0), float64(m.ch)/(y1-y0)
	m.left, m.top = int((x0-ux0)*m.kx+1e-6), int((y0-uy0)*m.ky+1e-6)
	m.w = m.left + m.cw + int((ux1-x1)*m.kx+1e-6)
	m.h = m.top + m.ch + int((uy1-y1)*m.ky+1e-6)
	m.x0, m.y0 = x0-float64(m.left)/m.kx, y0-float64(m.top)/m.ky
	return m
}

// toFile moves the picture into a file of its own in dir.
func (m *master) toFile(dir string) error {
	f, err := os.CreateTemp(dir, "photo-*.linear")
	if err != nil {
		return fmt.Errorf("keep a photo for later: %w", err)
	}
	_, err = f.Write(raw(m.pix))
	if err = errors.Join(err, f.Close()); err != nil {
		os.Remove(f.Name())
		return fmt.Errorf("keep a photo for later: %w", err)
	}
	m.pix.Release()
	m.file, m.pix = f.Name(), nil
	return nil
}

// load returns the picture, from memory or from its file.
func (m *master) load() (*pixel.Image, error) {
	if m.pix != nil {
		return m.pix, nil
	}
	if m.file == "" {
		return nil, errClosed
	}
	f, err := os.Open(m.file)
	if err != nil {
		return nil, fmt.Errorf("take up a photo again: %w", err)
	}
	defer f.Close()
	pix := pixel.Unset(m.w, m.h)
	if n, err := io.ReadFull(f, raw(pix)); err != nil {
		return nil, fmt.Errorf("take up a photo again: %d bytes: %w", n, err)
	}
	return pix, nil
}

// tonedMaster returns the master with the photo's tone. In memory it is toned once,
// from disk each time; Develop must not come after it.
func (p *Photo) tonedMaster() (*pixel.Image, error) {
	p.toning.Lock()
	defer p.toning.Unlock()
	m, err := p.master.load()
	if err != nil {
		return nil, err
	}
	if !p.master.toned {
		p.correct(m)
		p.Tone.Apply(m)
		p.master.toned = m == p.master.pix
	}
	return m, nil
}

// drop forgets the picture and removes its file.
func (m *master) drop() {
	if m.pix != nil {
		m.pix.Release()
		m.pix = nil
	}
	if m.file != "" {
		os.Remove(m.file)
		m.file = ""
	}
}

// raw is the memory of a picture as bytes. The file is read back by the process
// that wrote it, so the machine's own byte order serves.
func raw(m *pixel.Image) []byte {
	return unsafe.Slice((*byte)(unsafe.Pointer(unsafe.SliceData(m.Pix))), len(m.Pix)*2)
}
