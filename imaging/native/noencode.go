//go:build !((linux || darwin) && (amd64 || arm64) && !nodynamic)

package native

import "image"

// EncodeWebP returns ErrUnavailable: this build opens no libraries.
func EncodeWebP(m *image.YCbCr, quality, method int) ([]byte, error) { return nil, ErrUnavailable }

// EncodeJPEG returns ErrUnavailable: this build opens no libraries.
func EncodeJPEG(m *image.YCbCr, quality int) ([]byte, error) { return nil, ErrUnavailable }
