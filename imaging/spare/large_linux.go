package spare

import (
	"syscall"
	"unsafe"
)

const (
	// largePage is the size of the larger pages that amd64 and arm64 have, in bytes.
	largePage = 2 << 20
	// leastLarge is the smallest fresh memory that is worth asking for them.
	leastLarge = 1 << 20
)

// onLargePages asks the system for large pages under fresh memory, before anything is
// written to it: one fault then stands for 512. The range is widened to whole large
// pages, since most pictures begin and end within one; what lies beside belongs to the
// same heap, whose areas are larger and begin at multiples of them. A system that has
// none to give says so or does nothing, and the memory is as it was.
func onLargePages(at unsafe.Pointer, bytes int) {
	if bytes < leastLarge {
		return
	}
	from := uintptr(at) &^ (largePage - 1)
	to := (uintptr(at) + uintptr(bytes) + largePage - 1) &^ (largePage - 1)
	_, _, _ = syscall.Syscall(syscall.SYS_MADVISE, from, to-from, syscall.MADV_HUGEPAGE)
}
