package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/urfave/cli/v2"

	"slabfolio/imaging"
	"slabfolio/imaging/measure"
	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/stage"
	"slabfolio/listing/units"
)

func measureCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:      "measure",
		Usage:     "measure a top from a photo taken from above",
		ArgsUsage: "PHOTO",
		Description: "Lay a sheet of A4 or letter paper on the top, hang the camera straight above, the whole top and\n" +
			"some floor round it in the photo. Prints size, area and their errors, and writes the photo with\n" +
			"what was found drawn over it, so that you see whether it is right. Without paper, give the length\n" +
			"and width as taped. Nothing is measured where it cannot be done well; exit status 1 then.",
		Flags: append(commonFlags(),
			&cli.StringFlag{Name: "paper-sheet", Usage: "which `PAPER` lies on the top: a4 or letter (default: told by its ratio)"},
			&cli.StringFlag{Name: "length", Usage: "the taped `LENGTH`, to check, or instead of paper"},
			&cli.StringFlag{Name: "width", Usage: "the taped `WIDTH`, the same"},
			&cli.StringFlag{Name: "thickness", Usage: "`THICKNESS` of the top: makes the error smaller where its side is seen"},
			&cli.StringFlag{Name: "marks", Usage: "the sheet's `CORNERS` as in the spec: [[0.41, 0.40], [0.55, 0.40], …], clockwise"},
			&cli.StringFlag{Name: "resin-at", Usage: "`SPOTS` on the resin as in the spec: [[0.5, 0.3]]"},
			&cli.StringFlag{Name: "to", Usage: "`PICTURE` to write (default: PHOTO's name with -measured, as a JPEG in the current folder)"},
		),
		Action: func(ctx *cli.Context) error {
			o, err := settings(ctx, c)
			if err != nil {
				return err
			}
			outline, thickness, err := plannedBy(ctx, o.Units)
			if err != nil {
				return err
			}
			to, err := pictureFor(ctx.String("to"), outline.Photo.V)
			if err != nil {
				return err
			}
			if err := checkGuarded(to, "the picture", "choose another place with --to"); err != nil {
				return err
			}
			if _, err := os.Lstat(to); err == nil && ctx.IsSet("to") {
				return usagef("choose another name, or move it away", "%s is already there, and nothing is written over", filepath.ToSlash(to))
			}
			file, err := givenPhoto("photo", outline.Photo.V)
			if err != nil {
				return err
			}
			found, findings := photos.MeasurePlan(file, outline, thickness, &imaging.Options{Pure: o.Codecs == "pure", MaxPixels: o.MaxMegapixels * 1_000_000})
			if found != nil {
				if nothingDrawn(found) {
					to = ""
				} else if to, err = writePicture(to, found.Measured.Picture, ctx.IsSet("to")); err != nil {
					return err
				}
				tellMeasured(c, found, to, o.Units)
			}
			return tellFindings(c, findings)
		},
	}
}

// plannedBy reads the flags into what the spec would say.
func plannedBy(ctx *cli.Context, bare units.System) (o piece.Outline, thickness units.Length, err error) {
	if ctx.Args().Len() != 1 {
		return o, 0, usagef("slabfolio measure plan.jpg --paper-sheet a4", "measure takes one PHOTO")
	}
	o.Photo = piece.Of(ctx.Args().First())
	if _, err := givenPhoto("photo", o.Photo.V); err != nil {
		return o, 0, err
	}
	if p := strings.ToLower(ctx.String("paper-sheet")); p != "" {
		if p != string(measure.A4) && p != string(measure.Letter) {
			return o, 0, usagef("", "--paper-sheet %q: a4 or letter", p)
		}
		o.PaperSheet = piece.Of(p)
	}
	if bare == "" {
		bare = units.Inches
	}
	for _, f := range []struct {
		name string
		to   *units.Length
		most units.Length // mm, as in a spec
	}{{"length", &o.Length.V, 12_000}, {"width", &o.Width.V, 12_000}, {"thickness", &thickness, 600}} {
		if text := ctx.String(f.name); text != "" {
			if *f.to, err = units.ParseLength(text, bare); err != nil {
				return o, 0, usagef("such as "+units.LengthExample, "--%s %q: %v", f.name, text, err)
			}
			if *f.to <= 0 {
				return o, 0, usagef("such as "+units.LengthExample, "--%s %q: more than nothing", f.name, text)
			}
			if *f.to > f.most {
				return o, 0, usagef("write the unit with it, such as "+units.LengthExample, "--%s %s is read as %s, and no top is that large", f.name, text, f.to.Plain(units.Inches))
			}
		}
	}
	if (o.Length.V > 0) != (o.Width.V > 0) && !o.PaperSheet.Set() {
		return o, 0, usagef("", "without --paper-sheet both --length and --width are needed")
	}
	if o.Marks, err = places(ctx, "marks"); err == nil && o.Marks != nil && len(o.Marks) != 4 {
		err = usagef("four corners, clockwise, each [across, down] as shares of the photo", "--marks has %d corners", len(o.Marks))
	}
	if err != nil {
		return o, 0, err
	}
	o.ResinAt, err = places(ctx, "resin-at")
	return o, thickness, err
}

