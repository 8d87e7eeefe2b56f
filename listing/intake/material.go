package intake

import (
	"errors"
	"fmt"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
	"slabfolio/listing/wood"
)

var (
	partsOfWood = spelling.Pattern(`(?i)\s*(?:[,;+&]|\band\b|\bwith\b)\s*`)
	resinWord   = spelling.Pattern(`(?i)\b(?:casting )?(?:resin|epoxy)s?\b`)
	shareFirst  = spelling.Pattern(`^(\d+(?:\.\d+)?\s*%)\s*(?:of\s+)?(.+)$`)
	shareLast   = spelling.Pattern(`^(.+?)[ :]*(\d+(?:\.\d+)?\s*%)$`)
	slabWord    = spelling.Pattern(`(?i)\s*\b(?:live[- ]edge|slabs?|boards?|top|wood)\b`)
)

// woods takes one wood or several, and the resin where it is named with them. The
// resin is kept where the wood is asked back.
func woods(iv *Interview, text string) said {
	var list []*piece.Written
	var halved []string
	if m := halves().FindStringSubmatch(text); m != nil {
		text = "50 % " + m[1] + ", 50 % " + m[2]
		halved = []string{"read as " + text}
	}
	withWood, withResin := partsOf(text)
	withWood = iv.turnedRound(withWood)
	var problem *piece.SetError
	for _, part := range withWood {
		w, wrong := iv.oneWood(part, strings.Join(withWood, ", "))
		if problem = wrong; wrong != nil {
			break
		}
		list = append(list, w)
	}
	s := said{problem: problem, kept: true}
	switch {
	case problem != nil:
	case len(list) == 0:
		s = refused("name the wood, such as black walnut", "%q names no wood", text)
		s.kept = true
	case len(list) == 1:
		s = iv.put(map[string]*piece.Written{"top.wood": list[0]})
	default:
		s = iv.put(map[string]*piece.Written{"top.wood": {Items: list}})
	}
	if s.problem == nil {
		s.notes = append(halved, s.notes...)
	}
	if len(withResin) > 0 && (s.problem == nil || s.kept) {
		if r := resin(iv, strings.Join(withResin, " ")); r.problem == nil || r.more {
			iv.resinSaid = r.more // so that its question asks for what is not said yet
			s.notes = append(s.notes, fmt.Sprintf("%q is taken for the resin", strings.Join(withResin, " ")))
		}
	}
	return s
}

// turnedRound joins the two parts of one wood that is named as timber lists have it:
// walnut, American. Two names that are both woods stay two.
func (iv *Interview) turnedRound(parts []string) []string {
	if len(parts) != 2 {
		return parts
	}
	round := parts[1] + " " + parts[0]
	if _, err := iv.Woods.Lookup(parts[1]); err == nil {
		return parts
	}
	if _, err := iv.Woods.Lookup(round); err != nil {
		return parts
	}
	return []string{round}
}

// partsOf parts what is said of wood from what is said of resin.
func partsOf(text string) (withWood, withResin []string) {
	for _, part := range partsOfWood().Split(text, -1) {
		switch part = strings.TrimSpace(part); {
		case part == "":
		case resinWord().MatchString(part), len(withResin) > 0 && strings.ContainsAny(part, "0123456789"): // its amount
			withResin = append(withResin, part)
		default:
			withWood = append(withWood, part)
		}
	}
	return withWood, withResin
}

// oneWood reads one wood, with its share where it has one. An unknown wood is asked
// back once; said again, it stands as it is.
func (iv *Interview) oneWood(part, whole string) (*piece.Written, *piece.SetError) {
	share := ""
	if m := shareFirst().FindStringSubmatch(part); m != nil {
		share, part = m[1], m[2]
	} else if m := shareLast().FindStringSubmatch(part); m != nil {
		part, share = m[1], m[2]
	}
	if bare := strings.TrimSpace(slabWord().ReplaceAllString(part, "")); bare != "" {
		part = bare
	}
	found, err := iv.Woods.Lookup(part)
	if found.ReadFrom != "" {
		part = found.ID // a name in another language, said as the spec has it
	}
	if err != nil && strings.ContainsAny(part, "0123456789%") {
		return nil, &piece.SetError{Message: fmt.Sprintf("%q is no wood", part), Remedy: "name it, such as black walnut; \"back\" goes back to the sizes"}
	}
	if err != nil && iv.insisted != whole {
		iv.insisted = whole
		f, _ := iv.Woods.Unknown(err, piece.Place{}) // Lookup has no other error
		return nil, &piece.SetError{Message: f.Message, Remedy: f.Remedy + "; or say it again to keep it as it is"}
	}
	w := &piece.Written{}
	w.Put("species", piece.Plain(part))
	if share != "" {
		w.Put("share", piece.Plain(share))
	}
	return w, nil
}

