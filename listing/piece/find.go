package piece

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// Find lists the piece folders at or below the paths, each once, in bytewise
// order of their paths. Hidden folders, links (which of a spec is a fault), sealed bags and the folders that
// skip (which may be nil) names are passed over; a path itself is taken as it is,
// even when hidden or a link. A folder that cannot be opened becomes a fault. A
// path that does not exist is an error that matches fs.ErrNotExist.
func Find(paths []string, skip func(path string) bool) ([]string, []Finding, error) {
	if skip == nil {
		skip = func(string) bool { return false }
	}
	var found []string
	var findings []Finding
	seen := map[string]bool{}
	for _, p := range paths {
		info, err := os.Stat(p)
		if err != nil {
			return nil, nil, fmt.Errorf("%s: %w", p, errors.Unwrap(err))
		}
		if !info.IsDir() {
			if !IsSpec(filepath.Base(p)) {
				return nil, nil, fmt.Errorf("%s is a file, not a folder: %w", p, fs.ErrInvalid)
			}
			p = filepath.Dir(p) // the spec itself was named
		}
		f := finder{skip: skip, seen: seen}
		f.walk(filepath.Clean(p))
		found = append(found, f.found...)
		findings = append(findings, f.findings...)
	}
	slices.Sort(found)
	return found, findings, nil
}

type finder struct {
	skip     func(string) bool
	seen     map[string]bool // by absolute path
	found    []string
	findings []Finding
}

func (f *finder) walk(dir string) {
	if f.skip(dir) {
		return
	}
	abs, err := filepath.Abs(dir)
	if err != nil {
		abs = dir
	}
	if f.seen[abs] {
		return
	}
	f.seen[abs] = true
	entries, err := os.ReadDir(dir)
	if err != nil {
		f.findings = append(f.findings, Finding{Rank: Fault, Code: "folder.unreadable", File: filepath.ToSlash(dir),
			Message: fmt.Sprintf("the folder %q cannot be opened", filepath.Base(dir)), Remedy: "look at who may read it"})
		return
	}
	if isBag(entries) {
		return
	}
	if hasSpec(entries) {
		f.found = append(f.found, dir)
	} else if link := LinkedSpec(entries); link != "" {
		f.findings = append(f.findings, Finding{Rank: Fault, Code: "folder.linked-spec", File: filepath.ToSlash(filepath.Join(dir, link)),
			Message: "it is a link, and links are not followed, so this folder is no piece", Remedy: "put the file itself there"})
	}
	for _, e := range entries {
		if e.IsDir() && !strings.HasPrefix(e.Name(), ".") {
			f.walk(filepath.Join(dir, e.Name()))
		}
	}
}

// isBag reports whether a folder is a sealed bag (RFC 8493): bagit.txt with a
// payload manifest or data/ beside it.
func isBag(entries []os.DirEntry) bool {
	declared, more := false, false
	for _, e := range entries {
		n := e.Name()
		declared = declared || n == "bagit.txt"
		more = more || n == "data" && e.IsDir() || strings.HasPrefix(n, "manifest-") && strings.HasSuffix(n, ".txt")
	}
	return declared && more
}
