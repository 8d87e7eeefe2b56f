package archive

import (
	"bytes"
	"context"
	"crypto/sha256"
	"crypto/sha512"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slabfolio/listing/ordinary"
	"slices"
	"strings"
)

// A File is one file that goes into the payload of a bag.
type File struct {
	Path   string // below data/, forward slashes
	Source string // where it is read from; or
	Data   []byte // its content, when Source is empty
	SHA256 string // what it must still be, as hex; empty: no matter
}

// A Bag is what Seal writes.
type Bag struct {
	Name  string // of the folder or, with .zip, of the file
	Files []File
	Info  []Info // the elements of bag-info.txt; Payload-Oxum and Bag-Size are added
	Zip   bool   // one file instead of a folder
}

// A ChangedError says that a file was changed while it was being sealed.
type ChangedError struct{ Path string }

func (e *ChangedError) Error() string {
	return fmt.Sprintf("%s was changed while it was being sealed; nothing was made of it, run again when it is at rest", e.Path)
}

// beingSealed ends the name of a bag that is not finished.
const beingSealed = ".slabfolio-being-sealed"

// Seal writes a bag into the shelf: beside its place first, onto the disk, and
// then under its name, so that a bag under its name is whole. It returns the
// SHA-512 of its manifest. A bag that is there already is never touched: that is
// an error which matches fs.ErrExist.
func Seal(ctx context.Context, shelf string, b *Bag) (manifestSum string, err error) {
	final := filepath.Join(shelf, b.fileName())
	if _, err := os.Lstat(final); err == nil {
		return "", fmt.Errorf("%s: %w", b.fileName(), fs.ErrExist)
	}
	temp := filepath.Join(shelf, "."+b.fileName()+beingSealed)
	if _, err := os.Lstat(temp); err == nil {
		return "", fmt.Errorf("%s is in the way: no run left it there; move it away", filepath.Base(temp))
	}
	defer os.RemoveAll(temp)
	var out sink
	if b.Zip {
		out, err = newZipSink(temp, b.Name)
	} else {
		out, err = newFolderSink(temp)
	}
	if err != nil {
		return "", err
	}
	manifestSum, err = b.write(ctx, out)
	if err := errors.Join(err, out.close()); err != nil {
		return "", err
	}
	if err := os.Rename(temp, final); err != nil {
		return "", err
	}
	return manifestSum, syncFolder(shelf)
}

func (b *Bag) fileName() string {
	if b.Zip {
		return b.Name + ".zip"
	}
	return b.Name
}

// Sweep removes what a killed run left in a shelf. No other run may be sealing
// into it.
func Sweep(shelf string) error {
	entries, err := os.ReadDir(shelf)
	if err != nil {
		return err
	}
	var errs []error
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), ".") && strings.HasSuffix(e.Name(), beingSealed) {
			errs = append(errs, os.RemoveAll(filepath.Join(shelf, e.Name())))
		}
	}
	return errors.Join(errs...)
}

// write puts everything into the sink: the declaration, the payload, and then
// what counts and lists it.
func (b *Bag) write(ctx context.Context, out sink) (string, error) {
	var tags bytes.Buffer // the tag manifest
	tag := func(name string, data []byte) error {
		sum := sha512.Sum512(data)
		fmt.Fprintf(&tags, "%s  %s\n", hex.EncodeToString(sum[:]), name)
		return writeBytes(out, name, data)
	}
	if err := tag("bagit.txt", []byte("BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n")); err != nil {
		return "", err
	}
	files := slices.Clone(b.Files)
	slices.SortFunc(files, func(a, c File) int { return strings.Compare(a.Path, c.Path) })
	var manifest bytes.Buffer
	var size int64
	for i, f := range files {
		if err := ctx.Err(); err != nil {
			return "", err
		}
		if problem := NameProblem(f.Path); problem != "" {
			return "", fmt.Errorf("%q %s", f.Path, problem)
		}
		if i > 0 && files[i-1].Path == f.Path {
			return "", fmt.Errorf("%q would stand in the bag twice", f.Path)
		}
		sum, n, err := copyIn(ctx, out, f)
		if err != nil {
			return "", err
		}
		size += n
		fmt.Fprintf(&manifest, "%s  %s\n", sum, encodeName("data/"+f.Path))
	}
	info := append(slices.Clone(b.Info), Info{"Bag-Size", sizeText(size)}, Info{"Payload-Oxum", fmt.Sprintf("%d.%d", size, len(files))})
	if err := tag("bag-info.txt", []byte(formatInfo(info))); err != nil {
		return "", err
	}
	if err := tag("manifest-sha512.txt", manifest.Bytes()); err != nil {
		return "", err
	}
	sum := sha512.Sum512(manifest.Bytes())
	return hex.EncodeToString(sum[:]), writeBytes(out, "tagmanifest-sha512.txt", tags.Bytes())
}

