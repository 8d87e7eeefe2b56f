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
