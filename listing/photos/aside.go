package photos

import (
	"fmt"
	"strings"

	"slabfolio/imaging"
	"slabfolio/imaging/note"
	"slabfolio/listing/piece"
)

// aside are the reasons not to publish a photo that the maker did not name, by code.
var aside = map[string]saying{
	"hopeless.dark": {piece.Doubt, func(v map[string]float64) string {
		return fmt.Sprintf("it is too dark for anything to be seen, %.0f stops short or more", v["stops"])
	}, "take it again with more light or a longer exposure"},
	"hopeless.bright": {piece.Doubt, say("it is blown out to white nearly everywhere"), "take it again with less exposure"},
	"hopeless.shaken": {piece.Doubt, func(v map[string]float64) string {
		return fmt.Sprintf("it is shaken or out of focus beyond use: its sharpest edges are %.0f times as wide as they should be", v["times"])
	}, "take it again from a tripod, focused on the piece"},
}

// anyway is how the maker has it all the same.
const anyway = "to publish it all the same, name it under photos: order"

// SetAside takes out of publication the photos that a buyer could see nothing
// in, and those that lie on their side by the evidence of the others, unless the
// maker named them under photos.main or photos.order. It says so of each, and of
// those that are named what is wrong with them. A photo set aside is closed; its
// record says why it is not published.
func SetAside(p *piece.Piece, shots []*Shot) []piece.Finding {
	opened := make([]*imaging.Photo, len(shots))
	for i, sh := range shots {
		opened[i] = sh.Photo
	}
	turns := imaging.Sideways(opened)
	var findings []piece.Finding
	for i, sh := range shots {
		if sh.Photo == nil {
			continue
		}
		f, ok := onItsSide(p, sh, turns[i])
		if !ok {
			if f, ok = unusable(sh); !ok {
				continue
			}
		}
		if !sh.Source.Named {
			sh.Record.Refused = f.Message
			f.Message = "it is not published: " + f.Message
			f.Remedy += "; " + anyway
			sh.Photo.Close()
			sh.Photo = nil
		}
		findings = append(findings, f)
	}
	return findings
}

// unusable tells why nobody can use a photo.
func unusable(sh *Shot) (piece.Finding, bool) {
	for _, n := range sh.Photo.Notes {
		if f, ok := asideFinding(sh, n); ok {
			return f, true
		}
	}
	return piece.Finding{}, false
}

func asideFinding(sh *Shot, n note.Note) (piece.Finding, bool) {
	s, ok := aside[n.Code]
	if !ok {
		return piece.Finding{}, false
	}
	_, name, _ := strings.Cut(n.Code, ".")
	return piece.Finding{Rank: s.rank, Code: "photo." + name, File: sh.Source.Rel, Message: s.message(n.Values), Remedy: s.remedy}, true
}

// onItsSide tells that a photo lies on its side, and the turn that would mend it; not
// where the maker said how it stands.
func onItsSide(p *piece.Piece, sh *Shot, turn int) (piece.Finding, bool) {
	if turn == 0 || valueFor(p.Photos.Turn, sh.Source, as[int]) != nil {
		return piece.Finding{}, false
	}
	how := "lies on its side"
	if turn == 180 {
		how = "stands on its head"
	}
	return piece.Finding{
		Rank: piece.Doubt, Code: "photo.sideways", File: sh.Source.Rel,
		Message: fmt.Sprintf("it %s: turned by %d degrees it shows nearly the same as others of the piece", how, turn),
		Remedy:  fmt.Sprintf("write under photos: turn: {%s: %d}", sh.Source.Name, turn),
	}, true
}
