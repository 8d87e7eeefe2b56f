package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/urfave/cli/v2"
	"github.com/vbauerster/mpb/v8"
	"github.com/vbauerster/mpb/v8/decor"
	"golang.org/x/sync/errgroup"

	"slabfolio/listing/archive"
)

func verifyCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:      "verify",
		Usage:     "recheck sealed bags; name each file missing, changed or extra",
		ArgsUsage: "BAG…",
		Description: "A folder or zip with a bagit.txt, a manifest or a data folder is a bag; any other folder is\n" +
			"walked for bags. Nothing is ever fetched, and no name in a bag leads out of it. Exit status 1\n" +
			"for a bad bag, or when there is none.",
		Flags: commonFlags(),
		Action: func(ctx *cli.Context) error {
			o, err := settings(ctx, c)
			if err != nil {
				return err
			}
			given, err := paths(ctx, false)
			if err != nil {
				return err
			}
			return verify(ctx.Context, c, given, o.Jobs)
		},
	}
}

// verify checks every bag at and below the paths and tells of each in order.
func verify(ctx context.Context, c *console, given []string, jobs int) error {
	var bags []string
	for _, path := range given {
		found, err := archive.Find(path)
		if err != nil {
			return fmt.Errorf("look for bags: %w", err)
		}
		bags = append(bags, found...)
	}
	bar := startReading(c, bags)
	defer bar.stop()
	verdicts := make([]*archive.Verdict, len(bags))
	done := make([]chan struct{}, len(bags))
	for i := range done {
		done[i] = make(chan struct{})
	}
	atOnce := max(1, min(jobs, len(bags)))
	o := &archive.Options{Jobs: max(1, jobs/atOnce), Read: bar.read}
	g, gctx := errgroup.WithContext(ctx)
	g.SetLimit(atOnce + 1) // one tells
	g.Go(func() error {
		for i := range bags {
			select {
			case <-done[i]:
				tellVerdict(c, bar.above(c.out), verdicts[i])
			case <-gctx.Done():
				return gctx.Err()
			}
		}
		return nil
	})
	for i, path := range bags {
		g.Go(func() (err error) {
			if verdicts[i], err = verdictOn(gctx, path, o); err == nil {
				close(done[i])
			}
			return err
		})
	}
	err := g.Wait()
	bar.stop()
	if err != nil {
		return err
	}
	return summariseVerdicts(c, verdicts)
}

// verdictOn checks one bag. What cannot be opened is a bad bag, not the end of
// the run; the error is for an interruption.
func verdictOn(ctx context.Context, path string, o *archive.Options) (*archive.Verdict, error) {
	v, err := archive.Verify(ctx, path, o)
	switch {
	case err == nil, ctx.Err() != nil:
		return v, err
	case errors.Is(err, archive.ErrNoBag):
		return &archive.Verdict{Bag: path, Problems: []archive.Problem{{Kind: archive.Declaration, Message: "this is no bag: it has no bagit.txt, no manifest and no data folder"}}}, nil
	}
	return &archive.Verdict{Bag: path, Problems: []archive.Problem{{Kind: archive.Unreadable, Message: fmt.Sprintf("it cannot be opened: %v", err)}}}, nil
}

// A reading is the bar over the bytes that are read; none when there is nobody
// to look at it.
type reading struct {
	progress *mpb.Progress
	bar      *mpb.Bar
}

func startReading(c *console, bags []string) *reading {
	r := &reading{}
	if !c.terminal || c.quiet || c.json || len(bags) == 0 {
		return r
	}
	var total int64
	for _, b := range bags {
		total += sizeBelow(b)
	}
	r.progress = mpb.New(mpb.WithOutput(c.err), mpb.WithWidth(40))
	r.bar = r.progress.New(max(total, 1), mpb.BarStyle().Lbound("").Rbound("").Filler("─").Tip("─").Padding(" "),
		mpb.PrependDecorators(decor.CountersKiloByte("% .1f of % .1f ")),
		mpb.AppendDecorators(decor.OnComplete(decor.AverageETA(decor.ET_STYLE_GO), "done")), mpb.BarRemoveOnComplete())
	return r
}

func (r *reading) read(n int) {
	if r.bar != nil {
		r.bar.IncrBy(n)
	}
}

// above is where lines go so that the bar stays below them.
func (r *reading) above(w io.Writer) io.Writer {
	if f, ok := w.(*os.File); ok && r.progress != nil && isTerminal(f) {
		return r.progress
	}
	return w
}

func (r *reading) stop() {
	if r.progress == nil {
		return
	}
	if !r.bar.Completed() {
		r.bar.Abort(true)
	}
	r.progress.Wait()
	r.progress = nil
}

// sizeBelow adds up the files of a bag; what cannot be seen counts nothing.
func sizeBelow(path string) (n int64) {
	_ = filepath.WalkDir(path, func(_ string, d fs.DirEntry, err error) error {
		if err == nil && d.Type().IsRegular() {
			if info, err := d.Info(); err == nil {
				n += info.Size()
			}
		}
		return nil
	})
	return n
}
