package archive

import (
	"cmp"
	"crypto/sha512"
	"encoding/hex"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slabfolio/listing/ordinary"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// A Revision is one sealed bag of a piece in a shelf.
type Revision struct {
	Name   string // of the bag, without .zip
	Path   string // folder or zip
	Number int    // 1 for the first
}

// Revisions lists the bags of a piece in a shelf, the first first. base is its
// name: "OY-0142", or "OY-0142.owner" for the owner's copies; a later one is
// OY-0142.rev2.
func Revisions(shelf, base string) ([]Revision, error) {
	entries, err := os.ReadDir(shelf)
	if err != nil {
		return nil, err
	}
	re := regexp.MustCompile(`^(?i:` + regexp.QuoteMeta(base) + `)(?:\.rev([0-9]+))?(\.zip)?$`)
	var revs []Revision
	for _, e := range entries {
		m := re.FindStringSubmatch(e.Name())
		if m == nil || e.IsDir() == (m[2] != "") || e.IsDir() && !isBag(os.DirFS(filepath.Join(shelf, e.Name()))) {
			continue
		}
		n := 1
		if m[1] != "" {
			n, err = strconv.Atoi(m[1])
			if err != nil || n < 2 {
				continue
			}
		}
		revs = append(revs, Revision{strings.TrimSuffix(e.Name(), m[2]), filepath.Join(shelf, e.Name()), n})
	}
	slices.SortFunc(revs, func(a, b Revision) int {
		return cmp.Or(cmp.Compare(a.Number, b.Number), strings.Compare(a.Path, b.Path))
	})
	return revs, nil
}

// RevisionName is the name of the nth bag of a piece.
func RevisionName(base string, n int) string {
	if n < 2 {
		return base
	}
	return fmt.Sprintf("%s.rev%d", base, n)
}

// Open opens a bag, a folder or a zip, for reading; close it afterwards. Names
// never lead out of it. A zip without a bag in it is ErrNoBag.
func Open(path string) (fsys fs.FS, closer func() error, err error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, nil, err
	}
	if info.IsDir() {
		root, err := os.OpenRoot(path)
		if err != nil {
			return nil, nil, err
		}
		return root.FS(), root.Close, nil
	}
	z, err := openZip(path)
	if err != nil {
		return nil, nil, err
	}
	root, err := z.files()
	if err != nil {
		z.Close()
		return nil, nil, err
	}
	return root, z.Close, nil
}

// Payload reads the SHA-512 manifest of a bag that Seal wrote: payload path to
// sum; and the SHA-512 of the manifest itself.
func Payload(fsys fs.FS) (sums map[string]string, manifestSum string, err error) {
	data, err := readTag(fsys, "manifest-sha512.txt")
	if err != nil {
		return nil, "", err
	}
	sums = map[string]string{}
	d := declaration{1, 0, "UTF-8"}
	for line := range strings.Lines(string(data)) {
		if m := entryLine().FindStringSubmatch(strings.TrimRight(line, "\n")); m != nil {
			sums[strings.TrimPrefix(decodeName(m[3], d), "data/")] = strings.ToLower(m[1])
		}
	}
	sum := sha512.Sum512(data)
	return sums, hex.EncodeToString(sum[:]), nil
}

// ReadInfo reads the elements of a bag's bag-info.txt.
func ReadInfo(fsys fs.FS) ([]Info, error) {
	data, err := readTag(fsys, "bag-info.txt")
	if err != nil {
		return nil, err
	}
	return parseInfo(string(data))
}

// maxSmall bounds what ReadSmall reads: a spec is never larger.
const maxSmall = 1 << 20

// ReadSmall reads a small text file of a bag, such as its spec.
func ReadSmall(fsys fs.FS, name string) ([]byte, error) {
	f, err := ordinary.OpenIn(fsys, name)
	if err != nil {
		return nil, err
	}
	defer f.Close() // read only
	return io.ReadAll(io.LimitReader(f, maxSmall+1))
}

// bagName is the name of a bag of a piece: the serial, which has no point in it, and
// the revision. The owner's copies are others.
var bagName = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^([^.]+)(?:\.rev([0-9]+))?(\.zip)?$`) })

// Latest lists the latest bag of every piece in a shelf, by its serial in small
// letters; none for a folder that cannot be read. It looks at names and, of folders,
// at whether they are bags.
func Latest(shelf string) map[string]Revision {
	latest := map[string]Revision{}
	entries, err := os.ReadDir(shelf)
	if err != nil {
		return latest
	}
	for _, e := range entries {
		m := bagName().FindStringSubmatch(e.Name())
		if m == nil || e.IsDir() == (m[3] != "") || !e.IsDir() && !e.Type().IsRegular() {
			continue
		}
		n := 1
		if m[2] != "" {
			if n, err = strconv.Atoi(m[2]); err != nil || n < 2 {
				continue
			}
		}
		serial, path := strings.ToLower(m[1]), filepath.Join(shelf, e.Name())
		if was, ok := latest[serial]; ok && was.Number >= n {
			continue
		}
		if e.IsDir() && !hasDeclaration(path) {
			continue
		}
		latest[serial] = Revision{strings.TrimSuffix(e.Name(), m[3]), path, n}
	}
	return latest
}

// hasDeclaration reports whether a folder is a bag that Seal wrote.
func hasDeclaration(folder string) bool {
	_, err := os.Lstat(filepath.Join(folder, "manifest-sha512.txt"))
	return err == nil
}
