// Package record seals pieces: what of a piece goes into a bag, which revision it
// is, and what of it the owner may see.
package record

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"

	"slabfolio/listing"
	"slabfolio/listing/archive"
	"slabfolio/listing/ordinary"
	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
	"slabfolio/listing/stage"
)

// Options are the settings of Archive.
type Options struct {
	listing.Options
	To       string // the shelf: a folder for the bags
	Owner    bool   // the copy that goes with the piece, without private matters
	Zip      bool   // one file a bag
	Today    string // YYYY-MM-DD
	Software string // name and version, for the record
}

// Archive seals every piece at or below the paths in a bag on the shelf. A bag
// that is there is never touched; a piece that changed makes the next revision.
// One run at a time works on a shelf. The error is for what stopped the run; the
// summary tells of what was sealed before.
func Archive(ctx context.Context, paths []string, opts Options) (sum *listing.Summary, err error) {
	o := opts.Options
	o.Out, o.Only, o.Cache = filepath.Join(opts.To, preparedHere), "", ""
	b, err := listing.NewBatch(ctx, paths, o)
	if err != nil {
		return nil, err
	}
	if err := b.CheckApart(opts.To, "the shelf", "choose another folder with --to"); err != nil {
		return nil, err
	}
	if err := os.MkdirAll(opts.To, 0o755); err != nil {
		return nil, err
	}
	_, alone := os.Lstat(filepath.Join(opts.To, shelfLock)) // a killed run leaves its lock's file
	lock, err := stage.TryLock(filepath.Join(opts.To, shelfLock))
	if err != nil {
		return nil, fmt.Errorf("the shelf %s: %w", filepath.ToSlash(opts.To), err)
	}
	defer func() { err = errors.Join(err, lock.Release()) }()
	if alone == nil {
		if err := errors.Join(archive.Sweep(opts.To), os.RemoveAll(o.Out)); err != nil {
			return nil, err
		}
	} else if info, err := os.Lstat(o.Out); err == nil && !(info.IsDir() && os.Remove(o.Out) == nil) {
		return nil, &listing.PathError{Path: filepath.ToSlash(opts.To), Err: fmt.Errorf("it holds %s, which no run left there; move that away, or choose another folder with --to", preparedHere)}
	}
	defer os.RemoveAll(o.Out)
	if err := b.OpenOut(); err != nil {
		return nil, err
	}
	err = b.Each(ctx, func(ctx context.Context, j *listing.Job) (listing.Result, error) { return seal(ctx, b, j, opts) })
	sum = b.Summary()
	sum.Out = opts.To
	return sum, err
}

// preparedHere is where, on the shelf, the outputs wait to be sealed.
const preparedHere = ".slabfolio-prepared"

// shelfLock is held by the run that works on a shelf.
const shelfLock = ".shelf" + stage.LockSuffix

// A sealing is one piece on its way into a bag.
type sealing struct {
	b        *listing.Batch
	j        *listing.Job
	o        Options
	roles    map[string]photos.Role // of the photos, by their path in the piece folder
	own      []archive.File         // the maker's own files
	previous *archive.Revision
	prevSum  string // SHA-512 of its manifest; empty when it cannot be read
	revision int
	base     string // of the bag's name
	result   listing.Result
}

// seal makes the bag of one piece.
func seal(ctx context.Context, b *listing.Batch, j *listing.Job, o Options) (listing.Result, error) {
	s := &sealing{b: b, j: j, o: o, result: j.Result(listing.LeftOut)}
	if listing.Faulty(j.Findings) {
		s.result.Findings = listing.ByRank(j.Findings)
		return s.result, nil
	}
	err := s.do(ctx)
	var changed *archive.ChangedError
	if errors.As(err, &changed) {
		s.find(piece.Fault, "archive.changed", strings.TrimPrefix(changed.Path, "piece/"), changed.Error(), "wait until nothing writes to it, then run archive again")
		err = nil
	}
	s.result.Findings = listing.ByRank(s.result.Findings)
	return s.result, err
}

