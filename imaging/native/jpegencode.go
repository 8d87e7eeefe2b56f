//go:build (linux || darwin) && (amd64 || arm64) && !nodynamic

package native

import (
	"errors"
	"fmt"
	"image"
	"runtime"
	"sync"
	"unsafe"

	"github.com/ebitengine/purego"

	"slabfolio/imaging/spare"
)

// From turbojpeg.h, version 2: samplings and flags.
const (
	turbo420         = 2
	turboNoRealloc   = 1024
	turboAccurateDCT = 4096
)

// turboWriter is the part of libturbojpeg that encodes.
type turboWriter struct {
	open    func() uintptr
	close   func(h uintptr) int32
	bufSize func(w, h, sampling int32) uint64
	encode  func(h uintptr, planes *[3]unsafe.Pointer, w int32, strides *[3]int32, height, sampling int32,
		out *unsafe.Pointer, size *uint64, quality, flags int32) int32
}

var openTurboWriter = sync.OnceValue(func() *turboWriter {
	return withLibrary("libturbojpeg.so.0", "libturbojpeg.0.dylib", func(h uintptr, l *turboWriter) error {
		purego.RegisterLibFunc(&l.open, h, "tjInitCompress")
		purego.RegisterLibFunc(&l.close, h, "tjDestroy")
		purego.RegisterLibFunc(&l.bufSize, h, "tjBufSize")
		purego.RegisterLibFunc(&l.encode, h, "tjCompressFromYUVPlanes")
		return nil
	})
})

// EncodeJPEG encodes a 4:2:0 picture as baseline JPEG. It returns
// ErrUnavailable where libturbojpeg is not installed.
func EncodeJPEG(m *image.YCbCr, quality int) ([]byte, error) {
	lib := openTurboWriter()
	if lib == nil {
		return nil, ErrUnavailable
	}
	w, h := m.Rect.Dx(), m.Rect.Dy()
	if m.SubsampleRatio != image.YCbCrSubsampleRatio420 || w <= 0 || h <= 0 || w > 65500 || h > 65500 || m.Rect.Min != (image.Point{}) {
		return nil, fmt.Errorf("jpeg: cannot encode %v with subsampling %v", m.Rect, m.SubsampleRatio)
	}
	handle := lib.open()
	if handle == 0 {
		return nil, ErrUnavailable
	}
	defer lib.close(handle)
	need := lib.bufSize(int32(w), int32(h), turbo420)
	buf := spare.Take[byte](int(need)) // the largest file that could be
	defer spare.Give(buf)
	luma, stride := evenLuma(m)
	if &luma[0] != &m.Y[0] {
		defer spare.Give(luma)
	}
	planes := &[3]unsafe.Pointer{unsafe.Pointer(&luma[0]), unsafe.Pointer(&m.Cb[0]), unsafe.Pointer(&m.Cr[0])}
	strides := &[3]int32{int32(stride), int32(m.CStride), int32(m.CStride)}
	out, size := new(unsafe.Pointer), new(uint64)
	*out, *size = unsafe.Pointer(&buf[0]), uint64(len(buf))
	code := lib.encode(handle, planes, int32(w), strides, int32(h), turbo420, out, size, int32(quality), turboNoRealloc|turboAccurateDCT)
	runtime.KeepAlive(m)
	runtime.KeepAlive(luma)
	runtime.KeepAlive(planes)
	if code != 0 || *size > uint64(len(buf)) {
		return nil, errors.New("jpeg: the library could not encode the picture")
	}
	return append([]byte(nil), buf[:*size]...), nil
}

// evenLuma is the luma plane with an even number of columns and rows, as the
// library reads it (tjPlaneWidth and tjPlaneHeight of turbojpeg.h): the last ones
// stand twice where the picture's number is odd. Read as it is, an odd plane would
// be followed by whatever lies behind it in memory. Such a copy is in memory from spare.
func evenLuma(m *image.YCbCr) (luma []byte, stride int) {
	w, h := m.Rect.Dx(), m.Rect.Dy()
	if w%2 == 0 && h%2 == 0 {
		return m.Y, m.YStride
	}
	ew, eh := w+w%2, h+h%2
	luma = spare.Take[byte](ew * eh)
	for y := range eh {
		row := m.Y[min(y, h-1)*m.YStride:][:w]
		copy(luma[y*ew:], row)
		luma[y*ew+ew-1] = row[w-1]
	}
	return luma, ew
}
