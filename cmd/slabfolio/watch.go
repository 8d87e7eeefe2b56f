package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/fsnotify/fsnotify"
	"github.com/urfave/cli/v2"

	"slabfolio/listing"
	"slabfolio/listing/piece"
)

func watchCommand(c *console) *cli.Command {
	prepare := prepareCommand(c)
	return &cli.Command{
		Name: "watch", Usage: "prepare again whatever changes", ArgsUsage: "PATH…",
		Description: "Prepares once, then waits: a piece whose spec or photos change is prepared again, several saves\n" +
			"at once as one. A spec that is broken in mid-edit keeps its last good outputs. Ctrl-C ends it, as it does every command, with status 130.",
		Flags: append(prepare.Flags, &cli.BoolFlag{Name: "poll", DisableDefaultText: true, Usage: "look every second instead of being told; for network drives that tell nothing"}),
		Action: func(ctx *cli.Context) error {
			o, err := prepareOptions(ctx, c)
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
			w := &watch{c: c, opts: o, paths: dirs}
			if err := w.prepare(ctx, dirs); err != nil {
				return err
			}
			return w.run(ctx, ctx.Bool("poll"))
		},
	}
}

// A watch prepares pieces again when something of theirs changes.
type watch struct {
	c     *console
	opts  listing.Options
	paths []string
}

// How long to wait: settle after the last change, so that several saves count as
// one; between two looks where the system tells of nothing.
const (
	settle   = 250 * time.Millisecond
	lookWait = time.Second
)

// prepare runs the main job over paths. A fault leaves the last good outputs, and
// the watch goes on.
func (w *watch) prepare(ctx *cli.Context, paths []string) error {
	_, err := prepare(ctx, w.c, paths, w.opts)
	if ctx.Context.Err() != nil {
		return ctx.Context.Err()
	}
	w.opts.Force = false // asked for once
	return err
}

// run waits for changes until it is interrupted, which is how it ends.
func (w *watch) run(ctx *cli.Context, poll bool) error {
	changes := make(chan string, 64)
	stop, err := w.notify(ctx.Context, changes)
	if poll || err != nil {
		stop, err = w.poll(ctx.Context, changes), nil
	}
	defer stop()
	w.c.say("waiting for changes below %s; Ctrl-C ends it", strings.Join(w.paths, ", "))
	for {
		changed := gatherChanges(ctx.Context, changes)
		if len(changed) == 0 {
			return ctx.Context.Err() // interrupted while nothing was being done
		}
		paths := w.affected(changed)
		if len(paths) == 0 {
			continue
		}
		w.c.say("%s changed", strings.Join(w.short(changed), ", "))
		err = w.prepare(ctx, paths)
		for err != nil && ctx.Context.Err() == nil && w.away(err) {
			w.c.say("%v; it may come back", err)
			if !w.waitForPaths(ctx.Context) {
				return ctx.Context.Err()
			}
			err = w.prepare(ctx, w.paths) // what changed meanwhile is not known
		}
		var usage *usageError
		switch {
		case ctx.Context.Err() != nil:
			return ctx.Context.Err()
		case errors.As(err, &usage):
			w.c.say("%s", usage.msg) // a folder that went away, say: it may come back
		case err != nil:
			return err
		}
	}
}

// away reports whether a path is not there, as on a drive that is not plugged in, or was
// not when the run failed.
func (w *watch) away(err error) bool {
	return errors.Is(err, fs.ErrNotExist) || slices.ContainsFunc(w.paths, func(p string) bool { return !exists(p) })
}

// waitForPaths waits until all paths are there; false when the context ends before.
func (w *watch) waitForPaths(ctx context.Context) bool {
	for {
		select {
		case <-time.After(lookWait):
		case <-ctx.Done():
			return false
		}
		if !slices.ContainsFunc(w.paths, func(p string) bool { return !exists(p) }) {
			return true
		}
	}
}

// gatherChanges waits for a change and for those that come with it; none when the
// context ends.
func gatherChanges(ctx context.Context, changes <-chan string) (changed []string) {
	var quiet <-chan time.Time
	for {
		select {
		case path := <-changes:
			if !slices.Contains(changed, path) {
				changed = append(changed, path)
			}
			quiet = time.After(settle)
		case <-quiet:
			slices.Sort(changed)
			return changed
		case <-ctx.Done():
			return nil
		}
	}
}

// affected are the paths to prepare again: the pieces that the changes lie in, or
// all when a workshop.yaml changed or a piece came or went.
func (w *watch) affected(changed []string) []string {
	var pieces []string
	for _, path := range changed {
		if strings.EqualFold(filepath.Base(path), piece.WorkshopName) {
			return w.paths
		}
		dir := pieceAbove(path)
		switch {
		case dir == "" && piece.IsSpec(filepath.Base(path)):
			return w.paths // its spec is gone
		case dir != "" && !slices.Contains(pieces, dir):
			pieces = append(pieces, dir)
		}
	}
	return pieces
}

