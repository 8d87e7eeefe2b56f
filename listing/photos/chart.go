package photos

import (
	"fmt"

	"slabfolio/imaging"
	"slabfolio/listing/piece"
)

// ByChart looks for a colour chart among the opened photos where the maker asks
// for it, else for a plain grey card, and puts the colours of the others right by it
// as far as it speaks for them. The photo of the chart is taken out of publication,
// unless it is named under photos.main or photos.order.
func ByChart(p *piece.Piece, shots []*Shot) []piece.Finding {
	word := p.Photos.GreyFind
	if word.V != "auto" {
		return nil
	}
	opened := inPlace(shots)
	if len(Opened(shots)) == 0 {
		return nil
	}
	at, c := imaging.FindChart(opened)
	if c == nil {
		return byCard(p, shots, imaging.FindCards(opened))
	}
	f := piece.Finding{Rank: piece.Note, Code: "photo.chart", File: shots[at].Source.Rel}
	on := fmt.Sprintf("a chart of 24 colours: on %d of its patches colours were off by %.1f ΔE on average", c.Patches, c.Before)
	switch {
	case p.Photos.Tone.V == "as shot":
		f.Message = on + ", and tone: as shot leaves colours as they are"
	case !c.Helps():
		f.Message = on + ", and no matrix brings them surely nearer, so colours are left as they are"
	default:
		f.Rank, f.Message, f.Remedy = corrected(opened, imaging.CorrectBy(opened, at, c), at, "chart", fmt.Sprintf("%s, %.1f when put right", on, c.After))
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

// inPlace are the photos of the shots, nil where there is none.
func inPlace(shots []*Shot) []*imaging.Photo {
	opened := make([]*imaging.Photo, len(shots))
	for i, sh := range shots {
		opened[i] = sh.Photo
	}
	return opened
}

// corrected says how many of the other photos a chart or a card put right.
func corrected(opened []*imaging.Photo, done []bool, at int, what, on string) (piece.Rank, string, string) {
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
	case all == 0:
		return piece.Note, on + "; there is no other photo to put right", ""
	case n == all:
		return piece.Note, fmt.Sprintf("%s; so were the other photos, all %d", on, n), ""
	case n == 0:
		return piece.Doubt, on + "; no other photo is surely of the same camera and the same light, so none was put right",
			"photograph the " + what + " lying on the piece, with the camera and in the light of the other photos"
	}
	return piece.Doubt, fmt.Sprintf("%s; so were %d of the %d other photos: the rest are of another camera or another light, or to be left as shot", on, n, all),
		"photograph the " + what + " in each light, and give the place of a card, or of a grey patch, in each such photo: grey_card: {NAME: [left, top, right, bottom]}"
}
