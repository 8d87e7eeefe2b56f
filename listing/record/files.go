package record

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"slabfolio/listing/archive"
	"slabfolio/listing/ordinary"
	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/record/owner"
)

// gather lists the maker's own files. Hidden files, links and pieces inside the
// piece are passed over.
func (s *sealing) gather() error {
	found, err := photos.Find(s.j.Dir)
	if err != nil {
		return err
	}
	arranged, _ := photos.Arrange(s.j.Piece, found)
	s.roles = map[string]photos.Role{}
	for _, p := range arranged {
		s.roles[p.Rel] = p.Role
	}
	names, err := s.list()
	if err != nil {
		return err
	}
	if s.o.Owner {
		names = slices.DeleteFunc(names, func(rel string) bool { return !s.forOwner(rel) })
	}
	s.checkNames(names)
	for _, rel := range names {
		f := archive.File{Path: "piece/" + rel, Source: filepath.Join(s.j.Dir, filepath.FromSlash(rel))}
		if s.o.Owner && rel == s.specName() {
			data, err := ordinary.Read(f.Source, yamltext.MaxFile+1)
			if err != nil {
				return err
			}
			if f.Data, err = owner.Spec(rel, data, s.j.Workshop, s.ownerHolds); err != nil {
				return err
			}
			f.Source = ""
		}
		s.own = append(s.own, f)
	}
	if w := s.j.Workshop; w != nil && w.Dir != "" && !s.o.Owner {
		source, err := filepath.EvalSymlinks(filepath.Join(w.Dir, piece.WorkshopName)) // one file may serve several workshops
		if err != nil {
			return &archive.ChangedError{Path: piece.WorkshopName}
		}
		sum := sha256.Sum256(w.Text)
		s.own = append(s.own, archive.File{Path: piece.WorkshopName, Source: source, SHA256: hex.EncodeToString(sum[:])})
	}
	return nil
}

// list walks the piece folder.
func (s *sealing) list() (names []string, err error) {
	err = filepath.WalkDir(s.j.Dir, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(s.j.Dir, p)
		if err != nil {
			return err
		}
		rel = filepath.ToSlash(rel)
		switch {
		case rel == ".":
		case strings.HasPrefix(d.Name(), "."):
			if d.IsDir() {
				return fs.SkipDir
			}
		case d.IsDir():
			if holdsPieceOrBag(p) {
				return fs.SkipDir
			}
		case d.Type().IsRegular():
			names = append(names, rel)
		default:
			s.find(piece.Note, "archive.link", rel, "it is a link, not a file; links are not sealed", "put the file itself there if it belongs to the record")
		}
		return nil
	})
	return names, err
}

// holdsPieceOrBag reports whether a folder in the piece folder is another piece
// or a sealed bag, and so no part of this record.
func holdsPieceOrBag(dir string) bool {
	if _, err := os.Stat(filepath.Join(dir, "bagit.txt")); err == nil {
		return true
	}
	specs, err := piece.SpecsIn(dir)
	return err == nil && len(specs) > 0
}

// specName is the spec that is read.
func (s *sealing) specName() string {
	if at := s.j.Piece.Serial.At.File; at != "" {
		return at
	}
	return piece.SpecNames[0]
}

// forOwner reports whether a file goes into the owner's copy: the spec, without
// its private keys, and the photos that are published, or that those are made or
// measured from. Nobody can tell what else a maker keeps in the folder: notes and
// receipts stay out, process/ and papers/ whole, and the photos of the packing
// and those that are left out.
func (s *sealing) forOwner(rel string) bool {
	if rel == s.specName() {
		return true
	}
	role, photo := s.roles[rel]
	return photo && role != photos.Packed && role != photos.LeftOut
}

// ownerHolds reports whether the owner's copy holds the photo that the spec calls
// by this name.
func (s *sealing) ownerHolds(name string) bool {
	for rel := range s.roles {
		if (rel == name || strings.EqualFold(path.Base(rel), name)) && s.forOwner(rel) {
			return true
		}
	}
	return slices.ContainsFunc(s.j.Piece.Photos.Blends, func(b piece.Blend) bool { return b.Name.V == name })
}

// checkNames finds names that do not survive a journey to another system.
func (s *sealing) checkNames(names []string) {
	twins := map[string]string{}
	for _, rel := range names {
		if !utf8.ValidString(rel) {
			s.find(piece.Fault, "archive.name", strings.ToValidUTF8(rel, "?"), "its name is not readable text (UTF-8)", "rename the file; letters, digits, - and _ survive everywhere")
			continue
		}
		if problem := archive.NameProblem("piece/" + rel); problem != "" {
			s.find(piece.Fault, "archive.name", rel, fmt.Sprintf("its name %s, as some systems read it", problem), "rename the file; letters, digits, - and _ survive everywhere")
			continue
		}
		if archive.Encoded(rel) {
			s.find(piece.Note, "archive.name", rel, "its name holds a percent sign or a line end, which a list of checksums has to write another way; plain checksum tools do not find it by that", "rename the file if you want any tool to check it")
		}
		if notOnWindows(rel) {
			s.find(piece.Doubt, "archive.name", rel, "Windows has no files of that name, so the record cannot be copied there whole", "rename the file; letters, digits, - and _ survive everywhere")
		}
		key := strings.ToLower(norm.NFC.String(rel))
		if other, ok := twins[key]; ok {
			s.find(piece.Doubt, "archive.twins", rel, fmt.Sprintf("some systems take it and %q for one file: they differ only in case or in how accents are written", other), "rename one of them before the record is copied elsewhere")
		}
		twins[key] = rel
	}
}

// notOnWindows reports whether a path holds a name that Windows does not take: one
// of its own signs, a control character, a dot or space at the end, or a device's
// name. Microsoft, "Naming Files, Paths, and Namespaces".
func notOnWindows(rel string) bool {
	for part := range strings.SplitSeq(rel, "/") {
		stem, _, _ := strings.Cut(strings.ToUpper(part), ".")
		if strings.ContainsAny(part, `<>:"|?*`) || strings.ContainsFunc(part, func(r rune) bool { return r < ' ' }) || strings.HasSuffix(part, ".") || strings.HasSuffix(part, " ") ||
			slices.Contains([]string{"CON", "PRN", "AUX", "NUL"}, stem) || len(stem) == 4 && (strings.HasPrefix(stem, "COM") || strings.HasPrefix(stem, "LPT")) && stem[3] >= '1' && stem[3] <= '9' {
			return true
		}
	}
	return false
}
