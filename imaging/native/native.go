// Package native opens codecs that the machine has installed, at run time and
// without cgo. Everything here has a pure Go equal elsewhere; a machine without
// the libraries loses speed and nothing more. The build tag nodynamic leaves the
// libraries out, which makes a Linux binary static.
package native

import "errors"

// ErrUnavailable is returned when the library is not installed, or the build
// leaves it out.
var ErrUnavailable = errors.New("native codec not available")
