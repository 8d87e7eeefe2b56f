package listing

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"hash/fnv"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"golang.org/x/sync/errgroup"

	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
)

// A Job is one piece of a run.
type Job struct {
	Dir      string          // as given, for reading and for messages
	Piece    *piece.Piece    // nil when the spec cannot be read
	Workshop *piece.Workshop // nil likewise
	Findings []piece.Finding // on the specs

	skip  bool                 // of another part
	specs map[string]inputFile // the specs as they were when they were read
	steps int                  // about how many there are: two for each photo
}

// Result is the result of a piece with what the spec says of its name.
func (j *Job) Result(o Outcome) Result {
	r := Result{Dir: j.Dir, Outcome: o}
	if j.Piece != nil {
		r.Serial, r.Title = j.Piece.Serial.V, j.Piece.Title.V
		r.Sold = j.Piece.Availability.V == "sold"
	}
	return r
}

// serial is the piece's own number; "" when the spec does not tell it.
func (j *Job) serial() string {
	if j.Piece == nil {
		return ""
	}
	return j.Piece.Serial.V
}

// findPieces fills the jobs with the piece folders at or below the paths. That
// there is none is a finding of the run.
func (b *Batch) findPieces() error {
	out, _ := filepath.Abs(b.opts.Out)
	dirs, findings, err := piece.Find(b.paths, func(path string) bool {
		abs, err := filepath.Abs(path)
		return err == nil && b.opts.Out != "" && abs == out
	})
	var pathErr *fs.PathError
	if errors.As(err, &pathErr) {
		return &PathError{pathErr.Path, pathErr.Err}
	}
	if err != nil {
		return err
	}
	if len(dirs) == 0 {
		findings = append(findings, piece.Finding{
			Rank: piece.Fault, Code: "run.no-piece",
			Message: fmt.Sprintf("no piece found in %s: no folder there holds a piece.yaml", strings.Join(b.paths, ", ")),
			Remedy:  layOneOut(b.paths),
		})
	}
	if len(findings) > 0 {
		b.results = append(b.results, Result{Outcome: LeftOut, Findings: findings})
	}
	for _, dir := range dirs {
		b.jobs = append(b.jobs, Job{Dir: dir})
	}
	return nil
}

// readSpecs reads every spec of the run, a few at once.
func (b *Batch) readSpecs(ctx context.Context) {
	var g errgroup.Group
	g.SetLimit(b.opts.Jobs)
	for i := range b.jobs {
		g.Go(func() error {
			b.jobs[i].read(ctx, b.opts.Today)
			return nil
		})
	}
	_ = g.Wait() // what went wrong stands in the findings
}

// read reads the piece's spec and the workshop's, and notes what they were like
// just before, so that a change while the run is on is noticed by the next.
func (j *Job) read(ctx context.Context, today piece.Date) {
	j.specs = map[string]inputFile{}
	specs, _ := piece.SpecsIn(j.Dir) // an error comes again when the spec is read
	for _, name := range append(specs, piece.SpecNames...) {
		j.specs[name] = j.lookAt(name)
	}
	w, fw, err := piece.ReadWorkshop(ctx, j.Dir)
	if err != nil {
		j.Findings = []piece.Finding{unreadable(piece.WorkshopName, err)}
		return
	}
	defaults := w.Defaults()
	defaults.Today = today
	p, fp, err := piece.ReadPiece(ctx, j.Dir, defaults)
	if err != nil {
		j.Findings = []piece.Finding{unreadable(piece.SpecNames[0], err)}
		return
	}
	if w.Dir != "" {
		name := filepath.Join(w.Dir, piece.WorkshopName)
		f := j.lookAt(name)
		if sum := sha256.Sum256(w.Text); f.SHA256 != hex.EncodeToString(sum[:]) {
			f.Size = notRead // it changed since
		}
		j.specs[name] = f
	}
	j.Workshop, j.Piece = w, p
	j.Findings = append(fp, fw...)
}

// unreadable says why a spec that is there could not be read: that costs its
// piece, and no other.
func unreadable(name string, err error) piece.Finding {
	f := piece.Finding{Rank: piece.Fault, Code: "spec.unreadable", File: name,
		Message: "the file cannot be read from the disk", Remedy: "copy it from where it was kept, and look at the disk"}
	switch {
	case errors.Is(err, fs.ErrPermission):
		f.Message, f.Remedy = "not allowed to read it", "look at who may read the file and its folder"
	case errors.Is(err, fs.ErrNotExist):
		f.Message, f.Remedy = "it went away while the run was on", "put the folder back, or run again without it"
	}
	return f
}

// reservedSerials are names that the output folder needs for itself.
var reservedSerials = []string{publicFolder, noLongerThere}

// checkSerials finds serials that stand twice, regardless of case: both would
// be written to the same place, so neither is.
func (b *Batch) checkSerials() {
	first := map[string]*Job{}
	for i := range b.jobs {
		j := &b.jobs[i]
		if j.serial() == "" {
			continue
		}
		key := strings.ToLower(j.serial())
		if slices.Contains(reservedSerials, key) {
			j.serialFault("is the name of a folder that slabfolio writes itself")
		}
		other, taken := first[key]
		if !taken {
			first[key] = j
			continue
		}
		j.serialFault("is also that of " + filepath.ToSlash(other.Dir))
		other.serialFault("is also that of " + filepath.ToSlash(j.Dir))
	}
}

func (j *Job) serialFault(why string) {
	at := j.Piece.Serial.At
	j.Findings = append(j.Findings, piece.Finding{
		Rank: piece.Fault, Code: "spec.serial-taken", File: at.File, Line: at.Line, Column: at.Column,
		Message: fmt.Sprintf("serial %q %s", j.Piece.Serial.V, why), Remedy: "give each piece a serial of its own; it names the output folder and the record",
	})
}

// choosePart leaves out the pieces of other parts, by a hash of the serial that
// does not change with the collection.
func (b *Batch) choosePart() {
	n := b.opts.Part.N
	if n < 2 {
		return
	}
	for i := range b.jobs {
		name := cmp.Or(b.jobs[i].serial(), filepath.Base(b.jobs[i].Dir))
		h := fnv.New32a()
		h.Write([]byte(strings.ToLower(name)))
		if int(h.Sum32()%uint32(n)) != b.opts.Part.I-1 {
			b.jobs[i].skip = true
			b.skipped++
		}
	}
}

// layOneOut tells how a piece comes about; where there are photos already, with them.
func layOneOut(paths []string) string {
	for _, p := range paths {
		if found, err := photos.Find(p); err == nil && len(found) > 0 {
			return fmt.Sprintf("there are photos in %s: slabfolio new OY-0001 --from %q lays out a piece with copies of them", filepath.ToSlash(p), filepath.ToSlash(p))
		}
	}
	return "slabfolio new FOLDER lays one out"
}
