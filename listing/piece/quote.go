package piece

import (
	"path/filepath"
	"slabfolio/listing/piece/yamltext"
	"strings"
)

// Quote gives the faults of a piece's spec that were found after it was read,
// such as an outline that crosses itself, the line they point to, as it lies in
// the piece folder dir now. A file that cannot be read leaves them as they are.
func Quote(dir string, findings []Finding) {
	lines := map[string][]string{}
	for i := range findings {
		f := &findings[i]
		if f.Rank != Fault || f.Snippet != "" || f.Line < 1 || !IsSpec(f.File) {
			continue
		}
		if _, read := lines[f.File]; !read {
			data, err := readFile(filepath.Join(dir, f.File))
			if err != nil || len(data) > yamltext.MaxFile {
				data = nil
			}
			lines[f.File] = strings.Split(strings.TrimPrefix(string(data), "\ufeff"), "\n")
		}
		if at := lines[f.File]; f.Line <= len(at) {
			f.Snippet = showable(strings.TrimRight(at[f.Line-1], "\r"))
		}
	}
}
