package archive

import (
	"archive/zip"
	"context"
	"errors"
	"fmt"
	"hash"
	"io"
	"io/fs"
	"maps"
	"slices"

	"golang.org/x/sync/errgroup"
	"slabfolio/listing/ordinary"
)

// A wanted sum is one that a manifest gives for a file.
type wanted struct{ alg, sum string }

// checksums reads every listed file once and compares all its checksums.
func (b *bag) checksums(ctx context.Context, o Options) error {
	want := map[string][]wanted{} // by the name on the disk
	for _, m := range slices.Concat(b.payload, b.tags) {
		if algorithms[m.alg] == nil {
			continue
		}
		for _, e := range m.entries {
			if name, ok := b.at(e.path); ok {
				want[name] = append(want[name], wanted{m.alg, e.sum})
			}
		}
	}
	names := slices.Sorted(maps.Keys(want))
	problems := make([]*Problem, len(names))
	g, ctx := errgroup.WithContext(ctx)
	g.SetLimit(max(o.Jobs, 1))
	for i, name := range names {
		g.Go(func() error {
			problems[i] = checkFile(ctx, b.fsys, name, want[name], o.Read)
			return ctx.Err()
		})
	}
	if err := g.Wait(); err != nil {
		return err
	}
	for _, p := range problems {
		if p != nil {
			b.verdict.Problems = append(b.verdict.Problems, *p)
		}
	}
	return nil
}

// checkFile reads one file. What the disk does not give is unreadable; what was
// read to its end and is something else is changed. A zip whose own checksum
// (CRC-32) does not fit was changed too: it was read to its end.
func checkFile(ctx context.Context, fsys fs.FS, name string, want []wanted, read func(int)) *Problem {
	if ctx.Err() != nil {
		return nil
	}
	f, err := ordinary.OpenIn(fsys, name)
	if err != nil {
		return &Problem{Unreadable, name, fmt.Sprintf("%q cannot be read: %v", clip(name), reason(err)), false}
	}
	defer f.Close() // read only
	hashes := map[string]hash.Hash{}
	var writers []io.Writer
	for _, w := range want {
		if hashes[w.alg] == nil {
			h := algorithms[w.alg]()
			hashes[w.alg] = h
			writers = append(writers, h)
		}
	}
	changed := &Problem{Changed, name, fmt.Sprintf("%q is not what it was when the bag was sealed", clip(name)), false}
	_, err = io.CopyBuffer(struct{ io.Writer }{io.MultiWriter(writers...)}, ctxReader{ctx, f, read}, make([]byte, 256<<10))
	if errors.Is(err, zip.ErrChecksum) {
		return changed
	}
	if err != nil {
		return &Problem{Unreadable, name, fmt.Sprintf("%q cannot be read to its end: %v", clip(name), reason(err)), false}
	}
	for _, w := range want {
		if hexOf(hashes[w.alg]) != w.sum {
			return changed
		}
	}
	return nil
}

// A ctxReader stops reading when the run is interrupted, and tells how far it is.
type ctxReader struct {
	ctx  context.Context
	r    io.Reader
	tell func(n int) // may be nil
}

func (c ctxReader) Read(p []byte) (int, error) {
	if err := c.ctx.Err(); err != nil {
		return 0, err
	}
	n, err := c.r.Read(p)
	if c.tell != nil && n > 0 {
		c.tell(n)
	}
	return n, err
}
