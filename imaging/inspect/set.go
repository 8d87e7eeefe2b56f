package inspect

import (
	"math"
	"slices"
	"time"

	"slabfolio/imaging/note"
)

// An Item is one photo of a set.
type Item struct {
	Report
	View string // as in the spec; empty when not known
}

// Findings are what a set shows when its photos are compared.
type Findings struct {
	Photos  [][]note.Note // in the order of the items
	Missing []string      // views that this kind of piece should have and lacks, in the order they matter
}

const (
	sameBits   = 6   // hashes that differ by no more are of near-duplicates
	softBeside = 2.0 // edges that many times wider than the set's median are soft beside it
)

// Set compares the photos of one piece. kind is the kind of piece as in the
// spec, finished its day (YYYY-MM-DD). Codes:
//
//	inspect.duplicate        {of, bits}       near-duplicate of photo of (1-based)
//	inspect.softer           {times}          softer than the other photos of the set
//	inspect.before-finished  {days}           taken before the piece was done; cameras' clocks drift
func Set(kind, finished string, items []Item) Findings {
	f := Findings{Photos: make([][]note.Note, len(items))}
	say := func(i int, code string, v map[string]float64) {
		f.Photos[i] = append(f.Photos[i], note.Note{Code: code, Values: v})
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
			if d := apart(items[j].Hashes, it.Hashes); d <= sameBits {
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
	f.Missing = missing(kind, items)
	return f
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

// wanted are the views that a buyer of each kind of piece looks for (common
// practice, no source). Views that serve for one another stand in one entry.
var wanted = map[string][][]string{
	"table":   {{"three-quarter"}, {"end", "front"}, {"above"}, {"underside"}, {"edge", "end grain"}, {"detail", "seam", "raking light", "backlit resin"}, {"maker's mark"}, {"scale", "in use", "in room"}},
	"small":   {{"three-quarter", "front"}, {"above"}, {"underside", "back"}, {"edge", "end grain"}, {"detail", "seam", "raking light", "backlit resin"}, {"maker's mark"}, {"scale", "in use", "in room"}},
	"upright": {{"three-quarter"}, {"front"}, {"end"}, {"edge", "end grain", "feet"}, {"detail", "seam", "raking light", "backlit resin"}, {"maker's mark"}, {"scale", "in use", "in room"}},
	"panel":   {{"front"}, {"edge", "three-quarter"}, {"back", "fixing"}, {"detail", "seam", "raking light", "backlit resin"}, {"maker's mark"}, {"scale", "in use", "in room"}},
}

// missing lists the wanted views that no photo shows.
func missing(kind string, items []Item) []string {
	class := "table"
	switch kind {
	case "serving board":
		class = "small"
	case "stool", "shelf":
		class = "upright"
	case "wall panel":
		class = "panel"
	case "other":
		return nil
	}
	var out []string
	for _, any := range wanted[class] {
		if !slices.ContainsFunc(items, func(it Item) bool { return slices.Contains(any, it.View) }) {
			out = append(out, any[0])
		}
	}
	return out
}
