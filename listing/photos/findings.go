package photos

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"slabfolio/imaging"
	"slabfolio/imaging/inspect"
	"slabfolio/imaging/note"
	"slabfolio/listing/piece"
)

// A saying turns a code and numbers of the photo packages into words for the
// maker.
type saying struct {
	rank    piece.Rank
	message func(v map[string]float64) string
	remedy  string
}

func say(text string) func(map[string]float64) string {
	return func(map[string]float64) string { return text }
}

// reachesEdge says at which edges of a photo what was taken for the piece comes to them: a
// shadow on the ground or a shine on it may be what does.
func reachesEdge(v map[string]float64) string {
	var at []string
	for _, side := range [4]string{"left", "top", "right", "bottom"} {
		if v[side] > 0 {
			at = append(at, side)
		}
	}
	edges := " edge"
	if len(at) > 1 {
		edges = " edges"
	}
	return "what looks like the piece, or its shadow, comes to the " + strings.Join(at, " and ") + edges + " of the photo"
}

// sayings are the findings on one photo, by code. A code that is not here is
// not worth the maker's time.
var sayings = map[string]saying{
	"decode.raw-preview": {piece.Note, func(v map[string]float64) string {
		return fmt.Sprintf("a camera raw file: its built-in preview of %.0f × %.0f pixels is used", v["width"], v["height"])
	}, "put a JPEG or TIFF developed from it beside it, under the same name, for full quality"},
	"decode.raw-preview-small": {piece.Doubt, func(v map[string]float64) string {
		return fmt.Sprintf("a camera raw file whose built-in preview has only %.0f × %.0f pixels", v["width"], v["height"])
	}, "put a JPEG or TIFF developed from it beside it, under the same name"},
	"decode.bad-exif":        {piece.Note, say("its camera data cannot be read, so its date is not known and it is taken to be upright"), "look whether it stands upright on the overview"},
	"decode.no-end-marker":   {piece.Note, say("the end of the file is missing, though the picture is all there"), "copy it from the camera again if you can"},
	"decode.first-frame":     {piece.Note, say("it holds several pictures; the first is used"), ""},
	"decode.first-page":      {piece.Note, say("it holds several pages; the first is used"), ""},
	"colour.bad-profile":     {piece.Doubt, say("its colour profile cannot be read, so its colours are taken as ordinary sRGB"), "compare the colours on the overview with the piece; export the photo again in sRGB if they are off"},
	"colour.cmyk-no-profile": {piece.Doubt, say("it is in printing inks (CMYK) and does not say which, so its colours are a guess"), "export it again in RGB"},
	"colour.hdr":             {piece.Note, say("it is a high dynamic range photo; its ordinary version is used"), ""},
	"tone.retake": {piece.Doubt, func(v map[string]float64) string {
		return fmt.Sprintf("it would need %s of light, more than the %.0f stops that can be mended well", stops(v["ev"]), v["limit"])
	}, "take it again with " + "the exposure nearer to the others"},
	"tone.cast": {piece.Doubt, say("its light is too coloured to be mended"), "take it again in daylight or with one kind of lamp, with a grey card in the first photo"},
	"tone.tinted": {piece.Doubt, func(v map[string]float64) string {
		colour := "magenta"
		if v["stops"] < 0 {
			colour = "green"
		}
		return fmt.Sprintf("all of it has a tinge of %s, its brightest parts too; nothing in it is surely neutral, so it is left as the camera saw it", colour)
	}, "if the piece is not of that colour, take it again by daylight or set the camera's white balance to the lamp; a grey card under photos: grey_card mends it exactly"},
	"tone.white-unsure": {piece.Note, say("nothing in it is surely neutral, so its colours are left as the camera saw them"),
		"for exact colour, photograph a grey card once in the same light and draw a box on it on the overview (photos: grey_card)"},
	"tone.grey-outside":    {piece.Doubt, say("the grey card's box lies outside the photo, so it is not used"), "draw a box on the card on the overview, which shows the line to paste"},
	"tone.grey-clipped":    {piece.Doubt, say("the grey card is blown out, so it is not used"), "expose so that the card is grey, not white"},
	"tone.grey-dark":       {piece.Doubt, say("the grey card is too dark to measure, so it is not used"), "let the light fall on the card too"},
	"tone.grey-uneven":     {piece.Doubt, say("what lies in the grey card's box is not of one grey, so it is not used"), "make the box smaller, well inside the card"},
	"decode.exif-partly":   {piece.Note, say("a part of its camera data cannot be read; the rest is used"), ""},
	"decode.alpha-ignored": {piece.Note, say("it has see-through parts, which are shown solid"), ""},
	"frame.converging": {piece.Note, func(v map[string]float64) string {
		return fmt.Sprintf("upright lines lean towards each other by %.1f degrees", math.Abs(v["degrees"]))
	}, "hold the camera level and step back rather than tilt it"},
	"frame.leaning": {piece.Note, func(v map[string]float64) string {
		return fmt.Sprintf("it leans by %.1f degrees, and stays so: put straight it would lose some of the piece", math.Abs(v["degrees"]))
	}, "take it again with the camera level and a little more room around the piece"},
	"frame.cut": {piece.Note, reachesEdge, "fine for a detail, and for a shadow; for the whole piece, step back a little"},
	"frame.small": {piece.Note, func(v map[string]float64) string {
		return fmt.Sprintf("the piece fills only %.0f %% of the photo", 100*v["share"])
	}, "step closer, or zoom in"},
	"inspect.small-print": {piece.Doubt, func(v map[string]float64) string {
		return fmt.Sprintf("only %.0f pixels along its longer side are left, too few to print well", v["side"])
	}, fmt.Sprintf("use the camera's full size; %d are needed for the sheet", inspect.PrintSide)},
	"inspect.small-zoom": {piece.Note, func(v map[string]float64) string {
		return fmt.Sprintf("%.0f pixels along its longer side: enough for the sheet, too few for a buyer to zoom in", v["side"])
	}, "use the camera's full size"},
	"inspect.soft":   {piece.Doubt, say("it looks out of focus"), "look at it large; if the wood is not crisp, take it again, focused on the near edge"},
	"inspect.softer": {piece.Doubt, say("it is softer than the other photos of the piece"), "look at it large beside the others; take it again if it is not meant so"},
	"inspect.shaken": {piece.Doubt, say("it looks shaken"), "use a tripod, or rest the camera on something, and the self-timer"},
	"inspect.clipped": {piece.Doubt, func(v map[string]float64) string {
		return fmt.Sprintf("%.0f %% of the piece is blown out to white", math.Max(1, 100*v["share"]))
	}, "turn the light or the piece so that it does not mirror in the surface, or expose less"},
	"inspect.noise": {piece.Note, say("it is noisy"), "use more light or a longer exposure and a lower ISO"},
	"inspect.cast":  {piece.Doubt, say("its light has one colour only, which nothing can mend"), "take it again in white light"},
	"inspect.before-finished": {piece.Note, func(v map[string]float64) string {
		return fmt.Sprintf("its camera says that it was taken %s before the piece was finished", longTime(v["days"]))
	}, "cameras' clocks drift; if the date is right, check that the photo shows the finished piece"},
}

