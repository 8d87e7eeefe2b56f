package shipping

import (
	"math"

	"slabfolio/listing/units"
)

// The steps of a lift, for everybody to read. Who lifts more than two people's
// load is no figure for a buyer: more of them, or a trolley.
const (
	One     = "one"           // one person, within the equation's recommended limit
	OneCare = "one-with-care" // one person, at most half above it
	Two     = "two"           // two people, at its ends
	More    = "more"          // more than two people, or a trolley
	Machine = "machine"       // nothing for hands
)

// A Burden is what is lifted, in millimetres and kilograms. A width of 0 is not
// known.
type Burden struct {
	Kg    float64 // the upper end, to be on the safe side
	Width float64 // the smaller side that lies on the floor; for what is held flat to the body, its thickness
	Grip  float64 // from the floor to where it is gripped: the underside of a top, 0 for a package's lower edges
	Flat  bool    // a board that is held upright against the body
	Long  bool    // longer than a good container: a poor grip
}

// A Lift says how many people lift a load, and on what basis.
type Lift struct {
	Step    string  // One, OneCare, Two, More, Machine; empty when the weight is not known
	People  int     // 1 to 6; 0 for Machine
	OneKg   float64 // recommended limit for one person, of the lifting equation
	EachKg  float64 // for each of two, at the ends of the load
	Judged  float64 // the weight that was judged, kg
	OfIndex float64 // Judged over the recommended limit of one person
}

// PeopleToLift judges a load by the revised lifting equation for its own width
// and grip: one person, or two at its ends who share it, each with the two-person
// factor of EN 1005-2. What is light is one person's however wide it is. An index
// up to lift_index counts as a low risk. Above that
// a count at hands_each, as the trade does, and no hands beyond hands_most. It
// says nothing of stairs, distance or the strength of anybody; it is no law.
func (t Tables) PeopleToLift(l Burden) Lift {
	if !(l.Kg > 0) || math.IsInf(l.Kg, 0) {
		return Lift{}
	}
	width := l.Width
	if width <= 0 {
		width = t.rule("lift_width")
	}
	r := Lift{OneKg: t.limit(width, l), EachKg: t.limit(0, Burden{Grip: l.Grip}) * t.rule("team_two"), Judged: l.Kg}
	if r.OneKg > 0 {
		r.OfIndex = l.Kg / r.OneKg
	}
	index, each := t.rule("lift_index"), t.rule("hands_each")
	const dust = 1e-9
	switch {
	case l.Kg <= math.Max(r.OneKg, t.rule("one_plain"))+dust:
		r.Step, r.People = One, 1
	case l.Kg <= index*r.OneKg+dust:
		r.Step, r.People = OneCare, 1
	case l.Kg <= index*2*r.EachKg+dust:
		r.Step, r.People = Two, 2
	case l.Kg <= t.rule("hands_most")*each+dust:
		r.Step, r.People = More, max(3, int(math.Ceil(l.Kg/each-dust)))
	default:
		r.Step = Machine
	}
	return r
}

// limit is what the equation recommends for one person who lifts a load of that
// depth from its grip to standing height, once.
func (t Tables) limit(depthMM float64, l Burden) float64 {
	v := math.Min(l.Grip/10, 175)
	out := t.rule("lift_reach_low") // to the load's near side
	if v >= t.rule("lift_reach_turn") {
		out = t.rule("lift_reach_high")
	}
	c := 0.95 // fair
	switch {
	case l.Flat || l.Long:
		c = 0.90 // poor
	case v >= 75:
		c = 1
	}
	return Task{H: out + depthMM/20, V: v, D: math.Max(0, 75-v), F: 1, C: c}.recommendedKg()
}

// LiftSource is where the figures of PeopleToLift come from.
const LiftSource = "revised NIOSH lifting equation, DHHS (NIOSH) 94-110, rev. 9/2021; two people: factor 0.85 of EN 1005-2; a recommended limit and no law. The strength of nobody is promised"

// A Task is one lift, for the revised NIOSH equation, in centimetres and degrees.
type Task struct {
	H float64 // hands out from the ankles
	V float64 // hands above the floor
	D float64 // how far it is lifted
	A float64 // twist
	F float64 // frequency multiplier; 1 for a single lift
	C float64 // coupling multiplier: 1.00 good, 0.95 or 0.90 poor
}

// recommendedKg returns the recommended weight limit of the revised NIOSH lifting
// equation (Waters, Putz-Anderson, Garg; DHHS (NIOSH) 94-110, rev. 9/2021):
// LC x HM x VM x DM x AM x FM x CM. It holds for one person lifting with two
// hands, not for teams, carrying, or loads that shift.
func (t Task) recommendedKg() float64 {
	const lc = 23 // kg
	if t.H > 63 || t.V < 0 || t.V > 175 || t.A > 135 || t.D > 175 {
		return 0
	}
	hm := 25 / math.Max(t.H, 25)
	vm := 1 - 0.003*math.Abs(t.V-75)
	dm := 1.0
	if t.D > 25 {
		dm = 0.82 + 4.5/t.D
	}
	am := 1 - 0.0032*t.A
	return lc * hm * vm * dm * am * t.F * t.C
}

// BurdenOf is a package as somebody lifts it: from the floor, by its lower edges,
// from its long side.
func BurdenOf(p Package) Burden {
	l := Burden{Kg: p.HighKg, Width: math.Min(p.LengthMM, p.WidthMM)}
	l.Long = math.Max(p.LengthMM, p.WidthMM) > 400 || p.HeightMM > 300 // the manual's good container: 16 in long, 12 in high
	return l
}

// Rounded is a length as a carrier reads it, in millimetres: whole inches or
// whole centimetres, up.
func (l Limit) Rounded(mm float64) float64 {
	if l.Inches {
		return UpInches(mm) * units.MillimetresPerInch
	}
	return UpCentimetres(mm) * 10
}
