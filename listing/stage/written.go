package stage

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slabfolio/listing/ordinary"
	"slices"
	"strings"
)

// WrittenName is the file in an output folder that says what the last run wrote
// there: the SHA-256 of each file and its name, as sha256sum -c reads it. Whatever
// is not in it, or differs from it, is the maker's.
const WrittenName = ".slabfolio-written"

// written are the files that a run wrote, by name with forward slashes, each with
// its SHA-256s: one, or two while a file is being replaced.
type written map[string][]string

// readWritten reads what the last run wrote into a folder; false when the folder
// does not say. A name that leads out of the folder was written by no run.
func readWritten(dir string) (written, bool) {
	data, err := ReadOrdinary(filepath.Join(dir, WrittenName))
	if err != nil {
		return written{}, false
	}
	w := written{}
	for line := range strings.Lines(string(data)) {
		sum, name, ok := strings.Cut(strings.TrimSuffix(line, "\n"), "  ")
		if ok && len(sum) == 2*sha256.Size && path.Clean(name) == name && filepath.IsLocal(filepath.FromSlash(name)) {
			w[name] = append(w[name], sum)
		}
	}
	return w, true
}

// clearList sets aside what stands in a folder under the name of the list of what
// was written and can be none: a folder, a pipe, a file too long.
func clearList(dir string) ([]SetAside, error) {
	at := filepath.Join(dir, WrittenName)
	info, err := os.Lstat(at)
	if err != nil || info.Mode().IsRegular() && info.Size() <= longestOrdinary {
		return nil, nil
	}
	kept := freeName(WrittenName, func(kept string) bool { return !exists(filepath.Join(dir, kept)) })
	return []SetAside{{Name: WrittenName, Kept: kept}}, os.Rename(at, filepath.Join(dir, kept))
}

// Written lists the names of the files that the last run wrote into a folder,
// sorted; nil when the folder does not say.
func Written(dir string) []string {
	w, _ := readWritten(dir)
	return slices.Sorted(maps.Keys(w))
}

func (w written) bytes() []byte {
	var b bytes.Buffer
	for _, name := range slices.Sorted(maps.Keys(w)) {
		for _, sum := range w[name] {
			fmt.Fprintf(&b, "%s  %s\n", sum, name)
		}
	}
	return b.Bytes()
}

// holds reports whether the file at path is as the run wrote it under the name.
func (w written) holds(name, path string) bool {
	sums := w[name]
	if len(sums) == 0 {
		return false
	}
	if info, err := os.Lstat(path); err != nil || !info.Mode().IsRegular() {
		return false
	}
	sum, err := sumFile(path)
	return err == nil && slices.Contains(sums, sum)
}

func sumOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

func sumFile(path string) (string, error) {
	f, _, err := ordinary.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close() // read only
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}
