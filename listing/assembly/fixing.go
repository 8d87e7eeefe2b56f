package assembly

import (
	"math"
	"regexp"
	"strconv"
	"strings"
)

// A Hold is what the fixing does with the movement of the wood.
type Hold string

// The ways a fixing can stand to the movement.
const (
	Free       Hold = "free"       // the slots let the wood move
	Rigid      Hold = "rigid"      // fixed across the grain with no play
	Short      Hold = "short"      // slots, but too short
	SlotsUnset Hold = "slot unset" // slots of a length that was not given
	Unknown    Hold = "unknown"    // not enough was said
)

// Fixing is how the top is held to the base, or a channel let into it.
type Fixing struct {
	Holes    string  // slotted, oversize, round, fixed
	SlotMM   float64 // length of the slot, or diameter of the oversize hole; 0 when not given
	Bolt     string  // "M8", "5/16 in"
	AcrossMM float64 // between the outermost fixings, across the grain; 0 when not given
}

// A Verdict says whether a fixing lets the wood move, and the slot it needs.
type Verdict struct {
	Hold       Hold
	MoveMM     float64 // free movement of the wood between the outermost fixings
	BoltMM     float64 // diameter; 0 when it could not be read
	NeedSlotMM float64 // whole millimetres: bolt and movement; 0 when the bolt is not known
}

// smallestPlay is movement that the give of threads and wood swallows, in
// millimetres. Common practice, no source.
const smallestPlay = 0.5

// CheckFixing compares a fixing with the movement of the wood. movePerM is the
// free seasonal movement across the grain in millimetres for one metre of width.
//
// The slot that is needed is the bolt and the whole movement between the
// outermost fixings: nobody knows at which season the piece was put together, so
// one of the two may have to take all of it.
func CheckFixing(f Fixing, movePerM float64) Verdict {
	v := Verdict{Hold: Unknown, BoltMM: BoltDiameter(f.Bolt)}
	if f.AcrossMM > 0 {
		v.MoveMM = movePerM * f.AcrossMM / 1000
	}
	if v.BoltMM > 0 && v.MoveMM > 0 {
		v.NeedSlotMM = math.Ceil(v.BoltMM + v.MoveMM - 1e-9)
	}
	switch f.Holes {
	case "fixed", "round":
		if v.MoveMM > smallestPlay || f.AcrossMM == 0 {
			v.Hold = Rigid
		} else {
			v.Hold = Free
		}
	case "slotted", "oversize":
		switch {
		case f.SlotMM == 0:
			v.Hold = SlotsUnset
		case v.BoltMM == 0 || f.AcrossMM == 0:
			v.Hold = Unknown
		case f.SlotMM-v.BoltMM+1e-9 < v.MoveMM:
			v.Hold = Short
		default:
			v.Hold = Free
		}
	}
	return v
}

var (
	metricBolt = regexp.MustCompile(`(?i)\bM\s?(\d{1,2}(?:\.\d)?)\b`)
	mmBolt     = regexp.MustCompile(`(?i)^\s*(\d{1,2}(?:\.\d+)?)\s*mm\b`)
	inchBolt   = regexp.MustCompile(`^\s*(?:(\d)[ -])?(\d{1,2})/(\d{1,2})`)
)

// BoltDiameter reads a bolt's nominal diameter in millimetres from words such as
// "M8", "8 mm" or `5/16 in`; 0 when it cannot be read.
func BoltDiameter(s string) float64 {
	s = strings.TrimSpace(s)
	for _, re := range []*regexp.Regexp{metricBolt, mmBolt} {
		if m := re.FindStringSubmatch(s); m != nil {
			v, _ := strconv.ParseFloat(m[1], 64)
			return v
		}
	}
	if m := inchBolt.FindStringSubmatch(s); m != nil {
		whole, _ := strconv.ParseFloat("0"+m[1], 64)
		n, _ := strconv.ParseFloat(m[2], 64)
		d, _ := strconv.ParseFloat(m[3], 64)
		if d > 0 {
			return 25.4 * (whole + n/d)
		}
	}
	return 0
}
