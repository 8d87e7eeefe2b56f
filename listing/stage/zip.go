package stage

import (
	"archive/zip"
	"bytes"
	"io/fs"
	"maps"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// zipEpoch is the earliest time that a zip can say; no clock goes into outputs.
var zipEpoch = time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)

// Zip packs a folder under one root name, files in bytewise order. Photos
// are stored, text is deflated.
func Zip(dir fs.FS, root string) ([]byte, error) {
	files := map[string][]byte{}
	err := fs.WalkDir(dir, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || !d.Type().IsRegular() {
			return err
		}
		files[filepath.ToSlash(name)], err = fs.ReadFile(dir, name)
		return err
	})
	if err != nil {
		return nil, err
	}
	return ZipFiles(files, root)
}

// ZipFiles is Zip for files in memory, by name with forward slashes.
func ZipFiles(files map[string][]byte, root string) ([]byte, error) {
	var buf bytes.Buffer
	room := 0 // enough for all of it
	for name, data := range files {
		room += len(data) + 2*(len(root)+len(name)) + 256
	}
	buf.Grow(room)
	z := zip.NewWriter(&buf)
	for _, name := range slices.Sorted(maps.Keys(files)) {
		h := &zip.FileHeader{Name: path.Join(root, name), Modified: zipEpoch, Method: zip.Deflate}
		if slices.Contains([]string{".jpg", ".webp", ".png"}, strings.ToLower(path.Ext(name))) {
			h.Method = zip.Store
		}
		h.SetMode(0o644)
		w, err := z.CreateHeader(h)
		if err != nil {
			return nil, err
		}
		if _, err := w.Write(files[name]); err != nil {
			return nil, err
		}
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return buf.Bytes(), nil
}
