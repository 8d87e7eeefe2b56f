package care

import (
	"strconv"
	"strings"

	"slabfolio/listing/units"
)

func (x *writer) handling() {
	in := x.in
	if in.WeightKg >= x.t.Rules["lift_mention"].Value && in.WeightText != "" && in.People > 0 {
		variant := "several"
		switch {
		case in.Aid:
			variant = "aid"
		case in.People == 1:
			variant = "alone"
		case !x.stands():
			variant = "several-flat"
		}
		x.caution("lift", variant, map[string]any{"Weight": in.WeightText, "People": x.number(in.People)})
	}
	switch in.Kind {
	case "bench", "stool":
		if in.Tips {
			x.caution("tip", "seat", nil)
		}
	case "wall panel", "shelf":
		x.caution("hang", "", nil)
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

// number writes a small number in words where there is a word for it.
func (x *writer) number(n int) string {
	id := "general.number." + strconv.Itoa(n)
	if x.w.Has(id) {
		return x.say(id, nil)
	}
	return strconv.Itoa(n)
}

func (x *writer) heat() {
	f := x.in.Family
	switch {
	case x.in.Kind == "wall panel": // nobody puts a pan on it
	case !x.in.Resin && (x.in.Kind == "bench" || x.in.Kind == "stool" || x.in.Kind == "shelf"):
	case x.in.Resin && x.in.ResinHeat > 0:
		x.caution("heat", "resin-sheet", map[string]any{"C": x.in.ResinHeat.TextC(), "F": x.in.ResinHeat.TextF()})
	case x.in.Resin && x.in.ResinEpoxy, f != nil && f.Care == "epoxy":
		h := x.t.Rules["resin_heat"]
		lo, hi := units.Celsius(h.Low), units.Celsius(h.High)
		x.caution("heat", "resin", map[string]any{"LowC": trim(float64(lo)), "HighC": hi.TextC(), "LowF": trim(lo.Fahrenheit()), "HighF": hi.TextF()})
	case x.in.Resin:
		x.caution("heat", "resin-other", nil)
	case x.board():
		x.caution("heat", "board", nil)
	default:
		x.caution("heat", "wood", nil)
	}
}

func (x *writer) food() {
	f := x.in.Family
	if x.board() {
		switch {
		case x.in.Sheet != nil && x.in.Sheet.FoodContact.Set():
			x.caution("food", "documented", map[string]any{"Product": x.in.Product, "Documented": sentence(x.in.Sheet.FoodContact.V)})
		case f == nil || f.ID == "bare":
			x.caution("food", "bare", nil)
		case f.Cure.To > 0:
			x.caution("food", "cured", map[string]any{"Family": FamilyName(x.w, f.ID)})
		default:
			x.caution("food", "uncured", map[string]any{"Family": FamilyName(x.w, f.ID)})
		}
		if x.in.Resin {
			x.caution("food", "resin", nil)
		}
		if f != nil && (f.Care == "film" || f.Care == "lacquer" || f.Care == "epoxy") {
			x.caution("knives", "film", nil)
		} else {
			x.caution("knives", "bare", nil)
		}
		x.caution("dishwasher", "", nil)
	}
	if nut := x.nut(); nut != "" {
		x.caution("allergy", nut, nil)
	}
}

// nut names the nut oil in the finish: tung by its family, walnut by the
// product's own name.
func (x *writer) nut() string {
	product := strings.ToLower(x.in.Product)
	switch {
	case x.in.Family != nil && x.in.Family.ID == "tung-oil", strings.Contains(product, "tung"):
		return "tung"
	case strings.Contains(product, "walnut oil"):
		return "walnut"
	}
	return ""
}

// rags warns who oils the piece again; a board oil that never dries does not
// heat by itself, and films are not wiped on by the owner.
func (x *writer) rags() {
	if x.in.Family != nil && x.in.Family.DryingOil {
		x.caution("rags", "", nil)
	}
}
