package photos

import (
	"fmt"

	"slabfolio/imaging"
	"slabfolio/listing/piece"
)

// ByChart looks for a colour chart among the opened photos where the maker asks
// for it, and puts the colours of the others right by it as far as it speaks for
// them. The photo of the chart is taken out of publication, unless it is named
// under photos.main or photos.order.
func ByChart(p *piece.Piece, shots []*Shot) []piece.Finding {
	word := p.Photos.GreyFind
	if word.V != "auto" {
		return nil
	}
	opened := make([]*imaging.Photo, len(shots))
	n := 0
	for i, sh := range shots {
		if opened[i] = sh.Photo; sh.Photo != nil {
			n++
		}
	}
	if n == 0 {
		return nil
	}
	at, c := imaging.FindChart(opened)
	if c == nil {
		return []piece.Finding{{Rank: piece.Doubt, Code: "photo.no-chart", File: word.At.File, Line: word.At.Line, Column: word.At.Column,
			Message: "no chart of 24 colours is surely to be seen in any photo, so colours are left to the photos themselves",
			Remedy:  "photograph the chart large and straight, without glare, in the light of the other photos; for a plain grey card give its box: grey_card: {" + shots[firstOpened(shots)].Source.Name + ": [left, top, right, bottom]}"}}
	}
	f := piece.Finding{Rank: piece.Note, Code: "photo.chart", File: shots[at].Source.Rel}
	on := fmt.Sprintf("a chart of 24 colours: on %d of its patches colours were off by %.1f ΔE on average", c.Patches, c.Before)
	switch {
	case p.Photos.Tone.V == "as shot":
		f.Message = on + ", and tone: as shot leaves colours as they are"
	case !c.Helps():
		f.Message = on + ", and no matrix brings them surely nearer, so colours are left as they are"
	default:
		f.Rank, f.Message, f.Remedy = corrected(opened, imaging.CorrectBy(opened, at, c), at, fmt.Sprintf("%s, %.1f when put right", on, c.After))
	}
	if sh := shots[at]; !sh.Source.Named {
		sh.Record.Refused = "it shows the colour chart"
		f.Message = "it is not published: it shows " + f.Message
		sh.Photo.Close()
		sh.Photo = nil
	} else {
		f.Message = "it shows " + f.Message
	}
	return []piece.Finding{f}
}

// corrected says how many of the other photos a chart put right.
func corrected(opened []*imaging.Photo, done []bool, at int, on string) (piece.Rank, string, string) {
	n, all := 0, 0
	for i, p := range opened {
		if p != nil && i != at {
			all++
			if done[i] {
				n++
			}
		}
	}
	switch {
	case n == all:
		return piece.Note, fmt.Sprintf("%s; so were the other photos, all %d", on, n), ""
	case n == 0:
		return piece.Doubt, on + "; no other photo is surely of the same camera and the same light, so none was put right",
			"photograph the chart lying on the piece, with the camera and in the light of the other photos"
	}
	return piece.Doubt, fmt.Sprintf("%s; so were %d of the %d other photos: the rest are of another camera or another light, or to be left as shot", on, n, all),
		"photograph the chart in each light, each in a piece folder of its own, or give those photos' grey card"
}

func firstOpened(shots []*Shot) int {
	for i, sh := range shots {
		if sh.Photo != nil {
			return i
		}
	}
	return 0
}