var number = spelling.Pattern(`[-+]?[0-9]*\.?[0-9]+`)

// places reads pairs of shares, written as in the spec or just as numbers.
func places(ctx *cli.Context, flag string) ([][2]float64, error) {
	text := ctx.String(flag)
	if text == "" {
		return nil, nil
	}
	hint := "pairs of shares of the photo, from its upper left: [[0.41, 0.40], [0.55, 0.40]]"
	if strings.Trim(number().ReplaceAllString(text, ""), "[](),; \t") != "" {
		return nil, usagef(hint, "--%s %q", flag, text)
	}
	all := number().FindAllString(text, -1)
	if len(all) == 0 || len(all)%2 != 0 {
		return nil, usagef(hint, "--%s %q: %d numbers make no pairs", flag, text, len(all))
	}
	var out [][2]float64
	for i := 0; i < len(all); i += 2 {
		x, err1 := strconv.ParseFloat(all[i], 64)
		y, err2 := strconv.ParseFloat(all[i+1], 64)
		if err1 != nil || err2 != nil || x < 0 || x > 1 || y < 0 || y > 1 {
			return nil, usagef(hint, "--%s: %s, %s is no place in the photo; shares run from 0 to 1", flag, all[i], all[i+1])
		}
		out = append(out, [2]float64{x, y})
	}
	return out, nil
}

// writePicture writes the picture and returns where. Nothing is written over: a
// name that was not asked for gets a number, unless the same stands there already.
func writePicture(to string, data []byte, asked bool) (string, error) {
	ext := filepath.Ext(to)
	for i, name := 2, to; ; i++ {
		if old, err := stage.ReadOrdinary(name); err == nil && bytes.Equal(old, data) {
			return name, nil
		}
		if _, err := os.Lstat(name); asked || err != nil {
			return name, writeNew(name, data)
		}
		name = fmt.Sprintf("%s-%d%s", strings.TrimSuffix(to, ext), i, ext)
	}
}

// pictureFor is where the picture goes; never over a photo.
func pictureFor(to, photo string) (string, error) {
	if to == "" {
		base := filepath.Base(photo)
		to = strings.TrimSuffix(base, filepath.Ext(base)) + "-measured.jpg"
	}
	if ext := strings.ToLower(filepath.Ext(to)); ext != ".jpg" && ext != ".jpeg" {
		return "", usagef("", "--to %q: the picture is a JPEG, end its name in .jpg", to)
	}
	a, err1 := os.Stat(photo)
	if b, err2 := os.Stat(to); err1 == nil && err2 == nil && os.SameFile(a, b) {
		return "", usagef("", "--to %q is the photo itself", to)
	}
	return to, nil
}

// measured is the JSON of a measurement.
type measured struct {
	Type    string         `json:"type"`
	Photo   string         `json:"photo"`
	Picture string         `json:"picture,omitempty"` // absent where nothing was found to draw
	Sheet   *measuredSheet `json:"sheet,omitempty"`
	*measuredTop
}

type measuredSheet struct {
	Kind    string        `json:"kind"`
	Corners [4][2]float64 `json:"corners"`
	Ratio   float64       `json:"ratio"`
}

type measuredTop struct {
	Length      float64                `json:"length_mm"`
	LengthError float64                `json:"length_mm_error"`
	Width       float64                `json:"width_mm"`
	WidthError  float64                `json:"width_mm_error"`
	Diameter    *float64               `json:"diameter_mm,omitempty"` // of a round one
	DiameterErr *float64               `json:"diameter_mm_error,omitempty"`
	Area        float64                `json:"area_m2"`
	AreaError   float64                `json:"area_m2_error"`
	Resin       *float64               `json:"resin_area_m2,omitempty"`
	ResinError  *float64               `json:"resin_area_m2_error,omitempty"`
	Tilt        *float64               `json:"tilt_deg,omitempty"`
	Causes      map[string]measuredWhy `json:"causes"`
	Outline     [][2]float64           `json:"outline"`
}

// measuredWhy is what one cause alone makes the errors.
type measuredWhy struct {
	Length float64 `json:"length_mm"`
	Width  float64 `json:"width_mm"`
	Area   float64 `json:"area_m2"`
}

// noSheet reports whether what was taken for the sheet is none.
func noSheet(m *imaging.Plan) bool {
	return m.Refused != nil && m.Refused.Code == "measure.sheet-is-top"
}

