package listing

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"

	"slabfolio/listing/piece"
	"slabfolio/listing/stage"
)

// ourMark stands in the pages that cover an output folder, so that another run
// knows the folder for ours.
const ourMark = `<meta name="generator" content="slabfolio">`

// collectionNames are what writeCollection writes beside the pieces.
var collectionNames = []string{"index.html", publicFolder, "catalogue.csv", "catalogue.json"}

// OpenOut makes the output folder and clears what a killed run left in it.
func (b *Batch) OpenOut() error {
	out, err := filepath.Abs(b.opts.Out)
	if err != nil {
		return err
	}
	if err := b.checkOut(b.paths); err != nil {
		return err
	}
	if err := b.checkCache(); err != nil {
		return err
	}
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	stage.Sweep(out)
	return nil
}

// checkOut refuses an output folder that cannot be one: a file, a piece folder or
// sealed bag or a place in one, the folder of the pieces itself, or somebody
// else's folder that holds a file of a name that we write.
func (b *Batch) checkOut(paths []string) error {
	refuse := func(format string, args ...any) error {
		return &PathError{filepath.ToSlash(b.opts.Out), fmt.Errorf(format+"; choose another folder with --out", args...)}
	}
	info, err := os.Stat(b.opts.Out)
	switch {
	case err == nil && !info.IsDir():
		return refuse("that is a file, and the outputs need a folder")
	case err != nil && errors.Is(err, syscall.ENOTDIR):
		return refuse("a part of that path is a file, and the outputs need a folder")
	}
	if err := CheckGuarded(b.opts.Out, "the output folder", "choose another folder with --out"); err != nil {
		return err
	}
	if info == nil {
		return nil
	}
	for _, p := range paths {
		if in, err := os.Stat(p); err == nil && os.SameFile(in, info) {
			return refuse("that folder cannot be both where the pieces are and where the outputs go")
		}
	}
	if name := b.fileNotOurs(); name != "" {
		return refuse("it holds %s already, and slabfolio did not write that", name)
	}
	return nil
}

// checkCache refuses a cache in a piece folder or a sealed bag, or where the pieces are.
func (b *Batch) checkCache() error {
	if b.opts.Cache == "" {
		return nil
	}
	return b.CheckApart(b.opts.Cache, "the cache", "choose another folder with --cache")
}

// CheckApart refuses, by a *PathError, to write into a folder that CheckGuarded refuses,
// and into one that a piece of this run lies in.
func (b *Batch) CheckApart(path, what, remedy string) error {
	if err := CheckGuarded(path, what, remedy); err != nil {
		return err
	}
	dir := realPath(path)
	for i := range b.jobs {
		if within(dir, realPath(b.jobs[i].Dir)) {
			return &PathError{filepath.ToSlash(path), fmt.Errorf("%s cannot be where the pieces are, and %s is in it; %s", what, filepath.ToSlash(b.jobs[i].Dir), remedy)}
		}
	}
	return nil
}

// CheckGuarded refuses, by a *PathError, to write to a path that is or lies in a
// piece folder or a sealed bag, whether or not that is one of this run. what is
// the thing that would be written, remedy what the maker can do.
func CheckGuarded(path, what, remedy string) error {
	if link := linkGoneUpFrom(path); link != "" {
		return &PathError{filepath.ToSlash(path), fmt.Errorf("%s is a link, and .. behind it may mean two places; write the path without it", filepath.ToSlash(link))}
	}
	g, err := piece.Around(path)
	if err != nil {
		return err
	}
	if g == nil {
		return nil
	}
	return &PathError{filepath.ToSlash(path), fmt.Errorf("%s lies in the %s %s, where nothing is ever written; %s", what, g.What(), filepath.ToSlash(filepath.Base(g.Dir)), remedy)}
}

// linkGoneUpFrom returns the link that a path goes up from: the system goes up from
// where it leads, a reader from where it stands. Empty when there is none.
func linkGoneUpFrom(path string) string {
	for i := 0; i < len(path); i++ {
		if !os.IsPathSeparator(path[i]) {
			continue
		}
		rest := path[i+1:]
		if next := strings.IndexFunc(rest, func(r rune) bool { return r < 128 && os.IsPathSeparator(byte(r)) }); next >= 0 {
			rest = rest[:next]
		}
		if info, err := os.Lstat(path[:i]); rest == ".." && err == nil && info.Mode()&fs.ModeSymlink != 0 {
			return path[:i]
		}
	}
	return ""
}

// fileNotOurs names a file of OUT that writeCollection would write over and
// that is not ours; "" when there is none.
func (b *Batch) fileNotOurs() string {
	taken := ""
	for _, name := range collectionNames {
		if _, err := os.Lstat(filepath.Join(b.opts.Out, name)); err == nil && taken == "" {
			taken = name
		}
	}
	if taken == "" || stage.Written(filepath.Join(b.opts.Out, publicFolder)) != nil {
		return ""
	}
	for _, name := range []string{"index.html", "catalogue/index.html"} {
		data, err := stage.ReadOrdinary(filepath.Join(b.opts.Out, filepath.FromSlash(name)))
		if err == nil && bytes.Contains(data, []byte(ourMark)) {
			return ""
		}
	}
	if entries, err := b.entries(); err == nil && len(entries) > 0 {
		return ""
	}
	return taken
}

// errTaken means that somebody else's folder or file stands where a piece's
// output would go.
var errTaken = errors.New("it is there already, and slabfolio did not write it")

// checkPlace returns errTaken unless OUT/name is free, empty, or an output folder
// of that serial. One that holds a piece folder or a sealed bag is never one.
func checkPlace(final, serial string) error {
	info, err := os.Lstat(final)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	if !info.IsDir() {
		return errTaken
	}
	if g, err := piece.Within(final); g != nil || err != nil {
		return cmp.Or(err, errTaken)
	}
	entries, err := os.ReadDir(final)
	if err != nil {
		return err
	}
	if len(entries) == 0 {
		return nil
	}
	r := readReport(final)
	switch {
	case r != nil && strings.EqualFold(r.Public.Serial, serial):
		return nil
	case r == nil && slices.Contains(stage.Written(final), reportName):
		return nil // the maker changed or deleted the report; the folder is ours all the same
	}
	return errTaken
}

// takenFinding tells the maker of errTaken.
func takenFinding(out, serial string) piece.Finding {
	return piece.Finding{
		Rank: piece.Fault, Code: "out.taken",
		Message: fmt.Sprintf("its outputs would go to %s, but that is there already and slabfolio did not write it", filepath.ToSlash(filepath.Join(out, serial))),
		Remedy:  "choose another folder with --out, or move that one away",
	}
}

// CodeKept is the finding on a file of the maker's in OUT that had to change its name.
// Its file is named from where the run was, since it does not lie in the piece's folder.
const CodeKept = "out.kept"

// keptFinding tells the maker of a file of theirs, in OUT or in a folder of it, that had
// to change its name.
func keptFinding(folder string, a stage.SetAside) piece.Finding {
	f := piece.Finding{
		Rank: piece.Doubt, Code: CodeKept, File: filepath.ToSlash(filepath.Join(folder, filepath.FromSlash(a.Name))),
		Message: fmt.Sprintf("it was changed since slabfolio wrote it; yours is kept as %s", a.Kept),
		Remedy:  "what you changed belongs into piece.yaml, or copy the file elsewhere and change it there; then delete the kept one",
	}
	if !a.Changed {
		f.Message = fmt.Sprintf("a file of yours stood where slabfolio writes now; yours is kept as %s", a.Kept)
		f.Remedy = "keep files of your own in a folder of their own"
	}
	return f
}
