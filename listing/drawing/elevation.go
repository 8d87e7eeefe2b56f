package drawing

// A side is an elevation in the making, in millimetres of paper.
type side struct {
	*sketch
	long       float64    // of the top
	top, under float64    // levels of the top's faces
	foot       [2]float64 // where the base begins and ends; the same where it is not known
	member     float64    // how thick a frame, leg or column shows itself
	parts      []hanging
}

// hanging is what hangs below the top: how long and how high it is, and how many of it
// hang side by side.
type hanging struct {
	long, deep float64
	count      int
}

// lefts are where the parts of a kind begin, evenly apart: between the base's sides where
// they have room there, else under the whole top.
func (s *side) lefts(p hanging) []float64 {
	from, room, all := 0.0, s.long, float64(p.count)*p.long
	if inner := s.foot[1] - s.foot[0] - 2*s.member; inner >= all {
		from, room = s.foot[0]+s.member, inner
	}
	gap := (room - all) / float64(p.count+1)
	out := make([]float64, p.count)
	for i := range out {
		out[i] = from + gap + float64(i)*(p.long+gap)
	}
	return out
}

func newSide(d *Piece, o *Options, long, foot float64) *side {
	s := &side{sketch: &sketch{Options: o, piece: d}, long: long / o.Scale}
	s.top = -elevationHeight(d) / o.Scale
	s.under = s.top + d.Thickness/o.Scale
	foot = max(foot, 0) / o.Scale
	s.foot = [2]float64{(s.long - foot) / 2, (s.long + foot) / 2}
	return s
}

func (s *side) topEdge() { s.rectangle(Visible, 0, s.top, s.long, s.under) }

// draw adds floor, parts, base and top, and the dimensions along the floor. From
// the end a frame shows its whole face, from the front its edge alone.
func (s *side) draw(fromEnd bool) {
	s.line(Thin, Point{min(0, s.foot[0]) - 4, 0}, Point{max(s.long, s.foot[1]) + 4, 0})
	for _, p := range s.parts {
		if p.long <= 0 || p.deep <= 0 {
			continue
		}
		for _, x := range s.lefts(p) {
			s.rectangle(Hidden, x, s.under, x+p.long, s.under+p.deep)
		}
	}
	s.base(fromEnd)
	s.topEdge()
	if s.foot[0] == s.foot[1] {
		return
	}
	s.across(s.foot[0], s.foot[1], 0, 0, levelSide, s.Length((s.foot[1]-s.foot[0])*s.Scale), AtStart)
	if s.foot[0] > 3 {
		s.across(0, s.foot[0], s.under, 0, levelSide, s.Length(s.foot[0]*s.Scale), AtEnd)
	}
}

// base draws the base as its form is known, else as the room that it takes.
func (s *side) base(fromEnd bool) {
	x0, x1, w := s.foot[0], s.foot[1], s.member
	b := &s.piece.Base
	switch {
	case x0 == x1:
	case b.Form == Frames && fromEnd:
		s.rectangle(Visible, x0, s.under, x1, 0)
		if b.Closed {
			s.rectangle(Visible, x0+w, s.under+w, x1-w, -w)
		} else { // whether a bar closes it above or below is not told
			s.line(Visible, Point{x0 + w, s.under}, Point{x0 + w, 0})
			s.line(Visible, Point{x1 - w, s.under}, Point{x1 - w, 0})
		}
	case b.Form == Frames || b.Form == Legs:
		s.rectangle(Visible, x0, s.under, x0+w, 0)
		s.rectangle(Visible, x1-w, s.under, x1, 0)
	case b.Form == Pedestal:
		s.pedestal(x0, x1, w)
	default:
		s.line(Adjoining, Point{x0, s.under}, Point{x0, 0})
		s.line(Adjoining, Point{x1, s.under}, Point{x1, 0})
	}
}

// pedestal draws the column, and the plate on the floor where there is one; else
// the room that the foot takes.
func (s *side) pedestal(x0, x1, w float64) {
	foot := s.piece.Base.Plate / s.Scale
	if foot > 0 {
		s.rectangle(Visible, x0, -foot, x1, 0)
	} else {
		s.line(Adjoining, Point{x0, s.under}, Point{x0, 0})
		s.line(Adjoining, Point{x1, s.under}, Point{x1, 0})
	}
	middle := s.long / 2
	s.rectangle(Visible, middle-w/2, s.under, middle+w/2, -foot)
}

// heights are the whole height at the right and the thickness at the left.
func (s *side) heights() {
	right := max(s.long, s.foot[1])
	s.upright(s.top, 0, s.long, right+4, right+levelSide, s.Length(s.piece.Height))
	s.upright(s.top, s.under, 0, 0, min(0, s.foot[0])-levelSide, s.Length(s.Thickness))
}

// knee dimensions the room under the piece, beside what hangs lowest.
func (s *side) knee() {
	s.lowestPart()
	if s.piece.Knee > 0 && s.piece.Base.Form != Pedestal {
		x := s.long / 2
		s.upright(-s.piece.Knee/s.Scale, 0, x, x, x, s.Length(s.piece.Knee))
	}
}

// lowestPart dimensions how long the part is that hangs lowest, and how far it
// hangs: right of it where the base leaves room for the text, else within it; of several
// side by side the one at the right.
func (s *side) lowestPart() {
	var part hanging
	for _, p := range s.parts {
		if p.long > 0 && p.deep > part.deep {
			part = p
		}
	}
	if part.deep <= 0 {
		return
	}
	x0 := s.lefts(part)[part.count-1]
	x1, low := x0+part.long, s.under+part.deep
	deep, long := s.Length(part.deep*s.Scale), s.Length(part.long*s.Scale)
	room := s.long - x1
	if s.foot[1] > x1 {
		room = s.foot[1] - s.member - x1
	}
	if room > s.TextWidth(deep)+beyond+7 {
		s.upright(s.under, low, x1, x1, x1+4, deep)
	}
	if part.deep > 6 && s.TextWidth(long) < part.long-3 {
		s.across(x0, x1, low-1.2, low-1.2, low-1.2, long, AtEnd)
	}
}

// planBase draws the base under the top as hidden edges: its members where they
// are known, and else its footprint.
func (s *sketch) planBase() {
	d := s.piece
	if d.Footprint[0] <= 0 || d.Footprint[1] <= 0 {
		return
	}
	x0, x1 := (d.Length-d.Footprint[0])/2, (d.Length+d.Footprint[0])/2
	y0, y1 := (d.Width-d.Footprint[1])/2, (d.Width+d.Footprint[1])/2
	box := func(x0, y0, x1, y1 float64) {
		s.rectangle(Hidden, x0/s.Scale, -y0/s.Scale, x1/s.Scale, -y1/s.Scale)
	}
	w, b := d.Base.Wide, d.Base.Deep
	member := func(x, y float64) {
		if d.Base.Round {
			s.circle(Hidden, (x+w/2)/s.Scale, -(y+b/2)/s.Scale, w/2/s.Scale)
			return
		}
		box(x, y, x+w, y+b)
	}
	switch d.Base.Form {
	case Frames:
		box(x0, y0, x0+w, y1)
		box(x1-w, y0, x1, y1)
	case Legs:
		for _, x := range []float64{x0, x1 - w} {
			member(x, y0)
			member(x, y1-b)
		}
	case Pedestal:
		box(x0, y0, x1, y1)
		member((d.Length-w)/2, (d.Width-b)/2)
	default:
		box(x0, y0, x1, y1)
	}
}
