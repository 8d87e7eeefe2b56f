package photos

import (
	"context"
	"errors"
	"fmt"
	"image/color"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"golang.org/x/sync/semaphore"

	"slabfolio/imaging"
	"slabfolio/imaging/decode"
	"slabfolio/imaging/spare"
	"slabfolio/listing/ordinary"
	"slabfolio/listing/piece"
	"slabfolio/listing/report"
)

// A Shot is one photo on its way from its file to what is published of it.
type Shot struct {
	Source Source
	Photo  *imaging.Photo // nil when it is not published, or was refused
	Err    error          // why it was refused, for the maker
	Name   string         // "01-three-quarter"; empty when it is not published
	Alt    string         // what it shows, for somebody who cannot see it; of a published one
	Record *report.PhotoRecord

	Blended  string          // how it was blended, in words; empty for a photo that was taken
	onFrames []piece.Finding // what is to be said of its frames
}

// NewShots puts the sources on their way; those that are not published have the
// reason in their record.
func NewShots(sources []Source) []*Shot {
	var shots []*Shot
	for _, s := range sources {
		shots = append(shots, &Shot{Source: s, Record: &report.PhotoRecord{Source: s.Rel, View: s.View, Refused: hidden[s.Role]}})
	}
	return shots
}

// Number names the opened photos in the order of publication.
func Number(shots []*Shot) {
	n := 0
	for _, sh := range shots {
		if sh.Photo != nil {
			n++
			sh.Name = publishedName(n, sh.Source)
			sh.Record.Name = sh.Name
		}
	}
}

// Opened returns the photos of the shots that have one.
func Opened(shots []*Shot) []*imaging.Photo {
	var opened []*imaging.Photo
	for _, sh := range shots {
		if sh.Photo != nil {
			opened = append(opened, sh.Photo)
		}
	}
	return opened
}

// An Opener opens the photos of one piece.
type Opener struct {
	Dir     string // the piece folder
	Spec    *piece.Photos
	Options *imaging.Options
	Memory  *semaphore.Weighted // bytes, shared by all that is opened at once
	Most    int64               // bytes that one photo may ask of it
}

// Open reads a photo's file and opens it. A photo that cannot be read or shown
// has the reason in Err and in its record; an error means that the run has to
// stop.
func (o *Opener) Open(ctx context.Context, sh *Shot) error {
	if sh.Source.Blend != nil {
		return o.blend(ctx, sh)
	}
	path := filepath.Join(o.Dir, filepath.FromSlash(sh.Source.Rel))
	pixels := o.Options.MaxPixels
	if pixels == 0 {
		pixels = decode.DefaultMaxPixels
	}
	need := min(bytesNeeded(path, pixels), o.Most)
	if err := o.Memory.Acquire(ctx, need); err != nil {
		return err
	}
	defer o.Memory.Release(need)
	data, err := read(path)
	if err != nil {
		sh.Refuse(err)
		return nil
	}
	defer spare.Give(data)
	return o.openData(sh, data)
}

// openData opens a photo from its bytes.
func (o *Opener) openData(sh *Shot, data []byte) error {
	photo, err := imaging.Open(o.request(sh.Source, data), o.Options)
	return o.opened(sh, photo, data, err)
}

// opened puts a photo that was opened, or why it was not, into its shot. data is
// its file.
func (o *Opener) opened(sh *Shot, photo *imaging.Photo, data []byte, err error) error {
	var refusal *decode.Refusal
	switch {
	case errors.As(err, &refusal):
		sh.Refuse(inWords(refusal))
	case ofMachine(err):
		return fmt.Errorf("%s: %w", sh.Source.Rel, err)
	case err != nil:
		sh.Refuse(whyUnreadable(data, err))
	default:
		if err := fitToShow(photo.CropW, photo.CropH); err != nil {
			photo.Close()
			sh.Refuse(err)
			return nil
		}
		sh.Photo = photo
	}
	return nil
}

// Refuse takes a photo out of what is published. why is for the maker.
func (sh *Shot) Refuse(why error) {
	sh.Err = why
	sh.Record.Refused = why.Error()
}

// ofMachine tells a failure of the disk, which stops the run, from one of the
// photo, which costs the photo alone.
func ofMachine(err error) bool {
	var file *fs.PathError
	var system *os.SyscallError
	return errors.As(err, &file) || errors.As(err, &system) || errors.Is(err, context.Canceled)
}

