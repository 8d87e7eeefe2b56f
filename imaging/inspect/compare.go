package inspect

import (
	"math"
	"slices"
	"time"

	"slabfolio/imaging/note"
)

const (
	sameBits   = 6   // hashes that differ by no more are of near-duplicates
	softBeside = 2.0 // edges that many times wider than the set's median are soft beside it
)

// Compare compares the photos of one piece, which was finished on a day (YYYY-MM-DD),
// and returns what it has to say of each, in their order. Codes:
//
//	inspect.duplicate        {of, bits}       near-duplicate of photo of (1-based)
//	inspect.softer           {times}          softer than the other photos of the set
//	inspect.before-finished  {days}           taken before the piece was done; cameras' clocks drift
func Compare(finished string, items []Report) [][]note.Note {
	notes := make([][]note.Note, len(items))
	say := func(i int, code string, v map[string]float64) {
		notes[i] = append(notes[i], note.Note{Code: code, Values: v})
	}
	var widths []float64
	for _, it := range items {
		if w := it.width(); w > 0 {
			widths = append(widths, w)
		}
	}
	slices.Sort(widths)
	done, doneErr := time.Parse("2006-01-02", finished)
	for i, it := range items {
		for j := range i {
			if d := hashDistance(items[j].Hashes, it.Hashes); d <= sameBits {
				say(i, "inspect.duplicate", map[string]float64{"of": float64(j + 1), "bits": float64(d)})
				break
			}
		}
		if w := it.width(); w > 0 && len(widths) >= 3 {
			if m := widths[len(widths)/2]; w > softBeside*m && w > softAt/2 {
				say(i, "inspect.softer", map[string]float64{"times": math.Round(w/m*10) / 10})
			}
		}
		if taken, ok := day(it.Taken); ok && doneErr == nil && taken.Before(done) {
			say(i, "inspect.before-finished", map[string]float64{"days": done.Sub(taken).Hours() / 24})
		}
	}
	return notes
}

// width is the blur of the photo as a share of its crop's longer side, so that
// photos of different cameras can be compared.
func (r Report) width() float64 {
	side := max(r.CropW, r.CropH)
	if side == 0 || r.EdgeX == 0 || r.EdgeY == 0 {
		return 0
	}
	return math.Max(r.EdgeX, r.EdgeY) / float64(side)
}

// day reads the date at the start of an Exif or ISO time.
func day(s string) (time.Time, bool) {
	if len(s) < 10 {
		return time.Time{}, false
	}
	b := []byte(s[:10])
	b[4], b[7] = '-', '-'
	t, err := time.Parse("2006-01-02", string(b))
	return t, err == nil && t.Year() > 1990 // a camera that lost its battery says 1980 or so
}
