package sheet

import "math"

// A plan is one way to lay out a sheet. Plans are tried without drawing, and the
// cheapest is drawn.
type plan struct {
	place  drawingPlace
	scale  float64 // of care, cautions and the long lists
	extras extras
	row    bool    // further photos stand at the foot of the first page
	room   float64 // what the main photo leaves to a row of them
	small  bool    // the drawing may be a small one
	care   flow    // care, cautions and what stands with them
	lists  flow    // what the first page could not list
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
	var places []drawingPlace
	if !d.drawable() || d.mayStandBeside() {
		places = append(places, noDrawing, careRunsOn, careOnSecond)
	}
	switch {
	case !d.drawable():
	case len(d.o.Pictures) == 0:
		places = append(places, drawingFirst)
	default:
		places = append(places, drawingBelow, drawingOnSecond, drawingOnFirst)
	}
	only := []bool{false}
	both := []bool{false, true}
	rows, rooms, smalls := only, rowRooms[:1], both
	if len(d.o.Pictures) > 1 {
		rows, rooms = both, rowRooms
	}
	if !d.drawable() {
		smalls = only
	}
	var all []plan
	for _, scale := range careScales {
		for _, e := range []extras{{true, true}, {false, true}, {false, false}} {
			for _, place := range places {
				for _, row := range rows {
					for _, room := range rooms {
						for _, small := range smalls {
							all = append(all, plan{place: place, scale: scale, extras: e, row: row, room: room, small: small})
						}
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
func (d *doc) bestPlan(labels map[bool]flow) (plan, error) {
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
		if err := t.follow(p, labels); err != nil {
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
	small   float64   // how many of the further photos are too small, and by how much
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
		d.trial.drawing = d.tellingLength() / a.scale
		d.fills(d.y, 0)
	}
}

// What a sheet costs, in points that compare with each other alone.
const (
	costOfPage     = 100
	costOfThird    = 60 // more, for a page beyond the second: no photo is worth it
	costOfScarce   = 80 // a page with hardly a line on it
	scarce         = 7  // lines
	costOfBroken   = 14
	costOfUnseen   = 2  // a further photo
	costOfSmall    = 4  // a further photo as small as a point
	costOfHidden   = 40 // one of the first few: two and a better drawing are worth a page
	wantedFill     = 0.8
	costOfOverflow = 10000 // what cannot be
	wantedDrawing  = 80    // millimetres long
	wantedPhoto    = 105   // millimetres high, where its shape allows
	wantedRow      = 50    // the same of a further photo
)

// cost judges a sheet that was tried: by its pages, how empty each is, how small
// photo, drawing and words came out, and what was left out.
func (d *doc) cost(p plan) float64 {
	t := d.trial
	cost := costOfPage*float64(len(t.foot)) + costOfThird*float64(max(0, len(t.foot)-2))
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
	cost += costOfSmall * t.small
	if t.broken {
		cost += costOfBroken
	}
	if d.beside {
		t.drawing = d.besideLength
	}
	if t.drawing > 0 {
		cost += 40 * max(0, 1-t.drawing/wantedDrawing)
	}
	for i := max(1, d.shown); i < min(len(d.o.Pictures), MostPictures); i++ {
		if cost += costOfUnseen; i <= mostInRow {
			cost += costOfHidden
		}
	}
	if !p.extras.chart && d.hasSeasons() {
		cost += 4
	}
	if !p.extras.code && d.r.PageAddress() != "" {
		cost += 8
	}
	return cost + 120*max(0, 0.9-p.scale)
}