// whyUnreadable says why a photo that could be read can not be worked on: by its
// shape where that is the reason, else by what failed.
func whyUnreadable(data []byte, err error) error {
	_, w, h, headErr := decode.Header(data[:min(len(data), headSize)])
	if headErr == nil && w > 0 && h > 0 {
		if shape := fitToShow(w, h); shape != nil {
			return shape
		}
	}
	return fmt.Errorf("it can be read, but not worked on (%w); export it anew as a JPEG", err)
}

// request is what the spec asks of a photo.
func (o *Opener) request(s Source, data []byte) imaging.Request {
	return imaging.Request{
		Name: s.Rel, Data: data,
		ToneAsShot: o.Spec.Tone.V == "as shot", CropAsShot: o.Spec.Crop.V == "as shot",
		CropBox: valueFor(o.Spec.CropBoxes, s, asBox), GreyCard: valueFor(o.Spec.GreyCard, s, asBox),
		Turn: given(valueFor(o.Spec.Turn, s, as[int])), Shows: extentOf(s.View),
		Ground: Ground(given(valueFor(o.Spec.Ground, s, as[string]))),
	}
}

// Ground is the colour that the spec asks for as a ground: "white" or "#rrggbb",
// which it has checked; nil for none.
func Ground(word string) *color.NRGBA {
	if word == "" {
		return nil
	}
	c := color.NRGBA{R: 255, G: 255, B: 255, A: 255}
	fmt.Sscanf(word, "#%02x%02x%02x", &c.R, &c.G, &c.B)
	return &c
}

// extentOf is how much of the piece a view shows.
func extentOf(view string) imaging.Extent {
	switch {
	case view == "":
		return imaging.Unsaid
	case slices.Contains(piece.PartViews, view):
		return imaging.PartOfIt
	}
	return imaging.AllOfIt
}

// What can be shown: fewer pixels than LeastSide along a side are no photo, and a
// strip longer than mostRatio times its width fits no page and no file format.
const (
	LeastSide = 32
	mostRatio = 10
)

// fitToShow returns why a picture of this size, in pixels, cannot be published.
func fitToShow(w, h int) error {
	short, long := min(w, h), max(w, h)
	switch {
	case short < LeastSide:
		return fmt.Errorf("what is to be shown of it has only %d × %d pixels, too few for a photo; use the camera's full size", w, h)
	case long > mostRatio*short:
		return fmt.Errorf("what is to be shown of it is a strip of %d × %d pixels, more than %d times as long as wide; crop it", w, h, mostRatio)
	}
	return nil
}

// MaxFile is more bytes than any photo of the most pixels that are read takes.
const MaxFile = 1 << 30

// read reads a photo's file. The error is for the maker: it costs the photo, and
// no more than that.
func read(path string) ([]byte, error) {
	f, info, err := ordinary.Open(path)
	var data []byte
	if err == nil {
		defer f.Close() // read only
		if info.Size() > MaxFile {
			return nil, fmt.Errorf("the file has %.1f GB, more than a photo can have; export it smaller", float64(info.Size())/1e9)
		}
		data = spare.Take[byte](int(info.Size()))
		_, err = io.ReadFull(f, data)
	}
	switch {
	case errors.Is(err, ordinary.Err):
		return nil, errors.New("it is no ordinary file any more; it was one when the run began")
	case errors.Is(err, io.ErrUnexpectedEOF):
		return nil, errors.New("it was cut short while the run was on; run again when nothing writes to it")
	case errors.Is(err, fs.ErrPermission):
		return nil, errors.New("not allowed to read it; look at who may")
	case errors.Is(err, fs.ErrNotExist):
		return nil, errors.New("it went away while the run was on; put it back, or run again without it")
	case err != nil:
		return nil, errors.New("it cannot be read from the disk; copy it from the camera again")
	}
	return data, nil
}

// valueFor finds what the spec gives for a photo, under any of its names; nil
// where it gives nothing.
func valueFor[V, R any](values map[string]piece.Value[V], s Source, to func(V) R) *R {
	for _, name := range slices.Sorted(maps.Keys(values)) {
		if ByName([]Source{s}, name) == 0 {
			v := to(values[name].V)
			return &v
		}
	}
	return nil
}

func asBox(b piece.Box) [4]float64 { return [4]float64(b) }

func as[V any](v V) V { return v }

// given is a value, or its zero where there is none.
func given[V any](v *V) (zero V) {
	if v == nil {
		return zero
	}
	return *v
}
