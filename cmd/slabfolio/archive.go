package main

import (
	"os"
	"path/filepath"
	"runtime/debug"
	"time"

	"github.com/urfave/cli/v2"

	"slabfolio/listing"
	"slabfolio/listing/record"
)

func archiveCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:      "archive",
		Usage:     "seal each piece in a bag that lasts",
		ArgsUsage: "PATH… --to DIR",
		Description: "Originals, spec, process, papers and the prepared outputs of each piece go into a BagIt bag (RFC\n" +
			"8493) in DIR. A bag is never overwritten: a piece that changed makes the next revision, one that\n" +
			"did not makes none. Nothing has to be prepared before. One run at a time works on a shelf.\n\n" +
			"--for owner seals SERIAL.owner: the spec without costs, buyer and suppliers, the photos that are\n" +
			"published, and what the buyer gets; no process/, no papers/, no other files.",
		Flags: append(commonFlags(),
			&cli.StringFlag{Name: "to", Usage: "`DIR` for the bags: the shelf"},
			&cli.StringFlag{Name: "for", Usage: "`WHOM` it is for: owner, the copy that goes with the piece, without costs, buyer and suppliers"},
			&cli.BoolFlag{Name: "zip", DisableDefaultText: true, Usage: "one file a bag"},
		),
		Action: func(ctx *cli.Context) error {
			o, err := settings(ctx, c)
			if err != nil {
				return err
			}
			a := record.Options{
				Options: o, To: ctx.String("to"), Zip: ctx.Bool("zip"),
				Today: time.Now().Format("2006-01-02"), Software: "slabfolio " + version(),
			}
			switch whom := ctx.String("for"); whom {
			case "":
			case "owner":
				a.Owner = true
			default:
				return usagef("the only one is owner", "--for %q", whom)
			}
			if a.To == "" {
				return usagef("slabfolio archive OY-0142 --to shelf", "archive needs --to DIR, the folder for the bags")
			}
			dirs, err := paths(ctx, true)
			if err != nil {
				return err
			}
			if os.Getenv("GOMEMLIMIT") == "" {
				debug.SetMemoryLimit(softLimit)
			}
			t := newTeller(c, c.err, false)
			a.Report = t.tell
			sum, err := record.Archive(ctx.Context, dirs, a)
			t.close()
			if sum != nil { // what was sealed before the run stopped stays sealed
				t.summary(sum, "sealed")
				tellBags(c, sum, a.Zip)
			}
			switch {
			case err != nil:
				return asUsage(err)
			case sum.Faults():
				return errFault
			}
			return nil
		},
	}
}

// softLimit makes the collector work harder rather than let memory grow: sealing
// waits for the disk anyway, and a piece of 5 GB is to fit in 200 MiB. Photos that
// need more get it.
const softLimit = 160 << 20

// tellBags names the new bags: they are the result.
func tellBags(c *console, sum *listing.Summary, zip bool) {
	if c.json {
		return
	}
	for _, r := range sum.Results {
		name := r.Bag
		switch {
		case name == "":
			continue
		case zip:
			name += ".zip"
		}
		c.result("%s", filepath.ToSlash(filepath.Join(sum.Out, name)))
	}
}
