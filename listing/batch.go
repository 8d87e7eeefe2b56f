package listing

import (
	"cmp"
	"context"
	"errors"
	"io/fs"
	"os"
	"sync"

	"golang.org/x/sync/errgroup"
	"golang.org/x/sync/semaphore"

	"slabfolio/listing/archive"
	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
	"slabfolio/listing/stage"
	"slabfolio/templates"
)

// Prepare prepares every piece at or below the paths. The error is for what
// stopped the run; what is wrong with a piece is in its Result.
func Prepare(ctx context.Context, paths []string, opts Options) (*Summary, error) {
	opts.Out = cmp.Or(opts.Out, "prepared")
	b, err := NewBatch(ctx, paths, opts)
	if err != nil {
		return nil, err
	}
	if err := b.OpenOut(); err != nil {
		return nil, err
	}
	if err := b.Each(ctx, b.prepare); err != nil {
		return b.Summary(), err
	}
	if err := b.writeCollection(ctx); err != nil {
		return b.Summary(), err
	}
	return b.Summary(), ctx.Err()
}

// Check reads every piece at or below the paths and writes nothing.
func Check(ctx context.Context, paths []string, opts Options) (*Summary, error) {
	b, err := NewBatch(ctx, paths, opts)
	if err != nil {
		return nil, err
	}
	err = b.Each(ctx, b.check)
	return b.Summary(), err
}

// A Batch is a run over many pieces.
type Batch struct {
	opts      Options
	paths     []string // as given
	jobs      []Job
	results   []Result
	slots     chan struct{}       // one for each photo that is worked on at once
	memory    *semaphore.Weighted // bytes for the photos that are being opened
	held      *semaphore.Weighted // photos that are kept in memory until they are rendered
	mu        sync.Mutex          // holds Options.Report and langs to one at a time
	langs     map[string]*templates.Words
	measuring sync.Mutex // holds the measuring of tops to one photo at a time
	sealing   sync.Once  // that the sealed bags are looked for once
	sealed    map[string]archive.Revision
	skipped   int // pieces of other parts
}

// NewBatch finds and reads the pieces at or below the paths. It returns a
// *PathError for a path that does not exist.
func NewBatch(ctx context.Context, paths []string, opts Options) (*Batch, error) {
	opts.Jobs = max(opts.Jobs, 1)
	b := &Batch{
		opts: opts, paths: paths, slots: make(chan struct{}, opts.Jobs), langs: map[string]*templates.Words{},
		memory: semaphore.NewWeighted(photos.MemoryBudget(opts.Jobs)), held: semaphore.NewWeighted(heldByRun(opts.Jobs)),
	}
	if err := b.findPieces(); err != nil {
		return nil, err
	}
	b.readSpecs(ctx)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	b.checkSerials()
	b.choosePart()
	return b, nil
}

// Each does something with every piece of the run, a few at once. What is wrong
// with one piece stops no other; the error is for what stops all.
func (b *Batch) Each(ctx context.Context, do func(context.Context, *Job) (Result, error)) error {
	found := len(b.results)
	b.tellFound()
	results := &inPathOrder{b: b, done: make([]*Result, len(b.jobs))}
	errs := make([]error, len(b.jobs))
	var g errgroup.Group
	g.SetLimit(b.opts.Jobs)
	for i := range b.jobs {
		j := &b.jobs[i]
		if j.skip {
			continue
		}
		g.Go(func() error {
			if ctx.Err() != nil {
				return nil
			}
			r, err := do(ctx, j)
			if ctx.Err() != nil {
				return nil
			}
			errs[i] = j.putError(&r, err)
			piece.Quote(j.Dir, r.Findings)
			results.put(i, &r)
			return nil
		})
	}
	_ = g.Wait() // the errors stand in errs
	results.flush()
	b.results = b.results[:found]
	for _, r := range results.done {
		if r != nil {
			b.results = append(b.results, *r)
		}
	}
	return errors.Join(append(errs, ctx.Err())...)
}

// putError puts what went wrong with a piece into its result, and returns what has
// to stop the run. A folder that was taken away meanwhile stops nothing.
func (j *Job) putError(r *Result, err error) error {
	if err == nil {
		return nil
	}
	r.Outcome = LeftOut
	if _, gone := os.Stat(j.Dir); errors.Is(gone, fs.ErrNotExist) {
		r.Findings = append(ByRank(j.Findings), unreadable("", gone))
		return nil
	}
	r.Findings = ByRank(j.Findings)
	for _, line := range errorLines(err, stage.BuildingSuffix) {
		r.Findings = append(r.Findings, piece.Finding{Rank: piece.Fault, Code: "run.failed", Message: line})
	}
	return err
}

// Summary says what became of the run so far.
func (b *Batch) Summary() *Summary {
	return &Summary{Out: b.opts.Out, Results: b.results, Skipped: b.skipped}
}

// words opens the texts of a language once a run.
func (b *Batch) words(lang string) (*templates.Words, error) {
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