// do takes a piece from its folder into a bag, step by step.
func (s *sealing) do(ctx context.Context) error {
	if err := s.gather(); err != nil {
		return err
	}
	if listing.Faulty(s.result.Findings) {
		return nil
	}
	unchanged, err := s.compare(ctx)
	if err != nil {
		return err
	}
	if unchanged {
		s.result.Outcome = listing.AlreadySealed
		if s.o.Zip && !strings.HasSuffix(s.previous.Path, ".zip") {
			s.find(piece.Note, "archive.form", "", fmt.Sprintf("nothing changed since it was sealed as the folder %s, so no zip file of it was made", filepath.Base(s.previous.Path)),
				"the folder holds the same; for a zip file too, seal into another DIR")
		}
		for _, role := range s.roles {
			if role == photos.Publish {
				s.result.Photos++
			}
		}
		return nil
	}
	name := archive.RevisionName(s.base, s.revision)
	if s.taken(name) {
		return nil
	}
	bag := &archive.Bag{Name: name, Zip: s.o.Zip, Files: slices.Clone(s.own)}
	ready, err := s.prepare(ctx, bag)
	if err != nil || !ready {
		return err
	}
	if _, err := archive.Seal(ctx, s.o.To, bag); err != nil {
		return err
	}
	s.result.Outcome, s.result.Bag = listing.Sealed, bag.Name
	return nil
}

// taken tells of a stranger's folder or file where the bag would go.
func (s *sealing) taken(name string) bool {
	file := name
	if s.o.Zip {
		file += ".zip"
	}
	if _, err := os.Lstat(filepath.Join(s.o.To, file)); err != nil {
		return false
	}
	s.find(piece.Fault, "archive.taken", "", fmt.Sprintf("its bag would be %s, but that is there already and is no bag", filepath.ToSlash(filepath.Join(s.o.To, file))), "choose another folder with --to, or move that one away")
	return true
}

func (s *sealing) find(rank piece.Rank, code, file, message, remedy string) {
	s.result.Findings = append(s.result.Findings, piece.Finding{Rank: rank, Code: code, File: file, Message: message, Remedy: remedy})
}

// prepare makes what is sealed beside the maker's own files; false when the
// piece cannot be done.
func (s *sealing) prepare(ctx context.Context, bag *archive.Bag) (bool, error) {
	if err := s.pin(bag); err != nil {
		return false, err
	}
	if err := s.checkSpecUnchanged(ctx); err != nil {
		return false, err
	}
	made, err := s.b.Make(ctx, s.j)
	if err != nil {
		return false, err
	}
	s.result.Findings = append(s.result.Findings, made.Result.Findings...)
	if made.Result.Outcome == listing.LeftOut {
		return false, nil
	}
	s.result.Photos = made.Result.Photos
	if err := s.addPrepared(bag); err != nil {
		return false, err
	}
	if err := s.addReadable(ctx, bag, made.Imaging); err != nil {
		return false, err
	}
	s.describe(bag, &made)
	if s.o.Owner {
		return true, s.lookForSecrets(bag)
	}
	return true, nil
}

// pin hashes what the outputs are made from: the spec and the photos. When they
// are sealed they must still be the same.
func (s *sealing) pin(bag *archive.Bag) error {
	for i, f := range bag.Files {
		rel := strings.TrimPrefix(f.Path, "piece/")
		if _, photo := s.roles[rel]; f.Source == "" || f.SHA256 != "" || !photo && rel != s.specName() {
			continue
		}
		sum, err := ordinary.Hash(f.Source)
		if errors.Is(err, fs.ErrNotExist) || errors.Is(err, ordinary.Err) {
			return &archive.ChangedError{Path: f.Path}
		}
		if err != nil {
			return err
		}
		bag.Files[i].SHA256 = sum
	}
	return nil
}

// checkSpecUnchanged makes sure that the spec which the outputs are made from is the one
// that is sealed beside them.
func (s *sealing) checkSpecUnchanged(ctx context.Context) error {
	now, _, err := piece.ReadPiece(ctx, s.j.Dir, s.j.Workshop.Defaults())
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if err != nil || !reflect.DeepEqual(now, s.j.Piece) {
		return &archive.ChangedError{Path: "piece/" + s.specName()}
	}
	return nil
}
