package main

import (
	"errors"
	"fmt"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"

	"github.com/urfave/cli/v2"

	"slabfolio/listing"
	"slabfolio/listing/piece"
)

func prepareCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:      "prepare",
		Usage:     "make photos, documents and listing of every piece found",
		ArgsUsage: "PATH…",
		Description: "Every folder at or below PATH that holds a piece.yaml is a piece. The outputs go to\n" +
			"DIR/SERIAL; open DIR/index.html first. Nothing is ever written into a piece folder.",
		Flags: append(commonFlags(),
			&cli.StringFlag{Name: "out", Usage: "`DIR` for the outputs (default: prepared)"},
			&cli.BoolFlag{Name: "force", DisableDefaultText: true, Usage: "redo what is up to date"},
			&cli.StringFlag{Name: "only", Usage: "make only `WHAT`: photos, documents or listing"},
			&cli.StringFlag{Name: "part", Usage: "the `I/N`th part of the collection, to spread the work over machines"},
			&cli.BoolFlag{Name: "tidy", DisableDefaultText: true, Usage: "put the outputs of pieces that are no longer there into DIR/no-longer-there"},
			&cli.BoolFlag{Name: "open", DisableDefaultText: true, Usage: "show the overview afterwards"},
		),
		Action: func(ctx *cli.Context) error {
			o, err := prepareOptions(ctx, c)
			if err != nil {
				return err
			}
			dirs, err := paths(ctx, true)
			if err != nil {
				return err
			}
			w, err := fill(ctx, c, &o, dirs)
			if err != nil {
				return err
			}
			sum, err := prepare(ctx, c, dirs, o)
			if err == nil && (ctx.Bool("open") || w.Open.V && !ctx.IsSet("open")) {
				err = openPage(filepath.Join(sum.Out, "index.html"))
			}
			if err == nil && sum.Faults() {
				err = errFault
			}
			return err
		},
	}
}

func prepareOptions(ctx *cli.Context, c *console) (listing.Options, error) {
	o, err := settings(ctx, c)
	if err != nil {
		return o, err
	}
	o.Out, o.Only, o.Force, o.Tidy = ctx.String("out"), ctx.String("only"), ctx.Bool("force"), ctx.Bool("tidy")
	if o.Only != "" && !slices.Contains([]string{listing.OnlyPhotos, listing.OnlyDocuments, listing.OnlyListing}, o.Only) {
		return o, usagef("", "--only %q: one of photos, documents, listing", o.Only)
	}
	if s := ctx.String("part"); s != "" {
		var rest string
		n, _ := fmt.Sscanf(s+" .", "%d/%d %s", &o.Part.I, &o.Part.N, &rest)
		if n != 3 || rest != "." || o.Part.N < 1 || o.Part.I < 1 || o.Part.I > o.Part.N || o.Part.N > mostParts {
			return o, usagef("write --part 1/3 on the first of three machines, 2/3 on the second", "--part %q is not I/N", s)
		}
	}
	if o.Tidy && o.Part.N > 1 {
		return o, usagef("tidy once, when all parts are done", "--tidy with --part: a part does not see the pieces of the others")
	}
	return o, nil
}

// mostParts is more than anyone has machines.
const mostParts = 10000

// prepare runs the main job and tells of it.
func prepare(ctx *cli.Context, c *console, dirs []string, o listing.Options) (*listing.Summary, error) {
	t := newTeller(c, c.err, false)
	o.Report = t.tell
	sum, err := listing.Prepare(ctx.Context, dirs, o)
	t.close()
	if err != nil {
		return sum, asUsage(err)
	}
	t.summary(sum, "prepared")
	return sum, nil
}

// asUsage turns a path that cannot be used into a mistake of the command line.
func asUsage(err error) error {
	var p *listing.PathError
	if errors.As(err, &p) {
		return usagef("", "%v", err)
	}
	return err
}

func checkCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:        "check",
		Usage:       "say what is missing, contradictory or doubtful; write nothing",
		ArgsUsage:   "PATH…",
		Description: "Each finding comes with file, line and what would be right. A fault means that the piece or\nthe photo cannot be done right; a doubt, that you should look; a note is worth knowing.",
		Flags:       commonFlags(),
		Action: func(ctx *cli.Context) error {
			o, err := settings(ctx, c)
			if err != nil {
				return err
			}
			dirs, err := paths(ctx, true)
			if err != nil {
				return err
			}
			if _, err := fill(ctx, c, &o, dirs); err != nil {
				return err
			}
			t := newTeller(c, c.out, true)
			o.Report = t.tell
			sum, err := listing.Check(ctx.Context, dirs, o)
			t.close()
			if err != nil {
				return asUsage(err)
			}
			t.summary(sum, "checked")
			if sum.Faults() {
				return errFault
			}
			return nil
		},
	}
}

// openPage shows a page in the person's browser.
func openPage(path string) error {
	abs, err := filepath.Abs(path)
	if err != nil {
		return err
	}
	var cmd *exec.Cmd
	switch runtime.GOOS {
	case "darwin":
		cmd = exec.Command("open", abs)
	case "windows":
		cmd = exec.Command("rundll32", "url.dll,FileProtocolHandler", abs)
	default:
		cmd = exec.Command("xdg-open", abs)
	}
	if err := cmd.Start(); err != nil {
		return fmt.Errorf("could not start a browser; open %s yourself (%w)", path, err)
	}
	return nil
}

func ranks(r *listing.Result) string {
	text := ""
	for _, rank := range []piece.Rank{piece.Fault, piece.Doubt, piece.Note} {
		if n := r.Count(rank); n > 0 {
			text += ", " + plural(n, string(rank))
		}
	}
	return text
}

func plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// checkGuarded refuses to write to a path in a piece folder or a sealed bag.
func checkGuarded(path, what, remedy string) error {
	return asUsage(listing.CheckGuarded(path, what, remedy))
}
