package photos

import (
	"cmp"
	"fmt"
	"math"
	"path/filepath"
	"strings"

	"slabfolio/imaging"
	"slabfolio/imaging/measure"
	"slabfolio/imaging/note"
	"slabfolio/listing/figure"
	"slabfolio/listing/geometry"
	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// A Top is a top that was measured from a photo.
type Top struct {
	Source   string // as the spec names it
	Measured *imaging.Plan
	Outline  *geometry.Outline // nil when the top could not be measured
	Resin    *figure.Figure    // its share of the face, 0 to 1; nil when it was not measured
	ResinOn  [][][2]float64    // where it lies, mm as Outline: what an odd number of rings go round; nil when it was not measured
}

// MeasurePlan measures the top that the spec's outline says is in the photo at
// path. What cannot be measured is a fault among the findings, and the photo is
// told as far as it was understood; nil when it cannot even be read.
func MeasurePlan(path string, o piece.Outline, thickness units.Length, opts *imaging.Options) (*Top, []piece.Finding) {
	data, err := read(path)
	if err != nil {
		return nil, []piece.Finding{planRefused(o, err)}
	}
	req := imaging.PlanRequest{Data: data, Paper: o.PaperSheet.V, LengthMM: float64(o.Length.V), WidthMM: float64(o.Width.V),
		ThicknessMM: float64(thickness), ResinAt: o.ResinAt}
	if len(o.Marks) == 4 {
		req.Marks = (*[4][2]float64)(o.Marks)
	}
	m, err := imaging.MeasurePlan(req, opts)
	if err != nil {
		return nil, []piece.Finding{planRefused(o, err)}
	}
	p := &Top{Source: o.Photo.V, Measured: m}
	findings := p.findings(cmp.Or(filepath.ToSlash(o.Photo.V), filepath.Base(path)), o.At)
	if m.Refused == nil {
		findings = append(findings, p.shape(o)...)
	}
	return p, findings
}

func planRefused(o piece.Outline, err error) piece.Finding {
	return piece.Finding{Rank: piece.Fault, Code: "plan.refused", File: o.Photo.V, Message: inWords(err).Error(), Remedy: "take the photo from above again, or " + tapeIt}
}

// shape makes the outline and the resin's share of what was measured.
func (p *Top) shape(o piece.Outline) []piece.Finding {
	m := p.Measured
	pts := pairs(m.Result.Outline)
	// What is alike along the whole edge is in the scale's doubt; a single point
	// has little of its own.
	const ownDoubt = 0.5 // mm
	outline, err := geometry.TracedWithin(pts, ownDoubt)
	if err != nil {
		return []piece.Finding{{Rank: piece.Fault, Code: "plan.outline", File: o.Photo.V, Message: "what was found is no outline of a top: " + err.Error(),
			Remedy: "give the corners of the sheet " + underMarks + ", or " + tapeIt}}
	}
	rel := math.Max(m.Area.Error/m.Area.Value/2, m.Length.Error/m.Length.Value)
	if d, round := m.Result.Diameter(); round {
		if circle, err := geometry.Circle(d.Value); err == nil {
			outline = circle
		}
	}
	p.Outline = outline.WithScaleUncertainty(rel, "measured from a photo")
	if m.Resin != nil {
		for _, ring := range m.Result.OnTop {
			p.ResinOn = append(p.ResinOn, pairs(ring))
		}
		s := m.Share
		p.Resin = &figure.Figure{Value: s.Value, Unit: "1", Low: math.Max(s.Value-s.Error, 0), High: math.Min(s.Value+s.Error, 1),
			Rule: "share of the face that has the resin's colour, measured from a photo", Source: o.Photo.V, Inputs: []string{"top.outline.resin_at"}}
	}
	return nil
}

func pairs(points []measure.Point) [][2]float64 {
	out := make([][2]float64, len(points))
	for i, q := range points {
		out[i] = [2]float64{q.X, q.Y}
	}
	return out
}

// findings puts what is to be said of a measured photo into words. file is what
// the maker calls it, at the outline's place in the spec.
func (p *Top) findings(file string, at piece.Place) []piece.Finding {
	var out []piece.Finding
	notes := p.Measured.Notes
	if r := p.Measured.Refused; r != nil {
		notes = append([]note.Note{r.Note}, notes...)
	}
	for _, n := range notes {
		s, ok := planSayings[n.Code]
		if !ok {
			continue
		}
		_, name, _ := strings.Cut(n.Code, ".")
		f := piece.Finding{Rank: s.rank, Code: "plan." + name, File: file, Message: s.message(n.Values), Remedy: s.remedy}
		if n.Code == "measure.resin-proposed" {
			f.Remedy = fmt.Sprintf("if it is resin, write resin_at: [[%.2f, %.2f]] beside paper_sheet", n.Values["x"], n.Values["y"])
		}
		out = append(out, f)
	}
	return out
}

// Words says in one line what was measured, in the system that the maker reads.
func (p *Top) Words(prefer units.System) string {
	m := p.Measured
	if m.Refused != nil {
		return "the top was not measured"
	}
	size := units.Length(m.Length.Value).Text(prefer) + " × " + units.Length(m.Width.Value).Text(prefer)
	if d, round := m.Result.Diameter(); round {
		size = "round, diameter " + units.Length(d.Value).Text(prefer) + " (" + size + ")"
	}
	text := fmt.Sprintf("measured: %s, %.3f m² ± %.1f %%", size, m.Area.Value, 100*m.Area.Error/m.Area.Value)
	if m.Resin != nil {
		text += fmt.Sprintf(", resin %.1f %% ± %.1f %% of the face", 100*m.Share.Value, 100*m.Share.Error)
	}
	return text
}

// CauseWords says what makes an error.
var CauseWords = map[string]string{
	"corners":  "the corners of the sheet",
	"edge":     "where exactly the edge is seen",
	"lens":     "what the lens may bend",
	"parallax": "an edge that flares below the face lies deeper than the sheet",
	"tape":     "the reading of the tape",
	"tilt":     "a camera that may have hung askew, or a line beside the edge",
	"colour":   "where exactly the resin begins",
}

const (
	pointAt    = " (point at them on the overview, which shows the line)"
	underMarks = "under marks" + pointAt
	tapeIt     = "tape length and width"
	fromAbove  = "take it again from straight above, the whole top and some floor all round it in the photo"
	sheetAgain = "lay one flat sheet of white paper on bare wood, away from other bright things, and take it again; or give its corners " + underMarks + ", or " + tapeIt + " instead"
)

// atCommand has no spec and no overview, but flags.
var atCommand = strings.NewReplacer(
	underMarks, "with --marks (how far across and down each lies, clockwise, as shares of the photo)",
	pointAt, "",
	tapeIt+" instead", "tape it and give --length and --width instead",
	tapeIt, "tape it and give --length and --width",
)

// AtCommand puts the remedy of a finding on a plan, which is for a spec, into words
// for the measure command.
func AtCommand(remedy string) string { return atCommand.Replace(remedy) }

// sayShine is say, with the shine that may be why.
func sayShine(message string) func(map[string]float64) string {
	return func(v map[string]float64) string {
		if v["shine"] == 0 {
			return message
		}
		return fmt.Sprintf("%s; but a shine, or a light, has blown out %.0f %% of the photo to white, and no sheet is seen within it until the lamp is moved", message, math.Max(100*v["shine"], 1))
	}
}

// planSayings are the findings on a photo that a top is measured from, by code.
var planSayings = map[string]saying{
	"measure.small": {piece.Fault, func(v map[string]float64) string {
		return fmt.Sprintf("%.0f × %.0f pixels are too few to measure from", v["width"], v["height"])
	}, "use the camera's full size"},
	"measure.no-sheet":   {piece.Fault, sayShine("no sheet of paper was found in the photo, so the top cannot be measured from it"), sheetAgain},
	"measure.two-sheets": {piece.Fault, say("two sheets of paper lie there, and which one counts cannot be told"), "take one away and the photo again, or give the corners of the right one " + underMarks},
	"measure.sheet-cut":  {piece.Fault, sayShine("the sheet of paper reaches out of the photo"), "take it again with the whole sheet and the whole top in the photo"},
	"measure.sheet-below": {piece.Fault, sayShine("the sheet, or most of it, lies on the floor, not on the top, so it is farther from the camera than what is to be measured"),
		"lay the whole of it on the top and take the photo again"},
	"measure.sheet-over": {piece.Fault, sayShine("the sheet reaches over the edge of the top, or lies right along it, so that the edge is not seen there"),
		"lay the sheet on the top with wood all round it, a hand's width from the edges, and take the photo again"},
	"measure.sheet-is-top": {piece.Fault, func(v map[string]float64) string {
		return fmt.Sprintf("the only four edges found are those of the top itself: their ratio, %.2f, is that of no paper (A4 1.41, letter 1.29), and nothing but floor lies round them; no sheet on it stands out", v["ratio"])
	}, "lay a plain white sheet where all of its edges stand out from the wood, in even light; or give its corners " + underMarks},
	"measure.bad-marks": {piece.Fault, say("the four marks are not the corners of a sheet seen from above"), "give the four corners as shares of the photo, clockwise: [[left, top], …], each from 0 to 1" + pointAt},
	"measure.no-outline": {piece.Fault, say("what lies round the sheet looks the same all the way to the rim of the photo, so the edge of the top cannot be found: either the photo shows only a part of the top, or the floor has its colour, or the line runs round the top itself and no sheet on it stands out"),
		fromAbove + "; where the floor is like the wood, lay a plain sheet or cloth of another colour under the top"},
	"measure.no-edge": {piece.Fault, func(v map[string]float64) string {
		return fmt.Sprintf("along only %.0f %% of the outline that was found an edge is seen, so nothing is measured by it", 100*v["share"])
	}, "use the photo as the camera took it, not a screenshot or a small copy; else " + fromAbove + ", on a floor of another colour"},
	"measure.unclear": {piece.Fault, func(v map[string]float64) string {
		return fmt.Sprintf("along %.0f %% of the outline both sides of it look the same, so it runs through the top or through the floor there, and nothing is measured by it", v["percent"])
	}, "take it again with the whole top and some floor all round it in the photo, on a floor of another colour, without a lamp's shine on the wood"},
	"measure.partly-unclear": {piece.Doubt, func(v map[string]float64) string {
		return fmt.Sprintf("along %.0f %% of the outline both sides of it look nearly the same", v["percent"])
	}, "compare the line in the picture with the edge; a floor of another colour makes it surer"},
	"measure.top-cut": {piece.Fault, func(v map[string]float64) string {
		if v["sides"] >= 3 {
			return "what was taken for the top reaches out of the photo on " + map[bool]string{true: "all sides", false: "three sides"}[v["sides"] > 3] + ": either the photo shows only a part of the top, or the sheet lies on the floor"
		}
		return "the top reaches out of the photo, so it cannot be measured whole"
	}, fromAbove + ", the sheet on the top"},
	"measure.tilt": {piece.Fault, func(v map[string]float64) string {
		return sayShine(fmt.Sprintf("by the shape of the sheet in it the photo was taken %.0f degrees off straight down; beyond %.0f a measurement is worth little", v["degrees"], v["limit"]))(v)
	}, "take it again from straight above; if it was, look whether the line in the picture follows the sheet: another bright thing or a shine beside it leads astray"},
	"measure.skew": {piece.Fault, func(v map[string]float64) string {
		return fmt.Sprintf("taped length and width do not fit the shape in the photo: they are %.0f %% apart", 100*v["skew"])
	}, "take it again from straight above, and tape again"},
	"measure.error": {piece.Fault, func(v map[string]float64) string {
		return fmt.Sprintf("the area came out with an error of %.0f %%, which is too wide to be of use", v["percent"])
	}, "come closer, hang the camera straight above, and use its full size"},
	"measure.other-paper": {piece.Doubt, func(v map[string]float64) string {
		return fmt.Sprintf("by the ratio of its sides, %.3f, the sheet looks like the other size of paper (A4: 1.414, letter: 1.294)", v["ratio"])
	}, "look which paper it was; a wrong one makes every length 6 % wrong"},
	"measure.paper-unsure": {piece.Doubt, func(v map[string]float64) string {
		return fmt.Sprintf("the ratio of its sides, %.3f ± %.3f, does not tell A4 (1.414) from letter (1.294)", v["ratio"], v["give"])
	}, "say which paper it is: paper_sheet: a4 or letter"},
	"measure.odd-sheet": {piece.Doubt, func(v map[string]float64) string {
		return fmt.Sprintf("the ratio of the sheet's sides is %.3f, and that paper has %.3f", v["ratio"], v["wanted"])
	}, "look whether the sheet is whole and flat, and whether the lines in the picture follow it; else give its corners " + underMarks},
	"measure.soft-edge": {piece.Doubt, func(v map[string]float64) string {
		return fmt.Sprintf("the edge of the top is seen clearly along only %.0f %% of it", 100*v["share"])
	}, "compare the line in the picture with the edge; a floor of another colour makes it surer"},
	"measure.tape-differs": {piece.Doubt, func(v map[string]float64) string {
		return fmt.Sprintf("taped %.0f mm, measured %.0f ± %.0f mm", v["taped"], v["measured"], v["error"])
	}, "tape again; then look in the picture whether sheet and outline are right"},
	"measure.askew": {piece.Doubt, func(v map[string]float64) string {
		return fmt.Sprintf("length and width in the photo do not have the taped ratio: %.1f %% apart, so the camera hung askew, or the line that was found leaves the edge somewhere", 100*v["skew"])
	}, "take it again from straight above, or lay a sheet of paper on the top, which takes the tilt out"},
	"measure.spot-off": {piece.Doubt, func(v map[string]float64) string {
		return "a spot under resin_at does not lie on the bare face of the top, and is not used"
	}, "give spots on the resin as shares of the photo, from its upper left: [[across, down]]" + pointAt},
	"measure.resin-unsure": {piece.Doubt, func(v map[string]float64) string {
		return fmt.Sprintf("the colour at resin_at is too near to the wood's (%.1f apart, %.0f are needed), so the resin is not measured", v["apart"], v["least"])
	}, "look whether the spot lies on resin; where resin and wood look alike, give its area or volume under resin"},
	"measure.sheet-on-resin": {piece.Doubt, func(v map[string]float64) string {
		return fmt.Sprintf("the sheet lies on the resin: %.0f %% of the resin's area is a guess at what is under it", 100*v["share"])
	}, "lay the sheet on wood alone and take the photo again"},
	"measure.lens-undone": {piece.Note, func(v map[string]float64) string {
		way := "inwards"
		if v["percent"] > 0 {
			way = "outwards"
		}
		return fmt.Sprintf("by the straight lines in the photo its lens bends it %s by %.1f ± %.1f %% at the corners, which was taken out before measuring", way, math.Abs(v["percent"]), v["error"])
	}, ""},
	"measure.resin-proposed": {piece.Note, func(v map[string]float64) string {
		return fmt.Sprintf("about %.0f %% of the face has a colour that wood does not have", 100*v["share"])
	}, ""},
}
