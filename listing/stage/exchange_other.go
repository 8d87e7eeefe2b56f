//go:build !linux

package stage

import "errors"

// exchange swaps two names in one step, where the system can.
func exchange(a, b string) error { return errors.ErrUnsupported }
