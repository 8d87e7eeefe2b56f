package listing

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"syscall"
	"testing"
)

// Joined errors read as lines, each once, by the names that the maker knows.
func TestErrorsReadAsLines(t *testing.T) {
	full := func(name string) error {
		return &fs.PathError{Op: "write", Path: "/home/x/prepared/.OY-1.slabfolio-being-made/" + name, Err: syscall.ENOSPC}
	}
	for _, c := range []struct {
		err  error
		want []string
	}{
		{errors.New("one"), []string{"one"}},
		{full("sheet.pdf"), []string{"OY-1/sheet.pdf: no space left on device"}},
		{fmt.Errorf("prepare: %w", errors.Join(full("a"), full("a"), full("b/c"))), []string{"OY-1/a: no space left on device", "OY-1/b/c: no space left on device"}},
		{errors.Join(errors.New("1"), errors.New("2"), errors.New("3"), errors.New("4")), []string{"1", "2", "3"}},
		{&fs.PathError{Op: "open", Path: "/home/x/y/z.jpg", Err: fs.ErrPermission}, []string{"y/z.jpg: permission denied"}},
	} {
		if got := errorLines(c.err, ".slabfolio-being-made"); !slices.Equal(got, c.want) {
			t.Errorf("%v: %q, want %q", c.err, got, c.want)
		}
	}
}
