package photos

import (
	"fmt"

	"slabfolio/listing/piece"
	"slabfolio/listing/piece/yamltext"
)

// Secretive doubts each photo that is published under its own name where that names the
// buyer or a supplier: the published files and the pages bear it.
func Secretive(p *piece.Piece, shots []*Shot) []piece.Finding {
	var findings []piece.Finding
	for _, s := range p.Secrets() {
		for _, sh := range shots {
			if sh.Photo == nil || sh.Source.View != "" {
				continue
			}
			if named := s.Person.InFileName(stem(sh.Source.Name)); named != "" {
				findings = append(findings, piece.Finding{
					Rank: piece.Doubt, Code: "photo.named", File: sh.Source.Rel,
					Message: fmt.Sprintf("its file name holds the name of %s, %q, and the published files are named after it, where everybody can read it", s.Who, yamltext.Shorten(named)),
					Remedy:  fmt.Sprintf("give the file another name, unless it only is a word like the name; or say what it shows, such as photos: {views: {%s: detail}}", yamltext.Quote(sh.Source.Name, true, "")),
				})
			}
		}
	}
	return findings
}
