package main

import (
	"cmp"
	"os"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"slabfolio/listing/piece"
)

func newCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:      "new",
		Usage:     "lay out a folder for a piece: spec to fill in and shot list",
		ArgsUsage: "[FOLDER]",
		Description: "Asks ten questions at most, where there is a terminal, and writes piece.yaml and SHOTS.md, the\n" +
			"photos worth taking of that kind of piece. Never overwrites anything. Without FOLDER the next\nserial of the collection names it.",
		Flags: append(commonFlags(),
			&cli.StringFlag{Name: "kind", Usage: "`KIND` of piece, such as \"dining table\" or bench"},
			&cli.StringFlag{Name: "from", Usage: "copy the photos of a memory `CARD` or folder in; nothing on it is changed"},
			&cli.StringFlag{Name: "since", Usage: "with --from: only photos from `DATE` on, such as 2026-11-29 or today"},
			&cli.StringFlag{Name: "answers", Usage: "ask nothing; take the answers from a `FILE` of piece.yaml's own keys"},
			&cli.StringFlag{Name: "like", Usage: "take base, finish, packing and hourly rate over from `PIECE`, a serial or folder"},
			&cli.BoolFlag{Name: "all-keys", DisableDefaultText: true, Usage: "write every key that there is into piece.yaml, explained, behind a #"},
			&cli.BoolFlag{Name: "schema", DisableDefaultText: true, Usage: "print the JSON Schema of piece.yaml instead"},
			&cli.BoolFlag{Name: "workshop", DisableDefaultText: true, Usage: "lay out a workshop.yaml in FOLDER (default: here): who you are, and defaults"},
		),
		Action: func(ctx *cli.Context) error {
			s, err := settings(ctx, c)
			switch {
			case err != nil:
				return err
			case ctx.Bool("schema"):
				return printSchema(c, ctx.Bool("workshop"))
			case ctx.Args().Len() > 1 || ctx.Args().Len() == 1 && ctx.Args().First() == "":
				return usagef("slabfolio new OY-0142 lays out a folder of that name", "new needs one FOLDER")
			case ctx.Bool("workshop"):
				return layOutWorkshop(c, cmp.Or(ctx.Args().First(), "."))
			}
			n, err := newPiece(ctx, c, s)
			if err != nil {
				return err
			}
			return n.layOut(ctx.Context)
		},
	}
}

// printSchema prints the JSON Schema of piece.yaml or workshop.yaml.
func printSchema(c *console, workshop bool) error {
	schema, err := piece.Schema()
	if workshop {
		schema, err = piece.WorkshopSchema()
	}
	if err != nil {
		return err
	}
	c.result("%s", strings.TrimRight(string(schema), "\n"))
	return nil
}

// layOutWorkshop writes a workshop.yaml, with every key explained, into a folder.
func layOutWorkshop(c *console, folder string) error {
	if g, err := piece.Around(folder); err != nil || g != nil && g.Bag {
		return cmp.Or(err, checkGuarded(folder, "workshop.yaml", "name a FOLDER outside of it"))
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	name := filepath.Join(folder, piece.WorkshopName)
	if err := writeNew(name, piece.WorkshopStarter()); err != nil {
		return err
	}
	if !c.quiet && !c.json {
		c.result("laid out %s", filepath.ToSlash(name))
		c.result("fill in who you are; it counts for every piece in this folder and below")
	}
	return nil
}

// word is a path as it is typed: in quotes where a space would part it in two.
func word(path string) string {
	if strings.ContainsAny(path, " ()&;'") {
		return `"` + path + `"`
	}
	return path
}
