// Package imaging turns the photos of one piece into the pictures that are
// published: it reads each once, frames it, tones the set alike and makes the
// renditions. It knows nothing of furniture, files or words: what it has to say
// are codes and numbers.
//
// The way of one photo, each step a package of its own:
//
//	decode → linear → pixel.Reduce → frame, inspect    Open
//	                → pixel.Resample into the master   Open
//	tone                                               Develop
//	pixel.Resample → rendition                         Render
//
// The master is the framed photo in linear light, 16 bits a channel, as wide as
// the largest rendition; the decoded planes are gone once it is there.
package imaging

import (
	"fmt"
	"image/color"
	"math"
	"slices"
	"sync"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/decode"
	"slabfolio/imaging/frame"
	"slabfolio/imaging/inspect"
	"slabfolio/imaging/linear"
	"slabfolio/imaging/note"
	"slabfolio/imaging/pixel"
	"slabfolio/imaging/rendition"
	"slabfolio/imaging/tone"
)

// A Request is one photo and what the maker wants of it.
type Request struct {
	Name       string // as the maker knows it; not looked at
	Data       []byte // the file; not kept
	ToneAsShot bool   // leave exposure and colour alone
	CropAsShot bool   // neither straighten nor crop
	CropBox    *[4]float64
	GreyCard   *[4]float64  // both: left, top, right, bottom as shares of the upright photo
	Turn       int          // degrees clockwise by which the photo is to be turned to stand upright, beyond what its tags say; a multiple of 90
	Ground     *color.NRGBA // put the piece on a plain ground of this colour, where its outline is sure; nil: leave it where it stands
	Shows      Extent       // what is known of how much of the piece it shows
}

// An Extent is how much of its subject a photo shows.
type Extent int

// What a photo can show.
const (
	Unsaid   Extent = iota // nobody knows
	AllOfIt                // the whole subject: no picture cuts it
	PartOfIt               // a part, which goes on beyond the frame: pictures of all shapes are filled with it
)

// Options are the optional settings of Open. A nil *Options means all defaults.
type Options struct {
	Pure      bool             // use no native library
	MaxPixels int              // refuse larger photos; 0: decode.DefaultMaxPixels
	MasterDir string           // folder for the masters of a big set; "": they stay in memory
	NoMaster  bool             // make no master: the Photo is to be looked at, not rendered
	Sizes     []rendition.Size // that Render will be asked for; nil: rendition.DefaultSizes
}

// smallSide is the longer side of the copy that a photo is analysed on.
const smallSide = 768

// previewSide is the longer side of the small picture of the photo as it goes.
const previewSide = 480

// A Photo is one photo on its way. It is not safe for concurrent use, but for
// Render and PDFPicture after Develop; several Photos are.
type Photo struct {
	Name   string
	Format string // as decode.Source.Format
	Codec  string // what read it
	Space  string // as decode.Source.Space: the colour space by its tags
	W, H   int    // upright, whole
	CropW  int    // of the framed part, in pixels of the photo
	CropH  int
	Facts  decode.Facts
	Taken  string // Facts.Taken

	Notes   []note.Note        // worth telling the maker
	Done    []note.Note        // what was done to it, in order
	Numbers map[string]float64 // what was measured, for the record
	Report  inspect.Report     // for inspect.Compare, which tells duplicates by the perceptual hashes in it
	Frame   frame.Result
	Tone    tone.Treatment // after Develop

	Before, After []byte         // small JPEGs: as it came, and after Develop as it goes
	Histogram     [2][64]float64 // of sRGB-coded luma, before and after: the share of the pixels in each 64th

	small    *pixel.Image
	pale     bool      // paleWithin it, as it came
	thumb    []float64 // of it, likewise
	shows    Extent
	ground   *color.NRGBA
	cutout   *cutout             // how to put the piece on a ground; nil: not asked for, or not to be done
	shapes   map[form]shape      // of the sizes that Open was told of
	planning bool                // their shapes are being settled, by one goroutine
	oneEdge  *bool               // seamless, as was seen then
	cutOff   *[4]bool            // runsOut, likewise
	extends  map[[4]float64]bool // canBeExtended, likewise
	brighter float64             // lift, likewise; 0: not seen
	master   master
	toning   sync.Mutex // PDFPicture and Render may come at the same time, and the master is toned once
	grey     *[4]float64
	matrix   *colour.Matrix // that puts its colours right; nil: none. small is through it, the master not before it is toned
	asShot   bool
	opts     Options
}