// copyIn streams one file into the bag and hashes it on the way. A file that
// changes meanwhile is caught.
func copyIn(ctx context.Context, out sink, f File) (sum string, n int64, err error) {
	var in io.Reader = bytes.NewReader(f.Data)
	var before fs.FileInfo
	var file *os.File
	if f.Source != "" {
		if file, before, err = f.open(); err != nil {
			return "", 0, err
		}
		defer file.Close()                         // read only
		in = io.LimitReader(file, before.Size()+1) // one that grows as fast as it is read has no end
	}
	w, err := out.create("data/" + f.Path)
	if err != nil {
		return "", 0, err
	}
	strong, quick := sha512.New(), sha256.New()
	hashes := []io.Writer{w, strong}
	if f.SHA256 != "" {
		hashes = append(hashes, quick)
	}
	n, err = io.CopyBuffer(struct{ io.Writer }{io.MultiWriter(hashes...)}, struct{ io.Reader }{ctxReader{ctx, in, nil}}, make([]byte, 256<<10))
	if err := errors.Join(err, w.Close()); err != nil {
		return "", 0, fmt.Errorf("seal %s: %w", f.Path, err)
	}
	if file != nil {
		after, err := os.Stat(f.Source)
		if err != nil || after.Size() != n || before.Size() != n || !after.ModTime().Equal(before.ModTime()) || !os.SameFile(before, after) {
			return "", 0, &ChangedError{f.Path}
		}
	}
	if f.SHA256 != "" && hexOf(quick) != f.SHA256 {
		return "", 0, &ChangedError{f.Path}
	}
	return hexOf(strong), n, nil
}

// open opens the source of a file for reading. What was listed as a file and is none
// any more is a *ChangedError.
func (f *File) open() (*os.File, fs.FileInfo, error) {
	file, info, err := ordinary.Open(f.Source)
	if errors.Is(err, fs.ErrNotExist) || errors.Is(err, ordinary.Err) {
		return nil, nil, &ChangedError{f.Path}
	}
	return file, info, err
}

func hexOf(h hash.Hash) string { return hex.EncodeToString(h.Sum(nil)) }

func writeBytes(out sink, name string, data []byte) error {
	w, err := out.create(name)
	if err != nil {
		return err
	}
	_, err = w.Write(data)
	return errors.Join(err, w.Close())
}

// formatInfo writes the elements of bag-info.txt; long values go on in indented
// lines of at most 79 characters.
func formatInfo(info []Info) string {
	var b strings.Builder
	for _, i := range info {
		value := strings.Join(strings.Fields(i.Value), " ")
		if value == "" {
			continue
		}
		line := i.Label + ":"
		for _, word := range strings.Fields(value) {
			if len([]rune(line))+1+len([]rune(word)) > 79 && line != i.Label+":" {
				b.WriteString(line + "\n")
				line = " "
			}
			line += " " + word
		}
		b.WriteString(line + "\n")
	}
	return b.String()
}

func sizeText(n int64) string {
	switch {
	case n < 1e6:
		return fmt.Sprintf("%.1f kB", float64(n)/1e3)
	case n < 1e9:
		return fmt.Sprintf("%.1f MB", float64(n)/1e6)
	}
	return fmt.Sprintf("%.1f GB", float64(n)/1e9)
}

// Sum returns the SHA-512 that a file would have in a bag. What is no file any more is a
// *ChangedError.
func Sum(ctx context.Context, f File) (string, error) {
	h := sha512.New()
	if f.Source == "" {
		h.Write(f.Data)
		return hexOf(h), nil
	}
	in, info, err := f.open()
	if err != nil {
		return "", err
	}
	defer in.Close() // read only
	if _, err := io.CopyBuffer(struct{ io.Writer }{h}, ctxReader{ctx, io.LimitReader(in, info.Size()+1), nil}, make([]byte, 256<<10)); err != nil {
		return "", err
	}
	return hexOf(h), nil
}
