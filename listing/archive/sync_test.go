package archive

import (
	"errors"
	"io/fs"
	"path/filepath"
	"syscall"
	"testing"
)

// A folder that the system cannot put onto the disk is no fault of the bag's; a
// disk that is full or broken is.
func TestWhichSyncErrorsCount(t *testing.T) {
	for err, counts := range map[error]bool{
		syscall.ENOTSUP: false, syscall.EINVAL: false, syscall.EPERM: false, syscall.EACCES: false,
		syscall.EIO: true, syscall.ENOSPC: true, fs.ErrClosed: true,
	} {
		got := lessCannot(&fs.PathError{Op: "sync", Path: "shelf", Err: err})
		if (got != nil) != counts {
			t.Errorf("%v counts %v, want %v", err, got != nil, counts)
		}
		if counts && !errors.Is(got, err) {
			t.Errorf("%v has become %v", err, got)
		}
	}
	if err := lessCannot(nil); err != nil {
		t.Error(err)
	}
	if err := syncFolder(filepath.Join(t.TempDir(), "none")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a folder that is not there: %v", err)
	}
}