// longTime says a number of days as people do.
func longTime(days float64) string {
	switch {
	case days >= 2*365:
		return fmt.Sprintf("about %.0f years", days/365.25)
	case days >= 90:
		return fmt.Sprintf("about %.0f months", days/30.44)
	case days < 1.5:
		return "a day"
	}
	return fmt.Sprintf("%.0f days", days)
}

// findingOf puts a note on a photo into words.
func findingOf(file string, n note.Note) (piece.Finding, bool) {
	s, ok := sayings[n.Code]
	if !ok || n.Code == "frame.converging" && n.Values["corrected"] == 1 {
		return piece.Finding{}, false
	}
	_, name, _ := strings.Cut(n.Code, ".")
	return piece.Finding{Rank: s.rank, Code: "photo." + name, File: file, Message: s.message(n.Values), Remedy: s.remedy}, true
}

// Findings says what is to be said of the photos of a piece: of each by itself, of
// the set, and once of what many have in common.
func Findings(p *piece.Piece, shots []*Shot) []piece.Finding {
	var findings []piece.Finding
	for _, sh := range shots {
		findings = append(append(findings, sh.onFrames...), findingsOn(sh)...)
	}
	proposed, frames := bursts(shots)
	findings = append(findings, proposed...)
	return joinAlike(append(findings, findingsOnSet(p, shots, frames)...))
}

// Refused says why a photo is not published.
func Refused(sh *Shot) piece.Finding {
	return piece.Finding{Rank: piece.Fault, Code: "photo.refused", File: sh.Source.Rel, Message: sh.Err.Error(), Remedy: "the other photos are done without it"}
}

