package photos

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"slabfolio/imaging"
	"slabfolio/imaging/note"
	"slabfolio/imaging/rendition"
	"slabfolio/listing/report"
)

// The steps of a photo's way, in order, and which numbers each went by.
const (
	stepReading    = "reading"
	stepColour     = "colour"
	stepFraming    = "framing"
	stepInspection = "inspection"
	stepTone       = "tone"
	stepRenditions = "renditions"
)

// numbersOf are the names of the numbers that a step goes by.
var numbersOf = map[string][]string{
	stepFraming:    {"subject_confidence", "crop_left", "crop_top", "crop_right", "crop_bottom", "angle_deg"},
	stepInspection: {"noise_levels", "clipped_share", "edge_px"},
	stepTone:       {"exposure_ev", "white_r", "white_g", "white_b", "white_confidence", "light_group"},
}

// OtherShape says of a file that is not of the shape which its size asks for what it is:
// "square is 1180 × 787 pixels". It is empty for all others.
func OtherShape(size rendition.Size, width, height int) string {
	asked := float64(size.RatioW) / float64(max(size.RatioH, 1))
	if size.RatioW <= 0 || size.RatioH <= 0 || math.Abs(float64(width)-asked*float64(height)) <= 1.5 {
		return ""
	}
	return fmt.Sprintf("%s is %d × %d pixels", size.Name, width, height)
}

// Steps is a line for each step of a photo's way, for the record: what the
// step did, or that it left the photo as it was, and its numbers. shapes are those of
// its files that are of another shape than their names say.
func Steps(p *imaging.Photo, files int, shapes []string) []report.PhotoStep {
	read := []string{fmt.Sprintf("%s, %d × %d pixels, read by %s", strings.ToUpper(p.Format), p.W, p.H, p.Codec)}
	found := []string{}
	for _, n := range p.Notes {
		if code, ok := strings.CutPrefix(n.Code, "inspect."); ok {
			found = append(found, code)
		}
	}
	steps := []report.PhotoStep{
		{Step: stepReading, Did: strings.Join(append(read, wordsOf(p, "decode.")...), ", "), Numbers: map[string]float64{"width": float64(p.W), "height": float64(p.H)}},
		{Step: stepColour, Did: colourWords(p)},
		{Step: stepFraming, Did: or(append(wordsOf(p, "frame."), wordsOf(p, "ground.")...), "kept whole")},
		{Step: stepInspection, Did: or(found, "nothing found")},
		{Step: stepTone, Did: or(wordsOf(p, "tone."), "left as it was")},
		{Step: stepRenditions, Did: strings.Join(slices.Concat([]string{fmt.Sprintf("%d files", files)}, shapes, budgetWords(p)), ", ")},
	}
	for i := range steps {
		s := &steps[i]
		for _, name := range numbersOf[s.Step] {
			if v, ok := p.Numbers[name]; ok {
				if s.Numbers == nil {
					s.Numbers = map[string]float64{}
				}
				s.Numbers[name] = v
			}
		}
	}
	last := &steps[len(steps)-1]
	for _, name := range slices.Sorted(maps.Keys(p.Numbers)) {
		if strings.HasPrefix(name, "quality_") || strings.HasPrefix(name, "width_") {
			if last.Numbers == nil {
				last.Numbers = map[string]float64{}
			}
			last.Numbers[name] = p.Numbers[name]
		}
	}
	return steps
}

// budgetWords says which renditions were made smaller, or coarser, to keep their
// files small enough for the web.
func budgetWords(p *imaging.Photo) (words []string) {
	for _, name := range slices.Sorted(maps.Keys(p.Numbers)) {
		if size, ok := strings.CutPrefix(name, "width_"); ok {
			words = append(words, fmt.Sprintf("%s made %.0f pixels wide, so that its file is not too large", size, p.Numbers[name]))
		}
		if size, ok := strings.CutPrefix(name, "quality_"); ok {
			words = append(words, fmt.Sprintf("%s saved at quality %.0f, so that its file is not too large", size, p.Numbers[name]))
		}
	}
	return words
}

// or joins words, or says something else where there are none.
func or(words []string, none string) string {
	if len(words) == 0 {
		return none
	}
	return strings.Join(words, ", ")
}