// earlierWood proposes the woods of the earlier piece.
func earlierWood(iv *Interview) string {
	if iv.Earlier == nil {
		return ""
	}
	v := iv.Earlier.Find("top.wood")
	if v != nil && len(v.Items) == 1 {
		v = v.Items[0]
	}
	if v == nil || v.Key("species") == nil {
		return ""
	}
	return v.Key("species").Text
}

// none are answers that say there is nothing of the kind.
var none = spelling.Pattern(`(?i)^(?:no|none|nothing|without|no resin|no base|0|nil)$`)

// amountOfResin is an amount within an answer, with the words that makers put
// before a figure.
var amountOfResin = spelling.Pattern(`(?i)(\bmixed\s+)?((?:\b(?:about|around|approximately|roughly|circa|ca\.?)\s*|[~≈]\s*)?\b\d[\d.,/ ½¼¾-]*\s*(?:%|percent\b|per cent\b|fl oz\b|[a-z]+\b|$)?)(\s*mixed\b)?`)

// roughly are words before a figure that say that it is not measured.
var roughly = spelling.Pattern(`(?i)^(?:about|around|approximately|roughly|circa|ca\.?|[~≈])\s*`)

// yesFirst is the yes before an answer to a question that yes answers by half.
var yesFirst = spelling.Pattern(`(?i)^(?:yes|yeah|yep|ja|oui|sí|si)[ ,;:.–—-]+`)

// resin takes colour and amount. A colour without an amount that is understood is
// kept, and the amount asked for.
func resin(iv *Interview, text string) said {
	if none().MatchString(text) {
		return iv.put(map[string]*piece.Written{"top.resin": nil})
	}
	like := piece.ReadsLike(text)
	if strings.ContainsAny(text, "€£$¥") {
		like = "money"
	}
	if like == "money" || like == "a date" {
		return refused("give its colour and its share of the face, such as smoke grey, 18 %; what it cost belongs in costs", "%q reads like %s, and not like a colour", text, like)
	}
	if rest := yesFirst().ReplaceAllString(text, ""); rest != "" {
		text = rest
	}
	text, pointed := iv.points(iv.onlyResin(text), false)
	colour, path, amount, problem := readResin(text)
	if tree := iv.botanical(colour); tree != "" {
		return refused("give the colour of the resin and its share of the face, such as smoke grey, 18 %; or say none", "%q is a tree (%s), and this asks about the resin", colour, tree)
	}
	if problem != nil && !strings.ContainsAny(colour, "0123456789%") {
		return iv.colourAlone(colour, problem)
	}
	if problem != nil {
		return said{problem: problem}
	}
	if colour != "" && iv.pending && iv.text("top.resin.colour") != "" && path == "" {
		return said{more: true, problem: howMuch(fmt.Sprintf("%q does not say how much", colour))}
	}
	values := iv.resinAnew()
	notes := pointed
	if bare := roughly().ReplaceAllString(amount, ""); path != "" {
		if bare != amount {
			notes = append(notes, fmt.Sprintf("%q is read as %s; the sums keep a doubt of their own", amount, bare))
		}
		values[path] = piece.Plain(bare)
	}
	if colour != "" {
		values["top.resin.colour"] = piece.Plain(colour)
	}
	if path == "" && colour == "" && iv.Known.Find("top.resin") == nil { // "resin" alone
		return said{more: true, problem: howMuch("how much resin there is is not said")}
	}
	s := iv.put(values)
	if s.problem != nil {
		return iv.colourAlone(colour, s.problem)
	}
	s.notes = notes
	r := iv.Known.Find("top.resin")
	if r.Key("area") == nil && r.Key("mixed") == nil && r.Key("volume") == nil {
		s.more, s.problem = true, howMuch(fmt.Sprintf("%q: noted; how much of it is not said, so no weight can count it", textAt(r, "colour")))
	}
	return s
}

