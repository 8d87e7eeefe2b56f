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
