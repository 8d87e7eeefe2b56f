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
)

//lint:file-ignore U1000 the fields nobody reads keep the others in their places

// The layouts below are those of webp/encode.h, ABI 2.x, whose minor versions
// only ever used up padding.

const webpABI = 0x020f

type webpConfig struct {
	lossless                  int32
	quality                   float32
	method                    int32
	hint                      int32
	targetSize                int32
	targetPSNR                float32
	segments                  int32
	noiseShaping              int32
	filterStrength            int32
	filterSharpness           int32
	filterType                int32
	autofilter                int32
	alpha                     [3]int32
	pass                      int32
	showCompressed            int32
	preprocessing             int32
	partitions                int32
	partitionLimit            int32
	emulateJPEGSize           int32
	threadLevel               int32
	lowMemory                 int32
	nearLossless              int32
	exact                     int32
	deltaPalette              int32
	sharpYUV                  int32
	leastQuality, mostQuality int32
	spare                     [16]int32 // ours: room for what a later minor version may add
}

type webpPicture struct {
	argbInput          int32
	colourspace        int32
	width, height      int32
	y, u, v            unsafe.Pointer
	yStride, uvStride  int32
	a                  unsafe.Pointer
	aStride            int32
	_                  [2]uint32
	argb               unsafe.Pointer
	argbStride         int32
	_                  [3]uint32
	writer             uintptr
	custom             unsafe.Pointer
	extraType          int32
	extra              unsafe.Pointer
	stats              unsafe.Pointer
	errorCode          int32
	progress, user     uintptr
	_                  [3]uint32
	_                  [2]uintptr
	_                  [8]uint32
	memory, memoryARGB uintptr
	_                  [2]uintptr
	spare              [16]uintptr // ours, as above
}

type webpWriter struct {
	mem           unsafe.Pointer
	size, maxSize uintptr
	_             [4]uint32
}

// webpLibrary is the part of libwebp that encodes.
type webpLibrary struct {
	configInit  func(config *webpConfig, preset int32, quality float32, abi int32) int32
	pictureInit func(picture *webpPicture, abi int32) int32
	encode      func(config *webpConfig, picture *webpPicture) int32
	writerInit  func(w *webpWriter)
	writerClear func(w *webpWriter)
	write       uintptr
}

var openWebP = sync.OnceValue(func() *webpLibrary {
	return withLibrary("libwebp.so.7", "libwebp.7.dylib", func(h uintptr, l *webpLibrary) (err error) {
		purego.RegisterLibFunc(&l.configInit, h, "WebPConfigInitInternal")
		purego.RegisterLibFunc(&l.pictureInit, h, "WebPPictureInitInternal")
		purego.RegisterLibFunc(&l.encode, h, "WebPEncode")
		purego.RegisterLibFunc(&l.writerInit, h, "WebPMemoryWriterInit")
		purego.RegisterLibFunc(&l.writerClear, h, "WebPMemoryWriterClear")
		l.write, err = purego.Dlsym(h, "WebPMemoryWrite")
		return err
	})
})

// withLibrary opens a library and looks its functions up. It returns nil where
// the library is not installed, or lacks one of them: that is one we do not have.
func withLibrary[T any](linux, mac string, lookUp func(h uintptr, l *T) error) (lib *T) {
	defer func() { // the looking up panics for a missing function
		if recover() != nil {
			lib = nil
		}
	}()
	h := openFirst(linux, mac)
	if h == 0 {
		return nil
	}
	l := new(T)
	if lookUp(h, l) != nil {
		return nil
	}
	return l
}

// openFirst opens the library under the first of the names that this system's
// loader knows, and the place where Macs keep what is not theirs.
func openFirst(linux, mac string) uintptr {
	names := []string{linux}
	if runtime.GOOS == "darwin" {
		names = []string{mac, "/opt/homebrew/lib/" + mac, "/usr/local/lib/" + mac}
	}
	for _, n := range names {
		if h, err := purego.Dlopen(n, purego.RTLD_NOW|purego.RTLD_LOCAL); err == nil {
			return h
		}
	}
	return 0
}

// EncodeWebP encodes an opaque 4:2:0 picture in WebP's limited range as lossy
// WebP, at a quality of 0 to 100 and a method of 0 (quick) to 6. It returns
// ErrUnavailable where libwebp is not installed.
func EncodeWebP(m *image.YCbCr, quality, method int) ([]byte, error) {
	lib := openWebP()
	if lib == nil {
		return nil, ErrUnavailable
	}
	w, h := m.Rect.Dx(), m.Rect.Dy()
	if m.SubsampleRatio != image.YCbCrSubsampleRatio420 || w <= 0 || h <= 0 || w > 16383 || h > 16383 || m.Rect.Min != (image.Point{}) {
		return nil, fmt.Errorf("webp: cannot encode %v with subsampling %v", m.Rect, m.SubsampleRatio)
	}
	config, picture, out := new(webpConfig), new(webpPicture), new(webpWriter)
	if lib.configInit(config, 0, float32(quality), webpABI) == 0 || lib.pictureInit(picture, webpABI) == 0 {
		return nil, ErrUnavailable // another major version
	}
	config.method = int32(method)
	picture.width, picture.height = int32(w), int32(h)
	picture.y, picture.u, picture.v = unsafe.Pointer(&m.Y[0]), unsafe.Pointer(&m.Cb[0]), unsafe.Pointer(&m.Cr[0])
	picture.yStride, picture.uvStride = int32(m.YStride), int32(m.CStride)
	lib.writerInit(out)
	defer lib.writerClear(out)
	picture.writer, picture.custom = lib.write, unsafe.Pointer(out)
	ok := lib.encode(config, picture)
	runtime.KeepAlive(m)
	runtime.KeepAlive(picture)
	if ok == 0 || out.mem == nil {
		return nil, errors.New("webp: the library could not encode the picture")
	}
	return append([]byte(nil), unsafe.Slice((*byte)(out.mem), out.size)...), nil
}
