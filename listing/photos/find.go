// Package photos knows the photo files of a piece folder: which there are, in
// what role and order they stand, and what is said of them to the maker. It
// changes no pixel.
package photos

import (
	"bytes"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"slabfolio/listing/ordinary"
	"slabfolio/listing/piece"
)

// A Role is what is done with a photo.
type Role string

// The roles.
const (
	Publish Role = "publish"
	Plan    Role = "plan"     // measured from, not shown
	Packed  Role = "packed"   // evidence of how it left, private
	LeftOut Role = "left out" // by photos.leave_out
	Frame   Role = "frame"    // goes into a blend
	Raw     Role = "raw"      // has a JPEG of the same name
)

// hidden says in the report why a photo of the role is not published.
var hidden = map[Role]string{
	Plan:    "measured from, not published",
	Packed:  "how it was packed: private",
	LeftOut: "left out by photos.leave_out",
	Frame:   "a frame of a blend",
	Raw:     "the camera's raw file of a photo that is published",
}

// A Source is one photo file of a piece.
type Source struct {
	Rel     string // relative to the piece folder, forward slashes
	Name    string // base name: what the spec calls it
	Role    Role
	View    string // of piece.Views; empty when it is not known
	Caption string
	Named   bool      // under photos.main or photos.order
	Blend   *Blending // it is made of frames and no file; nil for a file
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

// Find lists the photo files beside the spec and in photos/, by name,
// bytewise.
func Find(dir string) ([]Source, error) {
	var found []Source
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
	slices.SortFunc(found, func(a, b Source) int {
		if c := strings.Compare(a.Name, b.Name); c != 0 {
			return c
		}
		return strings.Compare(a.Rel, b.Rel)
	})
	return found, nil
}

// PassedOver says which links and oddities with a photo's name are no photos, and
// which pictures are of a kind that is not read, so that nobody waits for them.
func PassedOver(dir string) []piece.Finding {
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

// Deeper notes the folders of a piece that hold photos where none are looked for: photos
// stand beside the spec or in photos/. The record takes them all the same.
func Deeper(dir string) []piece.Finding {
	var findings []piece.Finding
	look := func(rel string) {
		entries, _ := os.ReadDir(filepath.Join(dir, filepath.FromSlash(rel)))
		n := 0
		for _, e := range entries {
			if isSpecName(e.Name()) {
				return // a piece of its own
			}
			if e.Type().IsRegular() && !strings.HasPrefix(e.Name(), ".") && slices.Contains(photoExtensions, strings.ToLower(path.Ext(e.Name()))) {
				n++
			}
		}
		if n > 0 {
			findings = append(findings, piece.Finding{
				Rank: piece.Note, Code: "photo.deeper", File: rel,
				Message: "the photos in this folder are not shown: photos stand beside piece.yaml or in photos/, and no deeper",
				Remedy:  "move those that are to be shown; photos of the making belong into process/, which says so by its name",
			})
		}
	}
	for _, sub := range []string{"", "photos"} {
		if info, err := os.Lstat(filepath.Join(dir, sub)); err != nil || !info.IsDir() {
			continue
		}
		entries, _ := os.ReadDir(filepath.Join(dir, sub))
		for _, e := range entries {
			private := slices.Contains([]string{"process", "papers"}, strings.ToLower(e.Name()))
			if e.IsDir() && !strings.HasPrefix(e.Name(), ".") && (sub != "" || e.Name() != "photos" && !private) {
				look(path.Join(sub, e.Name()))
			}
		}
	}
	return findings
}

func isSpecName(name string) bool {
	return piece.IsSpec(name) || name == "workshop.yaml" || name == "SHOTS.md"
}

func photoFile(dir, rel string, e fs.DirEntry) (Source, bool) {
	s := Source{Rel: rel, Name: e.Name(), Role: Publish}
	if slices.Contains(photoExtensions, strings.ToLower(path.Ext(e.Name()))) {
		return s, true
	}
	f, _, err := ordinary.Open(filepath.Join(dir, filepath.FromSlash(rel)))
	if err != nil {
		return Source{}, false
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
