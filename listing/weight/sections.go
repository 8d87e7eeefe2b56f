package weight

import (
	"fmt"
	"math"
	"strings"

	"slabfolio/listing/figure"
	"slabfolio/listing/geometry"
	"slabfolio/listing/piece"
)

// sectionVolume returns the volume in mm³ of one length of a metal section,
// with the doubt of its length (and, for a plate, of all its sides), named by
// stock, what the section is, and the length; what rolling and rounded corners do
// to its area is not in it.
// Corners are taken as sharp. It returns an error where sizes are missing or
// a wall leaves no hollow that could be.
func sectionVolume(s piece.Section, stock string) (figure.Uncertain, string, error) {
	v := make([]float64, len(s.Sizes))
	for i, l := range s.Sizes {
		v[i] = float64(l)
		if !(v[i] > 0) || v[i] > maxSection {
			return figure.Uncertain{}, "", &sizesError{fmt.Sprintf("size %d of the section is %%s, which no section has", i+1), v[i : i+1]}
		}
	}
	if s.Form == "plate" {
		if len(v) != 3 {
			return figure.Uncertain{}, "", fmt.Errorf("a plate needs length, width and thickness; %d sizes are given", len(v))
		}
		d := measured(v[0], geometry.TapeUncertainty, "length of "+stock).Times(measured(v[1], geometry.TapeUncertainty, "width of "+stock))
		return d.Scale(v[2]), fmt.Sprintf("plate %s mm", times(v)), nil
	}
	if !s.Length.Set() || !(s.Length.V > 0) || s.Length.V > maxRun {
		return figure.Uncertain{}, "", fmt.Errorf("the length of the section is missing")
	}
	area, err := sectionArea(s.Form, v)
	if err != nil {
		return figure.Uncertain{}, "", err
	}
	l := float64(s.Length.V)
	return measured(l, geometry.TapeUncertainty, fmt.Sprintf("length of the %.0f mm of %s", l, stock)).Scale(area), fmt.Sprintf("%s %s mm, %.0f mm long", s.Form, times(v), l), nil
}

const (
	maxSection = 2000.0   // mm
	maxRun     = 100000.0 // mm of one section
)

// sectionArea returns the area of a section's metal in mm².
func sectionArea(form string, v []float64) (float64, error) {
	need := map[string]string{"box": "width, height and wall", "tube": "diameter and wall", "bar": "a diameter, or width and thickness", "angle": "two legs and wall", "channel": "width, height and wall"}[form]
	bad := func() (float64, error) {
		return 0, &sizesError{fmt.Sprintf("the sizes of a %s are %s, with a wall that leaves room inside; got %s", form, need, strings.TrimSuffix(strings.Repeat("%s x ", len(v)), " x ")), v}
	}
	switch {
	case need == "":
		return 0, fmt.Errorf("a section is box, tube, bar, angle, plate or channel, not %q", form)
	case form == "box" && len(v) == 3:
		if 2*v[2] > math.Min(v[0], v[1]) {
			return bad()
		}
		return v[0]*v[1] - (v[0]-2*v[2])*(v[1]-2*v[2]), nil
	case form == "tube" && len(v) == 2:
		if 2*v[1] > v[0] {
			return bad()
		}
		return math.Pi * v[1] * (v[0] - v[1]), nil
	case form == "bar" && len(v) == 1:
		return math.Pi * v[0] * v[0] / 4, nil
	case form == "bar" && len(v) == 2:
		return v[0] * v[1], nil
	case form == "angle" && len(v) == 3:
		if v[2] > math.Min(v[0], v[1]) {
			return bad()
		}
		return v[2] * (v[0] + v[1] - v[2]), nil
	case form == "channel" && len(v) == 3: // web v[0], two flanges of v[1]
		if 2*v[2] > v[0] || v[2] > v[1] {
			return bad()
		}
		return v[2] * (v[0] + 2*(v[1]-v[2])), nil
	}
	return bad()
}

func times(v []float64) string {
	s := make([]string, len(v))
	for i, x := range v {
		s[i] = fmt.Sprintf("%.4g", x)
	}
	return strings.Join(s, " x ")
}

// boxVolume returns the volume in mm³ of the walls of a box that is open at
// the top, as a drawer is: four sides and a bottom of one thickness.
func boxVolume(l, w, h, wall float64) (float64, error) {
	if 2*wall > math.Min(l, w) || wall > h {
		return 0, &sizesError{"walls of %s leave no room in a box of %s x %s x %s", []float64{wall, l, w, h}}
	}
	return l*w*h - (l-2*wall)*(w-2*wall)*(h-wall), nil
}

// measured returns a size with the doubt of its reading.
func measured(v float64, doubt func(float64) float64, cause string) figure.Uncertain {
	return figure.PlusMinus(v, math.Min(doubt(v), v), cause)
}
