// Package spare keeps the memory of large pictures for the next: fresh memory
// costs the system a fault for each page and a clearing, which for a photo of 24
// megapixels takes as long as an encoder does.
package spare

import (
	"slices"
	"sync"
	"unsafe"
)

const (
	// least is the smallest size worth keeping, in bytes.
	least = 1 << 17
	// budget is how much is kept, in bytes; beyond it what has lain there longest
	// goes. Two photos of 24 megapixels on their way take less.
	budget = 128 << 20
)

// A shelf is what is kept, the longest-lying first.
type shelf struct {
	mu    sync.Mutex
	kept  [][]byte
	bytes int
}

var kept shelf

// A value is what pictures and what is worked out on them are made of.
type value interface {
	uint8 | uint16 | int32 | float32 | float64
}

// Take returns n values, whatever they are: whoever takes them writes them all.
func Take[T value](n int) []T {
	size := int(unsafe.Sizeof(*new(T)))
	if n*size < least {
		return make([]T, n)
	}
	if b := kept.take(n * size); b != nil {
		return unsafe.Slice((*T)(unsafe.Pointer(unsafe.SliceData(b))), cap(b)/size)[:n]
	}
	v := make([]T, n)
	onLargePages(unsafe.Pointer(unsafe.SliceData(v)), n*size)
	return v
}

// Give gives values back that came from Take, or any others that nobody uses any
// more. They must not be touched afterwards.
func Give[T value](v []T) {
	size := cap(v) * int(unsafe.Sizeof(*new(T)))
	if size < least || size > budget || uintptr(unsafe.Pointer(unsafe.SliceData(v)))%8 != 0 {
		return // too little, too much, or a part of something that no wider values fit into
	}
	kept.give(unsafe.Slice((*byte)(unsafe.Pointer(unsafe.SliceData(v))), size))
}

// take takes the smallest of at least n bytes, and not many more, off the shelf;
// nil when there is none.
func (s *shelf) take(n int) []byte {
	s.mu.Lock()
	defer s.mu.Unlock()
	best := -1
	for i, b := range s.kept {
		if len(b) >= n && len(b) <= n+n/4 && (best < 0 || len(b) < len(s.kept[best])) {
			best = i
		}
	}
	if best < 0 {
		return nil
	}
	b := s.kept[best]
	s.drop(best)
	return b
}

// give puts memory on the shelf.
func (s *shelf) give(b []byte) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.kept = append(s.kept, b)
	s.bytes += len(b)
	for s.bytes > budget {
		s.drop(0)
	}
}

// drop takes one off the shelf.
func (s *shelf) drop(i int) {
	s.bytes -= len(s.kept[i])
	s.kept = slices.Delete(s.kept, i, i+1)
}
