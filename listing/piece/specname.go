package piece

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// SpecNames are the names that a spec should have, in the order of preference.
var SpecNames = []string{"piece.yaml", "piece.yml"}

// IsSpec reports whether a file of that name is a spec: one of SpecNames, in
// capitals or not, also with the .txt behind it that some editors add unseen.
func IsSpec(name string) bool {
	return slices.Contains(SpecNames, strings.TrimSuffix(strings.ToLower(name), ".txt"))
}

// Specs returns those of the names that are specs', the one that is read first.
func Specs(names []string) []string {
	specs := slices.DeleteFunc(slices.Clone(names), func(n string) bool { return !IsSpec(n) })
	rank := func(name string) int {
		if i := slices.Index(SpecNames, name); i >= 0 {
			return i
		}
		if !strings.HasSuffix(strings.ToLower(name), ".txt") {
			return len(SpecNames)
		}
		return len(SpecNames) + 1
	}
	slices.SortFunc(specs, func(a, b string) int { return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(a, b)) })
	return specs
}

// SpecsIn returns the names of the specs in a folder, the one that is read first.
// Links count where they lead to a file. A folder that is not there is an error, as
// is what is no folder: to open a pipe would wait for ever.
func SpecsIn(dir string) ([]string, error) {
	if info, err := os.Stat(dir); err != nil {
		return nil, err
	} else if !info.IsDir() {
		return nil, &fs.PathError{Op: "open", Path: dir, Err: errors.New("it is no folder")}
	}
	f, err := os.Open(dir)
	if err != nil {
		return nil, err
	}
	defer f.Close() // read only
	names, err := f.Readdirnames(-1)
	if err != nil {
		return nil, fmt.Errorf("read the folder: %w", err)
	}
	specs := Specs(names)
	return slices.DeleteFunc(specs, func(name string) bool {
		info, err := os.Stat(filepath.Join(dir, name))
		return err == nil && !info.Mode().IsRegular() || err != nil && os.IsNotExist(err)
	}), nil
}

// readable are those of the specs in a folder that are files there: a link is not
// followed, since what it leads to is in no record of the piece.
func readable(dir string) ([]string, error) {
	specs, err := SpecsIn(dir)
	return slices.DeleteFunc(specs, func(name string) bool {
		info, err := os.Lstat(filepath.Join(dir, name))
		return err == nil && !info.Mode().IsRegular()
	}), err
}

// LinkedSpec is the name of an entry that would be the spec of its folder if it were no
// link; "" where there is none, or a spec beside it.
func LinkedSpec(entries []fs.DirEntry) string {
	if hasSpec(entries) {
		return ""
	}
	for _, e := range entries {
		if IsSpec(e.Name()) && e.Type()&fs.ModeSymlink != 0 {
			return e.Name()
		}
	}
	return ""
}

// hasSpec reports whether a folder with these entries is a piece.
func hasSpec(entries []fs.DirEntry) bool {
	return slices.ContainsFunc(entries, func(e fs.DirEntry) bool { return IsSpec(e.Name()) && e.Type().IsRegular() })
}

// nameFindings tell of a spec whose name is not quite right, and of others beside
// it that are not read.
func nameFindings(specs []string) []Finding {
	var findings []Finding
	name := specs[0]
	at := Finding{File: name, Line: 1, Column: 1}
	if !slices.Contains(SpecNames, name) {
		f := at
		f.Rank, f.Code, f.Message, f.Remedy = Note, "spec.name", fmt.Sprintf("the file is called %q and was read all the same", name), "call it "+SpecNames[0]
		if strings.HasSuffix(strings.ToLower(name), ".txt") {
			f.Remedy += "; an editor put .txt behind the name, and many systems hide that"
		}
		findings = append(findings, f)
	}
	for _, other := range specs[1:] {
		f := at
		f.File, f.Rank, f.Code, f.Message, f.Remedy = other, Doubt, "spec.two-files", fmt.Sprintf("the folder holds both %s and %s, and only %s is read", name, other, name), "delete the one that is out of date"
		findings = append(findings, f)
	}
	return findings
}
