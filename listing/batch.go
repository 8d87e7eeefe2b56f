package listing

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"hash/fnv"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"golang.org/x/sync/errgroup"
	"golang.org/x/sync/semaphore"

	"slabfolio/listing/piece"
	"slabfolio/templates"
)

// A job is one piece of a run.
type job struct {
	dir      string // as given, for reading and for messages
	piece    *piece.Piece
	workshop *piece.Workshop
	findings []piece.Finding
	skip     bool                // of another part
	specs    map[string]seenFile // the specs as they were when they were read
	steps    int                 // about how many there are: two for each photo
}

// A batch is a run over many pieces.
type batch struct {
	opts    Options
	paths   []string // as given
	jobs    []job
	results []Result
	slots   chan struct{}       // one for each photo that is worked on at once
	memory  *semaphore.Weighted // bytes for the photos that are being opened
	mu      sync.Mutex
	langs   map[string]*templates.Words
	skipped int
}

// newBatch finds and reads the pieces at or below the paths. It returns a
// *PathError for a path that does not exist.
func newBatch(paths []string, opts Options) (*batch, error) {
	opts.Jobs = max(opts.Jobs, 1)
	b := &batch{opts: opts, paths: paths, slots: make(chan struct{}, opts.Jobs), langs: map[string]*templates.Words{}, memory: semaphore.NewWeighted(memoryBudget(opts.Jobs))}
	out, _ := filepath.Abs(opts.Out)
	dirs, findings, err := piece.Find(paths, func(path string) bool {
		abs, err := filepath.Abs(path)
		return err == nil && opts.Out != "" && abs == out
	})
	if err != nil {
		var pathErr *fs.PathError
		if errors.As(err, &pathErr) {
			return nil, &PathError{pathErr.Path, pathErr.Err}
		}
		return nil, err
	}
	if len(dirs) == 0 {
		findings = append(findings, piece.Finding{
			Rank: piece.Fault, Code: "run.no-piece",
			Message: fmt.Sprintf("no piece found in %s: no folder there holds a piece.yaml", strings.Join(paths, ", ")),
			Remedy:  "slabfolio new FOLDER lays one out",
		})
	}
	if len(findings) > 0 {
		b.add(Result{Dir: "", Outcome: LeftOut, Findings: findings})
	}
	b.jobs = make([]job, len(dirs))
	for i, dir := range dirs {
		b.jobs[i] = job{dir: dir}
	}
	b.readSpecs()
	b.checkSerials()
	b.choosePart()
	return b, nil
}

func (b *batch) readSpecs() {
	var g errgroup.Group
	g.SetLimit(b.opts.Jobs)
	for i := range b.jobs {
		j := &b.jobs[i]
		g.Go(func() error {
			j.specs = map[string]seenFile{}
			for _, name := range piece.SpecNames {
				j.specs[name] = look(j, name)
			}
			w, fw, err := piece.ReadWorkshop(j.dir)
			if err != nil {
				j.findings = []piece.Finding{unreadable(piece.WorkshopName, err)}
				return nil
			}
			p, fp, err := piece.ReadPieceWith(j.dir, w.Defaults())
			if err != nil {
				j.findings = []piece.Finding{unreadable("piece.yaml", err)}
				return nil
			}
			if w.Dir != "" {
				name := filepath.Join(w.Dir, piece.WorkshopName)
				f := look(j, name)
				if sum := sha256.Sum256(w.Text); f.SHA256 != hex.EncodeToString(sum[:]) {
					f.Size = -1 // it changed since
				}
				j.specs[name] = f
			}
			j.workshop, j.piece = w, p
			j.findings = append(fp, fw...)
			return nil
		})
	}
	_ = g.Wait() // what went wrong stands in the findings
}

// unreadable says why a spec that is there could not be read: that costs its
// piece, and no other.
func unreadable(name string, err error) piece.Finding {
	f := piece.Finding{Rank: piece.Fault, Code: "spec.unreadable", File: name,
		Message: "the file cannot be read from the disk", Remedy: "copy it from where it was kept, and look at the disk"}
	switch {
	case errors.Is(err, fs.ErrPermission):
		f.Message, f.Remedy = "not allowed to read it", "look at who may read the file and its folder"
	case errors.Is(err, fs.ErrNotExist):
		f.Message, f.Remedy = "it went away while the run was on", "put the folder back, or run again without it"
	}
	return f
}

// reservedSerials are names that the output folder needs for itself.
var reservedSerials = []string{"catalogue"}

// checkSerials finds serials that stand twice, regardless of case: both would
// be written to the same place, so neither is.
func (b *batch) checkSerials() {
	first := map[string]int{}
	for i := range b.jobs {
		j := &b.jobs[i]
		if j.piece == nil || !j.piece.Serial.Set() || j.piece.Serial.V == "" {
			continue
		}
		key := strings.ToLower(j.piece.Serial.V)
		for _, r := range reservedSerials {
			if key == r {
				j.findings = append(j.findings, serialFinding(j, fmt.Sprintf("serial %q is the name of a folder that slabfolio writes itself", j.piece.Serial.V)))
			}
		}
		k, ok := first[key]
		if !ok {
			first[key] = i
			continue
		}
		o := &b.jobs[k]
		j.findings = append(j.findings, serialFinding(j, fmt.Sprintf("serial %q is also that of %s", j.piece.Serial.V, filepath.ToSlash(o.dir))))
		o.findings = append(o.findings, serialFinding(o, fmt.Sprintf("serial %q is also that of %s", o.piece.Serial.V, filepath.ToSlash(j.dir))))
	}
}

