package report

import (
	"cmp"
	"slices"
	"strings"

	"slabfolio/listing/piece"
)

// An Urgency says how soon a maker should see to a finding; the least comes first.
type Urgency int

// The urgencies. A pixel too few is never before money lost, nor money before what
// can hurt somebody.
const (
	Harm     Urgency = iota // somebody may get hurt
	Money                   // money is lost, or the law stands in the way of a sale
	Broken                  // a fault: something could not be made
	Doubtful                // a doubt about the piece or its papers
	Picture                 // a doubt about a photo
	Known                   // worth knowing
)

// urgencies are the codes that are more urgent than their rank, by how they begin,
// the most urgent first. Notes are among them where noted says so.
var urgencies = []struct {
	code  string
	u     Urgency
	noted bool
}{
	{"stability.", Harm, false}, {"glass.", Harm, false}, {"electric.", Harm, false}, {"packing.heavy-", Harm, false},
	{"price.below-cost", Money, true}, {"price.", Money, false}, {"availability.", Money, false}, {"wood.listed", Money, false},
	{"sale.", Money, false}, {"packing.lighter", Money, false}, {"packing.before-cure", Money, false}, {"costs.", Money, false},
}

// UrgencyOf says how urgent a finding is.
func UrgencyOf(f piece.Finding) Urgency {
	if i := urgent(f); i < len(urgencies) {
		return urgencies[i].u
	}
	switch {
	case f.Rank == piece.Fault:
		return Broken
	case f.Rank != piece.Doubt:
		return Known
	case strings.HasPrefix(f.Code, "photo."):
		return Picture
	}
	return Doubtful
}

// Moot reports whether a finding is nobody's business any more once the piece is
// sold: its photos, and what was worth knowing before. A doubt about the piece or its
// papers stays, since the buyer has them.
func Moot(f piece.Finding) bool {
	return f.Rank == piece.Note || UrgencyOf(f) == Picture
}

// urgent is the place of a finding among the urgencies; their number where it is
// not among them.
func urgent(f piece.Finding) int {
	for i, c := range urgencies {
		if strings.HasPrefix(f.Code, c.code) && (c.noted || f.Rank != piece.Note) {
			return i
		}
	}
	return len(urgencies)
}

// CompareUrgency is negative when a is more urgent than b, zero when they are alike.
func CompareUrgency(a, b piece.Finding) int {
	return cmp.Or(cmp.Compare(UrgencyOf(a), UrgencyOf(b)), cmp.Compare(urgent(a), urgent(b)))
}

// ByUrgency returns the findings with the most urgent first; those that are alike
// keep their order.
func ByUrgency(findings []piece.Finding) []piece.Finding {
	out := slices.Clone(findings)
	slices.SortStableFunc(out, CompareUrgency)
	return out
}
