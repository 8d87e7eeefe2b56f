package main

import (
	"syscall"
	"unsafe"
)

// ownWindow reports whether the console window was opened for this program alone and
// closes with it: no shell stands behind it.
func ownWindow() bool {
	var ids [2]uint32
	n, _, _ := syscall.NewLazyDLL("kernel32.dll").NewProc("GetConsoleProcessList").Call(uintptr(unsafe.Pointer(&ids[0])), uintptr(len(ids)))
	return n == 1
}
