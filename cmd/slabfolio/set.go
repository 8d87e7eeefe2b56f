package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"slabfolio/listing"
	"slabfolio/listing/intake"
	"slabfolio/listing/piece"
	"slabfolio/listing/stage"
)

func setCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:        "set",
		Usage:       "change or take out values in piece.yaml and leave the rest as it is",
		ArgsUsage:   "PATH… KEY=VALUE…",
		Description: "Sets values in every piece at or below PATH. Remarks, order and line ends stay. A value\nthat would be a fault changes nothing, in no piece.",
		Flags: append(commonFlags(),
			&cli.BoolFlag{Name: "dry-run", DisableDefaultText: true, Usage: "show the change only"},
			&cli.StringSliceFlag{Name: "remove", Usage: "take `KEY` out, with what stands behind it; may be given again"},
		),
		Action: func(ctx *cli.Context) error {
			o, err := settings(ctx, c)
			if err != nil {
				return err
			}
			paths, assignments, err := setArguments(ctx.Args().Slice(), ctx.StringSlice("remove"))
			if err != nil {
				return err
			}
			plans, err := planAll(ctx, c, o, paths, assignments)
			if err != nil {
				return err
			}
			return c.writeAll(ctx.Context, plans, ctx.Bool("dry-run"))
		},
	}
}

// setArguments parts paths from assignments. What is there on the disk is a path,
// even with an equals sign in its name.
func setArguments(args, remove []string) (paths []string, assignments []*piece.Assignment, err error) {
	for _, arg := range args {
		if exists(arg) || !strings.Contains(arg, "=") {
			paths = append(paths, arg)
			continue
		}
		some, err := piece.ParseAssignments(arg)
		var wrong *piece.SetError
		if errors.As(err, &wrong) {
			return nil, nil, usagef(wrong.Remedy, "%s", wrong.Message)
		}
		assignments = append(assignments, some...)
	}
	for _, key := range remove {
		a, err := piece.ParseRemoval(key)
		var wrong *piece.SetError
		if errors.As(err, &wrong) {
			return nil, nil, usagef(wrong.Remedy, "%s", wrong.Message)
		}
		assignments = append(assignments, a)
	}
	const like = `like this: slabfolio set OY-0142 availability=sold`
	switch {
	case len(paths) == 0 && inPiece():
		paths = []string{"."}
	case len(paths) == 0:
		return nil, nil, usagef(like, "set needs a piece folder, or a folder above pieces")
	}
	for _, p := range paths {
		if info, err := os.Stat(p); err != nil {
			return nil, nil, usagef("a value is set with KEY=VALUE, "+like, "no folder or file %q", p)
		} else if !info.IsDir() && !piece.IsSpec(filepath.Base(p)) {
			return nil, nil, usagef("name the piece's folder, or a folder above pieces", "%q is a file", p)
		}
	}
	if len(assignments) == 0 {
		return nil, nil, usagef(like, "set needs KEY=VALUE")
	}
	return paths, assignments, nil
}

// inPiece reports whether the current folder is a piece's.
func inPiece() bool {
	specs, err := piece.SpecsIn(".")
	return err == nil && len(specs) > 0
}

// planAll finds the pieces and works the change out for each, before anything is
// written. What stands against it is told for all of them, and is errFault.
func planAll(ctx *cli.Context, c *console, o listing.Options, paths []string, assignments []*piece.Assignment) ([]*piece.Plan, error) {
	dirs, findings, err := piece.Find(paths, nil)
	if err != nil {
		return nil, usagef("", "%v", err)
	}
	for _, f := range findings {
		c.setFinding("", f)
	}
	refused := len(findings) > 0
	if len(dirs) == 0 {
		c.setFinding("", piece.Finding{Rank: piece.Fault, Code: "run.no-piece", Message: fmt.Sprintf("no piece found in %s: no folder there holds a piece.yaml", strings.Join(paths, ", ")), Remedy: "slabfolio new FOLDER lays one out"})
		refused = true
	}
	for _, a := range assignments {
		if a.Path == "serial" && len(dirs) > 1 {
			return nil, usagef("name one piece folder", "%d pieces cannot have one serial", len(dirs))
		}
	}
	for _, a := range assignments {
		if a.Path != "serial" || len(dirs) != 1 || a.Value == "" {
			continue
		}
		if taken, err := serialTaken(ctx.Context, dirs[0], a.Value); err != nil {
			return nil, err
		} else if taken != "" {
			return nil, usagef("give it another serial", "serial %s is taken by %s", a.Value, taken)
		}
	}
	doubts := &newDoubts{opts: o}
	var plans []*piece.Plan
	for _, dir := range dirs {
		p, err := piece.PlanSet(ctx.Context, dir, o.Today, assignments)
		var wrong *piece.SetError
		switch {
		case errors.As(err, &wrong):
			c.setFinding(filepath.ToSlash(dir), piece.Finding{Rank: piece.Fault, Code: "set.refused", Message: wrong.Message, Remedy: wrong.Remedy})
			refused = true
			continue
		case errors.Is(err, fs.ErrPermission):
			return nil, fmt.Errorf("%s: %w", filepath.ToSlash(dir), err)
		case err != nil:
			return nil, err
		}
		for _, f := range p.Findings {
			if p.Refused() && f.Rank != piece.Fault || c.quiet && f.Rank != piece.Fault {
				continue
			}
			c.setFinding(filepath.ToSlash(dir), f)
		}
		missing, err := namesNoPhoto(p)
		if err != nil {
			return nil, err
		}
		for _, f := range missing {
			c.setFinding(filepath.ToSlash(dir), f)
			refused = true
		}
		news, err := doubts.of(ctx.Context, p)
		if err != nil {
			return nil, err
		}
		for _, f := range news {
			if !c.quiet {
				c.setFinding(filepath.ToSlash(dir), f)
			}
		}
		refused = refused || p.Refused()
		plans = append(plans, p)
	}
	if refused {
		c.say("nothing was changed")
		return nil, errFault
	}
	return plans, nil
}

