package piece

import (
	"slices"
	"strings"
	"testing"
)

// A view's word in a file name sets the view; a word inside another does not.
func TestViewInFileName(t *testing.T) {
	for name, want := range map[string]string{
		"IMG_2041.jpg":                   "",
		"DSC0042.NEF":                    "",
		"oy-0142-front.jpg":              "front",
		"OY-0142_FRONT.JPG":              "front",
		"front.jpeg":                     "front",
		"Front 2.jpg":                    "front",
		"front2.jpg":                     "front",
		"2front.jpg":                     "front",
		"three-quarter.jpg":              "three-quarter",
		"three_quarter.jpg":              "three-quarter",
		"3-4.jpg":                        "three-quarter",
		"end.jpg":                        "end",
		"end-grain.jpg":                  "end grain",
		"end grain 2.jpg":                "end grain",
		"left end, end.grain.jpg":        "end grain",
		"weekend.jpg":                    "",
		"backdrop.jpg":                   "",
		"backdrop-back.jpg":              "back",
		"back.jpg":                       "back",
		"feedback.jpg":                   "",
		"backlit-resin.jpg":              "backlit resin",
		"raking.light.jpg":               "raking light",
		"maker's mark.jpg":               "maker's mark",
		"makers-mark.jpg":                "maker's mark",
		"maker’s_mark.jpg":               "maker's mark",
		"underside.tiff":                 "underside",
		"photos/above.jpg":               "above",
		`photos\above.jpg`:               "above",
		"above/IMG_1.jpg":                "",
		"edge-detail.jpg":                "edge",
		"detail-of-the-edge.jpg":         "detail",
		"in-use.jpg":                     "in use",
		"used.jpg":                       "",
		"packed_1.jpg":                   "packed",
		"unpacked.jpg":                   "",
		"ÉTÉ-front.jpg":                  "front",
		"front\u0301.jpg":                "",
		"scale.jpg":                      "scale",
		"upscaled.jpg":                   "",
		"table.front.jpg":                "front",
		".front":                         "front",
		"":                               "",
		"...":                            "",
		"desktop.jpg":                    "",
		"OY-0142-top-down-overhead.jpeg": "above",
		"Top detail.JPG":                 "detail",
		"bench detail.jpg":               "detail",
		"detail of the front.jpg":        "detail",
		"front edge.jpg":                 "edge",
		"top-seam.jpg":                   "seam",
		"back foot.jpg":                  "feet",
		"front with the drawer open.jpg": "front",  // all of the front, for all that is known
		"packed, detail.jpg":             "packed", // private, whatever of it is shown
		"Detail Kante.jpg":               "detail",
		"Schrägansicht.jpg":              "three-quarter",
		"Schra\u0308gansicht.jpg":        "three-quarter", // as a Mac names files
		"schraegansicht_2.jpg":           "three-quarter",
		"vorne.jpg":                      "front",
		"von-oben.jpg":                   "above",
		"Rückseite.jpg":                  "back",
		"Fuesse.jpg":                     "feet",
		"verpackt.jpg":                   "packed",
		"vue de dessus.jpg":              "above",
		"détail du dessus.jpg":           "detail",
		"derriere.jpg":                   "back",
		"bois de bout.jpg":               "end grain",
		"tres cuartos.jpg":               "three-quarter",
		"cajon.jpg":                      "drawer",
		"mesa detalle.jpg":               "detail",
		"onderkant.jpg":                  "underside",
		"kopshout.jpg":                   "end grain",
		"table dos.jpg":                  "", // the back in French, two in Spanish
		"Voren.jpg":                      "",
	} {
		if got := ViewInFileName(name); got != want {
			t.Errorf("ViewInFileName(%q) = %q, want %q", name, got, want)
		}
	}
	for _, v := range Views {
		if got := ViewInFileName(v + ".jpg"); got != v {
			t.Errorf("ViewInFileName(%q) = %q", v+".jpg", got)
		}
	}
}

