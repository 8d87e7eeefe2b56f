package native

import "image"

// Available tells whether the JPEG library is installed and usable.
func Available() bool { return false }

// DecodeJPEG decodes a JPEG into planes.
func DecodeJPEG(data []byte, w, h, scale int) (image.Image, error) { return nil, ErrUnavailable }
