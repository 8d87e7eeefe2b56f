package decode

import (
	"image"
	"io"
	_ "unsafe" // for linkname

	"github.com/gen2brain/avif"
	_ "github.com/gen2brain/heic"
)

// The codec packages choose their native library once, for the whole program.
// These are their own portable decoders, under which Options.Pure must run; the
// packages do not export them. purewasm_test.go holds versions and signatures.

//go:linkname pureHEIC github.com/gen2brain/heic.decode
func pureHEIC(r io.Reader, configOnly bool) (image.Image, image.Config, error)

//go:linkname pureAVIF github.com/gen2brain/avif.decode
func pureAVIF(r io.Reader, configOnly, all bool) (*avif.AVIF, image.Config, error)