// colourWords says what the colours of a photo were taken to be.
func colourWords(p *imaging.Photo) string {
	switch {
	case slices.ContainsFunc(p.Notes, func(n note.Note) bool { return n.Code == "colour.bad-profile" }):
		return "profile unreadable, taken as sRGB"
	case slices.ContainsFunc(p.Notes, func(n note.Note) bool { return n.Code == "colour.cmyk-no-profile" }):
		return "printing inks without a profile, taken as ordinary ones"
	case slices.ContainsFunc(p.Done, func(n note.Note) bool { return n.Code == "colour.profile" }):
		return "through its own profile"
	case p.Space == "adobe-rgb":
		return "no profile, Adobe RGB by its tags"
	case p.Space == "display-p3":
		return "no profile, Display P3 by its tags"
	case p.Space == "srgb":
		return "no profile, sRGB by its tags"
	}
	return "no profile, taken as sRGB"
}

// Done says what was done to a photo, step by step, for people.
func Done(p *imaging.Photo) []string {
	var words []string
	for _, step := range [...]string{"decode.", "colour.", "frame.", "ground.", "tone."} {
		words = append(words, wordsOf(p, step)...)
	}
	return words
}

// wordsOf says what one step did, known by the first part of its codes.
func wordsOf(p *imaging.Photo, step string) []string {
	var words []string
	shapes := map[string][]string{}
	for _, n := range p.Notes {
		if step == "frame." && n.Code == "frame.converging" && n.Values["corrected"] == 1 {
			words = append(words, fmt.Sprintf("leaning uprights put straight (%.1f degrees)", math.Abs(n.Values["degrees"])))
		}
	}
	for _, n := range p.Done {
		if !strings.HasPrefix(n.Code, step) {
			continue
		}
		v := n.Values
		switch n.Code {
		case "decode.turned":
			words = append(words, "turned upright")
		case "colour.profile":
			words = append(words, "colour profile applied")
		case "frame.straightened":
			words = append(words, fmt.Sprintf("straightened by %.1f degrees", math.Abs(v["degrees"])))
		case "frame.border":
			words = append(words, "its border taken off")
		case "frame.padded", "frame.ground", "frame.narrow", "frame.filled":
			if s := shapeWord(v["ratio_w"], v["ratio_h"]); !slices.Contains(shapes[n.Code], s) {
				shapes[n.Code] = append(shapes[n.Code], s)
			}
		case "ground.put":
			words = append(words, "put on a plain ground, its shadow kept")
		case "frame.cropped":
			words = append(words, "cropped to the piece")
		case "colour.chart":
			words = append(words, fmt.Sprintf("colours put right by the colour chart (ΔE %.1f to %.1f on its patches)", v["before"], v["after"]))
		case "colour.card":
			words = append(words, fmt.Sprintf("white set by the grey card (a cast of %.1f stops taken out)", v["cast"]))
		case "tone.as-shot":
			words = append(words, "tone left as shot")
		case "tone.dark":
			words = append(words, "dark by intent, blacks left alone")
		case "tone.exposure":
			if math.Abs(v["ev"]) >= 0.05 {
				words = append(words, signedStops(v["ev"]))
			}
		case "tone.white":
			words = append(words, whiteWords(v)...)
		}
	}
	for _, s := range [...]struct{ code, words string }{
		{"frame.padded", "backdrop carried on for "}, {"frame.ground", "on a plain ground for "}, {"frame.narrow", "as much as the photo has, and nothing painted, for "},
		{"frame.filled", "a part of it fills "},
	} {
		if len(shapes[s.code]) > 0 {
			words = append(words, s.words+strings.Join(shapes[s.code], " and "))
		}
	}
	return words
}

// shapeWord is a word for a ratio.
func shapeWord(w, h float64) string {
	switch {
	case w < h:
		return "tall"
	case w > h:
		return "wide"
	}
	return "square"
}

// stops says a number of stops without its sign.
func stops(ev float64) string {
	n := fmt.Sprintf("%.1f", math.Abs(ev))
	if n == "1.0" {
		return "1 stop"
	}
	return n + " stops"
}

func signedStops(ev float64) string {
	if ev < 0 {
		return "−" + stops(ev)
	}
	return "+" + stops(ev)
}

// whiteWords says how the colour of the light was changed: along the line from
// warm to cool, and across it.
func whiteWords(v map[string]float64) []string {
	var words []string
	switch k := v["cooler"]; {
	case k >= 40:
		words = append(words, fmt.Sprintf("%.0f K cooler", k))
	case k <= -40:
		words = append(words, fmt.Sprintf("%.0f K warmer", -k))
	}
	switch m := v["magenta"]; {
	case m >= 0.02:
		words = append(words, "a little less green")
	case m <= -0.02:
		words = append(words, "a little less magenta")
	}
	return words
}
