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

// TapeUncertainty returns to within what a length or width read off a tape is known
// (half of the 90 % range, mm), judged by the step that the reading lies on:
// 16 1/4 in was read to an eighth, 412 mm to a millimetre. Source: the lines
// of fineness.csv, common practice.
func TapeUncertainty(mm float64) float64 { return doubt("tape", mm) }

// tapeUncertaintyOf returns the doubt of readings that were taken together: the
// finest of them shows how finely the tape was read, while some lie on a
// coarse step by chance. Noughts are where the tape was laid, not readings.
func tapeUncertaintyOf(mm []float64) float64 {
	least := math.Inf(1)
	for _, v := range mm {
		if v != 0 && !math.IsNaN(v) {
			least = math.Min(least, TapeUncertainty(v))
		}
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}

// GaugeUncertainty is TapeUncertainty for a thickness or a wall, which is taken with a
// rule or a calliper.
func GaugeUncertainty(mm float64) float64 { return doubt("gauge", mm) }

// smallestStep is the finest that an inch rule is divided, in mm: 1/64 in.
const smallestStep = units.MillimetresPerInch / 64

func doubt(tool string, v float64) float64 {
	t := finenessTable()[tool]
	// A reading that suits neither system well takes the finer line of the
	// one it suits; one that suits both takes the coarser.
	if onStep(v, smallestStep) && !onStep(v, 1) {
		return doubtOfStep(t.inch, v)
	}
	if onStep(v, smallestStep) {
		return math.Max(doubtOfStep(t.inch, v), doubtOfStep(t.metric, v))
	}
	return doubtOfStep(t.metric, v)
}

func doubtOfStep(lines []fineness, v float64) float64 {
	for _, l := range lines {
		if l.step == 0 || onStep(v, l.step) {
			return l.doubt
		}
	}
	return 0
}

// onStep reports whether v is a whole multiple of step, to a micrometre.
func onStep(v, step float64) bool { return math.Abs(math.Remainder(v, step)) < 1e-3 }