// findingsOn are the findings on one photo by itself.
func findingsOn(sh *Shot) []piece.Finding {
	if sh.Err != nil {
		return []piece.Finding{Refused(sh)}
	}
	if sh.Photo == nil {
		return nil
	}
	var findings []piece.Finding
	for _, n := range sh.Photo.Notes {
		if f, ok := findingOf(sh.Source.Rel, n); ok {
			findings = append(findings, f)
		} else if f, ok := refusedGround(sh.Source.Rel, n); ok {
			findings = append(findings, f)
		}
	}
	return append(findings, shapesMissed(sh)...)
}

// groundRefused says why a piece stays where it stands, by the "why" of the note
// ground.refused, and what would help.
var groundRefused = map[int][2]string{
	1: {"its outline is not sure", "take it before plain, light paper or cloth that runs on under the piece"},
	2: {"the piece reaches the edge of the photo", "take it again with room all around the piece"},
	3: {"the backdrop is too dark to show the shadow that would have to be kept", "take it before light paper or cloth"},
	4: {"the piece and the backdrop are too much alike along its outline, or the backdrop shows through it", "take it before a backdrop of another colour"},
	5: {"the photo has too few pixels for a clean outline", "use the camera's full size"},
	6: {"the ground asked for is much darker than the backdrop in the photo", "ask for white or a light colour, or take the photo before a dark backdrop as it is to be"},
}

func refusedGround(file string, n note.Note) (piece.Finding, bool) {
	why, ok := groundRefused[int(n.Values["why"])]
	if n.Code != "ground.refused" || !ok {
		return piece.Finding{}, false
	}
	return piece.Finding{
		Rank: piece.Doubt, Code: "photo.ground", File: file,
		Message: "the piece is not put on the plain ground asked for, and stays where it stands: " + why[0], Remedy: why[1],
	}, true
}

// shapesMissed names the pictures that are not quite of their shape, since the photo
// ends before: where nobody but the maker knows where the piece ends, and where the
// photo leaves a piece too little room.
func shapesMissed(sh *Shot) (out []piece.Finding) {
	for _, m := range shapeMisses {
		var shapes []string
		for _, n := range sh.Photo.Notes {
			if s := shapeWord(n.Values["ratio_w"], n.Values["ratio_h"]); n.Code == m.note && !slices.Contains(shapes, s) {
				shapes = append(shapes, s)
			}
		}
		if len(shapes) == 0 {
			continue
		}
		pictures := " picture " + m.one
		if len(shapes) > 1 {
			pictures = " pictures " + m.several
		}
		f := m.finding
		f.File, f.Message = sh.Source.Rel, "its "+strings.Join(shapes, " and ")+pictures+f.Message
		f.Remedy = strings.ReplaceAll(f.Remedy, "PHOTO", sh.Source.Name)
		if m.note == "frame.narrow" && !groundAsked(sh.Photo) {
			f.Remedy += ", or add `square on white` to sizes in workshop.yaml, where a shop wants just that shape"
		}
		out = append(out, f)
	}
	return out
}

// boxRemedy is what helps where it is not sure where the piece ends.
const boxRemedy = "draw a box round the piece on the overview, which shows the line to paste, such as crop_boxes: {PHOTO: [0.10, 0.15, 0.90, 0.95]} under photos; if it shows a part only, say which view it is"

// groundAsked reports whether a plain ground is asked for, which fills any shape.
func groundAsked(p *imaging.Photo) bool {
	is := func(n note.Note) bool { return n.Code == "ground.refused" || n.Code == "ground.put" }
	return slices.ContainsFunc(p.Notes, is) || slices.ContainsFunc(p.Done, is)
}

// shapeMisses are the findings on shapes that the photo does not fill, by the note
// that tells of them.
var shapeMisses = []struct {
	note, one, several string
	finding            piece.Finding
}{
	{"frame.unsure", "is", "are", piece.Finding{Rank: piece.Doubt, Code: "photo.unsure", Remedy: boxRemedy,
		Message: " only as wide or as high as the photo allows, since it is not sure where the piece ends and none of it may be lost"}},
	{"frame.beyond", "reaches", "reach", piece.Finding{Rank: piece.Doubt, Code: "photo.unsure", Remedy: boxRemedy,
		Message: " beyond the photo, on a ground of its edge's colour, since it is not sure where the piece ends and none of it may be lost"}},
	{"frame.narrow", "is", "are", piece.Finding{Rank: piece.Note, Code: "photo.narrow",
		Remedy:  "take it again from farther off",
		Message: " only as wide or as high as the photo allows, since the piece leaves no room there and nothing is painted beside it"}},
}

