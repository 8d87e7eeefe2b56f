package photos

import (
	"io"

	"slabfolio/imaging/decode"
	"slabfolio/listing/ordinary"
)

// Photos are opened as many at once as there are jobs, but large ones wait for
// each other: a photo of 100 megapixels takes as much memory as forty of a phone.
const (
	leastMemory  = 1 << 30   // bytes that the photos being opened may take together
	memoryPerJob = 192 << 20 // where there are more than a few jobs
)

// MemoryBudget is how many bytes the photos being opened may take together.
func MemoryBudget(jobs int) int64 { return max(leastMemory, int64(jobs)*memoryPerJob) }

// headSize is how much of a file tells its kind and size.
const headSize = 256 << 10

// bytesNeeded estimates the bytes that opening a photo takes: the file and its
// pixels. Measured: a JPEG is held as three planes of a byte, others as four
// channels of two bytes at most. A file whose size in pixels is not known from
// its beginning counts four times; one that cannot be read counts nothing.
func bytesNeeded(path string, most int) int64 {
	f, info, err := ordinary.Open(path)
	if err != nil {
		return 0
	}
	defer f.Close() // read only
	head := make([]byte, min(info.Size(), headSize))
	n, _ := io.ReadFull(f, head)
	format, w, h, err := decode.Header(head[:n])
	pixels := int64(w) * int64(h)
	switch {
	case err != nil || pixels <= 0:
		return 4 * info.Size()
	case pixels > int64(most):
		return info.Size() // refused before it is decoded
	case format == "jpeg":
		return info.Size() + 3*pixels
	}
	return info.Size() + 8*pixels
}
