package photos

import (
	"fmt"
	"slices"
	"strings"

	"slabfolio/imaging"
	"slabfolio/listing/piece"
)

// byCard puts the colours of the photos right by the one plain grey card that was
// found. Its photo is taken out of publication, unless the maker named it, no other
// shows its view, or there is no other.
func byCard(p *piece.Piece, shots []*Shot, found []imaging.PlacedCard) []piece.Finding {
	word := p.Photos.GreyFind
	f := piece.Finding{Rank: piece.Doubt, Code: "photo.no-chart", File: word.At.File, Line: word.At.Line, Column: word.At.Column}
	switch len(found) {
	case 0:
		f.Message = "no chart of 24 colours and no plain grey card is surely to be seen in any photo, so colours are left to the photos themselves"
		f.Remedy = "photograph the card large, a twentieth of the photo's width at least, flat, in even light, all of it on wood or another colour; or give its place: " + cardLines(shots, nil)
		return []piece.Finding{f}
	case 1:
		return []piece.Finding{byOneCard(p, shots, found[0])}
	}
	var at []string
	for _, c := range found[:min(len(found), 4)] {
		at = append(at, shots[c.Photo].Source.Name+" "+whereabouts(c.Box))
	}
	f.Message = fmt.Sprintf("%d things can be the grey card (%s), so colours are left to the photos themselves", len(found), strings.Join(at, "; "))
	f.Remedy = "keep those that are one: " + cardLines(shots, found)
	return []piece.Finding{f}
}

// byOneCard is byCard where there is one alone.
func byOneCard(p *piece.Piece, shots []*Shot, c imaging.PlacedCard) piece.Finding {
	opened, sh := inPlace(shots), shots[c.Photo]
	f := piece.Finding{Rank: piece.Note, Code: "photo.card", File: sh.Source.Rel}
	on := "a grey card " + whereabouts(c.Box)
	if p.Photos.Tone.V == "as shot" {
		f.Message = on + ", and tone: as shot leaves colours as they are"
	} else {
		done := imaging.BalanceBy(opened, c)
		f.Rank, f.Message, f.Remedy = corrected(opened, done, c.Photo, "card", fmt.Sprintf("%s: a cast of %.1f stops was taken out", on, sh.Photo.Numbers["card_cast"]))
	}
	if why := keptForAll(shots, c.Photo); why != "" {
		f.Message = "it shows " + f.Message + why
		return f
	}
	f.Message = "it is not published: it shows " + f.Message
	f.Remedy = strings.TrimPrefix(f.Remedy+"; to publish it too name it under photos: order", "; ")
	sh.Record.Refused = "it shows the grey card"
	sh.Photo.Close()
	sh.Photo = nil
	return f
}

// keptForAll says why the photo of a card is published for all that; empty: it is not.
func keptForAll(shots []*Shot, at int) string {
	s := shots[at].Source
	others := slices.DeleteFunc(slices.Clone(shots), func(sh *Shot) bool { return sh.Photo == nil || sh == shots[at] })
	switch {
	case s.Named:
		return "; it is published, since photos names it"
	case len(others) == 0:
		return "; it is published, since there is no other photo"
	case s.View != "" && !slices.ContainsFunc(others, func(sh *Shot) bool { return sh.Source.View == s.View }):
		return "; it is published, since no other photo shows the view " + s.View
	}
	return ""
}

// CardsByName takes photos out of publication whose names say that they show a grey card
// or a colour chart and that ByChart did not take out: no buyer looks for one. It says so
// of each. One that the maker named, captioned or gave a view under photos stays, as does
// the only photo, or the only one of its view.
func CardsByName(p *piece.Piece, shots []*Shot) []piece.Finding {
	var findings []piece.Finding
	for i, sh := range shots {
		if sh.Photo == nil || sh.Source.Caption != "" || valueFor(p.Photos.Views, sh.Source, as[string]) != nil || !piece.CardInFileName(sh.Source.Name) || keptForAll(shots, i) != "" {
			continue
		}
		f := piece.Finding{Rank: piece.Doubt, Code: "photo.card-by-name", File: sh.Source.Rel,
			Message: "it is not published: its name says that it shows a grey card or a colour chart",
			Remedy:  "to have the colours of the others put right by it write under photos: grey_card: auto, or draw a box on the card on the overview; to publish it name it under photos: order"}
		if p.Photos.GreyFind.Set() || valueFor(p.Photos.GreyCard, sh.Source, asBox) != nil {
			f.Rank, f.Remedy = piece.Note, "to publish it all the same name it under photos: order"
		}
		sh.Record.Refused = "its name says that it shows a grey card or a colour chart"
		sh.Photo.Close()
		sh.Photo = nil
		findings = append(findings, f)
	}
	return findings
}

// ProposeCard says which photo shows a chart or a grey card where the spec asks for
// neither, with the line that has it used. It changes nothing.
func ProposeCard(p *piece.Piece, shots []*Shot) []piece.Finding {
	if p.Photos.GreyFind.Set() || len(p.Photos.GreyCard) > 0 || p.Photos.Tone.V == "as shot" {
		return nil
	}
	opened := inPlace(shots)
	f := piece.Finding{Rank: piece.Note, Code: "photo.card-seen", Remedy: "to have the colours of the others put right by it write under photos: grey_card: auto"}
	if at, c := imaging.FindChart(opened); c != nil {
		f.Rank, f.File, f.Message = piece.Doubt, shots[at].Source.Rel, "it shows a chart of 24 colours, and is published as a photo of the piece"
		f.Remedy += "; else take it out: leave_out: [" + shots[at].Source.Name + "]"
		return []piece.Finding{f}
	}
	if found := imaging.FindCards(opened); len(found) == 1 {
		f.File, f.Message = shots[found[0].Photo].Source.Rel, "it seems to show a grey card, "+whereabouts(found[0].Box)
		return []piece.Finding{f}
	}
	return nil
}

// whereabouts says where in a photo a box lies.
func whereabouts(box [4]float64) string {
	third := func(a, b float64) int { return min(int(3*(a+b)/2), 2) }
	across, down := [3]string{"left", "", "right"}[third(box[0], box[2])], [3]string{"upper ", "", "lower "}[third(box[1], box[3])]
	switch {
	case across == "" && down == "":
		return "in the middle"
	case across == "":
		return "in the middle of the " + down + "part"
	case down == "":
		return "at the " + across
	}
	return "at the " + down + across
}

// cardLines is the line of a spec that gives the places of cards; without any, the
// form of it.
func cardLines(shots []*Shot, found []imaging.PlacedCard) string {
	var names []string
	for _, c := range found {
		name, b := shots[c.Photo].Source.Name, c.Box
		if !slices.ContainsFunc(names, func(s string) bool { return strings.HasPrefix(s, name+": ") }) {
			names = append(names, fmt.Sprintf("%s: [%.3f, %.3f, %.3f, %.3f]", name, b[0], b[1], b[2], b[3]))
		}
	}
	if len(names) == 0 {
		names = []string{shots[firstOpened(shots)].Source.Name + ": [left, top, right, bottom]"}
	}
	return "grey_card: {" + strings.Join(names, ", ") + "}"
}

func firstOpened(shots []*Shot) int {
	return max(slices.IndexFunc(shots, func(sh *Shot) bool { return sh.Photo != nil }), 0)
}
