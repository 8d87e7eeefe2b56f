package archive

import (
	"bytes"
	"fmt"
	"io/fs"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"unicode/utf8"

	"golang.org/x/text/encoding/ianaindex"
)

// maxTagFile bounds what is read whole: a manifest of 300,000 files fits.
const maxTagFile = 64 << 20

// A declaration is what bagit.txt says.
type declaration struct {
	major, minor int
	encoding     string
}

func (d declaration) version() string { return fmt.Sprintf("%d.%d", d.major, d.minor) }

// since reports whether the bag follows this version or a later one.
func (d declaration) since(major, minor int) bool {
	return d.major > major || d.major == major && d.minor >= minor
}

var (
	strictLine = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^([A-Za-z-]+): (\S+)$`) })
	looseLine  = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^([A-Za-z-]+)\s*:\s*(\S+)\s*$`) })
	versionRE  = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^([0-9]+)\.([0-9]+)$`) })
)

// readDeclaration reads bagit.txt; what is wrong goes into v. It returns a
// usable declaration even then, so that the rest can be checked.
func readDeclaration(fsys fs.FS, v *Verdict) declaration {
	d := declaration{1, 0, "UTF-8"}
	data, err := readTag(fsys, "bagit.txt")
	if err != nil {
		v.fault(Declaration, "bagit.txt", "bagit.txt is missing or cannot be read, so nothing says that this is a bag")
		return d
	}
	if bytes.HasPrefix(data, []byte("\xef\xbb\xbf")) {
		v.fault(Declaration, "bagit.txt", "bagit.txt begins with a byte order mark, which the standard forbids")
		data = data[3:]
	}
	values := map[string]string{}
	strict := true
	lines := splitLines(string(data))
	for _, line := range lines {
		m := looseLine().FindStringSubmatch(line)
		if m == nil {
			v.fault(Declaration, "bagit.txt", fmt.Sprintf("bagit.txt has a line that is not \"Label: value\": %q", clip(line)))
			continue
		}
		strict = strict && strictLine().MatchString(line)
		values[m[1]] = m[2]
	}
	version := versionRE().FindStringSubmatch(values["BagIt-Version"])
	if version == nil {
		v.fault(Declaration, "bagit.txt", fmt.Sprintf("bagit.txt names no version such as 1.0, but %q", clip(values["BagIt-Version"])))
	} else {
		d.major, _ = strconv.Atoi(version[1])
		d.minor, _ = strconv.Atoi(version[2])
	}
	if !d.since(0, 93) || d.since(1, 1) {
		v.fault(Declaration, "bagit.txt", fmt.Sprintf("version %s of BagIt is not known here; 0.93 to 1.0 are", d.version()))
	}
	if values["Tag-File-Character-Encoding"] == "" {
		v.fault(Declaration, "bagit.txt", "bagit.txt does not say Tag-File-Character-Encoding")
	} else {
		d.encoding = values["Tag-File-Character-Encoding"]
	}
	if d.since(1, 0) && (!strict || len(lines) != 2) {
		v.fault(Declaration, "bagit.txt", "bagit.txt must be two lines, each a label, a colon, one space and the value")
	}
	return d
}

// readTag reads a tag file whole, within bounds.
func readTag(fsys fs.FS, name string) ([]byte, error) {
	info, err := fs.Stat(fsys, name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s is not a file", name)
	}
	if info.Size() > maxTagFile {
		return nil, fmt.Errorf("%s is too large for a tag file: %d bytes", name, info.Size())
	}
	return fs.ReadFile(fsys, name)
}

// readText reads a tag file in the bag's encoding.
func (d declaration) readText(fsys fs.FS, name string) (string, error) {
	data, err := readTag(fsys, name)
	if err != nil {
		return "", err
	}
	if strings.EqualFold(d.encoding, "UTF-8") || strings.EqualFold(d.encoding, "US-ASCII") {
		if bytes.HasPrefix(data, []byte("\xef\xbb\xbf")) {
			return "", fmt.Errorf("%s begins with a byte order mark, which the standard forbids", name)
		}
		if !utf8.Valid(data) {
			return "", fmt.Errorf("%s is not UTF-8, as bagit.txt says it is", name)
		}
		return string(data), nil
	}
	enc, err := ianaindex.IANA.Encoding(d.encoding)
	if err != nil || enc == nil {
		return "", fmt.Errorf("%s is in an encoding that is not known here: %q", name, d.encoding)
	}
	text, err := enc.NewDecoder().Bytes(data)
	if err != nil {
		return "", fmt.Errorf("%s is not in %s, as bagit.txt says it is: %w", name, d.encoding, err)
	}
	return strings.TrimPrefix(string(text), "\ufeff"), nil
}

// splitLines ends lines at LF, CR or CRLF; an empty last line is none.
func splitLines(s string) []string {
	s = strings.ReplaceAll(s, "\r\n", "\n")
	s = strings.ReplaceAll(s, "\r", "\n")
	lines := strings.Split(s, "\n")
	for len(lines) > 0 && strings.TrimSpace(lines[len(lines)-1]) == "" {
		lines = lines[:len(lines)-1]
	}
	return lines
}

// An Info is one element of bag-info.txt; labels may repeat, order counts.
type Info struct{ Label, Value string }

// parseInfo reads the elements of bag-info.txt; indented lines go on with the
// value before them.
func parseInfo(text string) ([]Info, error) {
	var out []Info
	for i, line := range splitLines(text) {
		if strings.TrimSpace(line) == "" {
			continue
		}
		if line[0] == ' ' || line[0] == '\t' {
			if len(out) == 0 {
				return nil, fmt.Errorf("line %d goes on with nothing", i+1)
			}
			out[len(out)-1].Value += " " + strings.TrimSpace(line)
			continue
		}
		label, value, ok := strings.Cut(line, ":")
		if !ok {
			return nil, fmt.Errorf("line %d is not \"Label: value\": %q", i+1, clip(line))
		}
		out = append(out, Info{strings.TrimSpace(label), strings.TrimSpace(value)})
	}
	return out, nil
}

func clip(s string) string {
	if r := []rune(s); len(r) > 60 {
		return string(r[:59]) + "…"
	}
	return s
}
