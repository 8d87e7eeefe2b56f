// Package listing prepares pieces: one piece folder in, one finished output
// folder out, and the batch around it. It wires the calculators, the photo
// pipeline and the writers together; it computes nothing itself.
package listing

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
	"slabfolio/templates"
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
	Part          Part   // which part of the collection; all when zero
	Jobs          int    // how much is done at once; 1 when zero
	Units         units.System
	Paper         string
	Lang          string
	Codecs        string // auto, pure
	MaxMegapixels int    // larger photos are refused; 100 when zero
	Cache         string // folder for what speeds up a second run; none when empty
	Version       string // of the program, for what the documents say of their making
	Build         string // names the program and its version, so that a new one redoes everything

	Report func(Event) // told of everything that happens, from several goroutines in turn; may be nil
}

// A Part is one of N parts of a collection, 1-based.
type Part struct{ I, N int }

// An Event is one thing that happened in a run.
type Event struct {
	Kind    string         // "found", "finding", "step", "piece"
	Piece   string         // the piece folder, as a path that the maker can go to
	Serial  string         // where known
	Finding *piece.Finding // of a "finding"
	Result  *Result        // of a "piece"
	Pieces  int            // of "found": how many pieces there are to do
	Steps   int            // of "found": about how many steps that will be; of "piece": how many of them it had
}

// A Result says what became of one piece.
type Result struct {
	Dir      string // the piece folder, as given
	Serial   string
	Title    string
	Outcome  string // Prepared, UpToDate, LeftOut, Checked
	Bag      string // of a sealed piece
	Photos   int    // published
	Findings []piece.Finding
}

// What became of a piece.
const (
	Prepared = "prepared"
	UpToDate = "up to date"
	LeftOut  = "left out"
	Checked  = "checked"
)

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

func (o Options) withDefaults(w *piece.Workshop) Options {
	if o.Jobs < 1 {
		o.Jobs = 1
	}
	if w != nil {
		o.Units = pick(o.Units, w.Units.V)
		o.Paper = pick(o.Paper, w.Paper.V)
		o.Lang = pick(o.Lang, w.Lang.V)
		o.Codecs = pick(o.Codecs, w.Codecs.V)
	}
	o.Units = pick(o.Units, units.Inches)
	o.Paper = pick(o.Paper, defaultPaper(o.Units))
	o.Lang = pick(o.Lang, "en")
	o.Codecs = pick(o.Codecs, "auto")
	return o
}

// defaultPaper follows the units: Letter goes with inches, A4 with the rest.
func defaultPaper(u units.System) string {
	if u == units.Inches {
		return "letter"
	}
	return "a4"
}

func pick[T comparable](first, second T) T {
	var zero T
	if first != zero {
		return first
	}
	return second
}

// A PathError is a PATH on the command line that cannot be used.
type PathError struct {
	Path string
	Err  error
}

func (e *PathError) Error() string { return fmt.Sprintf("%s: %v", e.Path, e.Err) }
func (e *PathError) Unwrap() error { return e.Err }

// Prepare prepares every piece at or below the paths. The error is for what
// stopped the run; what is wrong with a piece is in its Result.
func Prepare(ctx context.Context, paths []string, opts Options) (*Summary, error) {
	opts.Out = pick(opts.Out, "prepared")
	b, err := newBatch(paths, opts)
	if err != nil {
		return nil, err
	}
	if err := b.openOut(); err != nil {
		return nil, err
	}
	if err := b.run(ctx, b.prepare); err != nil {
		return b.summary(), err
	}
	if err := b.writeCollection(ctx); err != nil {
		return b.summary(), err
	}
	return b.summary(), ctx.Err()
}

// Check reads every piece at or below the paths and writes nothing.
func Check(ctx context.Context, paths []string, opts Options) (*Summary, error) {
	b, err := newBatch(paths, opts)
	if err != nil {
		return nil, err
	}
	err = b.run(ctx, b.check)
	return b.summary(), err
}

// words opens the texts of a language once a run.
func (b *batch) words(lang string) (*templates.Words, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if w, ok := b.langs[lang]; ok {
		return w, nil
	}
	w, err := templates.Open(lang)
	if err == nil {
		b.langs[lang] = w
	}
	return w, err
}

// slash returns a path below dir with forward slashes, for messages and outputs.
func slash(dir, path string) string {
	rel, err := filepath.Rel(dir, path)
	if err != nil {
		return filepath.ToSlash(filepath.Base(path))
	}
	return filepath.ToSlash(rel)
}
