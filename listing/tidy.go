package listing

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"slabfolio/listing/page"
	"slabfolio/listing/piece"
	"slabfolio/listing/stage"
)

// noLongerThere is the folder in OUT for the outputs of pieces that are gone.
const noLongerThere = "no-longer-there"

// tidy finds outputs of pieces that are no longer below the paths of this run:
// deleted, moved away or renumbered. Asked to, it puts them away; else they stay,
// and a doubt names each. It returns the entries that are left.
func (b *Batch) tidy(entries []page.Entry) ([]page.Entry, []piece.Finding, error) {
	origins, c := b.origins(), b.present()
	var left []page.Entry
	var findings []piece.Finding
	for _, e := range entries {
		why := b.whyGone(e.Report.Public.Serial, c, origins)
		if why == "" {
			left = append(left, e)
			continue
		}
		away := b.mayBeAway(origins[strings.ToLower(e.Report.Public.Serial)])
		if !b.opts.Tidy || away {
			left = append(left, e)
			findings = append(findings, goneFinding(b.opts.Out, e.Folder, why, b.opts.Tidy && away))
			continue
		}
		to, err := b.moveAside(e.Folder)
		if err != nil {
			return nil, nil, err
		}
		delete(origins, strings.ToLower(e.Report.Public.Serial))
		findings = append(findings, piece.Finding{
			Rank: piece.Note, Code: "out.put-away", Message: fmt.Sprintf("%s: %s; its outputs are in %s now", e.Folder, why, to),
		})
	}
	b.storeOrigins(origins)
	return left, findings, nil
}

// goneFinding tells of outputs whose piece is gone; held says that --tidy was asked for
// and let them be.
func goneFinding(out, folder, why string, held bool) piece.Finding {
	f := piece.Finding{
		Rank: piece.Doubt, Code: "out.no-longer-there",
		Message: fmt.Sprintf("%s is still in %s and in the catalogue: %s", folder, filepath.ToSlash(out), why),
		Remedy:  "slabfolio prepare --tidy, over the whole collection, puts its outputs away",
	}
	if held {
		f.Message += ", and no other piece is where it was; a drive may not be plugged in, so nothing was put away"
		f.Remedy = fmt.Sprintf("plug the drive in and run again; if the piece is gone for good, move %s away yourself", filepath.ToSlash(filepath.Join(out, folder)))
	}
	return f
}

// mayBeAway reports whether a piece may be on a drive that is not plugged in: no other
// is at the path of this run that it came from, or the folder that it lay in is empty,
// as the place of a drive is. Of a piece from nobody knows where, any path may be its own.
func (b *Batch) mayBeAway(origin string) bool {
	if origin != "" {
		if beside, err := os.ReadDir(filepath.Dir(origin)); err == nil && len(beside) == 0 {
			return true
		}
	}
	for _, p := range b.paths {
		path := realPath(p)
		if origin != "" && !within(path, origin) {
			continue
		}
		if !slices.ContainsFunc(b.jobs, func(j Job) bool { return within(path, realPath(j.Dir)) }) {
			return true
		}
	}
	return false
}

// origins are the folders that the prepared pieces of OUT came from, by serial in
// lower case: those of earlier runs, as far as the cache knows, and of this one.
func (b *Batch) origins() map[string]string {
	origins := map[string]string{}
	if data, err := os.ReadFile(b.originsPath()); err == nil && json.Unmarshal(data, &origins) != nil {
		origins = map[string]string{} // losing it costs a finding, never truth
	}
	for i := range b.jobs {
		if serial := b.jobs[i].serial(); serial != "" {
			origins[strings.ToLower(serial)] = realPath(b.jobs[i].Dir)
		}
	}
	return origins
}

func (b *Batch) storeOrigins(origins map[string]string) {
	path := b.originsPath()
	if path == "" {
		return
	}
	if data, err := json.Marshal(origins); err == nil && os.MkdirAll(filepath.Dir(path), 0o755) == nil {
		_ = stage.ReplaceFile(path, data) // a cache that cannot be written is no fault
	}
}

