package care

import (
	"slices"

	"slabfolio/listing/units"
)

func (x *writer) handling() {
	in := x.in
	if in.WeightKg >= x.t.Rules["lift_mention"].Value && in.WeightText != "" && in.Lift != "" {
		x.caution("lift", x.liftVariant(), map[string]any{"Weight": in.WeightText})
	}
	switch in.Kind {
	case "bench", "stool":
		if in.Tips {
			x.caution("tip", "seat", nil)
		}
	case "wall panel", "shelf":
		moves := ""
		if in.Kind == "wall panel" { // wide, and held all over; a shelf moves by little between its fixings
			moves = in.WoodMoves
		}
		x.caution("hang", "", map[string]any{"Moves": moves})
	case "serving board":
	default:
		if x.stands() && in.Tips {
			x.caution("tip", "table", nil)
		}
	}
	if x.stands() && in.Topples {
		x.caution("tip", "wall", nil)
	}
	if x.stands() {
		x.caution("climb", "", nil)
	}
	if in.Drawer {
		x.caution("drawer", "", nil)
	}
	if in.Glass {
		x.caution("glass", "", nil)
	}
}

// liftVariant says who lifts the piece. Where more than two would have to and the
// base comes off, it comes off first, and the words are of what is then lifted.
func (x *writer) liftVariant() string {
	in := x.in
	if (in.Lift == "more" || in.Lift == "machine") && in.LiftOff != "" && x.stands() {
		return "off-" + in.LiftOff
	}
	hung := in.Kind == "shelf" // its base is brackets, by which nobody carries it
	if in.Lift != "machine" && (hung || !x.stands()) && in.Lift != "one" && in.Lift != "one-with-care" {
		return in.Lift + "-flat"
	}
	return in.Lift
}

// heat warns of hot things on the piece, and on its resin after that.
func (x *writer) heat() {
	f, in := x.in.Family, x.in
	if in.Kind == "wall panel" { // nobody puts a pan on it
		return
	}
	coat := f != nil && f.Care == "epoxy"
	h := x.t.Rules["resin_heat"]
	lo, hi := units.Celsius(h.Low), units.Celsius(h.High)
	span := map[string]any{"Low": trim(float64(lo)), "High": hi.TextC(), "OrLow": trim(lo.Fahrenheit()), "OrHigh": hi.TextF()}
	if x.fahrenheit() {
		span = map[string]any{"Low": trim(lo.Fahrenheit()), "High": hi.TextF(), "OrLow": trim(float64(lo)), "OrHigh": hi.TextC()}
	}
	finish := map[string]any{"Finish": f != nil && f.Care != "bare"}
	switch {
	case coat:
		x.caution("heat", "coat", span)
	case in.AllResin, in.Kind == "bench", in.Kind == "stool", in.Kind == "shelf":
	case x.board():
		x.caution("heat", "board", finish)
	case x.loose():
		x.caution("heat", "loose", finish)
	default:
		x.caution("heat", "wood", finish)
	}
	switch {
	case !in.Resin:
	case in.ResinHeat > 0:
		first, other := x.warm(in.ResinHeat)
		x.caution("heat", "resin-sheet", map[string]any{"Warm": first, "OrWarm": other})
	case coat && in.ResinEpoxy: // the coat says the same
	case in.ResinEpoxy:
		x.caution("heat", "resin", span)
	default:
		x.caution("heat", "resin-other", nil)
	}
}

func (x *writer) food() {
	if x.board() {
		x.contact()
		switch {
		case x.in.Resin && x.in.ResinFood != "":
			x.caution("food", "resin-documented", map[string]any{"Documented": sentence(x.in.ResinFood), "By": x.resinBy()})
		case x.in.Resin:
			x.caution("food", "resin", nil)
		}
		x.knives()
		x.caution("dishwasher", "", nil)
	}
	if nut := x.nut(); nut != "" {
		x.caution("allergy", nut, nil)
	}
}

