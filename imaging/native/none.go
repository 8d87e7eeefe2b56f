//go:build !(linux || darwin) || !(amd64 || arm64) || nodynamic

package native

import "image"

// Available tells whether the JPEG library is installed and usable.
func Available() bool { return false }

// DecodeJPEG always returns ErrUnavailable in this build.
func DecodeJPEG(data []byte, w, h int) (image.Image, error) { return nil, ErrUnavailable }