// serialTaken names the other piece of a collection that has a serial; "" for none.
func serialTaken(ctx context.Context, dir, serial string) (string, error) {
	w, _, err := piece.ReadWorkshop(ctx, dir)
	if err != nil {
		return "", err
	}
	abs, err := filepath.Abs(dir)
	if err != nil {
		return "", err
	}
	all, err := intake.ReadCollection(ctx, cmp.Or(w.Dir, filepath.Dir(abs)), w.Dir != "")
	if err != nil {
		return "", err
	}
	other := all.Named(serial)
	if other == "" || sameFile(other, dir) {
		return "", nil
	}
	return filepath.ToSlash(other), nil
}

// setFinding tells what stands against a change, or is worth knowing of it.
func (c *console) setFinding(folder string, f piece.Finding) {
	if c.json {
		c.object(struct {
			Type  string `json:"type"`
			Piece string `json:"piece,omitempty"`
			piece.Finding
		}{"finding", folder, f})
		return
	}
	c.finding(c.err, folder, f)
}

// writeAll writes what was planned, unless only the change is wanted, and shows it.
func (c *console) writeAll(ctx context.Context, plans []*piece.Plan, only bool) error {
	changed := 0
	for i, p := range plans {
		if !only {
			if err := writeAlone(ctx, p); err != nil {
				return fmt.Errorf("%w (%d of %s were written before it)", err, i, plural(len(plans), "piece"))
			}
		}
		if len(p.Changes) > 0 {
			changed++
		}
		c.showChange(p)
	}
	verb := "changed"
	if only {
		verb = "would change"
	}
	switch {
	case c.json:
		c.object(struct {
			Type    string `json:"type"`
			Changed int    `json:"changed"`
			Same    int    `json:"same"`
			DryRun  bool   `json:"dry_run"`
		}{"summary", changed, len(plans) - changed, only})
	case !c.quiet:
		c.result("%s %s", plural(changed, "piece"), verb)
	}
	return nil
}

// showChange shows the lines that differ, old ones with - and new ones with +.
func (c *console) showChange(p *piece.Plan) {
	name := filepath.ToSlash(filepath.Join(p.Dir, p.File))
	if c.json {
		type change struct {
			Line   int    `json:"line"`
			Before string `json:"before"`
			After  string `json:"after"`
		}
		all := []change{}
		for _, x := range p.Changes {
			all = append(all, change{x.Line, x.Before, x.After})
		}
		c.object(struct {
			Type    string   `json:"type"`
			Piece   string   `json:"piece"`
			Serial  string   `json:"serial,omitempty"`
			File    string   `json:"file"`
			Changes []change `json:"changes"`
		}{"piece", filepath.ToSlash(p.Dir), p.Serial, p.File, all})
		return
	}
	if c.quiet {
		return
	}
	for _, x := range p.Changes {
		c.result("%s:%d", inLine(name), x.Line)
		for _, side := range []struct{ mark, text string }{{"- ", x.Before}, {"+ ", x.After}} {
			if side.text == "" && (side.mark == "- " || x.Before != "") {
				continue
			}
			for line := range strings.SplitSeq(side.text, "\n") {
				c.result("  %s%s", side.mark, clip(printable(line), 200))
			}
		}
	}
}

// writeAlone writes a plan while nobody else does, and removes what one that was ended
// in the middle left: under the lock, which dies with its program, nobody can be at it.
func writeAlone(ctx context.Context, p *piece.Plan) error {
	pattern := filepath.Join(globbed(p.Dir), "."+globbed(p.File)+".*"+piece.SetSuffix)
	left, err := filepath.Glob(pattern)
	if err != nil || len(left) == 0 && len(p.Changes) == 0 {
		return err
	}
	lock, err := stage.WaitLock(ctx, filepath.Join(p.Dir, "."+p.File+stage.LockSuffix))
	if err != nil {
		if len(p.Changes) == 0 {
			return nil // it may be a folder that nobody may write to
		}
		return fmt.Errorf("%s: %w", filepath.ToSlash(p.Dir), err)
	}
	if left, err = filepath.Glob(pattern); err == nil {
		for _, name := range left {
			err = errors.Join(err, os.Remove(name))
		}
	}
	if err == nil {
		err = p.Write()
	}
	return errors.Join(err, lock.Release())
}

// globbed is a path as a pattern that matches nothing else.
func globbed(path string) string {
	return strings.NewReplacer("*", "[*]", "?", "[?]", "[", "[[]").Replace(path)
}
