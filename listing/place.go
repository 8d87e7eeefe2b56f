package listing

import (
	"bytes"
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
var collectionNames = []string{"index.html", "catalogue", "catalogue.csv", "catalogue.json"}

// OpenOut makes the output folder and clears what a killed run left in it.
func (b *Batch) OpenOut() error {
	out, err := filepath.Abs(b.opts.Out)
	if err != nil {
		return err
	}
	if err := b.checkOut(b.paths); err != nil {
		return err
	}
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	stage.Sweep(out)
	return nil
}

// checkOut refuses an output folder that cannot be one: a file, a piece folder or
// a place in one, the folder of the pieces itself, or somebody else's folder that
// holds a file of a name that we write.
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
	around, err := b.PieceAround(b.opts.Out)
	if err != nil {
		return err
	}
	if around != "" {
		return refuse("the output folder lies in the piece folder %s, where nothing is ever written", around)
	}
	if info == nil {
		return nil
	}
	for _, p := range paths {
		if in, err := os.Stat(p); err == nil && os.SameFile(in, info) {
			return refuse("that folder cannot be both where the pieces are and where the outputs go")
		}
	}
	if name := b.strangersFile(); name != "" {
		return refuse("it holds %s already, and slabfolio did not write that", name)
	}
	return nil
}

// PieceAround returns the piece folder of this run that a path lies in, as the
// maker gave it, or "".
func (b *Batch) PieceAround(path string) (string, error) {
	above, err := foldersAbove(path)
	if err != nil {
		return "", err
	}
	for _, j := range b.jobs {
		dir, err := os.Stat(j.Dir)
		if err != nil {
			continue // gone since; reading it will say so
		}
		if slices.ContainsFunc(above, func(a fs.FileInfo) bool { return os.SameFile(a, dir) }) {
			return filepath.ToSlash(j.Dir), nil
		}
	}
	return "", nil
}

// foldersAbove returns the folders that a path lies in, itself among them where
// it exists. Links are followed first.
func foldersAbove(path string) ([]fs.FileInfo, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	var above []fs.FileInfo
	for at := abs; ; {
		if real, err := filepath.EvalSymlinks(at); err == nil {
			at = real
		}
		if info, err := os.Stat(at); err == nil {
			above = append(above, info)
		}
		up := filepath.Dir(at)
		if up == at {
			return above, nil
		}
		at = up
	}
}

// strangersFile names a file of OUT that writeCollection would write over and
// that is not ours; "" when there is none.
func (b *Batch) strangersFile() string {
	taken := ""
	for _, name := range collectionNames {
		if _, err := os.Lstat(filepath.Join(b.opts.Out, name)); err == nil && taken == "" {
			taken = name
		}
	}
	if taken == "" {
		return ""
	}
	for _, name := range []string{"index.html", "catalogue/index.html"} {
		data, err := os.ReadFile(filepath.Join(b.opts.Out, filepath.FromSlash(name)))
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
// of that serial. A piece folder is never one.
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
	for _, name := range piece.SpecNames {
		if _, err := os.Lstat(filepath.Join(final, name)); err == nil {
			return errTaken
		}
	}
	entries, err := os.ReadDir(final)
	if err != nil {
		return err
	}
	if len(entries) == 0 {
		return nil
	}
	if r := readReport(final); r == nil || !strings.EqualFold(r.Public.Serial, serial) {
		return errTaken
	}
	return nil
}

// takenFinding tells the maker of errTaken.
func takenFinding(out, serial string) piece.Finding {
	return piece.Finding{
		Rank: piece.Fault, Code: "out.taken",
		Message: fmt.Sprintf("its outputs would go to %s, but that is there already and slabfolio did not write it", filepath.ToSlash(filepath.Join(out, serial))),
		Remedy:  "choose another folder with --out, or move that one away",
	}
}

// isOurs tells a file that we write into a piece's output folder from one that
// somebody else put there.
func isOurs(rel string) bool {
	return groupOf(rel) != "" || rel == "report.json" || strings.HasPrefix(rel, ".")
}
