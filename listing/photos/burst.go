package photos

import (
	"fmt"
	"path"
	"slices"
	"strings"
	"sync"
	"time"

	"slabfolio/imaging"
	"slabfolio/imaging/blend"
	"slabfolio/imaging/decode"
	"slabfolio/listing/piece"
)

// Limits of a burst that is proposed as frames of one photo.
const (
	burstGap   = 3 * time.Minute // between one frame and the next
	burstLeast = 3               // frames
	sameView   = 0.5             // likeness of the outlines
	fixedView  = 0.65            // the same where no camera's moment stands beside it: a hand does not hold a camera so still
	toThePixel = 0.95            // the same where the frames are blended without being asked: leaves under twelve lamps measure 0.996
	otherLight = 0.95            // likeness of the light: above it is the same photo again
)

// A Burst is photos that one camera took of one view within minutes, each in another
// light or of another exposure.
type Burst struct {
	How    string   `json:"how"`    // of piece.BlendWays
	Frames []string `json:"frames"` // by their names, in the order in which they were taken
}

// Name is what the photo that is made of the frames may be called.
func (b Burst) Name() string { return blendName(b.Frames) }

// bursts proposes the lines of photos.blends for the bursts among the shots, and returns
// the shots that are frames of them.
func bursts(shots []*Shot) (findings []piece.Finding, frames map[*Shot]bool) {
	frames = map[*Shot]bool{}
	for _, s := range burstsAmong(shots, fixedView) {
		findings = append(findings, proposal(s.frames, s.how))
		for _, sh := range s.frames {
			frames[sh] = true
		}
	}
	return findings, frames
}

// A series is the shots of a burst.
type series struct {
	frames []*Shot
	how    string // as Burst.How
}

// burstsAmong finds the shots that are frames of one photo; untimed is how like each has
// to be to the one before it where no camera's moment stands beside it.
func burstsAmong(shots []*Shot, untimed float64) []series {
	var timed, bare []*Shot
	for _, sh := range shots {
		switch {
		case sh.Photo == nil || sh.Blended != "" || sh.Source.Named:
		case taken(sh).IsZero():
			bare = append(bare, sh)
		default:
			timed = append(timed, sh)
		}
	}
	slices.SortStableFunc(timed, func(a, b *Shot) int { return taken(a).Compare(taken(b)) })
	slices.SortStableFunc(bare, func(a, b *Shot) int { return byNumber(a.Source.Name, b.Source.Name) })
	return append(seriesOf(timed, sameView), seriesOf(bare, untimed)...)
}

// seriesOf finds the bursts among shots in their order, each as like the one before it
// as least says.
func seriesOf(all []*Shot, least float64) []series {
	var out []series
	next := nextFrames(all)
	for i := 0; i < len(all); {
		n := 1
		for i+n < len(all) && next[i+n].edges >= least {
			n++
		}
		if how := burstKind(all[i:i+n], next[i:i+n]); how != "" {
			out = append(out, series{all[i : i+n], how})
		}
		i += n
	}
	return out
}

// taken is the camera's moment, without its zone; zero where it is not known.
func taken(sh *Shot) time.Time { return moment(sh.Photo.Facts) }

func moment(f decode.Facts) time.Time {
	if len(f.Taken) < 19 {
		return time.Time{}
	}
	t, err := time.Parse("2006-01-02T15:04:05", f.Taken[:19])
	if err != nil {
		return time.Time{}
	}
	return t
}

// A likeness is how like a photo is to the one before it; nothing where it cannot be
// the next frame.
type likeness struct{ edges, light float64 }

// nextFrames compares photos in the order in which they were taken, two halves side
// by side.
func nextFrames(all []*Shot) []likeness {
	out := make([]likeness, len(all))
	compare := func(from, to int) {
		var eye eye
		defer eye.close()
		for i := max(from, 1); i < to; i++ {
			if isNextFrame(all[i-1], all[i]) {
				out[i].edges, out[i].light = eye.likeness(all[i-1].Photo, all[i].Photo)
			}
		}
	}
	var wg sync.WaitGroup
	wg.Go(func() { compare(0, len(all)/2) })
	compare(len(all)/2, len(all))
	wg.Wait()
	return out
}

