package photos

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"path/filepath"
	"slabfolio/listing/ordinary"
	"strings"
)

// errNotSame means that a copy does not hold what was read from the card.
var errNotSame = errors.New("what was written is not what was read; the card, its reader or the disk may be failing")

// errUnread means that the card did not give a file.
var errUnread = errors.New("it cannot be read")

// A CopyResult says what became of a card's photos.
type CopyResult struct {
	Photos  int      // copied
	Raws    int      // raw files copied beside them
	Renamed []string // new names of files whose own was taken by another
	There   int      // photos that were there already, byte for byte
	Failed  []string // files that the card did not give whole, and that are not copied
	Bytes   int64
}

// Copy copies the photos of the card into a folder, which has to be there, each file
// as it is and checked against what was read by SHA-256. Nothing is overwritten: a
// name that is taken (also in standing, the folders where the files will be) by other
// bytes makes way. The card is only read; a file that it does not give whole
// costs that file alone. The error is the context's, or one of the machine.
func (c *Card) Copy(ctx context.Context, to string, standing []string, progress func(done int)) (*CopyResult, error) {
	k := &copier{ctx: ctx, card: c.Dir, to: to, standing: standing, taken: map[string]string{}, result: &CopyResult{}}
	if err := k.lookAround(); err != nil {
		return nil, err
	}
	for i, p := range c.Photos {
		if err := k.photo(p); err != nil {
			return nil, err
		}
		progress(i + 1)
	}
	return k.result, nil
}

// A copier is a card's photos on their way.
type copier struct {
	ctx      context.Context
	card, to string
	standing []string          // none for a folder that is not there yet
	taken    map[string]string // the paths of files by their names in lower case
	result   *CopyResult
	buffer   [1 << 18]byte
}

// lookAround notes the names that are taken where the files will stand.
func (k *copier) lookAround() error {
	for _, dir := range k.standing {
		entries, err := os.ReadDir(dir)
		if err != nil && !os.IsNotExist(err) {
			return err
		}
		for _, e := range entries {
			k.taken[strings.ToLower(e.Name())] = filepath.Join(dir, e.Name())
		}
	}
	return nil
}

// photo copies one photo with its raw files, under names that have one stem.
func (k *copier) photo(p CardPhoto) error {
	prefix, there, err := k.prefix(p)
	if err != nil || there {
		if there {
			k.result.There++
		}
		return err
	}
	copied := 0
	for i, f := range p.Files {
		name := prefix + path.Base(f)
		err := k.file(f, name)
		if errors.Is(err, errUnread) || errors.Is(err, errNotSame) {
			k.result.Failed = append(k.result.Failed, f)
			continue
		}
		if err != nil {
			return fmt.Errorf("copy %s: %w", f, err)
		}
		copied++
		if prefix != "" {
			k.result.Renamed = append(k.result.Renamed, name)
		}
		if i > 0 {
			k.result.Raws++
		}
	}
	if copied > 0 {
		k.result.Photos++
	}
	return nil
}

// prefix chooses what goes before the names of a photo's files: nothing, or what
// tells them from others of the same name. there says that all of them stand there
// with the same bytes.
func (k *copier) prefix(p CardPhoto) (prefix string, there bool, err error) {
	folder := path.Base(path.Dir(p.Files[0]))
	for n := 0; ; n++ {
		switch {
		case n == 1 && folder != ".":
			prefix = folder + "-"
		case n > 0:
			prefix = fmt.Sprintf("%d-", n+1)
		}
		free, same := true, true
		for _, f := range p.Files {
			at, clash := k.taken[strings.ToLower(prefix+path.Base(f))]
			free = free && !clash
			if clash && same {
				if same, err = alike(filepath.Join(k.card, filepath.FromSlash(f)), at); err != nil {
					return "", false, err
				}
			}
			same = same && clash
		}
		if free || same {
			return prefix, same, nil
		}
	}
}

// alike reports whether two files hold the same bytes.
func alike(a, b string) (bool, error) {
	ia, errA := os.Stat(a)
	ib, errB := os.Stat(b)
	if errA != nil || errB != nil || ia.Size() != ib.Size() || !ib.Mode().IsRegular() {
		return false, nil
	}
	x, errA := ordinary.Hash(a)
	y, errB := ordinary.Hash(b)
	return x == y && errA == nil && errB == nil, nil // what cannot be read is told when it is copied
}

// file copies one file; a copy that is not the same is made once more.
func (k *copier) file(rel, name string) error {
	from, to := filepath.Join(k.card, filepath.FromSlash(rel)), filepath.Join(k.to, name)
	err := k.once(from, to)
	if errors.Is(err, errNotSame) {
		err = k.once(from, to)
	}
	if err == nil {
		k.taken[strings.ToLower(name)] = to
	}
	return err
}

// once copies a file and reads the copy again. What is not whole does not stay.
func (k *copier) once(from, to string) (err error) {
	in, before, err := ordinary.Open(from)
	if err != nil {
		return errors.Join(errUnread, err)
	}
	defer in.Close() // read only
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(to))
		}
	}()
	read, source := sha256.New(), &untilDone{ctx: k.ctx, r: in}
	n, err := io.CopyBuffer(out, io.TeeReader(source, read), k.buffer[:])
	if source.failed {
		err = errors.Join(errUnread, err)
	}
	if err := errors.Join(err, out.Sync(), out.Close()); err != nil {
		return err
	}
	written, err := ordinary.Hash(to)
	if err != nil {
		return err
	}
	after, err := in.Stat()
	if err != nil || written != hex.EncodeToString(read.Sum(nil)) || n != before.Size() || after.Size() != before.Size() {
		return errors.Join(errNotSame, err)
	}
	k.result.Bytes += n
	return os.Chtimes(to, before.ModTime(), before.ModTime())
}

// untilDone reads until the context ends.
type untilDone struct {
	ctx    context.Context
	r      io.Reader
	failed bool // it was r that gave no more
}

// Read reads, unless the context has ended.
func (u *untilDone) Read(b []byte) (int, error) {
	if err := u.ctx.Err(); err != nil {
		return 0, err
	}
	n, err := u.r.Read(b)
	u.failed = err != nil && err != io.EOF
	return n, err
}
