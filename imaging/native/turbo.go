//go:build (linux || darwin) && (amd64 || arm64) && !nodynamic

package native

import (
	"errors"
	"fmt"
	"image"
	"runtime"
	"sync"

	"github.com/ebitengine/purego"
)

// turbo holds the functions of libturbojpeg (its API of version 1.4 and later,
// which the library keeps).
type turbo struct {
	initDecompress func() uintptr
	destroy        func(h uintptr) int32
	errorCode      func(h uintptr) int32
	header         func(h uintptr, data *byte, size uint64, w, ht, samp, space *int32) int32
	decompress     func(h uintptr, data *byte, size uint64, planes **byte, w int32, strides *int32, ht int32, flags int32) int32
}

// TurboJPEG's flags and colour spaces.
const (
	flagAccurateDCT   = 4096
	flagStopOnWarning = 8192
	spaceYCbCr        = 1
	spaceGrey         = 2
)

// open loads the library once. Its names are those that Linux systems install.
var open = sync.OnceValues(func() (t *turbo, err error) {
	defer func() {
		if p := recover(); p != nil {
			t, err = nil, fmt.Errorf("%w: %v", ErrUnavailable, p)
		}
	}()
	lib := openFirst("libturbojpeg.so.0", "libturbojpeg.0.dylib")
	if lib == 0 {
		return nil, ErrUnavailable
	}
	t = new(turbo)
	for _, f := range []struct {
		to   any
		name string
	}{
		{&t.initDecompress, "tjInitDecompress"},
		{&t.destroy, "tjDestroy"},
		{&t.errorCode, "tjGetErrorCode"},
		{&t.header, "tjDecompressHeader3"},
		{&t.decompress, "tjDecompressToYUVPlanes"},
	} {
		purego.RegisterLibFunc(f.to, lib, f.name)
	}
	return t, nil
})

// Available tells whether the JPEG library is installed and usable.
func Available() bool {
	_, err := open()
	return err == nil
}

// DecodeJPEG decodes a YCbCr or grey JPEG of 8 bits, whose header says w×h, to
// *image.YCbCr or *image.Gray, without conversion of colour. Whatever the library
// so much as warns about is an error. Its samples differ from those of image/jpeg by one
// level in places, since each rounds the cosine transform its own way.
func DecodeJPEG(data []byte, w, h int) (image.Image, error) {
	t, err := open()
	if err != nil {
		return nil, err
	}
	if len(data) == 0 || w <= 0 || h <= 0 {
		return nil, errInput
	}
	handle := t.initDecompress()
	if handle == 0 {
		return nil, errors.New("native codec: no decompressor")
	}
	defer t.destroy(handle)
	var pin runtime.Pinner
	defer pin.Unpin()
	pin.Pin(&data[0])

	head := new([4]int32)
	pin.Pin(head)
	if t.header(handle, &data[0], uint64(len(data)), &head[0], &head[1], &head[2], &head[3]) != 0 {
		return nil, errors.New("native codec: header refused")
	}
	if int(head[0]) != w || int(head[1]) != h {
		return nil, fmt.Errorf("native codec: size %dx%d differs from the header's %dx%d", head[0], head[1], w, h)
	}
	grey := head[3] == spaceGrey && head[2] == sampGrey
	ratio, fx, fy, ok := ratioOf(head[2])
	if !grey && (head[3] != spaceYCbCr || !ok) {
		return nil, errInput
	}
	n := 3
	if grey {
		n = 1
	}
	p := newPlanes(w, h, fx, fy, n)
	ptr, strides := p.pinned(&pin)
	rc := t.decompress(handle, &data[0], uint64(len(data)), &ptr[0], int32(w), &strides[0], int32(h), flagAccurateDCT|flagStopOnWarning)
	if rc != 0 {
		return nil, fmt.Errorf("native codec: data refused (%d)", t.errorCode(handle))
	}
	rect := image.Rect(0, 0, w, h)
	if grey {
		return &image.Gray{Pix: p.pix[0], Stride: int(p.stride[0]), Rect: rect}, nil
	}
	return &image.YCbCr{
		Y: p.pix[0], Cb: p.pix[1], Cr: p.pix[2],
		YStride: int(p.stride[0]), CStride: int(p.stride[1]),
		SubsampleRatio: ratio, Rect: rect,
	}, nil
}

// pinned returns the addresses of the planes and their strides, in memory that
// stays put while the library works.
func (p *planes) pinned(pin *runtime.Pinner) (*[3]*byte, *[3]int32) {
	ptr, strides := new([3]*byte), new([3]int32)
	for i := range p.n {
		pin.Pin(&p.pix[i][0])
		ptr[i], strides[i] = &p.pix[i][0], p.stride[i]
	}
	pin.Pin(ptr)
	pin.Pin(strides)
	return ptr, strides
}