// contact says what is known of food on the finish of a board.
func (x *writer) contact() {
	f := x.in.Family
	switch {
	case x.in.Food != "" && (f == nil || f.Care == "bare"):
		x.caution("food", "documented-bare", map[string]any{"Documented": sentence(x.in.Food)})
	case x.in.Food != "":
		x.caution("food", "documented", map[string]any{"Product": x.in.Product, "Documented": sentence(x.in.Food), "Cures": f.hardens(), "By": x.cureBy()})
	case f == nil:
		x.caution("food", "unknown", nil)
	case f.ID == "bare":
		x.caution("food", "bare", nil)
	case f.Undated:
		x.caution("food", "drying", map[string]any{"Oil": x.oil()})
	case x.in.Dates.CureTo.Year > 0 && !x.hardened():
		x.caution("food", "cured", map[string]any{"Family": FamilyName(x.w, f.ID), "To": x.day(x.in.Dates.CureTo), "Wax": x.wax()})
	default:
		x.caution("food", "uncured", map[string]any{"Family": FamilyName(x.w, f.ID)})
	}
}

// knives keeps them off what they spoil for good, and off the whole board then:
// nobody cuts on one face of a board whose resin or film has none to spare.
func (x *writer) knives() {
	f := x.in.Family
	switch {
	case f != nil && slices.Contains([]string{"film", "lacquer", "epoxy"}, f.Care):
		x.caution("knives", "film", nil)
	case x.in.Resin:
		x.caution("knives", "resin", nil)
	case f == nil:
		x.caution("knives", "unknown", nil)
	case f.Care == "bare":
		x.caution("knives", "bare", nil)
	default:
		x.caution("knives", "treated", nil)
	}
}

// nut names the nut oil in the finish: tung by its family, any by the product's
// own name.
func (x *writer) nut() string {
	if o, ok := x.t.OilIn(x.in.Product); ok && o.Nut != "" {
		return o.Nut
	}
	if x.in.Family != nil && x.in.Family.ID == "tung-oil" {
		return "tung"
	}
	return ""
}

// making warns whoever works on the piece again, and of what its making left in
// it: what is under it, rags, dust, what a lacquer gives off, glue in panels.
func (x *writer) making() {
	f := x.in.Family
	if x.in.OldCoat {
		x.caution("old-coat", "", nil)
	}
	if f != nil && f.DryingOil {
		x.caution("rags", "", nil) // a board oil that never dries does not heat by itself, and films are not wiped on by the owner
	}
	if x.in.Resin || len(x.in.Irritant) > 0 || x.sanded() {
		x.caution("dust", "", map[string]any{"Wood": !x.in.AllResin || len(x.in.Irritant) > 0, "Resin": x.in.Resin, "Woods": x.w.List(x.in.Irritant)})
	}
	if f != nil && f.ID == "conversion-varnish" && x.in.Dates.CureTo.Year > 0 {
		x.caution("airing", "", map[string]any{"To": x.day(x.in.Dates.CureTo)})
	}
	if len(x.in.Composite) > 0 {
		x.caution("composite", "", map[string]any{"Panels": x.w.List(x.w.CalledAll("panel", x.in.Composite)), "Compliant": x.in.Compliant})
	}
}

// sanded reports whether the care of the piece tells its owner to sand.
func (x *writer) sanded() bool {
	f := x.in.Family
	switch {
	case f == nil:
		return false
	case f.Care == "oil", f.Care == "bare":
		return true
	}
	return x.board() && (f.Care == "board-oil" || f.Care == "wax" || f.Care == "soap")
}

// cureBy is the day by which the finish is hard, in words; empty where it was hard
// when the piece was done, or where no day is known.
func (x *writer) cureBy() string {
	if d := x.in.Dates.CureTo; d.Year > 0 && !x.hardened() {
		return x.day(d)
	}
	return ""
}
