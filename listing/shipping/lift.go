package shipping

import "math"

// A Lift says how many people lift a load, and on what basis.
type Lift struct {
	People int
	Care   bool    // one person, but with care
	Aid    bool    // beyond what people should lift by hand: use a mechanical aid
	Basis  string  // the rule that decided: alone, care, two, three, aid; the words for it are phrases of templates/
	UpToKg float64 // what the rule goes up to; for an aid, the hands' share of 25 kg each
}

// PeopleToLift applies the published team-lift guidance: one person to 25 kg, two
// to two thirds of their sum, three to half of it; above that a mechanical aid,
// with the number of hands that share the load at 25 kg each, four at least.
// It says nothing of stairs, distance, grip or the strength of anybody.
func (t Tables) PeopleToLift(kg float64) Lift {
	one := t.val("hands_each")
	if kg <= 0 || math.IsNaN(kg) || one <= 0 {
		return Lift{}
	}
	for _, l := range []Lift{
		{People: 1, Basis: "alone", UpToKg: t.val("alone_easy")},
		{People: 1, Basis: "care", UpToKg: one, Care: true},
		{People: 2, Basis: "two", UpToKg: 2 * one * t.val("team_two")},
		{People: 3, Basis: "three", UpToKg: 3 * one * t.val("team_three")},
	} {
		if kg <= l.UpToKg {
			return l
		}
	}
	n := max(4, int(math.Ceil(kg/one-1e-9)))
	return Lift{People: n, Aid: true, Basis: "aid", UpToKg: float64(n) * one}
}

// LiftSource is where the figures of PeopleToLift come from.
const LiftSource = "HSE L23 and INDG143 rev 4, team lifting; from memory. The strength of nobody is promised"

// A Task is one lift, for the revised NIOSH equation, in centimetres and degrees.
type Task struct {
	H float64 // hands out from the ankles
	V float64 // hands above the floor
	D float64 // how far it is lifted
	A float64 // twist
	F float64 // frequency multiplier; 1 for a single lift
	C float64 // coupling multiplier: 1.00 good, 0.95 or 0.90 poor
}

// RecommendedKg returns the recommended weight limit of the revised NIOSH lifting
// equation (Waters, Putz-Anderson, Garg; DHHS (NIOSH) 94-110, rev. 9/2021):
// LC x HM x VM x DM x AM x FM x CM. It holds for one person lifting with two
// hands, not for teams, carrying, or loads that shift.
func (t Task) RecommendedKg() float64 {
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

// FloorToWaist returns the recommended weight limit for one person who lifts a
// package by its lower edges from the floor to 75 cm, hands half its width and
// 25 cm out from the ankles (the manual's estimate for a box near the floor, from
// memory), fair grip.
func FloorToWaist(widthMM float64) float64 {
	return Task{H: 25 + widthMM/20, V: 0, D: 75, F: 1, C: 0.95}.RecommendedKg()
}