// originsPath names the cache's list of origins for OUT; empty without a cache.
func (b *Batch) originsPath() string {
	if b.opts.Cache == "" {
		return ""
	}
	sum := sha256.Sum256([]byte(realPath(b.opts.Out)))
	return filepath.Join(b.opts.Cache, "outs", hex.EncodeToString(sum[:16])+".json")
}

// present is who is there in a run; it is taken once.
type present struct {
	serials map[string]bool // in lower case
	folders map[string]*Job // by their real path
	unread  bool            // some spec does not tell its serial
	whole   bool            // the run goes over all that one workshop.yaml is for
}

func (b *Batch) present() *present {
	c := &present{serials: map[string]bool{}, folders: map[string]*Job{}, whole: b.wholeCollection()}
	for i := range b.jobs {
		j := &b.jobs[i]
		c.folders[realPath(j.Dir)] = j
		if serial := j.serial(); serial != "" {
			c.serials[strings.ToLower(serial)] = true
		} else {
			c.unread = true
		}
	}
	return c
}

// whyGone says why the piece of a serial is taken to be gone; "" when it is
// there, when it belongs to folders that this run does not look at, or when
// nothing is known of it.
func (b *Batch) whyGone(serial string, c *present, origins map[string]string) string {
	key := strings.ToLower(serial)
	if c.serials[key] {
		return ""
	}
	origin, known := origins[key]
	job := c.folders[origin]
	switch {
	case job != nil && job.serial() != "":
		return fmt.Sprintf("its folder %s holds %s now", filepath.Base(job.Dir), job.serial())
	case job != nil:
		return "" // its spec cannot be read
	case known && b.looksAt(origin):
		if _, err := os.Stat(origin); err == nil {
			return "its folder " + filepath.Base(origin) + " holds no piece.yaml now"
		}
		return "its folder " + filepath.Base(origin) + " is no longer there"
	case !known && !c.unread && c.whole:
		return "no piece of that serial is in the collection"
	}
	return ""
}

// looksAt reports whether a folder is at or below a path of this run.
func (b *Batch) looksAt(dir string) bool {
	for _, p := range b.paths {
		if within(realPath(p), dir) {
			return true
		}
	}
	return false
}

// wholeCollection reports whether the run goes over all that one workshop.yaml
// is for.
func (b *Batch) wholeCollection() bool {
	for i := range b.jobs {
		if w := b.jobs[i].Workshop; w != nil && w.Dir != "" && !b.looksAt(realPath(w.Dir)) {
			return false
		} else if w != nil && w.Dir != "" {
			return true
		}
	}
	return false
}

// moveAside moves a piece's outputs to OUT/no-longer-there and returns where.
func (b *Batch) moveAside(folder string) (string, error) {
	lock, err := stage.TryLock(filepath.Join(b.opts.Out, "."+folder+stage.LockSuffix))
	if err != nil {
		return "", fmt.Errorf("put %s away: %w", folder, err)
	}
	defer func() { _ = lock.Release() }() // a lock file that stays is swept by the next run
	shelf := filepath.Join(b.opts.Out, noLongerThere)
	if err := os.MkdirAll(shelf, 0o755); err != nil {
		return "", err
	}
	if info, err := os.Lstat(shelf); err != nil || !info.IsDir() { // it may lead into a piece or a bag
		return "", fmt.Errorf("put %s away: %s is a link; move it away", folder, filepath.ToSlash(shelf))
	}
	for i := 1; ; i++ {
		name := folder
		if i > 1 {
			name = fmt.Sprintf("%s-%d", folder, i)
		}
		to := filepath.Join(b.opts.Out, noLongerThere, name)
		if _, err := os.Lstat(to); err == nil {
			continue
		}
		return filepath.ToSlash(to), os.Rename(filepath.Join(b.opts.Out, folder), to)
	}
}

// realPath is a path from the root with its links followed, as far as it exists.
func realPath(path string) string {
	abs, err := filepath.Abs(path)
	if err != nil {
		return path
	}
	if real, err := filepath.EvalSymlinks(abs); err == nil {
		return real
	}
	return abs
}

// within reports whether a path is dir or lies below it; both from the root.
func within(dir, path string) bool {
	rel, err := filepath.Rel(dir, path)
	return err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator))
}
