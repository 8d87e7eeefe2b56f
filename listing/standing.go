package listing

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"slabfolio/listing/page"
	"slabfolio/listing/piece"
	"slabfolio/listing/stage"
)

// A standing is what the cache keeps of the files that cover all pieces: what they
// were made from and what they were like then. While both are as they were, nothing
// has to be read or laid out again. Losing it costs time, never truth.
type standing struct {
	From  string   `json:"from"`  // as Batch.collectionFrom says it
	Made  string   `json:"made"`  // as Batch.collectionMade says it of Files
	Files []string `json:"files"` // in OUT, forward slashes
}

// standingPath names the cache's note of what covers all pieces of OUT; empty
// without a cache.
func (b *Batch) standingPath() string {
	origins := b.originsPath()
	if origins == "" {
		return ""
	}
	return strings.TrimSuffix(origins, ".json") + "-all.json"
}

// collectionStands reports whether what covers all pieces stands as it was made, of
// what there still is.
func (b *Batch) collectionStands(from string) bool {
	path := b.standingPath()
	if path == "" || b.opts.Force {
		return false
	}
	data, err := stage.ReadOrdinary(path)
	var s standing
	return err == nil && json.Unmarshal(data, &s) == nil && len(s.Files) > 0 && s.From == from && s.Made == b.collectionMade(s.Files)
}

// noteStanding notes what was just made, where nothing is to be said of it: what
// there is to say is to be said every time.
func (b *Batch) noteStanding(from string, files map[string][]byte, said []piece.Finding) {
	path := b.standingPath()
	if path == "" || len(said) > 0 {
		return
	}
	s := standing{From: from, Files: slices.Sorted(maps.Keys(files))}
	s.Made = b.collectionMade(s.Files)
	if data, err := json.Marshal(s); err == nil && os.MkdirAll(filepath.Dir(path), 0o755) == nil {
		_ = stage.ReplaceFile(path, data) // a cache that cannot be written is no fault
	}
}

// collectionFrom is a sum of all that what covers all pieces is made from: the
// program and its options, the workshop, which pieces this run has and which of them
// were left out, and the state of every prepared piece of OUT. Today is none of it: no
// paper knows the clock, and what a day changes in findings is among those left out.
func (b *Batch) collectionFrom() (string, error) {
	shop, sum := b.collectionWorkshop(), sha256.New()
	o := b.opts.withDefaults(shop)
	fmt.Fprintln(sum, o.Build, o.Version, o.Part, cacheKey(o))
	if shop != nil {
		fmt.Fprintf(sum, "%q %q\n", shop.Dir, shop.Text)
	}
	for _, p := range b.paths {
		fmt.Fprintf(sum, "path %q\n", realPath(p))
	}
	for i := range b.jobs {
		fmt.Fprintf(sum, "piece %q %q\n", b.jobs[i].Dir, b.jobs[i].serial())
	}
	left, err := json.Marshal(b.leftOut())
	if err != nil {
		return "", err
	}
	sum.Write(left)
	folders, err := os.ReadDir(b.opts.Out)
	if err != nil {
		return "", err
	}
	for _, f := range folders {
		if !f.IsDir() || strings.HasPrefix(f.Name(), ".") {
			continue
		}
		for _, name := range []string{reportName, page.PieceOverviewName, "listing/index.html"} {
			b.addState(sum, f.Name()+"/"+name)
		}
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}

// collectionMade is a sum of the state of files of OUT, and of where pieces came from.
func (b *Batch) collectionMade(files []string) string {
	sum := sha256.New()
	for _, name := range files {
		b.addState(sum, name)
	}
	origins, _ := os.ReadFile(b.originsPath()) // none is a state too
	sum.Write(origins)
	return hex.EncodeToString(sum.Sum(nil))
}

// addState adds what a file of OUT is like from without: what it is, its size, and
// when its content and anything of it changed.
func (b *Batch) addState(sum io.Writer, name string) {
	info, err := os.Lstat(filepath.Join(b.opts.Out, filepath.FromSlash(name)))
	if err != nil {
		fmt.Fprintf(sum, "%q none\n", name)
		return
	}
	fmt.Fprintf(sum, "%q %v %d %d %d\n", name, info.Mode(), info.Size(), info.ModTime().UnixNano(), changeTime(info).UnixNano())
}