// resinAnew begins the values of an answer: in the place of what stands there,
// unless that is the first half of it.
func (iv *Interview) resinAnew() map[string]*piece.Written {
	if iv.pending || iv.resinSaid {
		return map[string]*piece.Written{}
	}
	return map[string]*piece.Written{"top.resin": nil}
}

// colourAlone keeps the colour of an answer whose amount was not understood.
func (iv *Interview) colourAlone(colour string, problem *piece.SetError) said {
	if colour == "" {
		return said{problem: problem}
	}
	values := iv.resinAnew()
	values["top.resin.colour"] = piece.Plain(colour)
	s := iv.put(values)
	if s.problem != nil {
		return said{problem: problem}
	}
	return said{more: true, problem: problem, notes: []string{fmt.Sprintf("%q is noted for its colour", colour)}}
}

// readResin parts an answer into colour and amount; path is the key of the amount,
// "" where none is said. The problem is what stands against the amount.
func readResin(text string) (colour, path, amount string, problem *piece.SetError) {
	colour = text
	if at := amountIn(text); at != nil {
		amount = strings.NewReplacer("percent", "%", "per cent", "%").Replace(strings.TrimSpace(text[at[4]:at[5]]))
		path, problem = whatAmount(amount, at[2] >= 0 || at[6] >= 0, text)
		colour = text[:at[0]] + " " + text[at[1]:]
		if isRange(text) {
			problem = &piece.SetError{Message: fmt.Sprintf("%q says from where to where, not how much", text), Remedy: "give the share of the face that is nearest, such as 18 %"}
		}
		if problem != nil {
			colour = amountOfResin().ReplaceAllString(sizeOfResin().ReplaceAllString(text, " "), " ")
		}
	} else if share := fractionIn(text); share != "" {
		problem = &piece.SetError{Message: fmt.Sprintf("%q is not a figure", text), Remedy: "write " + share + " if that is its share of the face"}
		colour = fractionSaid().ReplaceAllString(text, " ")
	}
	colour = tidy(resinWord().ReplaceAllString(colour, ""))
	if bare := whereItIs().ReplaceAllString(colour, ""); problem != nil && bare != "" {
		colour = bare
	}
	return colour, path, amount, problem
}

// amountIn finds the amount in an answer, as the places of its parts: the one share
// where there is one, else what comes first; nil where there is none.
func amountIn(text string) []int {
	all := amountOfResin().FindAllStringSubmatchIndex(text, -1)
	if all == nil {
		return nil
	}
	var shares [][]int
	for _, at := range all {
		if m := text[at[4]:at[5]]; strings.Contains(m, "%") || strings.Contains(m, "cent") {
			shares = append(shares, at)
		}
	}
	if len(shares) == 1 {
		return shares[0]
	}
	return all[0]
}

// fractionSaid is a share of the face in words.
var fractionSaid = spelling.Pattern(`(?i)\b(?:(?:about|around|roughly|an?|one) )*(?:three quarters|two thirds|half|third|quarter|fifth|sixth|eighth|tenth)\b(?: (?:of )?(?:the|its) (?:face|top))?`)

// onlyResin leaves out what is said of the wood beside the resin: of "walnut and blue
// resin, 18 %" the walnut.
func (iv *Interview) onlyResin(text string) string {
	parts := partsOfWood().Split(text, -1)
	var kept []string
	for _, p := range parts {
		if resinWord().MatchString(p) || amountOfResin().MatchString(p) || !iv.isWood(p) {
			kept = append(kept, p)
		}
	}
	if !resinWord().MatchString(text) || len(parts) == len(kept) {
		return text
	}
	return strings.Join(kept, ", ")
}

