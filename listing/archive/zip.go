package archive

import (
	"archive/zip"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"path/filepath"
	"slabfolio/listing/ordinary"
	"slices"
	"strings"
)

// A zipBag is an open zip file that holds a bag.
type zipBag struct {
	*zip.Reader
	io.Closer
	size int64
	root string // the bag's folder in the zip, with a slash; "" when the zip's root is the bag
}

// errNoZip means that a file is no zip, or one that is cut off or damaged beyond
// reading.
var errNoZip = errors.New("it is no zip that can be read: another kind of file, or damaged, or cut off")

// openZip opens a zip whose root, or whose only folder, is a bag. It returns
// ErrNoBag for a zip without one and errNoZip for what is no zip.
func openZip(path string) (*zipBag, error) {
	if at, err := filepath.EvalSymlinks(path); err == nil {
		path = at // a link that somebody names leads to a bag of theirs
	}
	f, info, err := ordinary.Open(path)
	if errors.Is(err, ordinary.Err) {
		return nil, errNoZip
	}
	if err != nil {
		return nil, err
	}
	z, err := readZip(f, info.Size())
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	z.Closer = f
	return z, nil
}

// readZip reads the names of a zip of size bytes.
func readZip(r io.ReaderAt, size int64) (*zipBag, error) {
	z, err := zip.NewReader(r, size)
	if err != nil {
		var p *fs.PathError
		if errors.As(err, &p) {
			return nil, err
		}
		return nil, errNoZip
	}
	root, ok := bagRoot(z.File)
	if !ok {
		return nil, ErrNoBag
	}
	return &zipBag{Reader: z, size: size, root: root}, nil
}

// bagRoot finds the bag among the names of a zip: at its root, or in a folder
// that is alone there, or the only one with a bagit.txt. It goes by the names as
// they are written, so that a zip with bad ones is still known for a bag.
func bagRoot(files []*zip.File) (root string, ok bool) {
	tops, marked, declared := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for _, f := range files {
		top, rest, inner := strings.Cut(f.Name, "/")
		if top == "__MACOSX" {
			continue // what a Mac puts beside the folder that it packs
		}
		tops[top] = true
		if marksBag(top, inner) {
			return "", true
		}
		second, _, deeper := strings.Cut(rest, "/")
		marked[top] = marked[top] || inner && marksBag(second, deeper)
		if inner && rest == "bagit.txt" {
			declared[top] = true
		}
	}
	for top := range tops {
		if len(tops) == 1 && marked[top] || len(declared) == 1 && declared[top] {
			return top + "/", true
		}
	}
	return "", false
}

// marksBag reports whether an entry of a folder makes it a bag.
func marksBag(name string, folder bool) bool {
	if folder {
		return name == "data"
	}
	_, ok := algorithmOf(name, "manifest-")
	return ok || name == "bagit.txt"
}

// files is the bag as a file system.
func (z *zipBag) files() (fs.FS, error) {
	if z.root == "" {
		return z.Reader, nil
	}
	return fs.Sub(z.Reader, strings.TrimSuffix(z.root, "/"))
}

// check finds what is wrong with the zip itself: names that lead out of it or
// stand twice, links, secrets, and entries that lie over one another, as in files
// that are made to swell without end.
func (z *zipBag) check(v *Verdict) {
	seen := map[string]bool{}
	var packed uint64
	for _, f := range z.File {
		name := f.Name
		switch problem := zipName(name); {
		case problem != "":
			v.fault(Outside, name, fmt.Sprintf("%q: the zip holds a name that %s; it is not followed", clip(name), problem))
		case seen[name]:
			v.fault(Twice, name, fmt.Sprintf("%q is in the zip twice", clip(name)))
		case f.Flags&1 != 0:
			v.fault(Unreadable, name, fmt.Sprintf("%q is encrypted in the zip", clip(name)))
		}
		if !strings.HasPrefix(name, z.root) && !strings.HasPrefix(name, "__MACOSX/") {
			v.warn(Extra, name, fmt.Sprintf("%q is in the zip beside the bag, and no part of it", clip(name)))
		}
		seen[name] = true
		packed += min(f.CompressedSize64, 1<<62)
	}
	if packed > uint64(z.size) {
		v.fault(Unreadable, "", "the entries of the zip lie over one another; a zip that is written honestly has none that do")
	}
}

// zipName says what is wrong with a name in a zip.
func zipName(name string) string {
	if strings.Contains(name, `\`) {
		if slices.Contains(strings.FieldsFunc(name, func(r rune) bool { return r == '/' || r == '\\' }), "..") || strings.HasPrefix(name, `\`) {
			return "leads out of the bag"
		}
		return ""
	}
	if strings.HasPrefix(name, "/") || drive().MatchString(name) || slices.Contains(strings.Split(name, "/"), "..") {
		return "leads out of the bag"
	}
	if clean := path.Clean(name); clean != strings.TrimSuffix(name, "/") || !fs.ValidPath(clean) {
		return "is no name of a file"
	}
	return ""
}
