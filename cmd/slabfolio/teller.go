package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"

	"github.com/vbauerster/mpb/v8"
	"github.com/vbauerster/mpb/v8/decor"

	"slabfolio/listing"
	"slabfolio/listing/piece"
)

// A teller says what happens in a run: a bar on a terminal, one line a piece
// otherwise, JSON lines when asked.
type teller struct {
	c        *console
	findings io.Writer // where findings in words go
	notes    bool      // notes are said too, not only counted
	progress *mpb.Progress
	bar      *mpb.Bar
	steps    map[string]int // done of each piece
	pieces   int            // finished
	said     map[string]bool
	found    int                // pieces of the run
	common   map[string]*common // by code: what would stand on every piece
	codes    []string           // of common, in order
	eager    bool               // garbage is collected more often
}

func newTeller(c *console, findings io.Writer, notes bool) *teller {
	return &teller{c: c, findings: findings, notes: notes}
}

// tell is called for one event at a time.
func (t *teller) tell(e listing.Event) {
	if e.Kind == listing.StepDone {
		t.collectEagerly()
	}
	if t.c.json {
		t.tellJSON(e)
		return
	}
	switch e.Kind {
	case listing.FoundPieces:
		t.found = e.Pieces
		if t.c.terminal && !t.c.quiet && e.Pieces > 0 {
			t.start(e.Pieces, e.Steps)
		}
	case listing.StepDone:
		t.step(e.Piece, 1)
	case listing.FindingMade:
		if t.c.quiet && e.Finding.Rank != piece.Fault || !t.notes && e.Finding.Rank == piece.Note {
			return
		}
		w := t.findings
		if t.progress != nil && w == t.c.err {
			w = t.progress // the library keeps its bar below what is written
		}
		folder := filepath.ToSlash(e.Piece)
		if e.Finding.File == piece.WorkshopName && e.Piece != "" {
			if folder = workshopFolder(e.Piece); t.saidBefore(folder, *e.Finding) {
				return
			}
		}
		if e.Finding.Code == listing.CodeKept {
			folder = "" // it lies in OUT
		}
		if !t.withhold(folder, *e.Finding) {
			t.c.finding(w, folder, *e.Finding)
		}
	case listing.PieceDone:
		t.pieces++
		t.step(e.Piece, e.Steps-t.steps[e.Piece])
		t.piece(e.Result)
	}
}

// collectEagerly has garbage collected more often from the first photo on: the memory
// of photos is large, and what is fetched anew from the system costs more than the
// looking. What does not open photos keeps few small things and is better left alone.
func (t *teller) collectEagerly() {
	if !t.eager && os.Getenv("GOGC") == "" {
		debug.SetGCPercent(photoGarbage)
	}
	t.eager = true
}

// photoGarbage is how much garbage there may be while photos are worked on, in
// hundredths of what is in use.
const photoGarbage = 25

// saidBefore reports whether the same was said of the same workshop.yaml
// before: every piece below it finds it again.
func (t *teller) saidBefore(folder string, f piece.Finding) bool {
	key := fmt.Sprintf("%s:%d:%d:%s", folder, f.Line, f.Column, f.Message)
	if t.said == nil {
		t.said = map[string]bool{}
	}
	before := t.said[key]
	t.said[key] = true
	return before
}

// workshopFolder is the folder of the workshop.yaml that counts for a piece, as
// a maker would write it from here; the piece's own when none is found.
func workshopFolder(dir string) string {
	abs, err := filepath.Abs(dir)
	if err != nil {
		return filepath.ToSlash(dir)
	}
	for at := abs; ; at = filepath.Dir(at) {
		if info, err := os.Stat(filepath.Join(at, piece.WorkshopName)); err == nil && info.Mode().IsRegular() {
			rel, err := filepath.Rel(abs, at)
			if err != nil {
				return filepath.ToSlash(dir)
			}
			return filepath.ToSlash(filepath.Join(dir, rel))
		}
		if at == filepath.Dir(at) {
			return filepath.ToSlash(dir)
		}
	}
}

// step moves the bar.
func (t *teller) step(piece string, n int) {
	if t.bar != nil && n > 0 {
		t.steps[piece] += n
		t.bar.IncrBy(n)
	}
}

func (t *teller) start(pieces, steps int) {
	t.steps = map[string]int{}
	t.progress = mpb.New(mpb.WithOutput(t.c.err), mpb.WithWidth(40))
	t.bar = t.progress.New(int64(steps), mpb.BarStyle().Lbound("").Rbound("").Filler("━").Tip("━").Padding("─"),
		mpb.PrependDecorators(decor.Any(func(decor.Statistics) string { return fmt.Sprintf("%d of %s ", t.pieces, plural(pieces, "piece")) })),
		mpb.AppendDecorators(decor.Percentage(decor.WC{W: 5})))
}

