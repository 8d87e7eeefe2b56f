package geometry

import (
	_ "embed" // fineness.csv
	"math"
	"strings"
	"sync"

	"slabfolio/listing/table"
	"slabfolio/listing/units"
)

//go:embed fineness.csv
var finenessCSV string

// A fineness is one line of fineness.csv: readings that are whole multiples of
// step are known to within doubt.
type fineness struct{ step, doubt float64 }

// readings holds inch lines and metric lines of one tool, coarsest first; the
// last of each has step 0 and takes whatever is left.
type readings struct{ inch, metric []fineness }

// finenessTable is read once; a table that is not whole is a mistake of the
// build, which a test finds.
var finenessTable = sync.OnceValue(func() map[string]readings {
	t := map[string]readings{}
	err := table.Each("fineness.csv", finenessCSV, func(r table.Row) {
		line := fineness{r.Number("step_mm"), r.Number("doubt_mm")}
		u := t[r.Text("tool")]
		if strings.Contains(r.Text("reading"), "inch") {
			u.inch = append(u.inch, line)
		} else {
			u.metric = append(u.metric, line)
		}
		t[r.Text("tool")] = u
	})
	if err != nil {
		panic("geometry: " + err.Error())
	}
	return t
})

// TapeDoubt returns to within what a length or width read off a tape is known
// (half of the 90 % range, mm), judged by the step that the reading lies on:
// 16 1/4 in was read to an eighth, 412 mm to a millimetre. Source: the lines
// of fineness.csv, common practice.
func TapeDoubt(mm float64) float64 { return doubt("tape", mm) }

// tapeDoubtOf returns the doubt of readings that were taken together: the
// finest of them shows how finely the tape was read, while some lie on a
// coarse step by chance. Noughts are where the tape was laid, not readings.
func tapeDoubtOf(mm []float64) float64 {
	least := math.Inf(1)
	for _, v := range mm {
		if v != 0 && !math.IsNaN(v) {
			least = math.Min(least, TapeDoubt(v))
		}
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}

// GaugeDoubt is TapeDoubt for a thickness or a wall, which is taken with a
// rule or a calliper.
func GaugeDoubt(mm float64) float64 { return doubt("gauge", mm) }

// smallestStep is the finest that an inch rule is divided, in mm: 1/64 in.
const smallestStep = units.MillimetresPerInch / 64

func doubt(tool string, v float64) float64 {
	t := finenessTable()[tool]
	// A reading that suits neither system well takes the finer line of the
	// one it suits; one that suits both takes the coarser.
	if onStep(v, smallestStep) && !onStep(v, 1) {
		return pick(t.inch, v)
	}
	if onStep(v, smallestStep) {
		return math.Max(pick(t.inch, v), pick(t.metric, v))
	}
	return pick(t.metric, v)
}

func pick(lines []fineness, v float64) float64 {
	for _, l := range lines {
		if l.step == 0 || onStep(v, l.step) {
			return l.doubt
		}
	}
	return 0
}

// onStep reports whether v is a whole multiple of step, to a micrometre.
func onStep(v, step float64) bool { return math.Abs(math.Remainder(v, step)) < 1e-3 }
