package photos

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"slabfolio/imaging"
	"slabfolio/imaging/blend"
	"slabfolio/imaging/decode"
	"slabfolio/imaging/note"
	"slabfolio/imaging/spare"
	"slabfolio/listing/piece"
)

// A Blending says what a photo is made of.
type Blending struct {
	Frames   []string  // as Source.Rel
	Strength []float64 // of each, 0 to 1
	Masks    []string  // of each, as Source.Rel; "" for none
	How      string    // of piece.BlendWays; "" means lightest
}

// blendMemory is how many times the bytes of a frame a blend takes, about.
const blendMemory = 8

// blend makes the photo of its frames and opens it as any other. The small
// picture of how it came shows the frames.
func (o *Opener) blend(ctx context.Context, sh *Shot) error {
	b := sh.Source.Blend
	var paths []string
	for _, f := range b.Frames {
		paths = append(paths, filepath.Join(o.Dir, filepath.FromSlash(f)))
	}
	if len(paths) < 2 {
		sh.Refuse(errors.New("fewer than two of its frames are there"))
		return nil
	}
	need := min(blendMemory*bytesNeeded(paths[0], decode.DefaultMaxPixels), o.Most)
	if err := o.Memory.Acquire(ctx, need); err != nil {
		return err
	}
	defer o.Memory.Release(need)
	masks, err := o.masks(b)
	if err != nil {
		sh.Refuse(err)
		return nil
	}
	made, findings, err := Blend(paths, b.Frames, imaging.BlendRequest{How: b.How, Strength: b.Strength, Masks: masks}, o.Options)
	if err != nil {
		sh.Refuse(err)
		return nil
	}
	sh.onFrames, sh.Blended = findings, BlendWords(made, b.How, b.Frames)
	photo, err := imaging.OpenBlended(made, o.request(sh.Source, nil), o.Options)
	if err := o.opened(sh, photo, nil, err); err != nil || sh.Photo == nil {
		return err
	}
	if sheet, err := made.Sheet(); err == nil {
		sh.Photo.Before = sheet
	}
	return nil
}

// masks reads the masks of a blend, nil where a frame has none.
func (o *Opener) masks(b *Blending) ([][]byte, error) {
	out := make([][]byte, len(b.Masks))
	for i, name := range b.Masks {
		if name == "" {
			continue
		}
		data, err := read(filepath.Join(o.Dir, filepath.FromSlash(name)))
		if err != nil {
			return nil, fmt.Errorf("%s: its mask %s: %w", b.Frames[i], name, err)
		}
		out[i] = data
	}
	return out, nil
}

// Blend makes one photo of frames. paths are read, names are what the maker calls
// them. What is to be said of frames is among the findings; the error says why
// there is no photo, for the maker.
func Blend(paths, names []string, req imaging.BlendRequest, opts *imaging.Options) (*imaging.Blended, []piece.Finding, error) {
	if err := allDifferent(paths, names); err != nil {
		return nil, nil, err
	}
	req.Frames = len(paths)
	req.Read = func(i int) ([]byte, error) { return read(paths[i]) }
	b, err := imaging.BlendFrames(req, opts)
	if err != nil {
		return nil, nil, blendError(err, names)
	}
	notes := b.Notes
	if b.Curved && (req.How == string(blend.Added) || req.How == string(blend.Even)) {
		notes = append(notes, note.Note{Code: "blend.curved"})
	}
	var out []piece.Finding
	for _, n := range notes {
		s, ok := blendSayings[n.Code]
		if !ok {
			continue
		}
		_, name, _ := strings.Cut(n.Code, ".")
		f := piece.Finding{Rank: s.rank, Code: "blend." + name, Message: s.message(n.Values), Remedy: s.remedy}
		f.File = frameNamed(n, names)
		out = append(out, f)
	}
	return b, out, nil
}

// allDifferent says which two frames hold the same bytes: one light would count twice.
func allDifferent(paths, names []string) error {
	bySize := map[int64][]int{}
	sums := map[int][sha256.Size]byte{}
	sum := func(i int) [sha256.Size]byte {
		if _, done := sums[i]; !done {
			if data, err := read(paths[i]); err == nil { // what cannot be read is told when it is opened
				sums[i] = sha256.Sum256(data)
				spare.Give(data)
			}
		}
		return sums[i]
	}
	for i, p := range paths {
		info, err := os.Stat(p)
		if err != nil {
			continue
		}
		for _, k := range bySize[info.Size()] {
			if s := sum(i); s != [sha256.Size]byte{} && s == sum(k) {
				return fmt.Errorf("%s and %s are one picture under two names, byte for byte, so its light would count twice; leave one of them out", names[k], names[i])
			}
		}
		bySize[info.Size()] = append(bySize[info.Size()], i)
	}
	return nil
}

// frameNamed is the name of the frame that a note is about, counted from 1; empty
// for one that is about all.
func frameNamed(n note.Note, names []string) string {
	if k := int(n.Values["frame"]) - 1; k >= 0 && k < len(names) {
		return names[k]
	}
	return ""
}

