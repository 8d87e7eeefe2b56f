package main

import (
	"context"
	"fmt"
	"time"

	"github.com/urfave/cli/v2"

	"slabfolio/listing/spelling"
	"slabfolio/listing/trace"
)

func traceCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:      "trace",
		Usage:     "find the pieces that used a batch, glue, finish, wood or supplier",
		ArgsUsage: "WORD… [--in PATH]…",
		Description: "Piece folders and sealed bags at and below PATH are read alike. Words are forgiving: case,\n" +
			"accents and the plural make no difference, and a piece must answer each of them. Filters are\n" +
			"exact: the whole of a finish family, a known glue or a batch; whole words of the rest.",
		Flags: append(commonFlags(),
			&cli.StringSliceFlag{Name: "in", Usage: "`PATH` to look in (default: the current folder); may be given more than once"},
			&cli.StringFlag{Name: "glue", Usage: "the pieces that hold this `GLUE`, by its class or product"},
			&cli.StringFlag{Name: "species", Usage: "this `WOOD`, by any of its names"},
			&cli.StringFlag{Name: "finish", Usage: "this `FINISH`, by its family or product"},
			&cli.StringFlag{Name: "resin", Usage: "this `RESIN`, by its product, chemistry or colour"},
			&cli.StringFlag{Name: "batch", Usage: "this `BATCH`, as it stands on the tin"},
			&cli.StringFlag{Name: "supplier", Usage: "what came from this `SUPPLIER`"},
			&cli.StringFlag{Name: "from", Usage: "finished on this `DAY` or later: 2025, 2025-01 or 2025-01-31"},
			&cli.StringFlag{Name: "to", Usage: "finished on this `DAY` or earlier"},
			&cli.StringFlag{Name: "history", Usage: "tell the story of the piece with this `SERIAL`, from its sealed bags"},
			&cli.BoolFlag{Name: "csv", DisableDefaultText: true, Usage: "a table for a spreadsheet"},
		),
		Action: func(ctx *cli.Context) error {
			o, err := settings(ctx, c)
			if err != nil {
				return err
			}
			q, err := question(ctx)
			if err != nil {
				return err
			}
			in := ctx.StringSlice("in")
			if len(in) == 0 {
				in = []string{"."}
			}
			for _, path := range in {
				if !exists(path) {
					return usagef("check the spelling, or look with ls or dir", "--in %q: no such folder or file", path)
				}
			}
			if serial := ctx.String("history"); serial != "" {
				return history(ctx.Context, c, in, serial, o.Jobs, ctx.Bool("csv"))
			}
			return ask(ctx.Context, c, in, q, o.Jobs, ctx.Bool("csv"))
		},
	}
}

// question reads the words and filters.
func question(ctx *cli.Context) (trace.Query, error) {
	q := trace.Query{
		Words: ctx.Args().Slice(),
		Glue:  ctx.String("glue"), Species: ctx.String("species"), Finish: ctx.String("finish"), Resin: ctx.String("resin"),
		Batch: ctx.String("batch"), Supplier: ctx.String("supplier"), From: ctx.String("from"), To: ctx.String("to"),
	}
	for flag, day := range map[string]string{"from": q.From, "to": q.To} {
		if day != "" && !isDay(day) {
			return q, usagef("write a year, a month or a day: 2025, 2025-01 or 2025-01-31", "--%s %q is no day", flag, day)
		}
	}
	serial := ctx.String("history")
	switch {
	case ctx.Bool("csv") && ctx.Bool("json"):
		return q, usagef("", "--csv and --json: one of the two")
	case q.From != "" && q.To != "" && q.From > q.To && len(q.From) >= len(q.To):
		return q, usagef("", "--from %s is after --to %s", q.From, q.To)
	case ctx.IsSet("history") && serial == "":
		return q, usagef("slabfolio trace --history OY-0142 --in shelf", "--history needs the serial of a piece")
	case serial != "" && !q.Empty():
		return q, usagef("ask for the one, then for the other", "--history tells one piece's story; words and filters search through all")
	case serial == "" && q.Empty():
		return q, usagef("slabfolio trace walnut --in workshop, or slabfolio trace --glue pva-d3 --from 2025-01", "trace what? give a word or a filter")
	}
	for _, w := range q.Words {
		if !trace.HasWords(w) {
			return q, usagef("a word has a letter or a digit in it", "trace %q: nothing to look for", w)
		}
	}
	return q, nil
}

var dayForm = spelling.Pattern(`^[0-9]{4}(-[0-9]{2}(-[0-9]{2})?)?$`)

// isDay reports whether a text is a year, a month or a day that exists.
func isDay(s string) bool {
	if !dayForm().MatchString(s) {
		return false
	}
	_, err := time.Parse("2006-01-02"[:len(s)], s)
	return err == nil
}

// ask answers a question and says on stderr what could not be searched.
func ask(ctx context.Context, c *console, in []string, q trace.Query, jobs int, csv bool) error {
	records, skipped, err := trace.Collect(ctx, in, jobs)
	if err != nil {
		return err
	}
	hits := q.Ask(records)
	pieces := distinct(hits)
	switch {
	case c.json:
		for _, h := range hits {
			c.object(struct {
				Type string `json:"type"`
				trace.Hit
			}{"hit", h})
		}
		c.object(struct {
			Type    string `json:"type"`
			Hits    int    `json:"hits"`
			Pieces  int    `json:"pieces"`
			Read    int    `json:"read"` // piece folders and bags
			Skipped int    `json:"skipped"`
		}{"summary", len(hits), pieces, len(records), len(skipped)})
	case csv:
		c.result("%s", hitsCSV(hits))
	case len(hits) > 0:
		c.result("%s", hitsTable(hits, widthOf(c.out)))
	}
	tellUnread(c, records, skipped)
	if c.quiet || c.json {
		return nil
	}
	searched := plural(folders(records), "piece folder") + " and " + plural(len(records)-folders(records), "sealed bag")
	if len(hits) == 0 {
		c.say("nothing found in %s", searched)
		if near := q.Near(records); len(near) > 0 {
			c.say("there is %s", spelling.And(near))
		}
		for _, w := range q.Words {
			if exists(w) {
				c.say("%q is a folder or file here; --in %s looks in it", w, w)
			}
		}
		return nil
	}
	c.say("%s; looked in %s", plural(pieces, "piece"), searched)
	return nil
}

// tellUnread says what could not be searched, or not wholly.
func tellUnread(c *console, records []trace.Record, skipped []trace.Skipped) {
	for _, s := range skipped {
		c.say("not searched: %s", printable(s.String()))
	}
	faulty := 0
	for _, r := range records {
		if r.Faults > 0 {
			faulty++
			if faulty <= 5 {
				c.say("%s: its spec has %s; what could be read was searched, slabfolio check says more", printable(r.Source), plural(r.Faults, "fault"))
			}
		}
	}
	if faulty > 5 {
		c.say("and %d more specs with faults", faulty-5)
	}
}

func folders(records []trace.Record) int {
	n := 0
	for _, r := range records {
		if !r.Bag {
			n++
		}
	}
	return n
}

func distinct(hits []trace.Hit) int {
	seen := map[string]bool{}
	for _, h := range hits {
		seen[h.Serial] = true
	}
	return len(seen)
}

// where says where a hit stands, as file:line.
func where(h trace.Hit) string {
	file := h.Source + "/" + h.File
	if h.InBag {
		file = h.Source + "/data/piece/" + h.File
	}
	return fmt.Sprintf("%s:%d", file, h.Line)
}
