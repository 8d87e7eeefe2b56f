package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"slabfolio/listing/piece"
	"slabfolio/templates"
)

func newCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:        "new",
		Usage:       "lay out a folder for a piece: spec to fill in and shot list",
		ArgsUsage:   "FOLDER",
		Description: "Writes piece.yaml, with every key explained, and SHOTS.md, the photos worth taking of that kind\nof piece. Never overwrites anything.",
		Flags: append(commonFlags(),
			&cli.StringFlag{Name: "kind", Usage: "`KIND` of piece, such as \"dining table\" or bench"},
			&cli.BoolFlag{Name: "schema", DisableDefaultText: true, Usage: "print the JSON Schema of piece.yaml instead"},
			&cli.BoolFlag{Name: "workshop", DisableDefaultText: true, Usage: "lay out a workshop.yaml in FOLDER (default: here): who you are, and defaults"},
			&cli.StringFlag{Name: "from", Usage: "copy the photos of a memory `CARD` or folder in (not built yet)"},
			&cli.StringFlag{Name: "since", Usage: "with --from: only photos from `DATE` on (not built yet)"},
			&cli.StringFlag{Name: "answers", Usage: "take the answers to the questions from a `FILE` (not built yet)"},
		),
		Action: func(ctx *cli.Context) error {
			if _, err := settings(ctx, c); err != nil {
				return err
			}
			for _, name := range []string{"from", "since", "answers"} {
				if ctx.IsSet(name) {
					return fmt.Errorf("new --%s: %w", name, errNotBuilt)
				}
			}
			if ctx.Bool("schema") {
				schema, err := piece.Schema()
				if ctx.Bool("workshop") {
					schema, err = piece.WorkshopSchema()
				}
				if err != nil {
					return err
				}
				c.result("%s", strings.TrimRight(string(schema), "\n"))
				return nil
			}
			if ctx.Bool("workshop") && ctx.Args().Len() < 2 {
				return layOutWorkshop(c, cmp.Or(ctx.Args().First(), "."))
			}
			if ctx.Args().Len() != 1 || ctx.Args().First() == "" {
				return usagef("slabfolio new OY-0142 lays out a folder of that name", "new needs one FOLDER")
			}
			return layOut(c, ctx.Args().First(), ctx.String("kind"))
		},
	}
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

// layOut writes the spec and the shot list of a new piece.
func layOut(c *console, folder, kind string) error {
	if kind != "" {
		read, note, err := piece.ParseKind(kind)
		var wrong *piece.SetError
		if errors.As(err, &wrong) {
			return usagef(wrong.Remedy, "%s", wrong.Message)
		}
		if note != "" {
			c.say("note: %s", note)
		}
		kind = read
	}
	serial := filepath.Base(filepath.Clean(folder))
	words, err := templates.Open("en") // what only the maker reads is in English
	if err != nil {
		return err
	}
	spec, shots := piece.Starter(kind, serial, words.Say), piece.Shots(kind, words.Say)
	there, _ := piece.SpecsIn(folder) // a folder that is not there has none
	for _, name := range append(there, "piece.yaml", "SHOTS.md") {
		if _, err := os.Lstat(filepath.Join(folder, name)); err == nil {
			return usagef("", "%s is already there; new never overwrites anything", filepath.ToSlash(filepath.Join(folder, name)))
		}
	}
	if err := checkGuarded(folder, "the new piece", "name a FOLDER outside of it"); err != nil {
		return err
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	for _, f := range []struct {
		name string
		data []byte
	}{{"piece.yaml", spec}, {"SHOTS.md", shots}} {
		if err := writeNew(filepath.Join(folder, f.name), f.data); err != nil {
			return err
		}
	}
	if !c.quiet && !c.json {
		c.result("laid out %s", filepath.ToSlash(folder))
		c.result("1. take the photos; SHOTS.md in it says which")
		c.result("2. fill in piece.yaml; only a few lines are needed, the rest is explained in it")
		c.result("3. slabfolio check %s", word(filepath.ToSlash(folder)))
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

// writeNew writes a file that must not exist yet.
func writeNew(path string, data []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return usagef("", "%s is already there; new never overwrites anything", filepath.ToSlash(path))
	}
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Close())
}

var errNotBuilt = errors.New("not built yet in this version")
