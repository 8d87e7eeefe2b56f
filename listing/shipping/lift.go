package shipping

import "math"

// A Lift says how many people lift a load, and on what basis.
type Lift struct {
	People int
	Care   bool   // one person, but with care
	Aid    bool   // beyond what people should lift by hand: use a mechanical aid
	Basis  string // in words; LiftSource says where it comes from
	UpToKg float64
}

// PeopleToLift applies the published team-lift guidance: one person to 25 kg, two
// to two thirds of their sum, three to half of it; above that a mechanical aid,
// with the number of hands that share the load at 25 kg each, four at least.
// It says nothing of stairs, distance, grip or the strength of anybody.
func (t Tables) PeopleToLift(kg float64) Lift {
	one := t.val("hands_each")
	two, three := 2*one*t.val("team_two"), 3*one*t.val("team_three")
	const hse = "HSE guidance on manual handling, L23: "
	switch {
	case kg <= 0 || math.IsNaN(kg) || one <= 0:
		return Lift{}
	case kg <= t.val("alone_easy"):
		return Lift{People: 1, UpToKg: t.val("alone_easy"), Basis: hse + "up to 16 kg close to the body"}
	case kg <= one:
		return Lift{People: 1, Care: true, UpToKg: one, Basis: hse + "up to 25 kg close to the body, with care"}
	case kg <= two:
		return Lift{People: 2, UpToKg: two, Basis: hse + "two people lift about two thirds of 2 × 25 kg"}
	case kg <= three:
		return Lift{People: 3, UpToKg: three, Basis: hse + "three people lift about half of 3 × 25 kg"}
	}
	n := max(4, int(math.Ceil(kg/one-1e-9)))
	return Lift{People: n, Aid: true, UpToKg: float64(n) * one,
		Basis: hse + "above half of 3 × 25 kg a mechanical aid; the number of people is a count at 25 kg each, as the trade does"}
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
