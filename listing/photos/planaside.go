package photos

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// PlansAside takes photos out of publication that were taken to measure the top by and
// that the outline does not name, or no longer: a sheet of paper lies on the top, or the
// name says so. One that the maker named, captioned or gave a view under photos stays,
// and so does the only photo. It says so of each. prefer is the system that sizes are
// told in.
func PlansAside(p *piece.Piece, shots []*Shot, prefer units.System) []piece.Finding {
	var findings []piece.Finding
	for _, sh := range shots {
		if sh.Photo == nil || sh.Source.Named || sh.Source.Blend != nil || sh.Source.Caption != "" || sh.Source.View != "" && sh.Source.View != "above" ||
			valueFor(p.Photos.Views, sh.Source, as[string]) != nil || len(Opened(shots)) == 1 {
			continue
		}
		why := ""
		if l, w, ok := sh.Photo.SheetOnTop(); ok {
			why = fmt.Sprintf("a sheet of paper lies on the top, and by it the top is about %s × %s", roughly(l, prefer), roughly(w, prefer))
		} else if planInFileName(sh.Source.Name) {
			why = "its name says that it is a plan photo"
		}
		if why == "" {
			continue
		}
		sh.Record.Refused = why
		sh.Photo.Close()
		sh.Photo = nil
		findings = append(findings, piece.Finding{
			Rank: piece.Doubt, Code: "photo.plan-aside", File: sh.Source.Rel, Message: "it is not published: " + why,
			Remedy: "to have the top measured from it write outline: {photo: " + sh.Source.Name + ", paper_sheet: a4}, or letter; " + anyway,
		})
	}
	return findings
}

// roughly writes a length to the centimetre or the inch.
func roughly(mm float64, prefer units.System) string {
	if prefer.Metric() {
		return fmt.Sprintf("%.0f cm", math.Round(mm/10))
	}
	return fmt.Sprintf("%.0f in", math.Round(mm/units.MillimetresPerInch))
}

// beforeNumbers are the words that cameras and makers put before a number in a file's name.
var beforeNumbers = []string{"img", "dsc", "dscf", "dscn", "pxl", "photo", "foto", "pic", "p"}

var planB = spelling.Pattern(`(?i)plan[-_ .]*[b-d](?:$|\PL)`)

// planInFileName reports whether a file's name says that it is a plan and nothing else
// beside numbers: plan.jpg, IMG_0324-plan.jpg. A gros plan is none, nor a plan B.
func planInFileName(name string) bool {
	if planB().MatchString(stem(name)) {
		return false
	}
	words := strings.FieldsFunc(strings.ToLower(stem(name)), func(r rune) bool { return !unicode.IsLetter(r) })
	words = slices.DeleteFunc(words, func(w string) bool { return len(w) < 3 || slices.Contains(beforeNumbers, w) })
	return len(words) == 1 && words[0] == "plan"
}
