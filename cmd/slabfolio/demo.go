package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/urfave/cli/v2"

	"slabfolio/testdata"
)

func demoCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:        "demo",
		Usage:       "write the demo workshop and prepare it",
		ArgsUsage:   "[DIR]",
		Description: "Ostrel Yard, a workshop that does not exist, goes into DIR (default: slabfolio-demo), its\nprepared pieces into DIR/prepared.",
		Flags:       commonFlags(),
		Action: func(ctx *cli.Context) error {
			o, err := settings(ctx, c)
			if err != nil {
				return err
			}
			dir := "slabfolio-demo"
			switch ctx.Args().Len() {
			case 0:
			case 1:
				dir = ctx.Args().First()
			default:
				return usagef("", "demo takes one DIR at most")
			}
			if info, err := os.Stat(dir); err == nil && !info.IsDir() {
				return usagef("name a folder, or one that is not there yet", "%q is a file", dir)
			}
			if err := checkGuarded(dir, "the demo", "name another DIR"); err != nil {
				return err
			}
			if err := writeDemo(dir); err != nil {
				return err
			}
			o.Out = filepath.Join(dir, "prepared")
			sum, err := prepare(ctx, c, []string{dir}, o)
			if err != nil {
				return err
			}
			if sum.Faults() {
				return errFault
			}
			if !c.quiet && !c.json {
				where := func(name string) string { return filepath.ToSlash(filepath.Join(o.Out, name)) }
				c.result("")
				c.result("where to look first:")
				lines := [][2]string{{where("index.html"), "every piece, its findings, its photos before and after"}}
				for _, r := range sum.Results[:min(1, len(sum.Results))] {
					lines = append(lines, [2]string{where(r.Serial + "/sheet.pdf"), "the sheet that goes with the piece"},
						[2]string{where(r.Serial + "/listing/index.html"), "what a buyer sees"})
				}
				lines = append(lines, [2]string{filepath.ToSlash(dir) + "/*/piece.yaml", "what the maker wrote"})
				width := 0
				for _, l := range lines {
					width = max(width, len(l[0]))
				}
				for _, l := range lines {
					c.result("  %-*s  %s", width, l[0], l[1])
				}
			}
			return nil
		},
	}
}

// writeDemo writes the demo workshop. Files that are there already with the same
// content stay; others are never overwritten.
func writeDemo(dir string) error {
	demo, err := fs.Sub(testdata.Demo, "demo")
	if err != nil {
		return err
	}
	return fs.WalkDir(demo, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		to := filepath.Join(dir, filepath.FromSlash(name))
		if d.IsDir() {
			return os.MkdirAll(to, 0o755)
		}
		data, err := fs.ReadFile(demo, name)
		if err != nil {
			return err
		}
		if old, err := os.ReadFile(to); err == nil {
			if bytes.Equal(old, data) {
				return nil
			}
			return usagef("name another DIR", "%s is there already and is not the demo's", filepath.ToSlash(to))
		}
		if err := os.WriteFile(to, data, 0o644); err != nil {
			return fmt.Errorf("write the demo: %w", err)
		}
		return nil
	})
}
