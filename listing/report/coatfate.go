package report

import (
	"strings"
)

// What a sentence tells of an old coat.
type coatFate int

const (
	coatUnsaid coatFate = iota // it is named, and no more
	coatKept                   // all of it or a part is there
	coatAway                   // all of it is gone, or it holds no lead, or there is none
)

// oldCoatIn returns the words of an old coat in a sentence, or "". A tin of old paint is
// none.
func oldCoatIn(sentence string) string {
	from := 0
	for {
		m := oldCoatSaid().FindStringSubmatchIndex(sentence[from:])
		if m == nil {
			return ""
		}
		start, end := from+m[2], from+m[3]
		if !coatInTin().MatchString(sentence[end:]) && !tinOfCoat().MatchString(sentence[:start]) {
			return sentence[start:end]
		}
		from = end
	}
}

// fateOfCoat tells what a sentence says of the old coat in it; next is the sentence
// behind it, which may say what became of it: "Sanded off." Whatever denies or doubts
// that it is gone, and whatever speaks of a part, leaves it there.
func fateOfCoat(sentence, next string) coatFate {
	at := strings.Index(sentence, oldCoatIn(sentence))
	about := nothingOf().ReplaceAllString(sentence, " ; ")
	stays := coatStays().MatchString(about)
	switch {
	case noCoatHere().MatchString(sentence[:at]) && !coatGone().MatchString(sentence[at:]) && !coatPart().MatchString(sentence) && !contrast(sentence[at:]):
		return coatAway
	case holdsNoLead(sentence, true) || holdsNoLead(next, false) && oldCoatIn(next) == "":
		return coatAway
	case !coatGone().MatchString(about):
		if oldCoatIn(next) == "" && goes(next, oldCoatIn(sentence)) && !stays && !unsure(next) {
			return coatAway
		}
	case unsure(about):
		return coatKept
	case partGoes(about):
		return coatKept
	case !stays && goes(about, oldCoatIn(sentence)):
		return coatAway
	}
	if stays {
		return coatKept
	}
	return coatUnsaid
}

// perCoat parts a sentence that tells of several old coats, so that what is said of one
// is said of no other: "Old paint on the back; old varnish removed".
func perCoat(sentence string) []string {
	var out []string
	from, named := 0, false
	ends := append(clauseEnds().FindAllStringIndex(sentence, -1), []int{len(sentence), len(sentence)})
	at := 0
	for _, end := range ends {
		if oldCoatIn(sentence[at:end[0]]) != "" {
			if named {
				out = append(out, sentence[from:at])
				from = at
			}
			named = true
		}
		at = end[1]
	}
	return append(out, sentence[from:])
}

// unsure reports whether a sentence denies or doubts something, or speaks of a part.
func unsure(sentence string) bool {
	return denied().MatchString(sentence) || doubtful().MatchString(sentence) || coatPart().MatchString(sentence) || strings.Contains(sentence, "?")
}

// contrast reports whether a clause behind the first has a place of its own, as in "No
// old paint on the top, on the edge there is".
func contrast(sentence string) bool {
	parts := clauseEnds().Split(sentence, 2)
	return len(parts) == 2 && (places().MatchString(parts[1]) || coatStays().MatchString(parts[1]))
}

// goes reports whether a sentence says that a coat is gone, and from everywhere: in a
// clause that names it, or in one that names nothing else.
func goes(sentence, coat string) bool {
	sure := false
	for _, clause := range clauseEnds().Split(sentence, -1) {
		m := coatGone().FindStringSubmatchIndex(clause)
		if m == nil {
			continue
		}
		before, after := clause[:m[2]], clause[m[3]:]
		if partGoes(clause) {
			return false
		}
		if what := oldCoatIn(clause); what != "" {
			sure = sure || besideCoat(before, after, what)
			continue
		}
		sure = sure || onlyFillers(before) && !ofAnotherCoat(clause, coat)
	}
	return sure
}

// partGoes reports whether a sentence says from where something is gone, and not that
// it is gone from everywhere: from nowhere else, for all that is known.
func partGoes(sentence string) bool {
	for _, clause := range clauseEnds().Split(sentence, -1) {
		if m := coatGone().FindStringSubmatchIndex(clause); m != nil && places().MatchString(clause[m[3]:]) && !everywhere().MatchString(clause[m[3]:]) {
			return true
		}
	}
	return false
}

// ofAnotherCoat reports whether a clause names paint where the old coat is varnish.
func ofAnotherCoat(clause, coat string) bool {
	noun := coatNoun().FindStringSubmatch(clause)
	return noun != nil && !strings.Contains(strings.ToLower(coat), strings.ToLower(noun[1]))
}

// besideCoat reports whether what is said to be gone is the coat: nothing else stands
// between the two.
func besideCoat(before, after, what string) bool {
	if _, between, ok := strings.Cut(before, what); ok {
		return !otherThing().MatchString(between) && !otherThing().MatchString(after)
	}
	between, _, _ := strings.Cut(after, what)
	return len(strings.Fields(between)) <= 4 && !otherThing().MatchString(between)
}

func onlyFillers(text string) bool {
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" \t\n'’.!-", r) }) {
		if !fillers().MatchString(word) {
			return false
		}
	}
	return true
}

// holdsNoLead reports whether a sentence says that the old coat was found free of lead.
// That another finish is, as the maker's oil, says nothing of it. A sentence that does
// not name the coat counts where it names a test.
func holdsNoLead(sentence string, names bool) bool {
	m := noLead().FindStringSubmatchIndex(sentence)
	if m == nil || !names && !leadTest().MatchString(sentence) {
		return false
	}
	rest := sentence[:m[2]] + " ; " + sentence[m[3]:]
	if unsure(notGone().ReplaceAllString(rest, " ")) || otherCoat().MatchString(sentence[m[3]:]) {
		return false
	}
	for _, clause := range clauseEnds().Split(sentence, -1) {
		if !noLead().MatchString(clause) {
			continue
		}
		if ownCoat().MatchString(clause) || names && ofAnotherCoat(clause, oldCoatIn(sentence)) {
			return false
		}
	}
	return true
}

var (
	leadTest = whole(`tests?|tested|swabs?|laborator(?:y|ies)|lab|analysed|analyzed|analysis|getestet|geprüft|test|labor|prüfung|untersucht|testée?s?|analysée?s?|laboratoire|analizad[oa]s?|laboratorio|getest|onderzocht|laboratorium`)
	notGone  = whole(`(?:not|never|nicht|nie|pas|jamais|no|nunca|niet|nooit)\s+(?:removed|stripped|sanded|touched|entfernt|abgeschliffen|enlevée?s?|poncée?s?|eliminad[oa]s?|verwijderd|geschuurd)`)
)
