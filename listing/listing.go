// Package listing is the run: piece folders in, finished output folders out, and
// the batch around them. It wires the calculators, the photo pipeline and the
// writers together; it computes nothing itself.
package listing

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// What Options.Only may say: which outputs of a piece are made.
const (
	OnlyPhotos    = "photos"
	OnlyDocuments = "documents"
	OnlyListing   = "listing"
)

// Options are the settings of a run. The zero value of each means the default.
type Options struct {
	Out           string // folder for the outputs; "prepared" when empty
	Only          string // OnlyPhotos, OnlyDocuments, OnlyListing; all when empty
	Force         bool   // redo what is up to date
	Tidy          bool   // put away the outputs of pieces that are no longer there
	Part          Part   // which part of the collection; all when zero
	Jobs          int    // how much is done at once; 1 when zero
	Units         units.System
	Paper         string
	Langs         []string   // of the papers and the page, IETF tags, the default first; the piece's or the workshop's when empty
	Codecs        string     // auto, pure
	MaxMegapixels int        // larger photos are refused; 100 when zero
	Cache         string     // folder for what speeds up a second run; none when empty
	Version       string     // of the program, for what the documents say of their making
	Today         piece.Date // days of a spec after it are doubted; none is when zero
	Build         string     // names the program and its version, so that a new one redoes everything

	Report func(Event) // told of everything that happens, from several goroutines in turn; may be nil
}

// withDefaults fills in what the command line left open: from the workshop (nil
// when there is none), then the program's own defaults.
func (o Options) withDefaults(w *piece.Workshop) Options {
	o.Jobs = max(o.Jobs, 1)
	if w != nil {
		o.Units = cmp.Or(o.Units, w.Units.V)
		o.Paper = cmp.Or(o.Paper, w.Paper.V)
		o.Codecs = cmp.Or(o.Codecs, w.Codecs.V)
	}
	o.Units = cmp.Or(o.Units, units.Inches)
	country := ""
	if w != nil {
		country = w.Country.V
	}
	o.Paper = cmp.Or(o.Paper, defaultPaper(country, o.Units))
	o.Codecs = cmp.Or(o.Codecs, "auto")
	return o
}

// letterCountries print on Letter, all others on A4 (Unicode CLDR, measurementData,
// paperSize; from memory).
var letterCountries = []string{"BZ", "CA", "CL", "CO", "CR", "GT", "MX", "NI", "PA", "PH", "PR", "SV", "US", "VE"}

// defaultPaper is that of the workshop's country. Where no country is told it follows
// the units: Letter goes with inches, A4 with the rest.
func defaultPaper(country string, u units.System) string {
	if slices.Contains(letterCountries, country) || country == "" && u == units.Inches {
		return "letter"
	}
	return "a4"
}

// A Part is one of N parts of a collection, 1-based.
type Part struct{ I, N int }

// An EventKind says what an Event tells of.
type EventKind int

// The kinds of events.
const (
	FoundPieces EventKind = iota // the pieces are found and read; work begins
	FindingMade                  // something is to be said of a piece
	StepDone                     // one step of a piece is done
	PieceDone                    // nothing more will be done for a piece
)

// An Event is one thing that happened in a run.
type Event struct {
	Kind    EventKind
	Piece   string         // the piece folder, as a path that the maker can go to
	Serial  string         // where known
	Finding *piece.Finding // of FindingMade
	Result  *Result        // of PieceDone
	Pieces  int            // of FoundPieces: how many pieces there are to do
	Steps   int            // of FoundPieces: about how many steps that will be; of PieceDone: how many of them it had
}

// An Outcome is what became of a piece, in words for the maker.
type Outcome string

// The outcomes.
const (
	Prepared      Outcome = "prepared"
	UpToDate      Outcome = "up to date"
	LeftOut       Outcome = "left out"
	Checked       Outcome = "checked"
	Sealed        Outcome = "sealed"
	AlreadySealed Outcome = "sealed already, nothing changed"
)

// A Result says what became of one piece.
type Result struct {
	Dir      string // the piece folder, as given
	Serial   string
	Title    string
	Sold     bool // the spec says so
	Outcome  Outcome
	Bag      string // of a sealed piece
	Photos   int    // published
	Findings []piece.Finding
}

// Count returns how many of the findings have the rank.
func (r *Result) Count(rank piece.Rank) int {
	n := 0
	for _, f := range r.Findings {
		if f.Rank == rank {
			n++
		}
	}
	return n
}

// A Summary is what became of a run.
type Summary struct {
	Out     string
	Results []Result // in the order of the paths
	Skipped int      // pieces of other parts
}

// Faults reports whether anything was left out.
func (s *Summary) Faults() bool {
	return slices.ContainsFunc(s.Results, func(r Result) bool { return r.Count(piece.Fault) > 0 })
}

// A PathError is a PATH on the command line that cannot be used.
type PathError struct {
	Path string
	Err  error
}

func (e *PathError) Error() string { return fmt.Sprintf("%s: %v", e.Path, e.Err) }
func (e *PathError) Unwrap() error { return e.Err }

// ByRank puts the findings that matter most first, of a rank those on photos that
// cannot be shown as they are; else they keep their order.
func ByRank(findings []piece.Finding) []piece.Finding {
	out := slices.Clone(findings)
	slices.SortStableFunc(out, func(a, b piece.Finding) int {
		return cmp.Or(a.Rank.Before(b.Rank), unfitFirst(a)-unfitFirst(b))
	})
	return out
}

func unfitFirst(f piece.Finding) int {
	if photos.Unfit(f) {
		return 0
	}
	return 1
}

// Faulty reports whether a finding says that the piece itself cannot be done
// right. A fault of a photo costs the photo alone.
func Faulty(findings []piece.Finding) bool {
	return slices.ContainsFunc(findings, func(f piece.Finding) bool { return f.Rank == piece.Fault && !strings.HasPrefix(f.Code, "photo.") })
}
