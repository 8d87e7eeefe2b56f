//go:build !amd64

package linear

// vectorRow has no vector code on this machine.
func (f *fused) vectorRow(dst []uint16, luma, cb0, cb1, cr0, cr1 []uint8) int { return 0 }
