package listing

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"golang.org/x/sync/errgroup"
)

// A memory is what the cache keeps of one prepared piece: what went in, what
// came out, and what was found. Losing it costs time, never truth.
type memory struct {
	Build   string       `json:"build"`
	Options string       `json:"options"`
	Inputs  []seenFile   `json:"inputs"`
	Outputs []seenOutput `json:"outputs"`
	Result  Result       `json:"result"`
}

type seenFile struct {
	Name   string    `json:"name"`
	Size   int64     `json:"size"`
	Time   time.Time `json:"time"`
	SHA256 string    `json:"sha256"`
}

type seenOutput struct {
	Name string    `json:"name"`
	Size int64     `json:"size"`
	Time time.Time `json:"time"`
}

// memoryPath names the cache file for a piece folder and an output folder.
func (b *batch) memoryPath(j *job) string {
	if b.opts.Cache == "" {
		return ""
	}
	in, err1 := filepath.Abs(j.dir)
	out, err2 := filepath.Abs(b.opts.Out)
	if err1 != nil || err2 != nil {
		return ""
	}
	sum := sha256.Sum256([]byte(in + "\x00" + out))
	return filepath.Join(b.opts.Cache, "pieces", hex.EncodeToString(sum[:16])+".json")
}

// optionsKey is all that changes an output beside the inputs.
func optionsKey(o Options) string {
	return fmt.Sprintf("%s %s %s %s %d", o.Units, o.Paper, o.Lang, o.Codecs, o.MaxMegapixels)
}

// recall returns the earlier result when nothing has changed since.
func (b *batch) recall(j *job, o Options, inputs []string) (Result, bool) {
	path := b.memoryPath(j)
	if path == "" || o.Force || o.Only != "" {
		return Result{}, false
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return Result{}, false
	}
	var m memory
	if json.Unmarshal(data, &m) != nil || m.Build != o.Build || m.Options != optionsKey(o) || len(m.Inputs) != len(inputs) {
		return Result{}, false
	}
	for i, in := range m.Inputs {
		if in.Name != filepath.ToSlash(inputs[i]) || !unchanged(inputPath(j, inputs[i]), in) {
			return Result{}, false
		}
	}
	final := filepath.Join(b.opts.Out, m.Result.Serial)
	for _, out := range m.Outputs {
		info, err := os.Lstat(filepath.Join(final, filepath.FromSlash(out.Name)))
		if err != nil || info.Size() != out.Size || !info.ModTime().Equal(out.Time) {
			return Result{}, false
		}
	}
	r := m.Result
	r.Dir, r.Outcome = j.dir, UpToDate
	return r, len(m.Outputs) > 0
}

// unchanged trusts size and time; where they differ the content decides.
func unchanged(path string, in seenFile) bool {
	info, err := os.Stat(path)
	if err != nil || info.Size() != in.Size {
		return false
	}
	if info.ModTime().Equal(in.Time) {
		return true
	}
	if in.SHA256 == "" {
		return false
	}
	sum, err := hashFile(path)
	return err == nil && sum == in.SHA256
}

// remember writes the cache file; a cache that cannot be written is no fault.
func (b *batch) remember(j *job, o Options, inputs []seenFile, r Result) {
	path := b.memoryPath(j)
	if path == "" || o.Only != "" {
		return
	}
	m := memory{Build: o.Build, Options: optionsKey(o), Inputs: inputs, Result: r}
	final := filepath.Join(b.opts.Out, r.Serial)
	err := filepath.WalkDir(final, func(p string, d fs.DirEntry, err error) error {
		if err != nil || !d.Type().IsRegular() {
			return err
		}
		info, err := d.Info()
		if err == nil {
			m.Outputs = append(m.Outputs, seenOutput{slash(final, p), info.Size(), info.ModTime()})
		}
		return err
	})
	if err != nil {
		return
	}
	if data, err := json.Marshal(m); err == nil && os.MkdirAll(filepath.Dir(path), 0o755) == nil {
		_ = replaceFile(path, data)
	}
}

// see looks at the inputs as they are when the work begins, so that a change
// while it goes on is noticed by the next run. The specs were read before, and
// count as they were then.
func see(j *job, inputs []string, jobs int) []seenFile {
	seen := make([]seenFile, len(inputs))
	var g errgroup.Group
	g.SetLimit(max(jobs, 1))
	for i, name := range inputs {
		if f, ok := j.specs[name]; ok {
			seen[i] = f
			continue
		}
		g.Go(func() error {
			seen[i] = look(j, name)
			return nil
		})
	}
	_ = g.Wait() // looking has no error: what cannot be read is looked at again
	return seen
}

// look notes size, time and content of an input. One that cannot be read gets a
// size that no file has: the next run tries again.
func look(j *job, name string) seenFile {
	f := seenFile{Name: filepath.ToSlash(name), Size: -1}
	path := inputPath(j, name)
	info, err := os.Stat(path)
	if err != nil {
		return f
	}
	if info.Size() > maxPhotoFile {
		f.Size, f.Time = info.Size(), info.ModTime() // refused in any case; reading it all would take minutes
		return f
	}
	if f.SHA256, err = hashFile(path); err == nil {
		f.Size, f.Time = info.Size(), info.ModTime()
	}
	return f
}

// inputPath finds an input: a file of the piece folder, or the workshop's spec.
func inputPath(j *job, name string) string {
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(j.dir, filepath.FromSlash(name))
}

func hashFile(path string) (string, error) {
	f, _, err := openRegular(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}
