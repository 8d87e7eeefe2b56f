package intake

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

var (
	// eachLast and eachFirst are a weight that one of several has.
	eachLast  = spelling.Pattern(`(?i)[ ,]*(\d+(?:\.\d+)?) ?(kg|lbs?|pounds?) ?(?:each|apiece|per leg|per piece|a piece|pro stück|pro bein|das stück|je stück|je|chacune?|pièce|cada una|cada uno|elk|per stuk|per poot)(?:$|[ ,.])`)
	eachFirst = spelling.Pattern(`(?i)(?:^|[ ,]+)(?:each|je|jeweils|à|cada una|cada uno|elk) (\d+(?:\.\d+)?) ?(kg|lbs?|pounds?)(?:$|[ ,.])`)
	// several is how many of them there are, first of all that is said.
	several = spelling.Pattern(`(?i)^(\d{1,2}|\p{L}+)(?: ?[x×])? `)
)

// ofEach takes the weight that each of several legs or frames has out of what is said
// of a base: all of them weigh so many times as much. Without a number nothing is
// counted, and the notes ask for the weight of all.
func ofEach(text string, values map[string]*piece.Written) (rest string, notes []string) {
	m, pattern := eachLast().FindStringSubmatch(text), eachLast
	if m == nil {
		m, pattern = eachFirst().FindStringSubmatch(text), eachFirst
	}
	if m == nil {
		return text, nil
	}
	each := m[1] + " " + m[2]
	n := 0
	if count := several().FindStringSubmatch(text); count != nil {
		n = spelling.Number(count[1])
	}
	if n < 2 {
		return text, []string{fmt.Sprintf("%s each: of how many is not said, so no weight is noted; to give one, type back, and put the weight of all last: …, 11 kg", each)}
	}
	one, err := strconv.ParseFloat(m[1], 64)
	if _, noMass := units.ParseMass(each); err != nil || noMass != nil {
		return text, nil
	}
	all := strconv.FormatFloat(math.Round(float64(n)*one*1000)/1000, 'f', -1, 64) + " " + m[2]
	values["base.weight"] = piece.Plain(all)
	rest = strings.Trim(pattern().ReplaceAllString(text, ", "), " ,")
	return rest, []string{fmt.Sprintf("weight of the base: %d × %s = %s", n, each, all)}
}