func (t *teller) piece(r *listing.Result) {
	if t.bar != nil {
		return
	}
	if t.c.quiet {
		return
	}
	name := r.Serial
	if name == "" {
		name = filepath.Base(r.Dir)
	}
	photos := ""
	if r.Outcome != listing.LeftOut {
		photos = ", " + plural(r.Photos, "photo")
	}
	t.c.mu.Lock()
	defer t.c.mu.Unlock()
	fmt.Fprintf(t.c.err, "%s: %s%s%s\n", inLine(name), r.Outcome, photos, ranks(r))
}

// close ends the bar, and says what was kept for the end.
func (t *teller) close() {
	defer t.sayCommon()
	if t.progress == nil {
		return
	}
	if !t.bar.Completed() {
		t.bar.Abort(false)
	}
	t.progress.Wait()
}

func (t *teller) tellJSON(e listing.Event) {
	switch e.Kind {
	case listing.FindingMade:
		t.c.object(struct {
			Type   string `json:"type"`
			Piece  string `json:"piece,omitempty"`
			Serial string `json:"serial,omitempty"`
			piece.Finding
		}{"finding", filepath.ToSlash(e.Piece), e.Serial, *e.Finding})
	case listing.StepDone:
		t.c.object(struct {
			Type   string `json:"type"`
			Piece  string `json:"piece"`
			Serial string `json:"serial,omitempty"`
		}{"progress", filepath.ToSlash(e.Piece), e.Serial})
	case listing.PieceDone:
		r := e.Result
		t.c.object(struct {
			Type    string          `json:"type"`
			Piece   string          `json:"piece"`
			Serial  string          `json:"serial,omitempty"`
			Title   string          `json:"title,omitempty"`
			Outcome listing.Outcome `json:"outcome"`
			Bag     string          `json:"bag,omitempty"`
			Photos  int             `json:"photos"`
			Faults  int             `json:"faults"`
			Doubts  int             `json:"doubts"`
			Notes   int             `json:"notes"`
		}{"piece", filepath.ToSlash(e.Piece), r.Serial, r.Title, r.Outcome, r.Bag, r.Photos, r.Count(piece.Fault), r.Count(piece.Doubt), r.Count(piece.Note)})
	}
}

// summary says in a line or two how the run went.
func (t *teller) summary(sum *listing.Summary, did string) {
	count := map[listing.Outcome]int{}
	ranks := map[piece.Rank]int{}
	for i := range sum.Results {
		r := &sum.Results[i]
		if r.Dir != "" {
			count[r.Outcome]++
		}
		for _, rank := range []piece.Rank{piece.Fault, piece.Doubt, piece.Note} {
			ranks[rank] += r.Count(rank)
		}
	}
	if t.c.json {
		t.c.object(struct {
			Type     string `json:"type"`
			Out      string `json:"out,omitempty"`
			Prepared int    `json:"prepared"`
			UpToDate int    `json:"up_to_date"`
			LeftOut  int    `json:"left_out"`
			Checked  int    `json:"checked"`
			Sealed   int    `json:"sealed"`
			Skipped  int    `json:"other_parts"`
			Faults   int    `json:"faults"`
			Doubts   int    `json:"doubts"`
			Notes    int    `json:"notes"`
			First    []todo `json:"first"`
		}{"summary", filepath.ToSlash(sum.Out), count[listing.Prepared], count[listing.UpToDate], count[listing.LeftOut], count[listing.Checked], count[listing.Sealed], sum.Skipped,
			ranks[piece.Fault], ranks[piece.Doubt], ranks[piece.Note], firstToDo(sum.Results)})
		return
	}
	if t.c.quiet {
		return
	}
	var parts []string
	for _, o := range []listing.Outcome{listing.Prepared, listing.UpToDate, listing.Checked, listing.Sealed, listing.AlreadySealed, listing.LeftOut} {
		if n := count[o]; n > 0 {
			parts = append(parts, plural(n, "piece")+" "+string(o))
		}
	}
	if sum.Skipped > 0 {
		parts = append(parts, fmt.Sprintf("%d in other parts", sum.Skipped))
	}
	if len(parts) == 0 {
		return
	}
	t.c.result("%s", strings.Join(parts, ", "))
	if did == "prepared" && count[listing.Prepared]+count[listing.UpToDate] > 0 {
		t.c.result("look at %s", filepath.ToSlash(filepath.Join(sum.Out, "index.html")))
		if n := ranks[piece.Note]; n > 0 {
			t.c.result("%s there, or with slabfolio check", plural(n, "note"))
		}
	}
	if did != "sealed" {
		t.sayFirst(sum)
	}
}
