package spare

import (
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
// does not sit on the memory of a large one.
func TestGivenMemoryIsTakenAgain(t *testing.T) {
	a := Take[uint8](40 * least)
	Give(a)
	b := Take[uint8](39 * least)
	if &a[0] != &b[0] {
		t.Error("a picture of nearly the same size has got fresh memory")
	}
	Give(b)
	if c := Take[uint8](20 * least); &a[0] == &c[0] {
		t.Error("a small picture sits on the memory of a large one")
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
