package intake

import (
	"slices"
	"strings"

	"slabfolio/listing/spelling"
)

// spokenNumbers are whole numbers as people say them, from none on.
var spokenNumbers = []string{"zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}

// spokenFractions are the parts of an inch as people say them.
var spokenFractions = map[string]string{
	"half": "1/2", "quarter": "1/4", "eighth": "1/8", "sixteenth": "1/16", "three quarters": "3/4",
	"three eighths": "3/8", "five eighths": "5/8", "seven eighths": "7/8", "three sixteenths": "3/16", "five sixteenths": "5/16",
	"seven sixteenths": "7/16", "nine sixteenths": "9/16", "eleven sixteenths": "11/16", "thirteen sixteenths": "13/16", "fifteen sixteenths": "15/16",
}

const (
	spokenWhole    = `(\d+|an?|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)`
	spokenFraction = `(?:an? |one )?(half|quarter|eighth|sixteenth|three[ -]quarters?|(?:three|five|seven)[ -]eighths|(?:three|five|seven|nine|eleven|thirteen|fifteen)[ -]sixteenths)`
)

var (
	inchAndPart = spelling.Pattern(`(?i)^(?:about )?(?:` + spokenWhole + ` )?(?:inch(?:es)? )?and ` + spokenFraction + `(?: inch(?:es)?)?(?: (.*))?$`)
	partOfInch  = spelling.Pattern(`(?i)^(?:about )?` + spokenFraction + ` (?:of )?(?:an )?inch(?: (.*))?$`)
	wholeSpoken = spelling.Pattern(`(?i)^(an?|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve) inch(?:es)?(?: (.*))?$`)
	feetSpoken  = spelling.Pattern(`(?i)^` + spokenWhole + ` (?:feet|foot|ft)(?: (?:and )?` + spokenWhole + `(?: inch(?:es)?| in)?)?(?: (long|wide|round|across))?$`)
	mixedAnd    = spelling.Pattern(`^(\d+) and (\d+/\d+.*)$`)
	oneInch     = spelling.Pattern(`(?i)^inch(?: (thick|wide|long))?$`)
)

// inFigures writes a size of inches that is said in words in figures: "inch and three
// quarters" is 1 3/4 in. The note says so; a text in figures stays as it is.
func inFigures(text string) (figures string, notes []string) {
	unit := ""
	if strings.Contains(strings.ToLower(text), "inch") {
		unit = " in"
	}
	switch m := inchAndPart().FindStringSubmatch(text); {
	case m != nil && (m[1] != "" || unit != ""):
		figures = spokenFigure(m[1]) + " " + part(m[2]) + unit + " " + m[3]
	case partOfInch().MatchString(text):
		m = partOfInch().FindStringSubmatch(text)
		figures = part(m[1]) + " in " + m[2]
	case wholeSpoken().MatchString(text):
		m = wholeSpoken().FindStringSubmatch(text)
		figures = spokenFigure(m[1]) + " in " + m[2]
	case feetSpoken().MatchString(text):
		m = feetSpoken().FindStringSubmatch(text)
		if figures = spokenFigure(m[1]) + " ft "; m[2] != "" {
			figures += spokenFigure(m[2]) + " in "
		}
		figures += m[3]
	case mixedAnd().MatchString(text):
		figures = mixedAnd().ReplaceAllString(text, "$1 $2")
	case oneInch().MatchString(text):
		figures = "1 in"
	default:
		return text, nil
	}
	if figures = strings.TrimSpace(figures); figures == text {
		return text, nil
	}
	return figures, []string{"read as " + figures}
}

func part(spoken string) string {
	spoken = strings.ReplaceAll(strings.ToLower(spoken), "-", " ")
	if spoken == "three quarter" {
		spoken = "three quarters"
	}
	return spokenFractions[spoken]
}

// spokenFigure is a whole number in figures; "a", "an" and nothing at all are 1.
func spokenFigure(spoken string) string {
	spoken = strings.ToLower(spoken)
	if spoken == "" || spoken == "a" || spoken == "an" {
		return "1"
	}
	if i := slices.Index(spokenNumbers, spoken); i > 0 {
		return strings.Fields("1 2 3 4 5 6 7 8 9 10 11 12")[i-1]
	}
	return spoken
}

var (
	rangeWords  = spelling.Pattern(`(?i)\d[^,;]*(?:\bto\b|–|—|\.\.\.?|\bup to\b)\s*\d|\bbetween\b.*\d.*\band\b`)
	rangeHyphen = spelling.Pattern(`(?i)^\d+(?:\.\d+)?\s*(?:in|inch|inches|"|cm|mm)?\s*-\s*\d+(?:\.\d+)?\s*(?:in|inch|inches|"|cm|mm)?$`)
)

// isRange reports whether a size is said from one figure to another.
func isRange(text string) bool {
	return rangeWords().MatchString(text) || rangeHyphen().MatchString(text)
}

// rangeAsked asks a range back.
func rangeAsked(text, want string) said {
	return refused("give "+want, "%q says from where to where, not how much it is at any place", text)
}
