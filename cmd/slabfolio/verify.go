package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"

	"github.com/urfave/cli/v2"
	"golang.org/x/sync/errgroup"

	"slabfolio/listing/archive"
)

func verifyCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:      "verify",
		Usage:     "recheck sealed bags; name every file that is missing, changed or extra",
		ArgsUsage: "BAG…",
		Description: "A folder or zip with a bagit.txt, a manifest or a data folder is a bag; any other folder is\n" +
			"walked for bags. Exit status 1 for a bad bag, or when there is none.",
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
	verdicts := make([]*archive.Verdict, len(bags))
	done := make([]chan struct{}, len(bags))
	for i := range done {
		done[i] = make(chan struct{})
	}
	g, gctx := errgroup.WithContext(ctx)
	g.SetLimit(jobs + 1)
	g.Go(func() error {
		for i := range bags {
			select {
			case <-done[i]:
				tellVerdict(c, verdicts[i])
			case <-gctx.Done():
				return gctx.Err()
			}
		}
		return nil
	})
	for i, path := range bags {
		g.Go(func() error {
			v, err := archive.Verify(gctx, path, 1)
			if errors.Is(err, archive.ErrNoBag) {
				v = &archive.Verdict{Bag: path, Problems: []archive.Problem{{Kind: archive.Declaration, Message: "this is no bag: it has no bagit.txt, no manifest and no data folder"}}}
			} else if err != nil {
				return fmt.Errorf("%s: %w", path, err)
			}
			verdicts[i] = v
			close(done[i])
			return nil
		})
	}
	if err := g.Wait(); err != nil {
		return err
	}
	return summariseVerdicts(c, verdicts)
}

func tellVerdict(c *console, v *archive.Verdict) {
	if c.json {
		c.object(struct {
			Type string `json:"type"`
			*archive.Verdict
			Valid bool `json:"valid"`
		}{"piece", v, v.Valid()})
		return
	}
	if c.quiet && v.Valid() {
		return
	}
	word := "whole and unchanged"
	if !v.Valid() {
		word = "NOT whole"
	}
	c.result("%s: %s, %s, %s", filepath.ToSlash(v.Bag), word, plural(v.Files, "file"), bytesText(v.Bytes))
	for _, p := range v.Problems {
		if !p.Warning || !c.quiet {
			rank := "fault"
			if p.Warning {
				rank = "note"
			}
			c.result("  %s: %s", rank, printable(p.Message))
		}
	}
}

func summariseVerdicts(c *console, verdicts []*archive.Verdict) error {
	bad := 0
	for _, v := range verdicts {
		if !v.Valid() {
			bad++
		}
	}
	switch {
	case c.json:
		c.object(struct {
			Type string `json:"type"`
			Bags int    `json:"bags"`
			Bad  int    `json:"bad"`
		}{"summary", len(verdicts), bad})
	case len(verdicts) == 0:
		c.say("no bag found there")
	case c.quiet:
	case bad == 0:
		c.result("%s checked, all whole", plural(len(verdicts), "bag"))
	default:
		c.result("%s checked, %d not whole", plural(len(verdicts), "bag"), bad)
	}
	if bad > 0 || len(verdicts) == 0 {
		return errFault
	}
	return nil
}

// bytesText writes a size as people say it.
func bytesText(n int64) string {
	switch {
	case n < 1000:
		return plural(int(n), "byte")
	case n < 1e6:
		return fmt.Sprintf("%.1f kB", float64(n)/1e3)
	case n < 1e9:
		return fmt.Sprintf("%.1f MB", float64(n)/1e6)
	}
	return fmt.Sprintf("%.1f GB", float64(n)/1e9)
}
