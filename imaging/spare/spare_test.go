package spare

import (
	"runtime"
	"sync"
	"testing"
)

// TestTakenMemoryIsNobodyElses has several take, fill, look and give back at the
// same time: what one holds no other writes to, whatever the sizes.
func TestTakenMemoryIsNobodyElses(t *testing.T) {
	var wg sync.WaitGroup
	for who := range 8 {
		wg.Go(func() {
			for round := range 200 {
				n := 1 + (who*7919+round*104729)%(3*least)
				v := Take[uint16](n)
				if len(v) != n {
					t.Errorf("asked for %d, got %d", n, len(v))
					return
				}
				for i := 0; i < n; i += 997 {
					v[i] = uint16(who)
				}
				for i := 0; i < n; i += 997 {
					if v[i] != uint16(who) {
						t.Errorf("%d holds what %d wrote", who, v[i])
						return
					}
				}
				Give(v)
			}
		})
	}
	wg.Wait()
}

// TestGivenMemoryIsTakenAgain holds that a picture of nearly the same size needs
// no fresh memory, which is what the package is for, and that one much smaller
// does not sit on the memory of a large one: it takes no more than it needs.
func TestGivenMemoryIsTakenAgain(t *testing.T) {
	a := Take[uint8](40 * least)
	Give(a)
	b := Take[uint8](39 * least)
	if &a[0] != &b[0] {
		t.Error("a picture of nearly the same size has got fresh memory")
	}
	Give(b)
	c := Take[uint8](20 * least)
	if cap(c) > 21*least {
		t.Errorf("a small picture sits on %d bytes", cap(c))
	}
	if d := Take[uint8](19 * least); cap(d) > 21*least || &d[0] == &c[0] {
		t.Error("two pictures lie in the same memory")
	}
	if e := Take[uint8](least); &e[0] == &a[0] {
		t.Error("a tiny picture keeps a large one's memory apart")
	}
	for _, n := range []int{0, 1, least - 1, budget} {
		v := Take[uint16](n)
		if len(v) != n {
			t.Errorf("asked for %d, got %d", n, len(v))
		}
		Give(v)
	}
	Give[uint8](nil)
}

// TestShelfIsBounded gives back far more than the budget: what is kept is never
// more, and what came last is among it.
func TestShelfIsBounded(t *testing.T) {
	var last []uint16
	for i := range 100 {
		last = make([]uint16, 2<<20+i)
		Give(last)
		if kept.bytes > budget {
			t.Fatalf("%d bytes are kept, %d allowed", kept.bytes, budget)
		}
	}
	if kept.bytes < budget/2 {
		t.Errorf("no more than %d bytes are kept", kept.bytes)
	}
	if v := Take[uint16](len(last)); &v[0] != &last[0] {
		t.Error("what was given back last is gone")
	}
}

// Of several that are large enough the smallest is taken, whatever lay there first.
func TestTheSmallestThatFitsIsTaken(t *testing.T) {
	for _, sizes := range [][]int{{41, 48, 44}, {48, 44, 41}, {44, 41, 48}} {
		s := shelf{}
		for _, n := range sizes {
			s.give(make([]byte, n))
		}
		for _, want := range []int{41, 44, 48} {
			if b := s.take(40); len(b) != want {
				t.Errorf("of %v: %d bytes are taken for 40, want %d", sizes, len(b), want)
			}
		}
		if b := s.take(40); b != nil {
			t.Errorf("%d bytes are taken off an empty shelf", len(b))
		}
		s.give(make([]byte, 39))
		s.give(make([]byte, 51))
		if b := s.take(40); b != nil {
			t.Errorf("%d bytes are taken for 40: too few, or more than a quarter too many", len(b))
		}
		s.give(make([]byte, 50))
		if b := s.take(40); len(b) != 50 {
			t.Errorf("%d bytes are taken for 40, want 50", len(b))
		}
	}
}

// What is cut off a larger piece of memory lies together with the rest again once
// all of it is given back, in whatever order.
func TestPartsComeTogetherAgain(t *testing.T) {
	for _, order := range [][]int{{0, 1, 2}, {2, 1, 0}, {1, 0, 2}, {0, 2, 1}} {
		s := shelf{}
		whole := make([]byte, 12*leastPart)
		s.give(whole)
		var parts [][]byte
		for range order {
			parts = append(parts, s.take(3*leastPart))
		}
		for i, p := range parts {
			if len(p) != 3*leastPart || cap(p) != len(p) {
				t.Fatalf("part %d has %d bytes of %d", i, len(p), cap(p))
			}
			for j := range p {
				p[j] = byte(i + 1)
			}
		}
		for i, p := range parts {
			if p[0] != byte(i+1) || p[len(p)-1] != byte(i+1) {
				t.Fatalf("part %d was written to by another", i)
			}
		}
		for _, i := range order {
			s.give(parts[i])
		}
		if len(s.kept) != 1 || s.bytes != len(whole) {
			t.Errorf("given back as %v: %d pieces of %d bytes in all, want one of %d", order, len(s.kept), s.bytes, len(whole))
		}
		if b := s.take(len(whole)); b == nil || &b[0] != &whole[0] {
			t.Errorf("given back as %v: the whole is not there", order)
		}
	}
}

// Two pieces of memory that happen to lie side by side never become one: what holds
// the one alive does not hold the other.
func TestStrangersStayApart(t *testing.T) {
	s := shelf{}
	side := make([]byte, 4*leastPart)
	a, b := side[:2*leastPart:2*leastPart], side[2*leastPart:]
	s.give(a)
	s.give(b)
	if len(s.kept) != 2 {
		t.Errorf("%d pieces are kept, want 2", len(s.kept))
	}
	if c := s.take(3 * leastPart); c != nil {
		t.Errorf("%d bytes reach over two pieces", len(c))
	}
}

// Memory that nobody has any more is forgotten, so that what comes to lie at its
// place is not taken for a part of it.
func TestWhatIsGoneIsForgotten(t *testing.T) {
	s := shelf{}
	for range 20 {
		s.give(make([]byte, budget/3)) // three of them are as much as is kept
	}
	for range 3 {
		runtime.GC()
	}
	s.give(make([]byte, least))
	if n := len(s.whole); n > 5 {
		t.Errorf("%d pieces of memory are known, of which three or four are kept", n)
	}
}