// A view's word that means something else beside its neighbours sets no view: a kind of
// piece, a length, a date, a place, a time (from memory, in the languages of the papers).
func TestWordsThatAreNoView(t *testing.T) {
	for want, names := range map[string]string{
		"": "ci-dessous, bottom-up, live-edge-bench, live-edge-bench-01, Live edge elm bench, live-edge-dining-table, bench live edge, natural-edge-table, waney edge shelf, end-grain-board, end grain chopping board, Baumkante-Tisch, Tisch Baumkante, Esstisch mit Baumkante, Hirnholz-Brett," +
			" table bord vif, planche bois de bout, mesa canto vivo, tabla de veta de testa, boomkant tafel, kopshout-plank, avant-apres, avant-après, avant-poncage, avant ponçage, 6-foot, 8-feet, six-foot-bench, 12-foot-table, 10 feet long, sechs Fuß, 2026-3-4, IMG_3_4, IMG_2026-3-4_2," +
			" photo 3-4, DSC 3 4, end-table, end tables 2, bord-de-mer, bord du lac, au bord, borde del mar, am Rand, devant la grange, scale-model, overhead-light, plan-b, plan B 2, plan de travail, floor-plan, BackDrop, WeekEnd, FeedBack, front-door, back-yard, top-coat, under-lamp, Mark-and-Tom",
		"front":         "live-edge-table-front, end-grain-board-front, Baumkante-Tisch-vorne, frontView, FrontView2, face avant, avant, 6-foot-bench-front, end-table-front, OakBenchFront",
		"underside":     "bench-live-edge-underside, table bord vif dessous, UnderSide",
		"above":         "TopView, topView_2, live-edge-table-above, plan, Plan 2",
		"end":           "end-table-end, bench end, live-edge-bench-end",
		"edge":          "live edge, OY-0142 live edge 2, edge-of-the-bench, live edge of the bench, table-edge, Baumkante, LiveEdge, bord vif, Kante der Bank",
		"end grain":     "end grain, EndGrain, end-grain of the board, Hirnholz 2",
		"detail":        "live-edge-bench-detail, CloseUp, end-grain-board close up",
		"feet":          "14-feet, 03-feet, IMG_2041-feet, feet 2, OY-0142-feet, back foot",
		"three-quarter": "3-4, bench 3-4, 3-4 view, ThreeQuarter, live-edge-bench-3-4, OY-0142 3-4 view",
		"in room":       "InRoom, room",
		PackedView:      "packing-list, packed-front, front-packed, top detail packed, Seite vorne verpackt, PackedFront, FrontPacked",
		"scale":         "scale 2",
	} {
		for name := range strings.SplitSeq(names, ",") {
			name = strings.TrimSpace(name) + ".jpg"
			if got := ViewInFileName(name); got != want {
				t.Errorf("ViewInFileName(%q) = %q, want %q", name, got, want)
			}
		}
	}
}

// No word means two views, and every view but the rarest has its word in more
// languages than English.
func TestViewWordsAreOfOneView(t *testing.T) {
	seen := map[string]string{}
	for _, e := range viewWords() {
		words := strings.Join(e.words, " ")
		if v, ok := seen[words]; ok && v != e.view {
			t.Errorf("%q names %q and %q", words, v, e.view)
		}
		seen[words] = e.view
	}
	for v := range viewsCalled() {
		if !slices.Contains(Views, v) {
			t.Errorf("%q is no view", v)
		}
	}
}

// The words that a slip or a synonym leads to are words of the spec.
func TestHintsLeadSomewhere(t *testing.T) {
	var all []string
	for _, k := range allKeys(pieceKeys, "") {
		all = append(all, k.key.Words...)
	}
	for _, k := range allKeys(workshopKeys, "") {
		all = append(all, k.key.Words...)
	}
	for said, meant := range otherWords {
		if !slices.Contains(all, meant) {
			t.Errorf("%q leads to %q, which is no word of the spec", said, meant)
		}
	}
	var names []string
	for _, k := range append(allKeys(pieceKeys, ""), allKeys(workshopKeys, "")...) {
		names = append(names, k.key.Name, k.path)
	}
	for said, meant := range otherKeys {
		for _, one := range splitBar(meant) {
			if !slices.Contains(names, one) {
				t.Errorf("%q leads to %q, which is no key", said, one)
			}
		}
	}
}

func splitBar(s string) []string {
	var out []string
	for len(s) > 0 {
		i := 0
		for i < len(s) && s[i] != '|' {
			i++
		}
		out = append(out, s[:i])
		s = s[min(i+1, len(s)):]
	}
	return out
}

// Slips of one letter, two letters, and two changed over.
func TestNearest(t *testing.T) {
	for slip, want := range map[string]string{
		"thicknes": "thickness", "tickness": "thickness", "thcikness": "thickness", "Thickness": "thickness", "widht": "width", "wieght": "weight", "colur": "", "length ": "length", "xyz": "", "wit": "", "l": "",
	} {
		if got := nearest(slip, []string{"length", "width", "weight", "thickness"}); got != want {
			t.Errorf("nearest(%q) = %q, want %q", slip, got, want)
		}
	}
}

// What the sizes of workshop.yaml may be is what the photos can be made in.
func TestSizesOfTheWorkshop(t *testing.T) {
	for ratio, right := range map[string]bool{"4:5": true, "1:1": true, "100:10": true, "1.91:1": false, "0:1": false, "101:100": false, "11:1": false, "1:11": false, "4/5": false} {
		_, findings := ParseWorkshop("workshop.yaml", []byte("sizes:\n  - {name: wide, width: 1200, ratio: \""+ratio+"\"}\n"))
		if got := len(findings) == 0; got != right {
			t.Errorf("ratio %s: %v", ratio, findings)
		}
	}
	for sizes, faults := range map[string]int{
		"[{name: Wide, width: 900}, {name: wide, width: 1200}]":              1,
		"[{name: wide, width: 900}, {name: wide, width: 900, format: webp}]": 0,
		"[{name: größe, width: 900}]":                                        1,
	} {
		if _, findings := ParseWorkshop("workshop.yaml", []byte("sizes: "+sizes+"\n")); len(findings) != faults {
			t.Errorf("%s: %v", sizes, findings)
		}
	}
	if _, findings := ParseWorkshop("workshop.yaml", []byte("sizes: [{name: wide, width: 16001}]\n")); len(findings) != 1 {
		t.Errorf("16001 pixels: %v", findings)
	}
}