// botanical is the wood that a text names by its botanical name, or one of its genus; ""
// where it does not. A common name may be a colour too: walnut, cherry, ebony.
func (iv *Interview) botanical(text string) string {
	first, more, _ := strings.Cut(spelling.Plain(text), " ")
	if more == "" {
		return ""
	}
	s, err := iv.Woods.Lookup(text)
	var unknown *wood.UnknownError
	if errors.As(err, &unknown) && len(unknown.Kin) > 0 {
		s, err = iv.Woods.Lookup(unknown.Kin[0])
	}
	genus, _, _ := strings.Cut(spelling.Plain(s.Botanical), " ")
	if err != nil || genus != first {
		return ""
	}
	return s.Name
}

// isWood reports whether a text names a wood, one of several, or one that is near.
func (iv *Interview) isWood(text string) bool {
	_, err := iv.Woods.Lookup(strings.TrimSpace(text))
	var unknown *wood.UnknownError
	return !errors.As(err, &unknown) || len(unknown.Kin) > 0
}

var (
	// sizeOfResin is how long or wide the resin is, which is no colour.
	sizeOfResin = spelling.Pattern(`(?i)\b\d[\d./ ½¼¾-]*\s*(?:inches|inch|ins?|"|feet|foot|ft|cm|mm|m)\.?(?:\s+(?:long|wide|deep|thick|across|lang|breit|tief|dick|breed|diep|dik|de long|de large|de largo|de ancho)\b)?`)
	// whereItIs says of which part of the top a colour is.
	whereItIs = spelling.Pattern(`(?i)[ ,]+(?:at (?:the|one|each) )?(?:ends?|edges?|corners?)$`)
	// halves are two woods of which each is half.
	halves = spelling.Pattern(`(?i)^half (?:of )?(.+?),? (?:and )?half (?:of )?(.+)$`)
)

// fractions are shares as people say them.
var fractions = []struct{ word, share string }{
	{"three quarters", "75 %"}, {"two thirds", "67 %"}, {"half", "50 %"}, {"third", "33 %"}, {"quarter", "25 %"}, {"fifth", "20 %"}, {"sixth", "17 %"}, {"eighth", "12.5 %"}, {"tenth", "10 %"},
}

// fractionIn returns the share that a text names in words, or "".
func fractionIn(text string) string {
	said := " " + spelling.Plain(text) + " "
	for _, f := range fractions {
		if strings.Contains(said, " "+f.word+" ") {
			return f.share
		}
	}
	return ""
}

// whatAmount tells a share of the face from what was mixed.
func whatAmount(amount string, mixed bool, whole string) (path string, problem *piece.SetError) {
	if strings.Contains(amount, "%") {
		return "top.resin.area", nil
	}
	_, noVolume := units.ParseVolume(amount)
	_, noMass := units.ParseMass(amount)
	share, noShare := units.ParsePercent(amount + " %")
	switch {
	case (noVolume == nil || noMass == nil) && mixed:
		return "top.resin.mixed", nil
	case noVolume == nil || noMass == nil:
		return "", &piece.SetError{Message: fmt.Sprintf("%q does not say whether that went into the piece or into the pot", whole),
			Remedy: fmt.Sprintf("say \"mixed %s\" if that is what was mixed; else its share of the face, such as 18 %%", amount)}
	case noShare == nil && share > 0 && share <= 100:
		return "", &piece.SetError{Message: fmt.Sprintf("%q does not say of what", amount),
			Remedy: fmt.Sprintf("write %s %% if that is its share of the face; or what was mixed, such as mixed 5.6 l", amount)}
	}
	return "", &piece.SetError{Message: fmt.Sprintf("%q does not say how much", whole), Remedy: "give its share of the face, such as 18 %, or what was mixed, such as mixed 5.6 l"}
}

func howMuch(message string) *piece.SetError {
	return &piece.SetError{Message: message, Remedy: "give its share of the face, such as 18 %, or what was mixed, such as mixed 5.6 l; Enter leaves it open"}
}

// tidy takes away what is left at the ends of a text when a part is cut out of it.
func tidy(text string) string {
	text = strings.Trim(spelling.OneLine(text), " ,;:-")
	for _, w := range []string{"of the face", "of the top", "of", "with", "and", "about"} {
		text = strings.Trim(strings.TrimSuffix(strings.TrimPrefix(text+" ", w+" "), " "), " ,;:")
		text = strings.Trim(strings.TrimSuffix(" "+text, " "+w), " ,;:")
	}
	return strings.ReplaceAll(spelling.OneLine(text), " ,", ",")
}
