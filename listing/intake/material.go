package intake

import (
	"fmt"
	"regexp"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
	"slabfolio/listing/wood"
)

var (
	partsOfWood = regexp.MustCompile(`(?i)\s*(?:[,;+&]|\band\b|\bwith\b)\s*`)
	resinWord   = regexp.MustCompile(`(?i)\b(?:casting )?(?:resin|epoxy)s?\b`)
	shareFirst  = regexp.MustCompile(`^(\d+(?:\.\d+)?\s*%)\s*(?:of\s+)?(.+)$`)
	shareLast   = regexp.MustCompile(`^(.+?)[ :]*(\d+(?:\.\d+)?\s*%)$`)
	slabWord    = regexp.MustCompile(`(?i)\s*\b(?:live[- ]edge|slabs?|boards?|top|wood)\b`)
)

// woods takes one wood or several, and the resin where it is named with them.
func woods(iv *Interview, text string) said {
	var list []*piece.Written
	var withResin []string
	for _, part := range partsOfWood.Split(text, -1) {
		switch part = strings.TrimSpace(part); {
		case part == "":
		case resinWord.MatchString(part), len(withResin) > 0 && strings.ContainsAny(part, "0123456789"): // its amount
			withResin = append(withResin, part)
		default:
			w, problem := iv.oneWood(part, text)
			if problem != nil {
				return said{problem: problem}
			}
			list = append(list, w)
		}
	}
	if len(list) == 0 {
		return refused("name the wood, such as black walnut; the resin has a question of its own", "%q names no wood", text)
	}
	v := list[0]
	if len(list) > 1 {
		v = &piece.Written{Items: list}
	}
	s := iv.put(map[string]*piece.Written{"top.wood": v})
	if s.problem == nil && len(withResin) > 0 {
		if r := resin(iv, strings.Join(withResin, " ")); r.problem == nil || r.more {
			iv.resinSaid = r.more // so that its question asks for what is not said yet
			s.notes = append(s.notes, fmt.Sprintf("%q is taken for the resin", strings.Join(withResin, " ")))
		}
	}
	return s
}

// oneWood reads one wood, with its share where it has one. An unknown wood is asked
// back once; said again, it stands as it is.
func (iv *Interview) oneWood(part, whole string) (*piece.Written, *piece.SetError) {
	share := ""
	if m := shareFirst.FindStringSubmatch(part); m != nil {
		share, part = m[1], m[2]
	} else if m := shareLast.FindStringSubmatch(part); m != nil {
		part, share = m[1], m[2]
	}
	if bare := strings.TrimSpace(slabWord.ReplaceAllString(part, "")); bare != "" {
		part = bare
	}
	_, err := iv.Woods.Lookup(part)
	if err != nil && strings.ContainsAny(part, "0123456789%") {
		return nil, &piece.SetError{Message: fmt.Sprintf("%q is no wood", part), Remedy: "name it, such as black walnut; \"back\" goes back to the sizes"}
	}
	if err != nil && iv.insisted != whole {
		iv.insisted = whole
		f := wood.UnknownFinding(err, piece.Place{})
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
var none = regexp.MustCompile(`(?i)^(?:no|none|nothing|without|no resin|no base|0|nil)$`)

// amountOfResin is an amount within an answer, with the words that makers put
// before a figure.
var amountOfResin = regexp.MustCompile(`(?i)(\bmixed\s+)?((?:\b(?:about|around|approximately|roughly|circa|ca\.?)\s*|[~≈]\s*)?\b\d[\d.,/ ½¼¾-]*\s*(?:%|percent\b|per cent\b|fl oz\b|[a-z]+\b|$)?)(\s*mixed\b)?`)

// resin takes colour and amount. A colour without an amount is kept, and the amount
// asked for once.
func resin(iv *Interview, text string) said {
	if none.MatchString(text) {
		return iv.put(map[string]*piece.Written{"top.resin": nil})
	}
	values := map[string]*piece.Written{}
	if !iv.pending && !iv.resinSaid {
		values["top.resin"] = nil
	}
	text = onlyResin(text)
	colour := text
	if at := amountOfResin.FindStringSubmatchIndex(text); at != nil {
		m := amountOfResin.FindStringSubmatch(text)
		amount := strings.NewReplacer("percent", "%", "per cent", "%").Replace(strings.TrimSpace(m[2]))
		path, problem := whatAmount(amount, m[1] != "" || m[3] != "", text)
		if problem != nil {
			return said{problem: problem}
		}
		values[path] = piece.Plain(amount)
		colour = text[:at[0]] + text[at[1]:]
	}
	colour = tidy(resinWord.ReplaceAllString(colour, ""))
	if share := fractionIn(colour); share != "" && len(values) < 2 {
		return refused("write "+share+" if that is its share of the face", "%q is not a figure", colour)
	}
	if colour != "" && iv.pending && iv.text("top.resin.colour") != "" && len(values) == 0 {
		return said{more: true, problem: howMuch(fmt.Sprintf("%q does not say how much", colour))}
	}
	if colour != "" {
		values["top.resin.colour"] = piece.Plain(colour)
	}
	known := iv.Known.Find("top.resin")
	if known == nil && len(values) == 1 && values["top.resin"] == nil { // "resin" alone
		return said{more: true, problem: howMuch("how much resin there is is not said")}
	}
	s := iv.put(values)
	r := iv.Known.Find("top.resin")
	if s.problem == nil && r.Key("area") == nil && r.Key("mixed") == nil && r.Key("volume") == nil {
		s.more, s.problem = true, howMuch(fmt.Sprintf("%q: noted; how much of it is not said, so no weight can count it", textAt(r, "colour")))
	}
	return s
}

// onlyResin leaves out what is said of the wood beside the resin: of "walnut and blue
// resin, 18 %" the walnut.
func onlyResin(text string) string {
	parts := partsOfWood.Split(text, -1)
	var kept []string
	named := false
	for _, p := range parts {
		named = named || resinWord.MatchString(p)
		if resinWord.MatchString(p) || amountOfResin.MatchString(p) {
			kept = append(kept, p)
		}
	}
	if !named || len(parts) == len(kept) {
		return text
	}
	return strings.Join(kept, ", ")
}

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
	text = strings.Trim(strings.Join(strings.Fields(text), " "), " ,;:-")
	for _, w := range []string{"of the face", "of the top", "of", "with", "and", "about"} {
		text = strings.Trim(strings.TrimSuffix(strings.TrimPrefix(text+" ", w+" "), " "), " ,;:")
		text = strings.Trim(strings.TrimSuffix(" "+text, " "+w), " ,;:")
	}
	return strings.Join(strings.Fields(text), " ")
}
