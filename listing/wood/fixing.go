package wood

import (
	"fmt"
	"math"
	"strings"

	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// An Allowance compares what a fixing across the grain allows with what the
// wood between its outermost fixings moves.
type Allowance struct {
	Movement figure.Figure // mm, between the outermost fixings
	// Slot is how long the slot (or wide the hole) of each outermost fixing
	// has to be, in whole mm: the bolt and the largest movement, with both
	// slotted and the bolts set in the middle. It allows for assembly in any
	// season. 0 where the bolt is not known.
	Slot  float64
	Bolt  float64 // diameter, mm; 0 where not known
	Play  float64 // what the fixing allows, mm
	Known bool    // whether Play is known
	Rigid bool    // a fixing that allows nothing to speak of
}

// slotNeeded returns the allowance for wood that moves by perMM for each
// millimetre across the grain, with so many mm of wood between the fixings and
// a bolt of the given diameter (0: not known). Nothing is said of what the
// fixing allows.
func slotNeeded(wood, perMM figure.Uncertain, bolt float64, rule, source string) Allowance {
	f := perMM.Times(wood).Figure("mm", "movement between the outermost fixings: "+rule, source, "base.fixing.across")
	a := Allowance{Movement: f, Bolt: bolt}
	if bolt > 0 {
		a.Slot = math.Ceil(bolt + f.High)
	}
	return a
}

// fixing returns the allowance of a spec's fixing, where the distance between
// the outermost fixings is known; perMM is the movement of 1 mm across the
// grain, and lies tells how much wood is between them.
func (t *Table) fixing(f piece.Fixing, perMM figure.Uncertain, lies stretch, rule, source string) (Allowance, bool) {
	if !f.Across.Set() {
		return Allowance{}, false
	}
	dia, clear := t.boltSize(f.Bolt.V)
	a := slotNeeded(lies.at(float64(f.Across.V)), perMM, dia, rule, source)
	switch {
	case oneOf(f.Holes.V, "fixed"):
		a.Known, a.Rigid = true, true
	case f.Slot.Set() && dia > 0 && !oneOf(f.Holes.V, "round"):
		a.Known, a.Play = true, math.Max(0, float64(f.Slot.V)-dia)
	case oneOf(f.Holes.V, "round") && dia > 0:
		a.Known, a.Play, a.Rigid = true, clear-dia, true
	}
	return a, true
}

// finding returns what there is to say of a fixing, if there is anything, with
// lengths in the given system first. way says over what the wood moves: "over
// the year".
func (a Allowance) finding(where piece.Place, way string, first units.System) (piece.Finding, bool) {
	need := "slot the outermost holes across the grain"
	if a.Slot > 0 {
		need = "give the outermost fixings slots of at least " + units.Length(a.Bolt+a.Movement.High).FineUp(first) + " across the grain, bolts in the middle"
	}
	moves := fmt.Sprintf("the wood between the outermost fixings moves by about %s %s, %s at most", units.Length(a.Movement.Value).Fine(first), way, units.Length(a.Movement.High).FineUp(first))
	allows := "nothing to speak of"
	if a.Play >= minMovement {
		allows = units.Length(a.Play).Fine(first)
	}
	if a.Play < a.Movement.Value && allows == units.Length(a.Movement.Value).Fine(first) {
		allows = "a little less"
	}
	switch {
	case a.Movement.High < minMovement:
	case !a.Known:
		return at(where, piece.Note, "fixing.allowance-unknown", moves+"; the spec does not say what the fixing allows", "say the bolt, and holes: slotted with the slot's length; "+need), true
	case a.Movement.Value > a.Play+minMovement && a.Rigid:
		return at(where, piece.Doubt, "fixing.rigid-across-grain", moves+", and the fixing allows "+allows, need), true
	case a.Movement.Value > a.Play+minMovement:
		return at(where, piece.Doubt, "fixing.slot-short", moves+", and the slot allows "+allows, need), true
	case a.Movement.High > a.Play:
		return at(where, piece.Note, "fixing.slot-tight", moves+", and the fixing allows "+allows, need), true
	}
	return piece.Finding{}, false
}

// minMovement is what a fixing takes up by itself: less than half a millimetre
// is lost in the threads and the wood. Common practice, no source.
const minMovement = 0.5

// boltSize returns the diameter and the clearance hole of a bolt in mm, 0
// where its name is not in the table.
func (t *Table) boltSize(name string) (diameter, clear float64) {
	key := spelling.Plain(name)
	for _, b := range t.bolts {
		k := strings.TrimSuffix(spelling.Plain(b.name), " in")
		rest, ok := strings.CutPrefix(key, k)
		// "M8 x 40", "M8x40", "1/4-20", "5/16 in", but not "M80".
		if ok && (rest == "" || rest[0] < '0' || rest[0] > '9') {
			return b.diameter, b.clear
		}
	}
	return 0, 0
}
