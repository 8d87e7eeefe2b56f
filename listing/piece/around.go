package piece

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// A Guarded folder is one that nothing is ever written into: a piece folder, or a
// sealed bag.
type Guarded struct {
	Dir string // absolute, links followed
	Bag bool   // a sealed bag; else a piece folder
}

// What says in two words what the folder is.
func (g *Guarded) What() string {
	if g.Bag {
		return "sealed bag"
	}
	return "piece folder"
}

// Around returns the piece folder or sealed bag that a path is or lies in; nil
// when there is none. The path need not exist; links are followed first.
func Around(path string) (*Guarded, error) {
	at, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	for {
		if real, err := filepath.EvalSymlinks(at); err == nil {
			at = real
		}
		if g := guarded(at); g != nil {
			return g, nil
		}
		up := filepath.Dir(at)
		if up == at {
			return nil, nil
		}
		at = up
	}
}

// Within returns the first piece folder or sealed bag that a folder is or holds;
// nil when there is none. Links are not followed.
func Within(dir string) (found *Guarded, err error) {
	err = filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || !d.IsDir() {
			return err
		}
		if found = guarded(path); found != nil {
			return fs.SkipAll
		}
		return nil
	})
	return found, err
}

// guarded tells a piece folder or a sealed bag from any other folder.
func guarded(dir string) *Guarded {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil // what cannot be read can hardly be written into
	}
	if isBag(entries) || isDamagedBag(entries) {
		return &Guarded{Dir: dir, Bag: true}
	}
	if slices.ContainsFunc(entries, func(e fs.DirEntry) bool { return !e.IsDir() && IsSpec(e.Name()) }) {
		return &Guarded{Dir: dir}
	}
	return nil
}

// isDamagedBag reports whether a folder is what is left of a bag: its declaration
// alone, or a payload manifest with the payload. What is damaged is guarded too.
func isDamagedBag(entries []fs.DirEntry) bool {
	manifest, payload := false, false
	for _, e := range entries {
		n := e.Name()
		if n == "bagit.txt" {
			return true
		}
		manifest = manifest || strings.HasPrefix(n, "manifest-") && strings.HasSuffix(n, ".txt")
		payload = payload || n == "data" && e.IsDir()
	}
	return manifest && payload
}

// IsGuarded reports whether a folder is a piece folder or a sealed bag itself.
func IsGuarded(dir string) bool { return guarded(dir) != nil }
