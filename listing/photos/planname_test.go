package photos

import "testing"

// A name says that a photo is a plan where it says nothing else: a plan B is none, nor a
// gros plan (common practice, no source).
func TestPlanInFileName(t *testing.T) {
	for name, want := range map[string]bool{
		"plan.jpg": true, "IMG_0324-plan.jpg": true, "Plan 2.jpg": true, "OY-0142 plan.jpg": true, "plan_03.jpg": true,
		"plan-b.jpg": false, "Plan B.jpg": false, "plan_c_2.jpg": false, "planB.jpg": false, "gros-plan.jpg": false, "floorplan.jpg": false, "plan de travail.jpg": false, "front.jpg": false,
	} {
		if got := planInFileName(name); got != want {
			t.Errorf("%s: %v, want %v", name, got, want)
		}
	}
}
