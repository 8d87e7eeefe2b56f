package archive

import (
	"encoding/hex"
	"fmt"
	"io/fs"
	"path"
	"regexp"
	"strings"
	"sync"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// An entry is one line of a manifest.
type entry struct {
	path string // cleaned, as the bag's file system names it
	sum  string // lower-case hex
}

// A manifest is one manifest or tag manifest.
type manifest struct {
	name    string
	alg     string
	entries []entry
	sums    map[string]string // path to sum
}

var entryLine = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^([0-9A-Fa-f]+)[ \t]+(\*?)(.*\S.*)$`) })

// readManifest reads a manifest. Entries that lead out of the bag are reported
// and dropped, so that no path in a bag is ever followed outside it.
func readManifest(fsys fs.FS, d declaration, name, alg string, tag bool, v *Verdict) *manifest {
	m := &manifest{name: name, alg: alg, sums: map[string]string{}}
	text, err := d.readText(fsys, name)
	if err != nil {
		v.fault(Manifest, name, err.Error())
		return m
	}
	relative, starred := 0, 0
	for i, line := range splitLines(text) {
		if strings.TrimSpace(line) == "" {
			continue
		}
		parts := entryLine().FindStringSubmatch(line)
		if parts == nil {
			v.fault(Manifest, name, fmt.Sprintf("line %d of %s is not a checksum and a name: %q", i+1, name, clip(line)))
			continue
		}
		if want := algorithms[alg]; want != nil && len(parts[1]) != hex.EncodedLen(want().Size()) {
			v.fault(Manifest, name, fmt.Sprintf("line %d of %s has a checksum of the wrong length for %s", i+1, name, alg))
			continue
		}
		file := decodeName(parts[3], d)
		if parts[2] == "*" {
			starred++
		}
		if strings.HasPrefix(file, "./") {
			relative++
		}
		clean, problem := safeName(file, tag)
		if problem != "" {
			v.fault(Outside, file, fmt.Sprintf("line %d of %s %s: %q", i+1, name, problem, clip(file)))
			continue
		}
		m.add(entry{clean, strings.ToLower(parts[1])}, d, v)
	}
	if starred > 0 {
		v.warn(Manifest, name, name+" marks names with *, as a checksum tool does; the standard has no such mark")
	}
	if relative > 0 {
		v.warn(Manifest, name, name+" writes ./ before names; the standard does not")
	}
	return m
}

// add takes an entry; a file listed twice is a fault, before 1.0 only where the
// two differ.
func (m *manifest) add(e entry, d declaration, v *Verdict) {
	earlier, ok := m.sums[e.path]
	switch {
	case !ok:
		m.entries = append(m.entries, e)
		m.sums[e.path] = e.sum
	case earlier == e.sum && !d.since(1, 0):
		v.warn(Twice, e.path, fmt.Sprintf("%s lists %q twice", m.name, clip(e.path)))
	default:
		v.fault(Twice, e.path, fmt.Sprintf("%s lists %q twice", m.name, clip(e.path)))
	}
}

var (
	encodedNew = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`%(0[AaDd]|25)`) })
	encodedOld = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`%0[AaDd]`) })
)

// decodeName undoes the percent-encoding of line ends, and since 1.0 of the
// percent sign itself; nothing else is encoded.
func decodeName(name string, d declaration) string {
	re := encodedOld
	if d.since(1, 0) {
		re = encodedNew
	}
	return re().ReplaceAllStringFunc(name, func(s string) string {
		switch strings.ToUpper(s) {
		case "%0A":
			return "\n"
		case "%0D":
			return "\r"
		}
		return "%"
	})
}

// encodeName is the reverse of decodeName for a 1.0 bag.
func encodeName(name string) string {
	return strings.NewReplacer("%", "%25", "\n", "%0A", "\r", "%0D").Replace(name)
}

// Encoded reports whether a manifest has to write a name another way than it is.
func Encoded(name string) bool { return encodeName(name) != name }

// NameProblem says why a path cannot stand in the payload of a bag, as in "leads
// out of the bag"; "" when it can.
func NameProblem(path string) string {
	if strings.Contains(path, `\`) {
		return "holds a backslash, which other systems take for a folder"
	}
	clean, problem := safeName("data/"+path, false)
	if problem == "" && (clean != "data/"+path || !utf8.ValidString(path)) {
		return "is no name of a file"
	}
	return problem
}

var drive = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[A-Za-z]:`) })

// safeName cleans a name of a manifest; it says what is wrong with one that
// leads out of the bag, or not to where it should.
func safeName(name string, tag bool) (clean, problem string) {
	switch {
	case strings.HasPrefix(name, "/"), strings.HasPrefix(name, `\`), drive().MatchString(name), strings.HasPrefix(name, "~"), strings.ContainsRune(name, 0):
		return "", "leads out of the bag"
	}
	for _, part := range strings.FieldsFunc(name, func(r rune) bool { return r == '/' || r == '\\' }) {
		if part == ".." {
			return "", "leads out of the bag"
		}
	}
	clean = path.Clean(name)
	if !fs.ValidPath(clean) || clean == "." {
		return "", "is no name of a file"
	}
	inside := strings.HasPrefix(clean, "data/")
	if !tag && !inside {
		return "", "names a file that is not in data/"
	}
	if tag && inside {
		return "", "names a file of the payload"
	}
	return clean, ""
}

// folded is a name without the differences that some systems make of their own
// accord: case, and how accents are composed.
func folded(name string) string { return strings.ToLower(norm.NFC.String(name)) }

// litter are files that systems strew and clear away by themselves.
func litter(name string) bool {
	switch strings.ToLower(path.Base(name)) {
	case ".ds_store", "thumbs.db", "desktop.ini":
		return true
	}
	return false
}
