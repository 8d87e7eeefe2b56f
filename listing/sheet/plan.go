package sheet

import "math"

// A plan is one way to lay out a sheet. Plans are tried without drawing, and the
// cheapest is drawn.
type plan struct {
	place  drawingPlace
	scale  float64 // of care, cautions and the long lists
	extras extras
	row    bool // the further photos stand at the foot of the first page
	small  bool // the drawing may be a small one
	care   flow // care, cautions and what stands with them
	lists  flow // what the first page could not list
}

// after is the height of all that comes after the drawing.
func (p *plan) after() float64 { return p.care.height() + p.lists.height() }

// extras are what stands beside the care where it costs no page.
type extras struct{ chart, code bool }

// careScales are the sizes of what comes after the drawing, against the words of
// page one: a tenth smaller by choice, since it is read when it is needed; larger or
// smaller where that makes a better page. The smallest is 8 points.
var careScales = []float64{0.9, 0.85, 0.95, 0.8, 1}

// plans lists what may be tried, the most wanted first.
func (d *doc) plans() []plan {
	places := []drawingPlace{drawingBelow, drawingOnSecond, drawingOnFirst}
	switch {
	case len(d.o.Pictures) == 0 && d.drawable() && !d.drawsSmall():
		places = []drawingPlace{drawingFirst}
	case !d.drawable() || d.drawsSmall():
		places = []drawingPlace{noDrawing, careRunsOn, careOnSecond}
	}
	smalls := 2
	if !d.drawable() || d.drawsSmall() {
		smalls = 1
	}
	rows := []bool{false}
	if len(d.o.Pictures) > 1 {
		rows = []bool{false, true}
	}
	var all []plan
	for _, scale := range careScales {
		for _, e := range []extras{{true, true}, {false, true}, {false, false}} {
			for _, place := range places {
				for _, row := range rows {
					for _, small := range []bool{false, true}[:smalls] {
						all = append(all, plan{place: place, scale: scale, extras: e, row: row, small: small})
					}
				}
			}
		}
	}
	return all
}

// goodEnough is the cost of a sheet that is not to be bettered, beside that of its
// pages.
const goodEnough = 6

// bestPlan tries the plans and returns the cheapest; of equals, the first.
func (d *doc) bestPlan(label flow) (plan, error) {
	type look struct {
		scale float64
		extras
	}
	cares, lists := map[look]flow{}, map[float64]flow{}
	var best plan
	least := math.Inf(1)
	for _, p := range d.plans() {
		if least <= costOfPage+goodEnough {
			break
		}
		l := look{p.scale, p.extras}
		if _, ok := cares[l]; !ok {
			cares[l] = d.careFlow(p.scale, p.extras)
		}
		if _, ok := lists[p.scale]; !ok {
			lists[p.scale] = d.listFlow(p.scale)
		}
		p.care, p.lists = cares[l], lists[p.scale]
		t := *d
		t.trial = &trial{}
		if err := t.follow(p, label); err != nil {
			return p, err
		}
		if cost := t.cost(p); cost < least {
			best, least = p, cost
		}
	}
	return best, nil
}

// A trial is what is remembered of a sheet that is laid out and not drawn.
type trial struct {
	foot    []float64 // of each page: where what stands on it ends
	lines   []int     // of text on each page
	photo   float64   // height of the main photo
	drawing float64   // length of the top as it is drawn
	row     float64   // height of the row of further photos
	broken  bool      // the care goes on on another page
}

// fills notes that something reaches down to y on the page.
func (d *doc) fills(y float64, lines int) {
	if d.trial != nil {
		n := len(d.trial.foot) - 1
		d.trial.foot[n] = max(d.trial.foot[n], y)
		d.trial.lines[n] += lines
	}
}

// notePhoto notes how high the main photo stands.
func (d *doc) notePhoto(h float64) {
	if d.trial != nil {
		d.trial.photo = h
	}
}

// noteDrawing notes how long the top was drawn, and where the drawing ends.
func (d *doc) noteDrawing(a arrangement) {
	if d.trial != nil {
		d.trial.drawing = d.overallLength() / a.scale
		d.fills(d.y, 0)
	}
}

// What a sheet costs, in points that compare with each other alone.
const (
	costOfPage     = 100
	costOfScarce   = 80 // a page with hardly a line on it
	scarce         = 7  // lines
	costOfBroken   = 14
	wantedFill     = 0.8
	costOfOverflow = 10000 // what cannot be
	wantedDrawing  = 80    // millimetres long
	wantedPhoto    = 105   // millimetres high, where its shape allows
)

// cost judges a sheet that was tried: by its pages, how empty each is, how small
// photo, drawing and words came out, and what was left out.
func (d *doc) cost(p plan) float64 {
	t := d.trial
	cost := costOfPage * float64(len(t.foot))
	for i, foot := range t.foot {
		fill := (foot - d.top) / d.pageHeight()
		if fill > 1.001 {
			cost += costOfOverflow
		}
		cost += 60 * max(0, wantedFill-fill)
		if len(t.foot) > 1 {
			cost += 60 * max(0, 0.45-fill)
		}
		if t.lines[i] < scarce {
			cost += costOfScarce
		}
	}
	if len(d.o.Pictures) > 0 {
		p := d.o.Pictures[0]
		wanted := min(wantedPhoto, d.columnWidth()*float64(p.Height)/float64(max(p.Width, 1)))
		cost += 60 * max(0, 1-t.photo/wanted)
	}
	if t.broken {
		cost += costOfBroken
	}
	if t.drawing > 0 {
		cost += 40 * max(0, 1-t.drawing/wantedDrawing)
	}
	if len(d.o.Pictures) > 1 && t.row == 0 {
		cost += 12
	}
	if !p.extras.chart && d.hasSeasons() {
		cost += 4
	}
	if !p.extras.code && d.r.PageAddress() != "" {
		cost += 8
	}
	return cost + 120*max(0, 0.9-p.scale)
}
