package piece

import "testing"

// What is set as people write it is taken where it has one reading, and refused where
// it has two. Days of all figures have their day first where points part them (DIN
// 5008); with slashes they have two readings unless one figure is above 12.
func TestSetTakesWhatHasOneReading(t *testing.T) {
	for said, want := range map[string]string{
		"top.thickness=4,5": "4.5", "top.outline.length=2,80m": "2.80m", "weighed=52,5 kg": "52.5 kg", "finished=24.11.2026": "2026-11-24", "finished=3 March 2026": "2026-03-03",
		"finished=11/24/2026": "2026-11-24", "costs.hours=41,5": "41.5", "costs.rate=1.200,50": "1200.50", "top.resin.area=18,5 %": "18.5 %",
		"finished=11/10/2026": "11/10/2026", "weighed=1,250 kg": "1,250 kg", "costs.rate=1.200": "1.200", "title=4,5": "4,5", "top.outline.widths=37,38": "37,38",
		"finished=2026-11-24": "2026-11-24", "finished=soon": "soon", "top.thickness=1 3/4 in": "1 3/4 in", "parts.size=[20,5 cm, 3 cm]": "[20,5 cm, 3 cm]",
	} {
		a, err := parseAssignment(said)
		if err != nil || a.Value != want {
			t.Errorf("%s: %+v, %v, want %s", said, a, err, want)
		}
	}
	_, findings := ParsePiece("piece.yaml", []byte(minimalSpec("title: T")+"weighed: 52,5 kg\n"), Defaults{})
	if len(findings) == 0 || findings[0].Rank != Fault {
		t.Errorf("a comma in a file is no fault any more: %+v", findings)
	}
}
