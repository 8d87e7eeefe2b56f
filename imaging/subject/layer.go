package subject

// A layer turns sums into values: each of its channels has weights, a bias and
// a factor.
type layer struct {
	name   string
	kind   byte // 'c' every channel with every other, 'd' each channel by itself, 'm' the mean of the grid
	k      int  // width and height of the patch
	stride int
	relu   bool
	in     int // channels, as stored
	out    int

	// weights lie as the vector code reads them. 'c' and 'm': for each 8
	// channels out, for each two values of the patch, 8 pairs. 'd': for each 16
	// channels, for each row and two columns of the patch, first the pairs of
	// channels 0–3 and 8–11, then those of 4–7 and 12–15.
	weights []int16
	bias    []int32 // 'd': in the order of the pairs
	factor  []int32
}

// scaled takes a sum to a value: the upper half of its product with the
// factor, rounded, within the bounds.
func (l *layer) scaled(sum int32, at int) int16 {
	v := int32((int64(sum+l.bias[at])*int64(l.factor[at]) + 1<<31) >> 32)
	return int16(max(l.least(), min(top, v)))
}

func (l *layer) least() int32 {
	if l.relu {
		return 0
	}
	return -top
}
