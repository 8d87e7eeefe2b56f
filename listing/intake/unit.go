package intake

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"slabfolio/listing/assembly"
	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// unit is what a number alone is in, as the piece or the workshop says; "" where neither
// does.
func (iv *Interview) unit() units.System {
	return cmp.Or(units.SystemMeant(iv.text("units")), iv.Defaults.Units)
}

// bareUnit is what a number alone is in this evening: as the maker said of an earlier one,
// else as the piece or the workshop says, else inches.
func (iv *Interview) bareUnit() units.System { return cmp.Or(iv.evening, iv.unit(), units.Inches) }

// metric reports whether the maker measures in centimetres or millimetres, as far as
// anything tells.
func (iv *Interview) metric() bool {
	return cmp.Or(iv.evening, iv.unit(), units.UsualIn(iv.Defaults.Country)).Metric()
}

// An unsaid is a size that was asked back for its unit.
type unsaid struct {
	whole string // the answer that it stood in
	size  string // the size in it
}

var (
	// bareFigure is a number alone, as sizes are said.
	bareFigure = spelling.Pattern(`^(?:\d+(?:\.\d+)?|\d*[½¼¾⅛⅜⅝⅞]|\d+/\d+|\d+[ -]\d+/\d+)$`)
	// betweenSizes parts the sizes of one answer.
	betweenSizes = spelling.Pattern(`(?i)\s*(?:[x×*;]|\bby\b|\band\b|,\s)\s*`)
	inchParts    = spelling.Pattern(`[/½¼¾⅛⅜⅝⅞]`)
)

// withUnit puts the unit that is meant behind sizes that end in a number alone, so that
// the spec says the same wherever it goes; any other text stays as it is. quantity is what
// the first of them measures, as the table of customary sizes calls it. There is a problem
// where two units can be meant, or where another makes a usual size of an odd one: the
// maker is asked once then, and an odd size that is said again stands.
func (iv *Interview) withUnit(whole, sizes, quantity string) (with string, notes []string, problem *piece.SetError) {
	parts := betweenSizes().Split(sizes, -1)
	for i, p := range parts {
		u := units.UnitIn(p)
		iv.wrote = cmp.Or(u, iv.wrote)
		if u == "" && !bareFigure().MatchString(p) || u != "" && i == len(parts)-1 {
			return sizes, nil, nil
		}
	}
	own := iv.bareUnit()
	with = sizes + " " + string(own)
	if iv.insisted == sizes {
		return with, nil, nil
	}
	may, why := []units.System{own}, ""
	switch {
	case iv.evening == "" && iv.wrote != "" && iv.wrote.Metric() != own.Metric():
		may, why = []units.System{iv.wrote, own}, fmt.Sprintf("the size before it has %s, and a number alone counts as %s here", unitWords[iv.wrote], unitWords[own])
	case iv.evening.Metric() && inchParts().MatchString(sizes):
		may, why = []units.System{own, units.Inches}, "it is a fraction, as inches have them"
	case iv.evening == "" && iv.unit() == "" && iv.metric():
		may, why = everyUnit, "nobody has said yet which unit you measure in"
	}
	usual := iv.usual(parts[0], quantity, may)
	if len(usual) == 0 {
		if usual = iv.usual(parts[0], quantity, everyUnit); len(usual) > 0 {
			why = fmt.Sprintf("%s %s is far from what is customary for %s", parts[0], own, iv.kindOrPiece())
			iv.insisted = sizes
		} else {
			usual = may
		}
	}
	if why != "" && (len(usual) > 1 || usual[0] != own || iv.unit() == "") {
		iv.unsaid = unsaid{whole, sizes}
		return "", nil, &piece.SetError{Message: fmt.Sprintf("%q has no unit: %s", sizes, why), Remedy: iv.whichUnit(sizes, usual)}
	}
	if own != iv.unit() {
		notes = []string{"read as " + with}
	}
	return with, notes, nil
}

// kindOrPiece is the kind of the piece with its article, as far as it is a word.
func (iv *Interview) kindOrPiece() string {
	if kind := iv.text("kind"); kind != "" && kind != "other" {
		return "a " + kind
	}
	return "a piece of furniture"
}

var everyUnit = []units.System{units.Centimetres, units.Millimetres, units.Inches}

// whichUnit asks for the unit of sizes.
func (iv *Interview) whichUnit(sizes string, may []units.System) string {
	var ways []string
	for _, u := range may {
		ways = append(ways, sizes+" "+string(u))
	}
	switch {
	case len(ways) > 1:
		return "write " + spelling.Or(ways) + "; the unit alone will do"
	case iv.insisted == sizes:
		return fmt.Sprintf("write %s if that is meant; or say it again to keep it as %s", ways[0], unitWords[iv.bareUnit()])
	}
	return "write " + ways[0] + " if that is meant, else with its own unit"
}

// mostOf are the sizes that hardly any piece exceeds, for a kind without customary ones
// (common practice, no source).
var mostOf = map[string]assembly.Range{"length": {High: 6000}, "width": {High: 2500}, "thickness": {High: 200}, "height": {High: 1300}}

// usual are the units, of some, in which a size is about customary for the kind of piece;
// all of them where no custom is known, none where it is no length.
func (iv *Interview) usual(size, quantity string, of []units.System) []units.System {
	const about = 0.2
	r, known := iv.Usual.Usual(iv.text("kind"), quantity)
	if !known {
		r, known = mostOf[quantity]
	}
	return slices.DeleteFunc(slices.Clone(of), func(u units.System) bool {
		l, err := units.ParseLength(size, u)
		return err != nil || known && (float64(l) < r.Low*(1-about) || float64(l) > r.High*(1+about))
	})
}

// completed is the answer that was asked back for a unit, where an answer is that unit
// alone, or the size with it, or the size once more; else the answer as it is.
func (iv *Interview) completed(text string) string {
	asked := iv.unsaid
	if asked.size == "" {
		return text
	}
	unit := ""
	if rest, ok := strings.CutPrefix(text, asked.size); ok {
		unit = strings.TrimSpace(rest)
	} else if u := units.SystemMeant(text); u != "" {
		unit = string(u)
	}
	switch {
	case text == asked.size:
		return asked.whole
	case units.SystemMeant(unit) != "":
		return strings.Replace(asked.whole, asked.size, asked.size+" "+unit, 1)
	}
	return text
}

// settle takes the unit of an answer that was asked back for one for the unit of the
// numbers alone to come.
func (iv *Interview) settle(answer string) {
	if asked := iv.unsaid; asked.size != "" && answer != asked.whole {
		iv.evening = iv.wrote
	}
	iv.unsaid = unsaid{}
}