func tellMeasured(c *console, t *photos.Top, to string, prefer units.System) {
	if c.json {
		c.object(measuredJSON(t, to))
		return
	}
	m := t.Measured
	if s := m.Sheet; s != nil && !noSheet(m) {
		c.result("sheet: %s, ratio of its sides %.3f", map[measure.Kind]string{measure.A4: "A4", measure.Letter: "letter"}[s.Kind], s.Ratio)
	}
	if m.Refused == nil {
		if prefer == "" {
			prefer = units.Inches
		}
		size := func(v measure.Value) string {
			if !prefer.Metric() {
				return fmt.Sprintf("%s, to within %.2f in (%.1f mm)", units.Length(v.Value).Both(prefer), v.Error/units.MillimetresPerInch, v.Error)
			}
			return fmt.Sprintf("%s, to within %.1f mm", units.Length(v.Value).Both(prefer), v.Error)
		}
		if d, round := m.Result.Diameter(); round {
			c.result("round, diameter: %s; its two widths are:", size(d))
		}
		c.result("length: %s", size(m.Length))
		c.result("width: %s", size(m.Width))
		area := fmt.Sprintf("%.4f m² (%.2f sq ft)", m.Area.Value, m.Area.Value*squareFeet)
		if !prefer.Metric() {
			area = fmt.Sprintf("%.2f sq ft (%.4f m²)", m.Area.Value*squareFeet, m.Area.Value)
		}
		c.result("area: %s, to within %.1f %%", area, 100*m.Area.Error/m.Area.Value)
		if m.Resin != nil {
			c.result("resin: %.1f %% of the face, to within %.1f %%", 100*m.Share.Value, 100*m.Share.Error)
		}
		for i, k := range m.Area.Causes {
			if i < 3 && k.Error > 0 {
				c.result("  %.1f %% of the area: %s", 100*k.Error/m.Area.Value, photos.CauseWords[k.Code])
			}
		}
	}
	switch {
	case nothingDrawn(t):
	case noSheet(m):
		c.result("look at what was found: %s", filepath.ToSlash(to))
	case m.Refused != nil:
		c.result("look whether the blue line follows the sheet: %s", filepath.ToSlash(to))
	default:
		c.result("look whether the lines are right: %s", filepath.ToSlash(to))
	}
}

// nothingDrawn reports whether there is nothing to look at in the picture.
func nothingDrawn(t *photos.Top) bool { return t.Measured.Sheet == nil && t.Measured.Refused != nil }

// squareFeet make a square metre: 1 ft = 0.3048 m, exactly.
const squareFeet = 1 / (0.3048 * 0.3048)

func measuredJSON(t *photos.Top, to string) measured {
	m := t.Measured
	out := measured{Type: "measure", Photo: filepath.ToSlash(t.Source), Picture: filepath.ToSlash(to)}
	if s := m.Sheet; s != nil {
		out.Sheet = &measuredSheet{Kind: string(s.Kind), Ratio: s.Ratio}
		for i, p := range s.Corners {
			out.Sheet.Corners[i] = [2]float64{p.X, p.Y}
		}
	}
	if m.Refused != nil {
		return out
	}
	top := &measuredTop{Length: m.Length.Value, LengthError: m.Length.Error, Width: m.Width.Value, WidthError: m.Width.Error,
		Area: m.Area.Value, AreaError: m.Area.Error, Causes: map[string]measuredWhy{}}
	if d, round := m.Result.Diameter(); round {
		top.Diameter, top.DiameterErr = &d.Value, &d.Error
	}
	if m.Resin != nil {
		top.Resin, top.ResinError = &m.Resin.Value, &m.Resin.Error
	}
	if m.Tilt >= 0 {
		top.Tilt = &m.Tilt
	}
	for _, p := range m.Result.Outline {
		top.Outline = append(top.Outline, [2]float64{p.X, p.Y})
	}
	for i, v := range []measure.Value{m.Length, m.Width, m.Area} {
		for _, k := range v.Causes {
			w := top.Causes[k.Code]
			*[]*float64{&w.Length, &w.Width, &w.Area}[i] = k.Error
			top.Causes[k.Code] = w
		}
	}
	out.measuredTop = top
	return out
}

// tellFindings says what was found, and makes a fault the exit status.
func tellFindings(c *console, findings []piece.Finding) error {
	var err error
	for _, f := range findings {
		f.Remedy = photos.AtCommand(f.Remedy)
		if f.Rank == piece.Fault {
			err = errFault
		}
		switch {
		case c.json:
			c.object(struct {
				Type string `json:"type"`
				piece.Finding
			}{"finding", f})
		case !c.quiet || f.Rank == piece.Fault:
			c.finding(c.err, "", f)
		}
	}
	return err
}
