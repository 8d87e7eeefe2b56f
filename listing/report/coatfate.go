package report

import (
	"regexp"
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
	case noCoatHere().MatchString(sentence[:at]) && !saidIn(coatGone(), sentence[at:]) && !saidIn(coatPart(), sentence) && !contrast(sentence[at:]):
		return coatAway
	case holdsNoLead(sentence, true) || holdsNoLead(next, false) && oldCoatIn(next) == "":
		return coatAway
	case !saidIn(coatGone(), about):
		if goes(next, false) && !stays && !unsure(next) {
			return coatAway
		}
	case unsure(about):
		return coatKept
	case partGoes(about):
		return coatKept
	case !stays && goes(about, true):
		return coatAway
	}
	if stays {
		return coatKept
	}
	return coatUnsaid
}

func saidIn(words *regexp.Regexp, text string) bool { return words.MatchString(text) }

// unsure reports whether a sentence denies or doubts something, or speaks of a part.
func unsure(sentence string) bool {
	return saidIn(denied(), sentence) || saidIn(doubtful(), sentence) || saidIn(coatPart(), sentence) || strings.Contains(sentence, "?")
}

// contrast reports whether a clause behind the first has a place of its own, as in "No
// old paint on the top, on the edge there is".
func contrast(sentence string) bool {
	parts := clauseEnds().Split(sentence, 2)
	return len(parts) == 2 && (saidIn(places(), parts[1]) || saidIn(coatStays(), parts[1]))
}

// goes reports whether a sentence says that the coat is gone, and from everywhere: in a
// clause that names the coat, if this sentence does, or in one that names nothing else.
func goes(sentence string, names bool) bool {
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
		if what := oldCoatIn(clause); names && what != "" {
			sure = sure || besideCoat(before, after, what)
			continue
		}
		sure = sure || onlyFillers(before)
	}
	return sure
}

// partGoes reports whether a sentence says from where something is gone, and not that
// it is gone from everywhere: from nowhere else, for all that is known.
func partGoes(sentence string) bool {
	for _, clause := range clauseEnds().Split(sentence, -1) {
		if m := coatGone().FindStringSubmatchIndex(clause); m != nil && saidIn(places(), clause[m[3]:]) && !saidIn(everywhere(), clause[m[3]:]) {
			return true
		}
	}
	return false
}

// besideCoat reports whether what is said to be gone is the coat: nothing else stands
// between the two.
func besideCoat(before, after, what string) bool {
	if _, between, ok := strings.Cut(before, what); ok {
		return !saidIn(otherThing(), between) && !saidIn(otherThing(), after)
	}
	between, _, _ := strings.Cut(after, what)
	return len(strings.Fields(between)) <= 4 && !saidIn(otherThing(), between)
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
	if m == nil || !names && !saidIn(leadTest(), sentence) {
		return false
	}
	rest := sentence[:m[2]] + " ; " + sentence[m[3]:]
	if unsure(notGone().ReplaceAllString(rest, " ")) || otherCoat().MatchString(sentence[m[3]:]) {
		return false
	}
	for _, clause := range clauseEnds().Split(sentence, -1) {
		if saidIn(noLead(), clause) && saidIn(ownCoat(), clause) {
			return false
		}
	}
	return true
}

var (
	leadTest = whole(`tests?|tested|swabs?|laborator(?:y|ies)|lab|analysed|analyzed|analysis|getestet|geprüft|test|labor|prüfung|untersucht|testée?s?|analysée?s?|laboratoire|analizad[oa]s?|laboratorio|getest|onderzocht|laboratorium`)
	notGone  = whole(`(?:not|never|nicht|nie|pas|jamais|no|nunca|niet|nooit)\s+(?:removed|stripped|sanded|touched|entfernt|abgeschliffen|enlevée?s?|poncée?s?|eliminad[oa]s?|verwijderd|geschuurd)`)
)
