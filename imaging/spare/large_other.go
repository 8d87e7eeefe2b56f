//go:build !linux

package spare

import "unsafe"

// onLargePages does nothing: other systems choose their pages themselves.
func onLargePages(unsafe.Pointer, int) {}