// Open reads a photo, looks at it on a reduced copy and takes the framed part
// into the master. The error is a *decode.Refusal when the photo cannot be used,
// and another when the spill folder cannot be written.
func Open(req Request, opts *Options) (*Photo, error) {
	p := newPhoto(req, opts)
	src, err := decode.Decode(req.Data, &decode.Options{MaxPixels: p.opts.MaxPixels, Pure: p.opts.Pure})
	if err != nil {
		return nil, err
	}
	p.Format, p.Codec, p.Space, p.Facts, p.Taken = src.Format, src.Codec, src.Space, src.Facts, src.Facts.Taken
	defer src.Release()
	if src.Orientation, err = pixel.Turned(src.Orientation, req.Turn); err != nil {
		return nil, fmt.Errorf("turn %s: %w", req.Name, err)
	}
	p.Notes = append(p.Notes, src.Notes...)
	converted, notes := linear.NewRows(&src.Encoded)
	p.Notes = append(p.Notes, notes...)
	p.record(src.Orientation > 1, "decode.turned", map[string]float64{"orientation": float64(src.Orientation)})
	unread := slices.ContainsFunc(notes, func(n note.Note) bool { return n.Code == "colour.bad-profile" })
	p.record(len(src.Profile) > 0 && !unread, "colour.profile", nil)
	return p.taken(p.take(converted, src.Orientation, req))
}

// OpenBlended is Open for a picture that was blended; req.Data is not looked at.
// Its pixels are taken as they are, without a file between. b is empty afterwards.
func OpenBlended(b *Blended, req Request, opts *Options) (*Photo, error) {
	p := newPhoto(req, opts)
	p.Format, p.Codec, p.Facts, p.Taken = "tiff", "blend", b.Facts, b.Facts.Taken
	orientation, err := pixel.Turned(1, req.Turn)
	if err != nil {
		return nil, fmt.Errorf("turn %s: %w", req.Name, err)
	}
	r := b.Picture.Rows()
	b.Picture = nil
	return p.taken(p.take(r, orientation, req))
}

// taken is the photo, or why there is none; then nothing of it is left.
func (p *Photo) taken(err error) (*Photo, error) {
	if err != nil {
		p.Close()
		return nil, err
	}
	return p, nil
}

// newPhoto is a photo of which nothing is read yet.
func newPhoto(req Request, opts *Options) *Photo {
	p := &Photo{Name: req.Name, grey: req.GreyCard, asShot: req.ToneAsShot, shows: req.Shows, ground: req.Ground, shapes: map[form]shape{}, Numbers: map[string]float64{}, Tone: tone.AsShot()}
	if opts != nil {
		p.opts = *opts
	}
	if p.opts.Sizes == nil {
		p.opts.Sizes = rendition.DefaultSizes()
	}
	return p
}

// take looks at the pixels and takes the framed part into the master.
func (p *Photo) take(r pixel.Rows, orientation int, req Request) (err error) {
	w, h := r.Size()
	p.W, p.H = pixel.Upright(w, h, orientation)
	if p.small, err = pixel.Reduce(r, orientation, smallSide); err != nil {
		return fmt.Errorf("reduce %s: %w", req.Name, err)
	}
	p.pale, p.thumb = paleWithin(p.small), thumb(p.small)
	p.Frame = frame.Find(p.small, &frame.Options{AsShot: req.CropAsShot, Part: req.Shows == PartOfIt, Side: max(p.W, p.H), Box: req.CropBox, Sight: p.askNet})
	p.framed()
	p.cut()
	p.planShapes()
	p.judgeUsable()
	if err := p.inspect(r, orientation); err != nil {
		return err
	}
	if !p.opts.NoMaster {
		if err := p.takeMaster(r, orientation); err != nil {
			return err
		}
	}
	return p.before()
}

// record notes a step that was taken.
func (p *Photo) record(taken bool, code string, values map[string]float64) {
	if taken {
		p.Done = append(p.Done, note.Note{Code: code, Values: values})
	}
}