// blendError says why a set cannot be blended.
func blendError(err error, names []string) error {
	var frame *imaging.FrameError
	if errors.As(err, &frame) {
		return fmt.Errorf("%s: %w", names[frame.Frame], inWords(frame.Err))
	}
	var r *blend.Refusal
	if !errors.As(err, &r) {
		return err
	}
	v := r.Values
	switch r.Code {
	case "blend.count":
		return fmt.Errorf("it takes two frames or more, and there is %.0f", v["frames"])
	case "blend.size":
		k := min(max(int(v["frame"])-1, 0), len(names)-1)
		return fmt.Errorf("%s has %.0f × %.0f pixels, and the first frame %.0f × %.0f; frames of one picture are all of one size", names[k], v["width"], v["height"], v["want_width"], v["want_height"])
	}
	return err
}

// BlendWords says in a line how a photo was blended and what each frame gave.
func BlendWords(b *imaging.Blended, how string, names []string) string {
	if how == "" {
		how = string(blend.Lightest)
	}
	var parts []string
	left := 0
	for i, f := range b.Frames {
		switch {
		case f.LeftOut:
			left++
		case f.Ambient:
			parts = append(parts, names[i]+" as the ambient light")
		default:
			parts = append(parts, fmt.Sprintf("%s %.0f %%", names[i], 100*f.Share))
		}
	}
	text := fmt.Sprintf("blended (%s) of %d frames, by their share of the light: %s", how, len(b.Frames)-left, strings.Join(parts, ", "))
	if left > 0 {
		text += fmt.Sprintf("; %d left out", left)
	}
	return text
}

// blendSayings are the findings on the frames of a blend, by code.
var blendSayings = map[string]saying{
	"blend.left-out": {piece.Doubt, func(v map[string]float64) string {
		return "it does not show the same view as the other frames, or something moved, so it is left out of the blend"
	}, "take it out of frames, or take it again without touching the camera"},
	"blend.mask": {piece.Doubt, say("it is black and white and nothing else, as a mask is, so it is no frame and is left out of the blend"),
		"take it out of frames; if it tells where another frame counts, name it as that frame's mask: --mask FRAME=PICTURE, or masks: {FRAME: PICTURE} in piece.yaml"},
	"blend.one-for-all": {piece.Doubt, func(v map[string]float64) string {
		return fmt.Sprintf("it gives %.0f %% of the light, so the other frames hardly show", 100*v["share"])
	}, "look whether it is much brighter than they are, or none of the set; --strength FRAME=60%, or strength: {FRAME: 60 %} in piece.yaml, holds it back"},
	"blend.far": {piece.Doubt, func(v map[string]float64) string {
		return fmt.Sprintf("it stands %.0f pixels off the other frames, too far to be put right, so it is left out of the blend", v["shift"])
	}, "take the frames again on a tripod"},
	"blend.moved": {piece.Note, func(v map[string]float64) string {
		if turn := v["turn"]; turn > 0.005 || turn < -0.005 {
			return fmt.Sprintf("the camera had moved by %.1f pixels and turned by %.2f degrees; it was put right", v["shift"], v["turn"])
		}
		return fmt.Sprintf("the camera had moved by %.1f pixels; it was put right", v["shift"])
	}, "a remote release or the self-timer leaves the tripod alone"},
	"blend.lamp": {piece.Doubt, func(v map[string]float64) string {
		return fmt.Sprintf("a lamp or its mirror image stands in the view; it was masked, with its glow, over %.2f %% of the photo", 100*v["share"])
	}, "look at that place in the result; keep the lamp out of the view if it still shows"},
	"blend.no-ambient": {piece.Note, func(v map[string]float64) string {
		return fmt.Sprintf("no frame shows the room without the lamp, so whatever other light there was is in the sum %.0f times", v["frames"])
	}, "in a dark room that is nothing; else take one more frame with the lamp off and name it among the frames"},
	"blend.rim": {piece.Note, func(v map[string]float64) string {
		off := fmt.Sprintf("up to %.0f pixels of it were", v["most"])
		if v["most"] < 2 {
			off = "a pixel of it was"
		}
		return "the frames do not all reach to the rim of the photo, so " + off + " cut off, where a light would be missing"
	}, ""},
	"blend.exposed": {piece.Doubt, func(v map[string]float64) string {
		if v["times"] > 0 {
			return fmt.Sprintf("the frames show one light in exposures of up to %.3g times, as for a bracket, and no other light in any; blended as lights, the bright parts of the longest win", v["times"])
		}
		return fmt.Sprintf("the camera says that each frame was exposed otherwise, %s to %s, as for a bracket; blended as lights, the bright parts of the longest win", exposureWords(v["shortest"]), exposureWords(v["longest"]))
	}, "if they show one light, bracket takes the best exposed part of each: --how bracket, or how: bracket in piece.yaml"},
	"blend.few": {piece.Doubt, say("only one frame is left, so nothing was blended"), "look at the frames: they have to show the same view"},
	"blend.curved": {piece.Note, say("a camera's JPEG carries a tone curve that is not known, so the sum of the lights is only near to what all of them together would give"),
		"TIFFs developed without a tone curve add up exactly"},
}

// exposureWords writes an exposure time, in seconds, as cameras do.
func exposureWords(seconds float64) string {
	if seconds > 0 && seconds < 0.35 {
		return fmt.Sprintf("1/%.0f s", 1/seconds)
	}
	return strconv.FormatFloat(seconds, 'g', 3, 64) + " s"
}
