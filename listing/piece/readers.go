package piece

import (
	"iter"
	"strings"
)

// ReaderOf returns who may read the key of piece.yaml at a path such as
// "materials.supplier" or "translations.de.title", without the numbers of
// entries. What the table does not know is the maker's alone.
func ReaderOf(path string) Reader {
	reader := Anyone
	for k := range keysAlong(path) {
		if k == nil {
			return Maker
		}
		reader = min(reader, k.Reader)
	}
	return reader
}

// namesFiles reports whether what stands behind the key at a path is the name of files,
// one or several, that are there.
func namesFiles(path string) bool {
	var last *Key
	for k := range keysAlong(path) {
		last = k
	}
	return last != nil && last.Type == typeFile && path != "photos.blends.name"
}

// NamesPhotos reports whether the key at a path only names photos of the piece's
// folder, before or behind its colon, so that it says no less of the rest without
// one of them. A plan photo and the frames of a blend cannot be done without.
func NamesPhotos(path string) bool {
	var last *Key
	for k := range keysAlong(path) {
		last = k
	}
	return last != nil && (last.Type == typeFile || last.Many == byFileName) && !strings.HasPrefix(path, "top.outline.") && !strings.HasPrefix(path, "photos.blends.")
}

// keysAlong yields the keys of a path from the outermost on; nil for one that the
// table does not know.
func keysAlong(path string) iter.Seq[*Key] {
	return func(yield func(*Key) bool) {
		keys := pieceKeys
		for rest := path; rest != ""; {
			name, after, _ := strings.Cut(rest, ".")
			k := find(keys, name)
			if !yield(k) || k == nil {
				return
			}
			switch keys, rest = k.Keys, after; k.Many {
			case byFileName: // names of files have points in them, and values behind them
				return
			case byLanguage:
				_, rest, _ = strings.Cut(rest, ".")
			}
		}
	}
}

// privacy is what the starter file says of a key that is not for everyone.
func (k *Key) privacy() string {
	switch {
	case k.Type != typeGroup: // its group says it
		return ""
	case k.Reader == Maker:
		return "; private"
	case k.Reader == Owner:
		return "; for the owner, never published"
	}
	return ""
}
