package geometry

import (
	"fmt"
	"math"

	"slabfolio/listing/figure"
)

// FromWidths returns the outline of a top whose widths were measured across it
// at equal steps along its length, both ends included, in mm. A width of 0 is
// allowed at an end (a rounded or pointed end).
//
// The area is Simpson's composite rule where the number of steps is even, with
// the three-eighths rule on the last three steps where it is odd, and the
// trapezoid for two widths. At an end of width 0 the curve may come in at a
// right angle, as an ellipse does, where Simpson's rule is slow: if the third
// width shows that it does, the square of the width is fitted instead, which
// is exact for an ellipse; ends that are blunter than an ellipse and yet come
// to a width of 0 are taken too small, so measure such an end a little inside.
// What the trapezoid differs by is taken as the doubt of the shape between the
// widths.
func FromWidths(length float64, widths []float64) (*Outline, error) {
	if err := checkWidths(length, widths); err != nil {
		return nil, err
	}
	h := length / float64(len(widths)-1)
	weights, rounded := quadrature(widths)
	area, rule := 0.0, simpsonRule(len(widths)-1)
	for i, w := range widths {
		area += weights[i] * w * h
	}
	area += (rounded[0] + rounded[1]) * h
	if rounded[0] > 0 || rounded[1] > 0 {
		rule += ", square of the width fitted at a rounded end"
	}
	p := toOrigin(drawn(length, widths, rounded))
	lo, hi := box(p)
	o := &Outline{
		kind:      KindWidths,
		polygon:   p,
		widths:    append([]float64(nil), widths...),
		length:    figure.PlusMinus(length, TapeUncertainty(length), "outline length"),
		width:     widest(widths),
		area:      widthsArea(area, length, widths, weights),
		perimeter: perimeter(p),
		rule:      rule,
	}
	// The drawing may bulge a hair beyond the widest reading; the extent is
	// the reading, so the drawing is brought back to it.
	if bulge := hi[1] - lo[1]; bulge > o.width.Value {
		for i := range p {
			p[i][1] *= o.width.Value / bulge
		}
	}
	return o, nil
}

func checkWidths(length float64, widths []float64) error {
	if n := len(widths); n < 2 || n > maxPoints {
		return fmt.Errorf("the outline has %d widths; it takes at least two, both ends included", n)
	}
	if err := checkSize("length", length); err != nil {
		return err
	}
	for i, w := range widths {
		if w == 0 && (i == 0 || i == len(widths)-1) && len(widths) > 2 {
			continue
		}
		if err := checkSize(fmt.Sprintf("width %d", i+1), w); err != nil {
			return err
		}
	}
	return nil
}

// widest returns the largest width with its doubt.
func widest(widths []float64) figure.Uncertain {
	k := 0
	for i, w := range widths {
		if w > widths[k] {
			k = i
		}
	}
	return figure.PlusMinus(widths[k], tapeUncertaintyOf(widths), widthCause(k))
}

func widthCause(i int) string { return fmt.Sprintf("outline width %03d", i+1) }

// widthsArea gathers the doubt of the area: the length, each width (they were
// read one by one), and the shape between them.
func widthsArea(area, length float64, widths, weights []float64) figure.Uncertain {
	h := length / float64(len(widths)-1)
	trapezoid := 0.0
	for i := 1; i < len(widths); i++ {
		trapezoid += (widths[i-1] + widths[i]) / 2 * h
	}
	d := figure.PlusMinus(area, area*TapeUncertainty(length)/length, "outline length").
		Plus(figure.PlusMinus(0, math.Abs(area-trapezoid), "outline between the widths"))
	read := tapeUncertaintyOf(widths)
	for i, w := range widths {
		if w > 0 {
			// A width at a rounded end has no weight of its own; half a step
			// stands in for its part in the fitted curve. No other counts less.
			weight := math.Max(weights[i], 0.5)
			d = d.Plus(figure.PlusMinus(0, weight*h*math.Min(read, w), widthCause(i)))
		}
	}
	return d
}

func simpsonRule(steps int) string {
	switch {
	case steps == 1:
		return "trapezoid over two widths"
	case steps%2 == 0:
		return "Simpson's rule over the widths"
	case steps == 3:
		return "three-eighths rule over the widths"
	}
	return "Simpson's rule over the widths, three-eighths rule on the last three steps"
}

// quadrature returns the weight of each width in steps, and for each end that
// is rounded the area, in width times steps, of its first two steps, which
// then carry no weight.
func quadrature(widths []float64) (weights []float64, rounded [2]float64) {
	n := len(widths) - 1
	weights = make([]float64, n+1)
	from, to := 0, n
	if n >= 4 {
		rounded[0] = roundedEnd(widths[0], widths[1], widths[2], widths[3])
		rounded[1] = roundedEnd(widths[n], widths[n-1], widths[n-2], widths[n-3])
	}
	if rounded[0] > 0 {
		from = 2
	}
	if rounded[1] > 0 {
		to = n - 2
	}
	switch steps := to - from; {
	case steps == 0:
	case steps == 1:
		weights[from], weights[to] = 0.5, 0.5
		if n > 2 { // one step in the middle: the cubic through its neighbours
			weights[from], weights[to] = 13.0/24, 13.0/24
			weights[from-1] -= 1.0 / 24
			weights[to+1] -= 1.0 / 24
		}
	default:
		even := steps - steps%2*3 // what Simpson's rule takes
		for i := from; i < from+even; i += 2 {
			weights[i] += 1.0 / 3
			weights[i+1] += 4.0 / 3
			weights[i+2] += 1.0 / 3
		}
		if steps%2 == 1 {
			for k, c := range [4]float64{3.0 / 8, 9.0 / 8, 9.0 / 8, 3.0 / 8} {
				weights[to-3+k] += c
			}
		}
	}
	return weights, rounded
}

// roundedEnd returns the area of the first two steps from an end of width 0
// whose curve comes in at a right angle, else 0. Two curves through the first
// three widths are asked for the fourth: a parabola, and w² = a t + b t²; the
// one that is nearer is believed.
func roundedEnd(w0, w1, w2, w3 float64) float64 {
	if w0 != 0 {
		return 0
	}
	a, b := roundFit(w1, w2)
	square := 3*a + 9*b
	if a <= 0 || square < 0 {
		return 0
	}
	parabola := 3*w2 - 3*w1
	if math.Abs(math.Sqrt(square)-w3) > math.Abs(parabola-w3) {
		return 0
	}
	// With t = 2 sin²(u) the root at the end goes, and Simpson's rule over u
	// is good to many digits.
	const steps = 64
	sum := 0.0
	for i := 0; i <= steps; i++ {
		sin, cos := math.Sincos(math.Pi / 2 * float64(i) / steps)
		t := 2 * sin * sin
		f := math.Sqrt(math.Max(0, a*t+b*t*t)) * 4 * sin * cos
		switch {
		case i == 0 || i == steps:
			sum += f
		case i%2 == 1:
			sum += 4 * f
		default:
			sum += 2 * f
		}
	}
	return sum * math.Pi / 2 / steps / 3
}

// roundFit returns a and b of w² = a t + b t² through w1 at 1 and w2 at 2.
func roundFit(w1, w2 float64) (a, b float64) {
	b = (w2*w2 - 2*w1*w1) / 2
	return w1*w1 - b, b
}
