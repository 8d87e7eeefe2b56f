// Package spare keeps the memory of large pictures for the next: fresh memory
// costs the system a fault for each page and a clearing, which for a photo of 24
// megapixels takes as long as an encoder does.
package spare

import (
	"math/bits"
	"slices"
	"sync"
	"unsafe"
	"weak"
)

const (
	// least is the smallest size worth keeping, in bytes.
	least = 1 << 17
	// leastPart is the smallest size that is cut off something larger, in bytes: less
	// would keep the large from coming together again.
	leastPart = 1 << 18
	// budget is how much is kept, in bytes; beyond it what has lain there longest
	// goes. Two photos of 24 megapixels on their way take less.
	budget = 128 << 20
)

// A shelf is what is kept, the longest-lying first.
type shelf struct {
	mu    sync.Mutex
	kept  []part
	bytes int
	whole []*whole // what parts were cut off, as long as any of it is used or kept
}

// A part is memory of one whole that lies together.
type part struct {
	b  []byte
	of *whole
}

// A whole is memory as it was made. It is not kept by being known here: where
// nobody has anything of it any more, another may lie at its place.
type whole struct {
	at    uintptr
	bytes int
	alive weak.Pointer[byte]
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
	return Fresh[T](roundedUp(n*size) / size)[:n]
}

// Fresh returns n values of 0 that never come from what is kept: for what is held
// longer than the photo is on its way, which should not keep large memory apart.
func Fresh[T value](n int) []T {
	v := make([]T, n)
	onLargePages(unsafe.Pointer(unsafe.SliceData(v)), n*int(unsafe.Sizeof(*new(T))))
	return v
}

// roundedUp is a number of bytes, more by a sixteenth at most, so that pictures and
// files of nearly the same size fit into the memory of each other.
func roundedUp(n int) int {
	step := 1 << max(bits.Len(uint(n))-5, 3)
	return (n + step - 1) &^ (step - 1)
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

// take takes at least n bytes off the shelf: the smallest that fit, without what is
// more than a quarter too much; nil where there is nothing.
func (s *shelf) take(n int) []byte {
	s.mu.Lock()
	defer s.mu.Unlock()
	best := -1
	for i, p := range s.kept {
		if len(p.b) >= n && (len(p.b) <= n+n/4 || n >= leastPart) && (best < 0 || len(p.b) < len(s.kept[best].b)) {
			best = i
		}
	}
	if best < 0 {
		return nil
	}
	p := s.kept[best]
	s.drop(best)
	if len(p.b) > n+n/4 {
		n = roundedUp(n)
		s.put(part{p.b[n:], p.of})
		p.b = p.b[:n:n]
	}
	return p.b
}

// give puts memory on the shelf, together with what lies beside it there.
func (s *shelf) give(b []byte) {
	s.mu.Lock()
	defer s.mu.Unlock()
	p := part{b, s.wholeOf(b)}
	for i := 0; i < len(s.kept); i++ {
		o := s.kept[i]
		if o.of != p.of || end(o.b) != start(p.b) && end(p.b) != start(o.b) {
			continue
		}
		first := o.b
		if start(p.b) < start(o.b) {
			first = p.b
		}
		s.drop(i)
		p.b = unsafe.Slice(unsafe.SliceData(first), len(o.b)+len(p.b))
		i = -1 // what lies on its other side may be there too
	}
	s.put(p)
	for s.bytes > budget {
		s.drop(0)
	}
}

// wholeOf finds what memory is a part of; memory of others is a whole itself.
func (s *shelf) wholeOf(b []byte) *whole {
	s.whole = slices.DeleteFunc(s.whole, func(w *whole) bool { return w.alive.Value() == nil })
	for _, w := range s.whole {
		if w.at <= start(b) && end(b) <= w.at+uintptr(w.bytes) {
			return w
		}
	}
	w := &whole{start(b), len(b), weak.Make(unsafe.SliceData(b))}
	s.whole = append(s.whole, w)
	return w
}

// put and drop add and take away what is on the shelf.
func (s *shelf) put(p part) {
	s.kept = append(s.kept, p)
	s.bytes += len(p.b)
}

func (s *shelf) drop(i int) {
	s.bytes -= len(s.kept[i].b)
	s.kept = slices.Delete(s.kept, i, i+1)
}

// start and end are where memory lies.
func start(b []byte) uintptr { return uintptr(unsafe.Pointer(unsafe.SliceData(b))) }

func end(b []byte) uintptr { return start(b) + uintptr(len(b)) }
