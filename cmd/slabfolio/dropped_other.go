//go:build !windows

package main

// ownWindow reports whether a window was opened for this program alone: elsewhere
// than on Windows there is none.
func ownWindow() bool { return false }
