// Package blend makes one picture of several frames of the same view: frames
// that are each lit by one light, or an exposure bracket. It works in linear
// light, puts right a camera that moved a little, leaves out what does not
// belong, and takes a lamp that stands in the view out again. It knows nothing
// of files or words: what it has to say are codes and numbers.
//
// A frame is opened twice, once to look at a small copy, once to blend it (twice
// for a bracket), and only two are in memory at a time while they are looked at, one
// while they are blended: memory grows with the size of a frame, not with their number.
package blend

import (
	"fmt"

	"slabfolio/imaging/note"
	"slabfolio/imaging/pixel"
)

// A How is a way of blending.
type How string

// The ways.
const (
	Lightest How = "lightest" // at every place the frame that is lit best there
	Added    How = "added"    // the sum of the lights above an ambient frame
	Even     How = "even"     // the same, every light weighed alike
	Bracket  How = "bracket"  // exposure fusion
)

// A Frame is one picture of the set, stored as the others are.
type Frame struct {
	Open     func() (pixel.Rows, error) // of the first before any other; several may be opened at once
	Strength float64                    // factor of its light; 0 means 1
	Mask     *pixel.Mask                // where it counts, 255, and where it does not; nil: everywhere
}

// A Request is a set to be blended.
type Request struct {
	Frames []Frame
	How    How // "" means Lightest
}

// A Report says what became of a frame.
type Report struct {
	ShiftX, ShiftY float64 // how far it stands off the reference, pixels
	Turn           float64 // the same, degrees
	Moved          bool    // it was moved into place
	LeftOut        bool    // it does not belong
	Like           float64 // how like the reference its outlines are, -1 to 1
	Lamp           bool    // a lamp stood in the view and was masked
	Ambient        bool    // it was taken for the light that is there without the lamps
	Share          float64 // of the light in the result
	Seen           []uint8 // small sRGB picture of it for the maker, SeenW × SeenH, 3 bytes a pixel
	SeenW, SeenH   int
}

// A Result is the picture, as the frames are stored, and what was done. Notes:
//
//	blend.left-out   a frame does not belong (frame, like, least)
//	blend.far        a frame stands too far off (frame, shift)
//	blend.moved      a frame was moved into place (frame, shift, turn)
//	blend.lamp       a lamp in the view was masked (frame, share: of the photo)
//	blend.no-ambient no frame is the ambient one, so what light there was besides is in the sum once a frame (frames)
//	blend.rim        a rim that not every frame reaches was cut off (most: pixels at one side)
//	blend.exposed    frames blended as lights differ in nothing but their exposure (times: the light of the brightest by the darkest)
//	blend.few        so few frames are left that there is nothing to blend (frames)
type Result struct {
	Picture *pixel.Image
	Frames  []Report
	Notes   []note.Note
	Gain    float64 // that the sum was brought down by, so that its lights have room; 1: none
	CutLeft int     // pixels of the reference's left that were cut off, since not every frame reaches there
	CutTop  int     // the same of its top; the right and the bottom follow from the picture's size
}

// A Refusal says why a set cannot be blended. Codes: blend.count (frames),
// blend.size (frame, width, height, want_width, want_height), blend.how.
type Refusal struct{ note.Note }

// Error is the code and the numbers.
func (r *Refusal) Error() string { return fmt.Sprintf("%s %v", r.Code, r.Values) }

func refuse(code string, values map[string]float64) *Refusal {
	return &Refusal{note.Note{Code: code, Values: values}}
}

// A job is one set being blended.
type job struct {
	req   Request
	w, h  int
	looks []smallCopy
	ref   int
	patch []patch // of the reference
	moves map[int]move
	now   *pixel.Image // the frame that is in memory; the next takes its place
	still *pixel.Image // the same, moved into place
	r     *Result

	exposed []*exposedTable // of a bracket's frames
}

// Blend blends the set. The error is a *Refusal, or what opening a frame gave.
func Blend(req Request) (*Result, error) {
	if req.How == "" {
		req.How = Lightest
	}
	if len(req.Frames) < 2 {
		return nil, refuse("blend.count", map[string]float64{"frames": float64(len(req.Frames))})
	}
	j := &job{req: req, moves: map[int]move{}, r: &Result{Frames: make([]Report, len(req.Frames)), Gain: 1}}
	if err := j.openAll(); err != nil {
		return nil, err
	}
	j.choose()
	j.findLamps()
	if times, ok := j.exposedOnly(); ok && req.How != Bracket {
		j.note("blend.exposed", map[string]float64{"times": times})
	}
	var err error
	switch req.How {
	case Lightest:
		err = j.lightest()
	case Added, Even:
		err = j.sum()
	case Bracket:
		err = j.bracket()
	default:
		err = refuse("blend.how", nil)
	}
	if err == nil {
		j.cutRim()
	}
	return j.r, err
}

func (j *job) note(code string, values map[string]float64) {
	j.r.Notes = append(j.r.Notes, note.Note{Code: code, Values: values})
}

// used lists the frames that take part, the reference first.
func (j *job) used() []int {
	out := []int{j.ref}
	for i := range j.req.Frames {
		if i != j.ref && !j.r.Frames[i].LeftOut {
			out = append(out, i)
		}
	}
	return out
}

func (f *Frame) strength() float32 {
	if f.Strength == 0 {
		return 1
	}
	return float32(f.Strength)
}
