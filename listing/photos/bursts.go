package photos

import (
	"context"
	"slices"

	"golang.org/x/sync/semaphore"

	"slabfolio/imaging"
	"slabfolio/imaging/decode"
	"slabfolio/listing/piece"
)

// FindBursts looks for frames of one photo among the photos of a piece folder. Only
// those are opened whose camera says that they may be some. The error is the
// context's, or one of the machine.
func FindBursts(ctx context.Context, dir string, opts *imaging.Options) ([]Burst, error) {
	sources, err := Find(dir)
	if err != nil {
		return nil, err
	}
	markRaw(sources)
	look := *opts
	look.NoMaster = true
	opener := &Opener{Dir: dir, Spec: &piece.Photos{}, Options: &look, Memory: semaphore.NewWeighted(leastMemory), Most: leastMemory}
	var out []Burst
	for _, run := range runs(dir, sources) {
		shots := NewShots(run)
		for _, sh := range shots {
			if err := opener.Open(ctx, sh); err != nil {
				return nil, err
			}
		}
		for _, s := range burstsAmong(shots, toThePixel) {
			b := Burst{How: s.how}
			for _, sh := range s.frames {
				b.Frames = append(b.Frames, sh.Source.Name)
			}
			out = append(out, b)
		}
		for _, p := range Opened(shots) {
			p.Close()
		}
	}
	return out, ctx.Err()
}

// runs parts the photos into those that follow each other by what the camera says,
// without looking at a picture, and leaves out what is too short for a burst.
func runs(dir string, sources []Source) [][]Source {
	type dated struct {
		Source
		facts decode.Facts
	}
	var all []dated
	for _, s := range sources {
		if f := factsOf(dir, s.Rel); s.Role == Publish && !moment(f).IsZero() {
			all = append(all, dated{s, f})
		}
	}
	slices.SortStableFunc(all, func(a, b dated) int { return moment(a.facts).Compare(moment(b.facts)) })
	var out [][]Source
	for i := 0; i < len(all); {
		run := []Source{all[i].Source}
		for i++; i < len(all) && sameSettings(all[i-1].facts, all[i].facts); i++ {
			run = append(run, all[i].Source)
		}
		if len(run) >= burstLeast {
			out = append(out, run)
		}
	}
	return append(out, untimedRuns(dir, sources)...)
}

// untimedRuns are the photos whose camera wrote no moment down and whose names differ
// by a number alone.
func untimedRuns(dir string, sources []Source) [][]Source {
	var all []Source
	for _, s := range sources {
		if s.Role == Publish && moment(factsOf(dir, s.Rel)).IsZero() {
			all = append(all, s)
		}
	}
	slices.SortStableFunc(all, func(a, b Source) int { return byNumber(a.Name, b.Name) })
	var out [][]Source
	for i := 0; i < len(all); {
		n := 1
		for i+n < len(all) && numbered(all[i+n].Name) == numbered(all[i].Name) {
			n++
		}
		if n >= burstLeast {
			out = append(out, all[i:i+n])
		}
		i += n
	}
	return out
}
