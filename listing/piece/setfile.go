package piece

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"slabfolio/listing/piece/yamltext"
)

// A Plan is what setting values would make of the spec of a piece folder. Nothing
// is written before Write.
type Plan struct {
	Dir      string
	File     string // the name of the spec
	Serial   string // as it was before
	Changes  []yamltext.Change
	Was      *Piece    // what it said before; never nil
	Will     *Piece    // what it says then; nil where it is refused
	Findings []Finding // that were not there before; a fault among them means that nothing can be written

	before, after []byte
}

// errChanged means that a file is no longer what it was when it was read.
var errChanged = errors.New("the file was changed by somebody else meanwhile; nothing was written")

// PlanSet reads the spec of a piece folder and puts values into a copy of it; days
// after today are doubted, unless it is zero. The error is a *SetError for what cannot
// be set, the context's, or one of the machine.
func PlanSet(ctx context.Context, dir string, today Date, assignments []*Assignment) (*Plan, error) {
	w, _, err := ReadWorkshop(ctx, dir) // its findings are check's business
	if err != nil {
		return nil, err
	}
	defaults := w.Defaults()
	defaults.Today = today
	specs, err := readable(dir)
	if err != nil {
		return nil, err
	}
	if len(specs) == 0 {
		return nil, fmt.Errorf("no piece.yaml in %s: %w", dir, fs.ErrNotExist)
	}
	p := &Plan{Dir: dir, File: specs[0]}
	if p.before, err = readFile(filepath.Join(dir, p.File)); err != nil {
		return nil, fmt.Errorf("read %s: %w", p.File, err)
	}
	was, _ := ParsePiece(p.File, p.before, defaults)
	p.Was, p.Serial = was, was.Serial.V
	usual := w.Currency.V
	if was.Price != nil && was.Price.Currency.Set() {
		usual = was.Price.Currency.V
	}
	p.after, p.Changes, p.Findings, err = setIn(ctx, p.File, p.before, defaults, forMoney(assignments, usual))
	if err == nil && p.after != nil {
		p.Will, _ = ParsePiece(p.File, p.after, defaults)
	}
	return p, err
}

// Refused reports whether a value would be a fault, so that nothing can be written.
func (p *Plan) Refused() bool { return p.after == nil }

// SetSuffix ends the names of specs that are being written; they begin with a dot.
// One is left where a program was ended in the middle of it.
const SetSuffix = ".being-set"

// Write puts the new spec in the place of the old one, in one step: whoever reads
// the file finds the one or the other. Its rights stay as they are. errChanged means that the file is not what was read. A file that nobody may
// write to is left alone.
func (p *Plan) Write() error {
	if p.Refused() || bytes.Equal(p.before, p.after) {
		return nil
	}
	name := filepath.Join(p.Dir, p.File)
	info, err := os.Lstat(name)
	if err != nil {
		return err
	}
	if !info.Mode().IsRegular() {
		return fmt.Errorf("%s: %w", filepath.ToSlash(name), errChanged)
	}
	if info.Mode().Perm()&0o222 == 0 {
		return fmt.Errorf("%s is write-protected, so nothing was written", filepath.ToSlash(name))
	}
	f, err := os.CreateTemp(filepath.Dir(name), "."+p.File+".*"+SetSuffix)
	if err != nil {
		return err
	}
	defer os.Remove(f.Name()) // gone already when all went well
	_, err = f.Write(p.after)
	if err := errors.Join(err, f.Chmod(info.Mode().Perm()), f.Sync(), f.Close()); err != nil {
		return fmt.Errorf("write %s: %w", p.File, err)
	}
	if now, err := readFile(name); err != nil || !bytes.Equal(now, p.before) {
		return errors.Join(fmt.Errorf("%s: %w", filepath.ToSlash(name), errChanged), err)
	}
	return os.Rename(f.Name(), name)
}
