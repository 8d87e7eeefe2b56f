package listing

import (
	"sync"

	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
)

// tellFound tells how much there is to do, and what was found before any piece
// was begun.
func (b *Batch) tellFound() {
	pieces, steps := 0, 0
	for i := range b.jobs {
		if j := &b.jobs[i]; !j.skip {
			found, _ := photos.Find(j.Dir) // whoever prepares the piece tells what is wrong
			j.steps = 1 + 2*len(found)
			pieces, steps = pieces+1, steps+j.steps
		}
	}
	b.tell(Event{Kind: FoundPieces, Pieces: pieces, Steps: steps})
	for _, r := range b.results {
		b.tellResult(r, 0)
	}
}

// inPathOrder tells results in the order of the paths, whichever is done first.
type inPathOrder struct {
	b    *Batch
	mu   sync.Mutex
	done []*Result // by job; nil for what is not done, or was not begun
	next int       // the first that is not told yet
}

func (q *inPathOrder) put(i int, r *Result) {
	q.mu.Lock()
	defer q.mu.Unlock()
	q.done[i] = r
	q.tell(false)
}

// flush tells the rest when no more will come.
func (q *inPathOrder) flush() {
	q.mu.Lock()
	defer q.mu.Unlock()
	q.tell(true)
}

func (q *inPathOrder) tell(all bool) {
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

func (b *Batch) tell(e Event) {
	if b.opts.Report == nil {
		return
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	b.opts.Report(e)
}

// tellResult tells a piece's findings together, then the piece.
func (b *Batch) tellResult(r Result, steps int) {
	if b.opts.Report == nil {
		return
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	for i := range r.Findings {
		b.opts.Report(Event{Kind: FindingMade, Piece: r.Dir, Serial: r.Serial, Finding: &r.Findings[i]})
	}
	if r.Dir != "" {
		b.opts.Report(Event{Kind: PieceDone, Piece: r.Dir, Serial: r.Serial, Result: &r, Steps: steps})
	}
}

// addFindings adds what is said of the run as a whole, and tells it.
func (b *Batch) addFindings(findings []piece.Finding) {
	if len(findings) == 0 {
		return
	}
	r := Result{Findings: findings}
	b.results = append(b.results, r)
	b.tellResult(r, 0)
}
