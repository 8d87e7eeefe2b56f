package listing

import (
	"io/fs"
	"syscall"
	"time"
)

// changeTime is when the system last changed anything of a file, its content and
// its times among it; nobody can set it.
func changeTime(info fs.FileInfo) time.Time {
	if s, ok := info.Sys().(*syscall.Stat_t); ok {
		return time.Unix(int64(s.Ctim.Sec), int64(s.Ctim.Nsec)).UTC()
	}
	return time.Time{}
}
