package piece

import (
	"strings"
	"testing"
)

// What a # takes away from a sentence is doubted, wherever sentences stand, and
// nothing is said of a remark that is one: behind a name or a figure, or set off
// from the text as the files of this program set theirs.
func TestASentenceThatARemarkEnds(t *testing.T) {
	for lines, lost := range map[string]string{
		"story: The slab \"came\" from a neighbor's barn # and it shows\n": "# and it shows",
		"story: The slab “came” from a neighbor's barn # and it shows  \n": "# and it shows",
		"story: The first line\n  and the second # with a third\n":         "# with a third",
		"photos:\n  captions:\n    front.jpg: It's 4' long # roughly\n":    "# roughly",
		"price: {amount: 5,\n  note: for the pair # not each\n  }\n":       "# not each",
		"mark: Burnt into the underside # 14\n":                            "# 14",
		"mark: underside # 2\n":                                            "# 2",
		"guarantee: two years # on the base only\n":                        "# on the base only",
		"returns: within 14 days # but not of what was made to measure\n":  "# but not of what",
		"finish: {product: Yard oil # 2\n  }\n":                            "# 2",
		"materials:\n  - use: glue\n    supplier: Quay Timber # 2\n":       "# 2",
		"parts:\n  - name: drawer # 2\n":                                   "# 2",
		"parts:\n  - name: drawer # 2 of them\n":                           "",
		"finish:\n  product: Yard oil # two coats\n":                       "",
		"finish:\n  product: Yard oil  # 2\n":                              "",
		"availability:\n  lead_time: 2 weeks # check\n":                    "",
		"returns: within 14 days # EU law\n":                               "",
		"guarantee: two years # ask lawyer\n":                              "",
		"weighed: 28 kg # 2\n":                                             "",
		"mark: Burnt into the underside  # where it is signed\n":           "",
		"mark: Burnt into the underside\t# where it is signed\n":           "",
		"mark: \"Burnt in\" # where it is signed\n":                        "",
		"mark: underside # where it is signed\n":                           "",
		"story: | # two paragraphs\n  One # of them.\n":                    "",
		"glue: pva d3 # the yellow one\n":                                  "",
		"base: {style: two frames, # bought in\n  material: steel}\n":      "",
		"base:\n  style: two frames # bought in\n  material: steel\n":      "",
		"weighed: 28 kg # with the base\n":                                 "",
		"found: A fence nail # # # #\n":                                    "",
	} {
		_, findings := ParsePiece("piece.yaml", []byte(minimalSpec("title: Two words # a remark")+lines), Defaults{})
		if !said(findings, Doubt, "spec.remark", `"# a remark"`) {
			t.Errorf("the title's is not named: %+v", findings)
		}
		n := 0
		for _, f := range findings {
			if f.Code == "spec.remark" {
				n++
			}
		}
		if want := 1 + min(len(lost), 1); n != want || lost != "" && !said(findings, Doubt, "spec.remark", lost) {
			t.Errorf("%s: %d doubts, want %d: %+v", lines, n, want, findings)
		}
	}
	for _, kind := range []string{"console table", "bench", "serving board"} {
		for _, line := range strings.Split(string(Starter(kind, "OY-0320", words(t).Say)), "\n") {
			line = strings.TrimPrefix(line, "# ")
			key, _, ok := strings.Cut(strings.TrimSpace(line), ": ")
			if !ok || line == "" || line[0] == '#' {
				continue
			}
			_, findings := ParsePiece("piece.yaml", []byte(strings.TrimSpace(line)+"\n"), Defaults{})
			if said(findings, Doubt, "spec.remark", "") {
				t.Errorf("%s of the starter is doubted: %+v", key, findings)
			}
		}
	}
}

// Of a title every word is its name, so what a # cuts off it is doubted, were it of one
// word; a remark two spaces away is one.
func TestATitleThatARemarkEnds(t *testing.T) {
	for title, lost := range map[string]string{
		"Table # 7": "# 7", "Elm # the big one": "# the big one", "River table # 3 of 4": "# 3 of 4", "Table #7": "#7",
		"Table  # 7": "", "Elm\t# the big one": "", "Elm #": "", "\"Table # 7\"": "", "Elm # --": "",
	} {
		_, findings := ParsePiece("piece.yaml", []byte(minimalSpec("title: "+title)), Defaults{})
		if got := said(findings, Doubt, "spec.remark", lost); got != (lost != "") {
			t.Errorf("%s: doubted: %v: %+v", title, got, findings)
		}
	}
}
