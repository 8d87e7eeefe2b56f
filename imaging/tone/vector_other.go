//go:build !amd64

package tone

// wide is what the vector code of other machines wants.
type wide struct{}

func (d *developer) widen()              {}
func (d *developer) vector([]uint16) int { return 0 }
