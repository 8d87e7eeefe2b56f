package listing

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"time"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"slabfolio/listing/piece"
)

// What is done with a photo.
const (
	rolePublish = "publish"
	rolePlan    = "plan"     // measured from, not shown
	rolePacked  = "packed"   // evidence of how it left, private
	roleLeftOut = "left out" // by photos.leave_out
	roleFrame   = "frame"    // goes into a blend
	roleRaw     = "raw"      // has a JPEG of the same name
)

// A source is one photo file of a piece.
type source struct {
	rel     string // relative to the piece folder, forward slashes
	name    string // base name: what the spec calls it
	size    int64
	mtime   time.Time
	role    string
	view    string
	caption string
}

// photoExtensions are names that promise a photo; what is inside is told by
// content. A file with another name is a photo if its first bytes say so.
var photoExtensions = []string{
	".jpg", ".jpeg", ".jpe", ".png", ".tif", ".tiff", ".webp", ".heic", ".heif", ".avif", ".gif", ".bmp", ".mpo",
	".dng", ".nef", ".cr2", ".cr3", ".arw", ".orf", ".rw2", ".raf", ".pef", ".srw",
}

// rawExtensions are camera raw files: beside a JPEG of the same name they are
// the same photo.
var rawExtensions = []string{".dng", ".nef", ".cr2", ".cr3", ".arw", ".orf", ".rw2", ".raf", ".pef", ".srw"}

// otherPictures are names of pictures that are not read: whoever puts one beside
// the photos may wait for it.
var otherPictures = []string{".jxl", ".jp2", ".ico", ".svg", ".psd", ".xcf", ".tga", ".eps", ".crw", ".x3f", ".3fr"}

// photoMagic are the first bytes of the formats that can be photos.
var photoMagic = []struct {
	at    int
	bytes string
}{
	{0, "\xff\xd8\xff"}, {0, "\x89PNG\r\n\x1a\n"}, {0, "GIF8"}, {0, "II*\x00"}, {0, "MM\x00*"}, {8, "WEBPVP8"},
	{4, "ftypheic"}, {4, "ftypheix"}, {4, "ftypmif1"}, {4, "ftypavif"}, {4, "ftyphevc"},
}

// findPhotos lists the photo files beside the spec and in photos/, by name,
// bytewise.
func findPhotos(dir string) ([]source, error) {
	var found []source
	for _, sub := range []string{"", "photos"} {
		if info, err := os.Lstat(filepath.Join(dir, sub)); sub != "" && (err != nil || !info.IsDir()) {
			continue // there is none, or it is a link or a file
		}
		entries, err := os.ReadDir(filepath.Join(dir, sub))
		if err != nil {
			return nil, err
		}
		for _, e := range entries {
			if !e.Type().IsRegular() || strings.HasPrefix(e.Name(), ".") || isSpecName(e.Name()) {
				continue
			}
			if s, ok := photoFile(dir, path.Join(sub, e.Name()), e); ok {
				found = append(found, s)
			}
		}
	}
	slices.SortFunc(found, func(a, b source) int {
		if c := strings.Compare(a.name, b.name); c != 0 {
			return c
		}
		return strings.Compare(a.rel, b.rel)
	})
	return found, nil
}

// passedOver says which links and oddities with a photo's name are no photos, and
// which pictures are of a kind that is not read, so that nobody waits for them.
func passedOver(dir string) []piece.Finding {
	var findings []piece.Finding
	for _, sub := range []string{"", "photos"} {
		if info, err := os.Lstat(filepath.Join(dir, sub)); sub != "" && (err != nil || !info.IsDir()) {
			continue
		}
		entries, _ := os.ReadDir(filepath.Join(dir, sub))
		for _, e := range entries {
			if ext := strings.ToLower(path.Ext(e.Name())); e.Type().IsRegular() && slices.Contains(otherPictures, ext) && !strings.HasPrefix(e.Name(), ".") {
				if _, ok := photoFile(dir, path.Join(sub, e.Name()), e); !ok {
					findings = append(findings, piece.Finding{
						Rank: piece.Note, Code: "photo.kind", File: path.Join(sub, e.Name()),
						Message: "pictures of the kind " + ext + " are not read, and it is passed over", Remedy: "export it as a JPEG, PNG or TIFF if it is to be shown",
					})
				}
				continue
			}
			named := slices.Contains(photoExtensions, strings.ToLower(path.Ext(e.Name()))) && !e.IsDir()
			if e.Type().IsRegular() || strings.HasPrefix(e.Name(), ".") || !named && (sub != "" || e.Name() != "photos" || e.IsDir()) {
				continue
			}
			what := "it is no ordinary file, and is passed over"
			if e.Type()&fs.ModeSymlink != 0 {
				what = "it is a link, and links are passed over"
			}
			findings = append(findings, piece.Finding{
				Rank: piece.Doubt, Code: "photo.link", File: path.Join(sub, e.Name()),
				Message: what, Remedy: "put the photo itself into the piece folder if it belongs there",
			})
		}
	}
	return findings
}

func isSpecName(name string) bool {
	return name == "piece.yaml" || name == "piece.yml" || name == "workshop.yaml" || name == "SHOTS.md"
}

func photoFile(dir, rel string, e fs.DirEntry) (source, bool) {
	info, err := e.Info()
	if err != nil {
		return source{}, false
	}
	s := source{rel: rel, name: e.Name(), size: info.Size(), mtime: info.ModTime(), role: rolePublish}
	if slices.Contains(photoExtensions, strings.ToLower(path.Ext(e.Name()))) {
		return s, true
	}
	f, _, err := openRegular(filepath.Join(dir, filepath.FromSlash(rel)))
	if err != nil {
		return source{}, false
	}
	defer f.Close()
	head := make([]byte, 16)
	n, _ := io.ReadFull(f, head)
	return s, looksLikePhoto(head[:n])
}

func looksLikePhoto(head []byte) bool {
	for _, m := range photoMagic {
		if len(head) > m.at && bytes.HasPrefix(head[m.at:], []byte(m.bytes)) {
			return true
		}
	}
	return false
}

// publishedName is the name of the nth published photo, without width and
// ending: its number, then its view or the file's own name.
func publishedName(n int, s source) string {
	word := slug(s.view)
	if word == "" {
		word = slug(stem(s.name))
	}
	if word == "" {
		word = "photo"
	}
	return fmt.Sprintf("%02d-%s", n, word)
}

// spelt writes the letters that do not come apart into a plain one and a sign as
// their languages do where they have to.
var spelt = strings.NewReplacer("ä", "ae", "ö", "oe", "ü", "ue", "ß", "ss", "æ", "ae", "œ", "oe", "ø", "o", "ł", "l", "đ", "d", "ð", "d", "þ", "th")

// slug keeps lower-case letters a to z, digits and single hyphens; 48 at most,
// so that names stay short enough for every file system. A letter with a sign on
// it loses the sign, however the name is composed.
func slug(s string) string {
	var b strings.Builder
	for _, r := range norm.NFD.String(spelt.Replace(norm.NFC.String(strings.ToLower(s)))) {
		switch {
		case unicode.Is(unicode.Mn, r):
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case r == '\'' || r == '’':
		default:
			if b.Len() > 0 && !strings.HasSuffix(b.String(), "-") {
				b.WriteByte('-')
			}
		}
		if b.Len() >= 48 {
			break
		}
	}
	return strings.Trim(b.String(), "-")
}