// pieceAbove is the piece folder that a path lies in; "" when there is none.
func pieceAbove(path string) string {
	for dir := filepath.Dir(path); ; dir = filepath.Dir(dir) {
		entries, _ := os.ReadDir(dir)
		if slices.ContainsFunc(entries, func(e fs.DirEntry) bool { return !e.IsDir() && piece.IsSpec(e.Name()) }) {
			return dir
		}
		if dir == filepath.Dir(dir) {
			return ""
		}
	}
}

// short names the changed files as a maker does, the first few.
func (w *watch) short(changed []string) []string {
	const most = 3
	var names []string
	// Editors write beside the file and rename: what is gone and has no ending is no maker's.
	lasting := slices.DeleteFunc(slices.Clone(changed), func(path string) bool {
		return filepath.Ext(path) == "" && !exists(path)
	})
	if len(lasting) > 0 {
		changed = lasting
	}
	for _, path := range changed[:min(len(changed), most)] {
		names = append(names, filepath.ToSlash(filepath.Join(filepath.Base(filepath.Dir(path)), filepath.Base(path))))
	}
	if n := len(changed) - most; n > 0 {
		names = append(names, fmt.Sprintf("%d more", n))
	}
	return names
}

// wanted reports whether a change of a path can matter: hidden files, what editors
// leave for a moment and our own outputs do not.
func (w *watch) wanted(path string) bool {
	name := filepath.Base(path)
	if strings.HasPrefix(name, ".") || strings.HasSuffix(name, "~") || strings.HasSuffix(name, ".tmp") || strings.HasSuffix(name, ".swp") {
		return false
	}
	out, err1 := filepath.Abs(w.opts.Out)
	abs, err2 := filepath.Abs(path)
	if w.opts.Out == "" {
		out, err1 = filepath.Abs("prepared")
	}
	return err1 == nil && err2 == nil && abs != out && !strings.HasPrefix(abs, out+string(filepath.Separator))
}

// eachFolder calls do for every folder at or below a path that is looked at.
func (w *watch) eachFolder(path string, do func(dir string) error) error {
	return filepath.WalkDir(path, func(p string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return nil // gone meanwhile, or not ours to read
		case !d.IsDir():
			return nil
		case p != path && !w.wanted(p):
			return fs.SkipDir
		}
		return do(p)
	})
}

// notify has the system tell of changes. It returns an error where it cannot.
func (w *watch) notify(ctx context.Context, changes chan<- string) (stop func(), err error) {
	n, err := fsnotify.NewWatcher()
	if err != nil {
		return func() {}, err
	}
	stop = func() { _ = n.Close() } // nothing is lost with it
	for _, p := range w.paths {
		if err := w.eachFolder(p, n.Add); err != nil {
			stop()
			return func() {}, err
		}
	}
	go func() {
		for {
			select {
			case e, ok := <-n.Events:
				if !ok {
					return
				}
				if !w.wanted(e.Name) || e.Op == fsnotify.Chmod {
					continue
				}
				if info, err := os.Stat(e.Name); err == nil && info.IsDir() {
					w.newFolder(ctx, n, e.Name, changes)
					continue
				}
				send(ctx, changes, e.Name)
			case <-n.Errors: // too many changes at once: look at everything
				for _, p := range w.paths {
					send(ctx, changes, filepath.Join(p, piece.WorkshopName))
				}
			case <-ctx.Done():
				return
			}
		}
	}()
	return stop, nil
}

// newFolder watches a folder that came, and tells of what came in it before that.
func (w *watch) newFolder(ctx context.Context, n *fsnotify.Watcher, path string, changes chan<- string) {
	_ = w.eachFolder(path, func(dir string) error {
		err := n.Add(dir)
		entries, _ := os.ReadDir(dir)
		for _, e := range entries {
			if file := filepath.Join(dir, e.Name()); !e.IsDir() && w.wanted(file) {
				send(ctx, changes, file)
			}
		}
		return err
	}) // a folder that cannot be watched changes nothing
}

func send(ctx context.Context, changes chan<- string, path string) {
	select {
	case changes <- path:
	case <-ctx.Done():
	}
}

// poll looks at every file once a second and tells what differs from before.
func (w *watch) poll(ctx context.Context, changes chan<- string) (stop func()) {
	ctx, cancel := context.WithCancel(ctx)
	before := w.look()
	go func() {
		for {
			select {
			case <-time.After(lookWait):
			case <-ctx.Done():
				return
			}
			now := w.look()
			for path, s := range now {
				if before[path] != s {
					send(ctx, changes, path)
				}
			}
			for path := range before {
				if _, ok := now[path]; !ok {
					send(ctx, changes, path)
				}
			}
			before = now
		}
	}()
	return cancel
}

// look notes size and time of every file below the paths.
func (w *watch) look() map[string]string {
	seen := map[string]string{}
	for _, p := range w.paths {
		_ = w.eachFolder(p, func(dir string) error {
			entries, _ := os.ReadDir(dir)
			for _, e := range entries {
				path := filepath.Join(dir, e.Name())
				if info, err := e.Info(); err == nil && !e.IsDir() && w.wanted(path) {
					seen[path] = fmt.Sprint(info.Size(), info.ModTime().UnixNano())
				}
			}
			return nil
		})
	}
	return seen
}
