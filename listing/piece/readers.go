package piece

import "strings"

// ReaderOf returns who may read the key of piece.yaml at a path such as
// "materials.supplier", without the numbers of entries. What the table does not
// know is the maker's alone.
func ReaderOf(path string) Reader {
	keys, reader := pieceKeys, Anyone
	for rest := path; rest != ""; {
		name, after, _ := strings.Cut(rest, ".")
		k := find(keys, name)
		if k == nil {
			return Maker
		}
		reader, keys, rest = min(reader, k.Reader), k.Keys, after
		if k.Many == byFileName || k.Many == byLanguage {
			_, rest, _ = strings.Cut(rest, ".") // the name of the file or language
		}
	}
	return reader
}

// Paths lists the paths of all keys of piece.yaml that only those up to a reader
// may see: Maker lists what the maker alone may read, Owner also what only the
// owner may read beside.
func Paths(most Reader) []string {
	var paths []string
	var walk func(keys []Key, path string)
	walk = func(keys []Key, path string) {
		for i := range keys {
			where := join(path, keys[i].Name)
			if keys[i].Reader <= most {
				paths = append(paths, where)
			}
			walk(keys[i].Keys, where)
		}
	}
	walk(pieceKeys, "")
	return paths
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