// An eye compares photos one after the other, and remembers the last.
type eye struct {
	photo *imaging.Photo
	look  *blend.Look
}

// likeness compares the views of two photos, as blend.Look does; both are 0 for a
// photo that is closed.
func (e *eye) likeness(a, b *imaging.Photo) (edges, light float64) {
	if e.photo != a {
		e.close()
		e.look = imaging.LookAt(a)
	}
	p := e.look
	q := imaging.LookAt(b)
	e.photo, e.look = b, q
	if p != nil {
		defer p.Release()
	}
	if p == nil || q == nil {
		return 0, 0
	}
	return p.Likeness(q)
}

// close gives back what it remembers.
func (e *eye) close() {
	if e.look != nil {
		e.look.Release()
	}
	*e = eye{}
}

// isNextFrame reports whether b may be the next frame after a, by what the camera
// wrote down, or by a number in the name where it wrote nothing.
func isNextFrame(a, b *Shot) bool {
	if a.Photo.W != b.Photo.W || a.Photo.H != b.Photo.H {
		return false
	}
	if taken(a).IsZero() && taken(b).IsZero() {
		return numbered(a.Source.Name) == numbered(b.Source.Name)
	}
	return sameSettings(a.Photo.Facts, b.Photo.Facts)
}

// numbered is a file name without its numbers, the same for all photos of a series.
func numbered(name string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return -1
		}
		return r
	}, strings.ToLower(name))
}

// sameSettings reports whether one camera took both within minutes, at one opening,
// one sensitivity and one focal length.
func sameSettings(f, g decode.Facts) bool {
	return !moment(f).IsZero() && !moment(g).IsZero() && f.Make == g.Make && f.Model == g.Model && f.FNumber == g.FNumber && f.ISO == g.ISO &&
		f.FocalLength == g.FocalLength && moment(g).Sub(moment(f)) <= burstGap
}

// burstKind says how the frames of a burst are blended; "" where they are only
// the same photo several times, or too few. next is how like each but the first is
// to the one before.
func burstKind(frames []*Shot, next []likeness) string {
	if len(frames) < burstLeast {
		return ""
	}
	var times []float64
	other := false
	for i, sh := range frames {
		times = append(times, sh.Photo.Facts.ExposureTime)
		if i > 0 {
			other = other || next[i].light < otherLight
		}
	}
	slices.Sort(times)
	switch {
	case imaging.Bracketed(times):
		return "bracket"
	case times[0] == times[len(times)-1] && other:
		return "lightest"
	}
	return ""
}

// proposal is the note with the lines to paste.
func proposal(frames []*Shot, how string) piece.Finding {
	var names []string
	for _, sh := range frames {
		names = append(names, sh.Source.Name)
	}
	what := "one after the other, of one view, each in another light"
	if taken(frames[0]).IsZero() {
		what = "of one view with the camera left where it was, each in another light"
	}
	line := fmt.Sprintf("photos: blends: [{name: %s, frames: [%s]}]", blendName(names), strings.Join(names, ", "))
	if how == "bracket" {
		what = "one after the other, of one view, each exposed otherwise"
		line = fmt.Sprintf("photos: blends: [{name: %s, how: bracket, frames: [%s]}]", blendName(names), strings.Join(names, ", "))
	}
	return piece.Finding{
		Rank: piece.Note, Code: "photo.burst", File: frames[0].Source.Rel,
		Message: fmt.Sprintf("%d photos were taken %s: %s", len(names), what, strings.Join(names, ", ")),
		Remedy:  "if they are to be one photo, write\n" + line,
	}
}

// blendName is what the frames' names have in common, or "blended".
func blendName(names []string) string {
	common := strings.TrimSuffix(names[0], path.Ext(names[0]))
	for _, n := range names[1:] {
		for !strings.HasPrefix(n, common) {
			common = common[:len(common)-1]
		}
	}
	if common = Slug(strings.TrimRight(common, "0123456789-_ ")); common == "" {
		return "blended"
	}
	return common + "-blended"
}
