package geometry

import (
	"errors"
	"math"
	"testing"
)

// Sizes from just above nothing up to 20 m are tops; nothing, less, more, and what is
// no number are not.
func TestLimitsOfASize(t *testing.T) {
	for mm, fine := range map[float64]bool{
		0: false, -1: false, math.Inf(1): false, math.Inf(-1): false, math.NaN(): false,
		0.001: true, 20000: true, 20000.001: false,
	} {
		var size *SizeError
		if _, err := Rectangle(mm, 300); (err == nil) != fine || !fine && !errors.As(err, &size) {
			t.Errorf("a length of %v mm: %v", mm, err)
		}
		if _, err := Rectangle(300, mm); (err == nil) != fine {
			t.Errorf("a width of %v mm: %v", mm, err)
		}
	}
}