// findingsOnSet compares the photos of the piece with each other and with what a
// buyer looks for.
func findingsOnSet(p *piece.Piece, all []*Shot, frames map[*Shot]bool) []piece.Finding {
	var shots []*Shot
	var views []string
	for _, sh := range all {
		if sh.Photo != nil {
			shots, views = append(shots, sh), append(views, sh.Source.View)
		}
	}
	if len(shots) == 0 && slices.ContainsFunc(all, func(sh *Shot) bool { return sh.Source.Role == Publish && sh.Err == nil }) {
		return nil // they are set aside, which is said of each
	}
	if len(shots) == 0 {
		return []piece.Finding{{Rank: piece.Doubt, Code: "photo.none", Message: "no photo yet", Remedy: "put photos beside piece.yaml or in photos/; SHOTS.md says which are worth taking"}}
	}
	findings := compared(p.Finished.V.String(), shots, frames)
	if missing := missingViews(p.Kind.V, views); len(missing) > 0 {
		findings = append(findings, piece.Finding{
			Rank: piece.Note, Code: "photo.views",
			Message: "no photo shows: " + strings.Join(missing, ", "),
			Remedy:  "take them if you can; if one does, put the word into its file name or under photos: views",
		})
	}
	return findings
}

// compared are the findings that come of holding the photos against each other
// and against the day the piece was finished. frames are those of series that are
// proposed as one photo.
func compared(finished string, shots []*Shot, frames map[*Shot]bool) []piece.Finding {
	var reports []inspect.Report
	for _, sh := range shots {
		reports = append(reports, sh.Photo.Report)
	}
	var findings []piece.Finding
	for i, notes := range inspect.Compare(finished, reports) {
		for _, n := range notes {
			switch {
			case n.Code == "inspect.duplicate" && frames[shots[i]]:
				// it is one of a series, each in another light: none of them is one too many
			case n.Code == "inspect.duplicate":
				findings = append(findings, duplicate(shots, i, int(n.Values["of"])-1)...)
			case n.Code == "inspect.softer" && (hasNote(shots[i], "inspect.soft") || hasNote(shots[i], "inspect.small-print")):
				// one word on its sharpness is enough
			default:
				if f, ok := findingOf(shots[i].Source.Rel, n); ok {
					findings = append(findings, f)
				}
			}
		}
	}
	return findings
}

// duplicate says that shot i is almost the same as shot of.
func duplicate(shots []*Shot, i, of int) []piece.Finding {
	if of < 0 || of >= len(shots) {
		return nil
	}
	return []piece.Finding{{
		Rank: piece.Note, Code: "photo.duplicate", File: shots[i].Source.Rel,
		Message: "almost the same photo as " + shots[of].Source.Rel, Remedy: "keep the better one; photos: leave_out takes the other out",
	}}
}

func hasNote(sh *Shot, code string) bool {
	return slices.ContainsFunc(sh.Photo.Notes, func(n note.Note) bool { return n.Code == code })
}

// together are the findings that are said once where three photos or more have
// them: how, with the number of photos.
var together = map[string]string{
	"photo.white-unsure":    "in %d of the photos nothing is surely neutral, so their colours are left as the camera saw them",
	"photo.before-finished": "%d of the photos were taken before the piece was finished, says the camera",
	"photo.small-print":     "%d of the photos have too few pixels to print well",
	"photo.small-zoom":      "%d of the photos have enough pixels for the sheet, but too few for a buyer to zoom in",
	"photo.unsure":          "of %d photos the square or tall pictures are not of just that shape, since it is not sure where the piece ends",
	"photo.narrow":          "of %d photos the square or tall pictures are only as wide or as high as the photo allows, since the piece leaves no room there",
	"photo.ground":          "%d of the photos cannot be put on the plain ground asked for, and stay where they stand",
	"photo.cut":             "in %d of the photos the piece touches the edge",
}

// joinAlike joins the findings that three photos or more have in common. The first finding of a kind
// gives the place and the remedy.
func joinAlike(findings []piece.Finding) []piece.Finding {
	count := map[string]int{}
	names := map[string][]string{}
	for _, f := range findings {
		count[f.Code]++
		names[f.Code] = append(names[f.Code], f.File)
	}
	var out []piece.Finding
	for _, f := range findings {
		text, ok := together[f.Code]
		n := count[f.Code]
		if !ok || n != 0 && n < 3 {
			out = append(out, f)
			continue
		}
		if n == 0 {
			continue // said already
		}
		list := names[f.Code]
		more := ""
		if len(list) > 6 {
			more = fmt.Sprintf(" and %d more", len(list)-6)
			list = list[:6]
		}
		f.File, f.Message = "", fmt.Sprintf(text, n)+": "+strings.Join(list, ", ")+more
		out = append(out, f)
		count[f.Code] = 0
	}
	return out
}