// wholePixels puts the edges of the crop between pixels where the photo was not
// straightened: what is not enlarged or reduced is then copied, not interpolated,
// and loses nothing of its crispness.
func (p *Photo) wholePixels() {
	if !p.Frame.Source(p.W, p.H).Plain() {
		return
	}
	c, in := &p.Frame.Crop, p.Frame.Inside
	for i, size := range [4]float64{float64(p.W), float64(p.H), float64(p.W), float64(p.H)} {
		at := math.Round(c[i] * size)
		switch { // never past what the photo has
		case i < 2 && at < in[i]*size-1e-6:
			at++
		case i >= 2 && at > in[i]*size+1e-6:
			at--
		}
		c[i] = at / size
	}
}

// framed records what framing found.
func (p *Photo) framed() {
	whole := p.Frame.Crop == p.Frame.Inside
	p.wholePixels()
	f := p.Frame
	p.CropW = max(int((f.Crop[2]-f.Crop[0])*float64(p.W)+0.5), 1)
	p.CropH = max(int((f.Crop[3]-f.Crop[1])*float64(p.H)+0.5), 1)
	for _, n := range f.Notes {
		if n.Code == "frame.straightened" || n.Code == "frame.border" {
			p.Done = append(p.Done, n)
			continue
		}
		p.Notes = append(p.Notes, n)
	}
	share := (f.Crop[2] - f.Crop[0]) * (f.Crop[3] - f.Crop[1])
	p.record(share < 0.995 && !whole, "frame.cropped", map[string]float64{
		"share": share, "width": float64(p.CropW), "height": float64(p.CropH),
	})
	p.Numbers["subject_confidence"] = f.Confidence
	p.Numbers["crop_left"], p.Numbers["crop_top"] = f.Crop[0], f.Crop[1]
	p.Numbers["crop_right"], p.Numbers["crop_bottom"] = f.Crop[2], f.Crop[3]
	p.Numbers["angle_deg"] = f.Angle
}

// detailSide is the side of the cut-outs at full size that sharpness and noise
// are judged on.
const detailSide = 384

// inspect looks for faults of the photo on the reduced copy and three cut-outs along the
// subject's middle, or where its outline is sure and the middle of its box shows
// what is behind it, as under a table, where there is most of it.
func (p *Photo) inspect(r pixel.Rows, orientation int) error {
	probe := inspect.FullPhoto{W: p.W, H: p.H, Crop: p.Frame.Crop, Piece: p.Frame.Mask, Taken: p.Taken}
	s := p.Frame.Subject
	if p.W >= 2*detailSide && p.H >= 2*detailSide {
		x, y := p.Frame.Source(p.W, p.H).Apply((s[0]+s[2])/2*float64(p.W), (s[1]+s[3])/2*float64(p.H))
		step := (s[2] - s[0]) / 4 * float64(p.W)
		at := func(x float64) int { return min(max(int(x)-detailSide/2, 0), p.W-detailSide) }
		from, to := at(x-step), at(x+step)+detailSide
		top := min(max(int(y)-detailSide/2, 0), p.H-detailSide)
		top = p.bandOnPiece(top, [3]int{at(x), from, to - detailSide})
		// One band holds all three: a row is converted whole, so it is read once.
		box := pixel.Box(float64(from), float64(top), float64(to), float64(top+detailSide))
		band, err := pixel.Resample(r, pixel.Region{Orientation: orientation, Quad: box, W: to - from, H: detailSide})
		if err != nil {
			return fmt.Errorf("look at a detail: %w", err)
		}
		defer band.Release()
		for _, left := range [3]int{at(x), from, to - detailSide} {
			probe.Details = append(probe.Details, band.Cut(left-from, 0, detailSide, detailSide))
			if !p.Frame.Plain { // a plain backdrop has no edges of its own
				probe.On = append(probe.On, p.pieceIn(left, top))
			}
		}
	}
	defer func() {
		for _, d := range probe.Details {
			d.Release()
		}
	}()
	p.Report = inspect.Photo(p.small, probe)
	p.Notes = append(p.Notes, p.Report.Notes...)
	p.Numbers["noise_levels"], p.Numbers["clipped_share"] = p.Report.Noise, p.Report.Clipped
	p.Numbers["edge_px"] = max(p.Report.EdgeX, p.Report.EdgeY)
	return nil
}

// Close gives back the master, in memory or on disk. A closed Photo renders no
// more; its notes and small pictures stay.
func (p *Photo) Close() {
	if p != nil {
		p.master.drop()
		p.small = nil
	}
}
