package listing

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"golang.org/x/sync/errgroup"

	"slabfolio/listing/ordinary"
	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
	"slabfolio/listing/stage"
)

// A cacheEntry is what the cache keeps of one prepared piece: what went in, what
// came out, and what was found. Losing it costs time, never truth.
type cacheEntry struct {
	Build   string       `json:"build"`
	Options string       `json:"options"`
	Inputs  []inputFile  `json:"inputs"`
	Outputs []outputFile `json:"outputs"`
	Result  Result       `json:"result"`
}

// An inputFile is a file that the outputs depend on, as it was when it was read.
type inputFile struct {
	Name    string    `json:"name"`
	Size    int64     `json:"size"` // notRead when it could not be read
	Time    time.Time `json:"time"`
	Changed time.Time `json:"changed,omitzero"` // by the system's own account; zero where it has none
	SHA256  string    `json:"sha256"`
}

// An outputFile is a file of the output folder, as it was when it was put there.
type outputFile struct {
	Name string    `json:"name"`
	Size int64     `json:"size"`
	Time time.Time `json:"time"`
}

// notRead is a size that no file has: the next run looks at the input again.
const notRead = -1

// cachePath names the cache entry of a piece folder and an output folder; empty
// when there is no cache.
func (b *Batch) cachePath(j *Job) string {
	if b.opts.Cache == "" {
		return ""
	}
	in, err1 := filepath.Abs(j.Dir)
	out, err2 := filepath.Abs(b.opts.Out)
	if err1 != nil || err2 != nil {
		return ""
	}
	sum := sha256.Sum256([]byte(in + "\x00" + out))
	return filepath.Join(b.opts.Cache, "pieces", hex.EncodeToString(sum[:16])+".json")
}

// cacheKey is all that changes an output beside the inputs.
func cacheKey(o Options) string {
	return fmt.Sprintf("%s %s %q %s %d", o.Units, o.Paper, o.Langs, o.Codecs, o.MaxMegapixels)
}

// lookup returns the earlier result when nothing has changed since.
func (b *Batch) lookup(j *Job, inputs []string) (Result, bool) {
	path := b.cachePath(j)
	if path == "" || b.opts.Force || b.opts.Only != "" {
		return Result{}, false
	}
	data, err := stage.ReadOrdinary(path)
	if err != nil {
		return Result{}, false
	}
	var e cacheEntry
	if json.Unmarshal(data, &e) != nil {
		return Result{}, false
	}
	ok, touched := b.current(&e, j, inputs)
	if !ok {
		return Result{}, false
	}
	if touched {
		e.write(path) // so that the next run need not read them again
	}
	r := e.Result
	r.Dir, r.Outcome = j.Dir, UpToDate
	return r, true
}

// current reports whether an entry still tells of the inputs and outputs as they
// are, and whether inputs had to be read for that and were noted anew.
func (b *Batch) current(e *cacheEntry, j *Job, inputs []string) (ok, touched bool) {
	if e.Build != b.opts.Build || e.Options != cacheKey(b.opts.withDefaults(j.Workshop))+b.sealKey(j) || len(e.Inputs) != len(inputs) || len(e.Outputs) == 0 {
		return false, false
	}
	final := filepath.Join(b.opts.Out, e.Result.Serial)
	for _, out := range e.Outputs {
		info, err := os.Lstat(filepath.Join(final, filepath.FromSlash(out.Name)))
		if err != nil || info.Size() != out.Size || !info.ModTime().Equal(out.Time) {
			return false, false
		}
	}
	for i := range e.Inputs {
		in := &e.Inputs[i]
		if in.Name != filepath.ToSlash(inputs[i]) {
			return false, false
		}
		info, err := os.Stat(j.inputPath(inputs[i]))
		switch {
		case err != nil || info.Size() != in.Size:
			return false, false
		case info.ModTime().Equal(in.Time) && changeTime(info).Equal(in.Changed):
			continue // as it was last seen
		}
		now := j.lookAt(inputs[i])
		if in.SHA256 == "" || now.SHA256 != in.SHA256 {
			return false, false
		}
		*in, touched = now, true
	}
	return true, touched
}

// store makes the cache entry of a piece that was just prepared.
func (b *Batch) store(j *Job, inputs []inputFile, r Result) {
	path := b.cachePath(j)
	if path == "" || b.opts.Only != "" {
		return
	}
	e := cacheEntry{Build: b.opts.Build, Options: cacheKey(b.opts.withDefaults(j.Workshop)) + b.sealKey(j), Inputs: inputs, Result: r}
	final := filepath.Join(b.opts.Out, r.Serial)
	for _, name := range stage.Written(final) {
		info, err := os.Lstat(filepath.Join(final, filepath.FromSlash(name)))
		if err != nil {
			return
		}
		e.Outputs = append(e.Outputs, outputFile{name, info.Size(), info.ModTime()})
	}
	e.write(path)
}

// write writes the entry; a cache that cannot be written is no fault.
func (e *cacheEntry) write(path string) {
	if data, err := json.Marshal(e); err == nil && os.MkdirAll(filepath.Dir(path), 0o755) == nil {
		_ = stage.ReplaceFile(path, data)
	}
}

// inputNames lists what the outputs depend on: the specs and every photo.
func (j *Job) inputNames() ([]string, error) {
	found, err := photos.Find(j.Dir)
	if err != nil {
		return nil, err
	}
	var names []string
	if specs, err := piece.SpecsIn(j.Dir); err != nil {
		return nil, err
	} else if len(specs) > 0 {
		names = append(names, specs[0])
	}
	if j.Workshop != nil && j.Workshop.Dir != "" {
		abs, err := filepath.Abs(filepath.Join(j.Workshop.Dir, piece.WorkshopName))
		if err != nil {
			return nil, err
		}
		names = append(names, abs)
	}
	for _, s := range found {
		names = append(names, s.Rel)
	}
	return names, nil
}

// inputs looks at the inputs as they are when the work begins, so that a change
// while it goes on is noticed by the next run. The specs were read before, and
// count as they were then.
func (j *Job) inputs(names []string, jobs int) []inputFile {
	files := make([]inputFile, len(names))
	var g errgroup.Group
	g.SetLimit(max(jobs, 1))
	for i, name := range names {
		if f, ok := j.specs[name]; ok {
			files[i] = f
			continue
		}
		g.Go(func() error {
			files[i] = j.lookAt(name)
			return nil
		})
	}
	_ = g.Wait() // looking has no error: what cannot be read is looked at again
	return files
}

// lookAt notes size, time and content of an input.
func (j *Job) lookAt(name string) inputFile {
	f := inputFile{Name: filepath.ToSlash(name), Size: notRead}
	path := j.inputPath(name)
	info, err := os.Stat(path)
	if err != nil {
		return f
	}
	if info.Size() > photos.MaxFile {
		f.Size, f.Time, f.Changed = info.Size(), info.ModTime(), changeTime(info) // refused in any case; reading it all would take minutes
		return f
	}
	if f.SHA256, err = ordinary.Hash(path); err == nil {
		f.Size, f.Time, f.Changed = info.Size(), info.ModTime(), changeTime(info)
	}
	return f
}

// inputPath finds an input: a file of the piece folder, or the workshop's spec.
func (j *Job) inputPath(name string) string {
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(j.Dir, filepath.FromSlash(name))
}
