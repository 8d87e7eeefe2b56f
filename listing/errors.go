package listing

import (
	"errors"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
)

// mostErrors of one piece are told: a full disk stops every file in the same way.
const mostErrors = 3

// errorLines says an error in words for the maker, a line for each of those that
// are joined in it, each once. Files are named from the output folder of the piece
// down, not by the folder that it is being built in, whose name ends in building.
func errorLines(err error, building string) (lines []string) {
	for _, e := range split(err) {
		line := strings.ReplaceAll(e.Error(), "\n", "; ")
		var file *fs.PathError
		if errors.As(e, &file) {
			line = shortPath(file.Path, building) + ": " + file.Err.Error()
		}
		if !slices.Contains(lines, line) {
			lines = append(lines, line)
		}
	}
	return lines[:min(len(lines), mostErrors)]
}

// split takes joined errors apart.
func split(err error) []error {
	for e := err; e != nil; e = errors.Unwrap(e) {
		if joined, ok := e.(interface{ Unwrap() []error }); ok {
			var all []error
			for _, e := range joined.Unwrap() {
				all = append(all, split(e)...)
			}
			return all
		}
	}
	return []error{err}
}

// shortPath is a path as the maker knows it: from the piece's folder down.
func shortPath(path, building string) string {
	parts := strings.Split(filepath.ToSlash(path), "/")
	for i, p := range parts {
		if name, ok := strings.CutSuffix(p, building); ok {
			parts[i] = strings.TrimPrefix(name, ".")
			return strings.Join(parts[i:], "/")
		}
	}
	return strings.Join(parts[max(0, len(parts)-2):], "/")
}