func serialFinding(j *job, message string) piece.Finding {
	at := j.piece.Serial.At
	return piece.Finding{
		Rank: piece.Fault, Code: "spec.serial-taken", File: at.File, Line: at.Line, Column: at.Column,
		Message: message, Remedy: "give each piece a serial of its own; it names the output folder and the record",
	}
}

// choosePart leaves out the pieces of other parts, by a hash of the serial that
// does not change with the collection.
func (b *batch) choosePart() {
	n := b.opts.Part.N
	if n < 2 {
		return
	}
	for i := range b.jobs {
		name := filepath.Base(b.jobs[i].dir)
		if p := b.jobs[i].piece; p != nil && p.Serial.Set() {
			name = p.Serial.V
		}
		h := fnv.New32a()
		h.Write([]byte(strings.ToLower(name)))
		if int(h.Sum32()%uint32(n)) != b.opts.Part.I-1 {
			b.jobs[i].skip = true
			b.skipped++
		}
	}
}

// openOut makes the output folder and clears what a killed run left in it.
func (b *batch) openOut() error {
	out, err := filepath.Abs(b.opts.Out)
	if err != nil {
		return err
	}
	if err := b.checkOut(b.paths); err != nil {
		return err
	}
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	sweep(out)
	return nil
}

// run does every piece of the run, a few at once. What is wrong with one piece
// stops no other; the error is for what stops all.
func (b *batch) run(ctx context.Context, do func(context.Context, *job) (Result, error)) error {
	first := len(b.results)
	todo, steps := 0, 0
	for i := range b.jobs {
		if j := &b.jobs[i]; !j.skip {
			photos, _ := findPhotos(j.dir)
			j.steps = 1 + 2*len(photos)
			todo, steps = todo+1, steps+j.steps
		}
	}
	b.tell(Event{Kind: "found", Pieces: todo, Steps: steps})
	for _, r := range b.results {
		b.tellResult(r, 0)
	}
	queue := &queue{b: b, done: make([]*Result, len(b.jobs))}
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
			if _, gone := os.Stat(j.dir); err != nil && errors.Is(gone, fs.ErrNotExist) {
				r.Outcome, err = LeftOut, nil
				r.Findings = append(inOrder(j.findings), unreadable("", gone))
			}
			if err != nil {
				errs[i] = err
				r.Outcome = LeftOut
				r.Findings = append(inOrder(j.findings), piece.Finding{Rank: piece.Fault, Code: "run.failed", Message: err.Error()})
			}
			piece.Quote(j.dir, r.Findings)
			queue.put(i, &r)
			return nil
		})
	}
	_ = g.Wait() // the errors stand in errs
	queue.flush()
	b.results = b.results[:first]
	for _, r := range queue.done {
		if r != nil {
			b.results = append(b.results, *r)
		}
	}
	return errors.Join(append(errs, ctx.Err())...)
}

// A queue tells results in the order of the paths, whichever is done first.
type queue struct {
	b    *batch
	mu   sync.Mutex
	done []*Result // by job; nil for what is not done, or was not begun
	next int       // the first that is not told yet
}

func (q *queue) put(i int, r *Result) {
	q.mu.Lock()
	defer q.mu.Unlock()
	q.done[i] = r
	q.tell(false)
}

// flush tells the rest when no more will come.
func (q *queue) flush() {
	q.mu.Lock()
	defer q.mu.Unlock()
	q.tell(true)
}

func (q *queue) tell(all bool) {
	for ; q.next < len(q.done); q.next++ {
		j, r := &q.b.jobs[q.next], q.done[q.next]
		switch {
		case r != nil:
			q.b.tellResult(*r, j.steps)
		case !all && !j.skip:
			return
		}
	}
}

func (b *batch) add(r Result) { b.results = append(b.results, r) }

func (b *batch) summary() *Summary {
	return &Summary{Out: b.opts.Out, Results: b.results, Skipped: b.skipped}
}

func (b *batch) tell(e Event) {
	if b.opts.Report == nil {
		return
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	b.opts.Report(e)
}

// tellResult tells a piece's findings together, then the piece.
func (b *batch) tellResult(r Result, steps int) {
	if b.opts.Report == nil {
		return
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	for i := range r.Findings {
		b.opts.Report(Event{Kind: "finding", Piece: r.Dir, Serial: r.Serial, Finding: &r.Findings[i]})
	}
	if r.Dir != "" {
		b.opts.Report(Event{Kind: "piece", Piece: r.Dir, Serial: r.Serial, Result: &r, Steps: steps})
	}
}
