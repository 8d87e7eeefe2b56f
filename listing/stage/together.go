package stage

import (
	"errors"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// ReplaceAll writes files into a folder that others write into, too: names with
// forward slashes and their content. The list of what was written lies in the
// subfolder lists, so that a copy of all that is visible takes it along. What stands under such a name and is not what
// the last run wrote there is set aside. A file of the last run that is not among
// the new ones goes, if nobody changed it. Whoever calls it holds the folder's
// lock.
func ReplaceAll(dir, lists string, files map[string][]byte) ([]SetAside, error) {
	odd, err := clearList(filepath.Join(dir, lists))
	if err != nil {
		return nil, err
	}
	before, _ := readWritten(filepath.Join(dir, lists))
	after, both := written{}, written{}
	maps.Copy(both, before)
	for name, data := range files {
		after[name] = []string{sumOf(data)}
		both[name] = append(slices.Clone(before[name]), sumOf(data))
	}
	sweepParts(dir, append(slices.Collect(maps.Keys(both)), path.Join(lists, WrittenName)))
	aside, err := clearFolders(dir, after)
	if err != nil {
		return nil, err
	}
	for _, a := range odd {
		aside = append(aside, SetAside{Name: path.Join(lists, a.Name), Kept: path.Join(lists, a.Kept)})
	}
	// While files are being replaced the list holds both, so that whoever comes after
	// a killed run takes neither for the maker's.
	list := filepath.Join(dir, lists, WrittenName)
	if err := ReplaceFile(list, both.bytes()); err != nil {
		return aside, err
	}
	for _, name := range slices.Sorted(maps.Keys(both)) {
		data, wanted := files[name]
		a, err := replaceOne(dir, name, data, wanted, both)
		if err != nil {
			return aside, err
		}
		aside = append(aside, a...)
	}
	return aside, ReplaceFile(list, after.bytes())
}

// clearFolders sets aside what stands where the files need a folder and is none: a
// file, or a link that would lead what is written somewhere else.
func clearFolders(dir string, files written) (aside []SetAside, err error) {
	for _, name := range slices.Sorted(maps.Keys(files)) {
		folder := path.Dir(name)
		info, err := os.Lstat(filepath.Join(dir, filepath.FromSlash(folder)))
		if folder == "." || err != nil || info.IsDir() {
			continue
		}
		kept := freeName(folder, func(kept string) bool { return !exists(filepath.Join(dir, filepath.FromSlash(kept))) })
		if err := os.Rename(filepath.Join(dir, filepath.FromSlash(folder)), filepath.Join(dir, filepath.FromSlash(kept))); err != nil {
			return aside, err
		}
		aside = append(aside, SetAside{Name: folder, Kept: kept})
	}
	return aside, nil
}

// replaceOne writes one file, or takes one away that is not wanted any more.
func replaceOne(dir, name string, data []byte, wanted bool, both written) ([]SetAside, error) {
	at := filepath.Join(dir, filepath.FromSlash(name))
	var aside []SetAside
	if exists(at) && !both.holds(name, at) && !throughLink(dir, name) {
		kept := freeName(name, func(kept string) bool { return !exists(filepath.Join(dir, filepath.FromSlash(kept))) })
		if err := os.Rename(at, filepath.Join(dir, filepath.FromSlash(kept))); err != nil {
			return nil, err
		}
		aside = append(aside, SetAside{Name: name, Kept: kept, Changed: true})
	}
	if wanted {
		return aside, ReplaceFile(at, data)
	}
	if throughLink(dir, name) {
		return aside, nil
	}
	if err := os.Remove(at); err != nil && !errors.Is(err, os.ErrNotExist) {
		return aside, err
	}
	return aside, nil
}

// throughLink reports whether a folder on the way from dir to a file is a link: what
// lies behind it was never written by a run.
func throughLink(dir, name string) bool {
	for at := path.Dir(name); at != "."; at = path.Dir(at) {
		if info, err := os.Lstat(filepath.Join(dir, filepath.FromSlash(at))); err == nil && info.Mode()&os.ModeSymlink != 0 {
			return true
		}
	}
	return false
}

// sweepParts removes what a killed ReplaceAll left half written of the files that are
// named, each in its folder: createTemp says what such a file is called. A file of
// another name that ends alike is somebody's.
func sweepParts(dir string, names []string) {
	for _, name := range names {
		if throughLink(dir, name) {
			continue
		}
		at := filepath.Join(dir, filepath.FromSlash(name))
		entries, _ := os.ReadDir(filepath.Dir(at)) // what cannot be read holds nothing of ours
		for _, e := range entries {
			number, ours := strings.CutPrefix(e.Name(), "."+filepath.Base(at)+"-")
			number, part := strings.CutSuffix(number, tempSuffix)
			if _, err := strconv.Atoi(number); err == nil && ours && part && e.Type().IsRegular() {
				os.Remove(filepath.Join(filepath.Dir(at), e.Name())) // what cannot be removed is tried again
			}
		}
	}
}
