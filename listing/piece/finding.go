package piece

import "slices"

// A Rank says how much a finding matters.
type Rank string

// The ranks, least first.
const (
	Note  Rank = "note"  // worth knowing
	Doubt Rank = "doubt" // the maker should look
	Fault Rank = "fault" // this piece or photo cannot be done right
)

// Before compares ranks for sorting: what matters more comes first.
func (r Rank) Before(other Rank) int {
	order := [...]Rank{Fault, Doubt, Note}
	return slices.Index(order[:], r) - slices.Index(order[:], other)
}

// A Finding is one thing that the tool has to say about a piece.
type Finding struct {
	Rank    Rank   `json:"rank"`
	Code    string `json:"code"` // stable, such as "spec.unknown-key", "photo.soft", "weight.outside-range"
	File    string `json:"file,omitempty"`
	Line    int    `json:"line,omitempty"`
	Column  int    `json:"column,omitempty"`
	Message string `json:"message"` // what is wrong, lower case, no full stop
	Remedy  string `json:"remedy,omitempty"`
	Snippet string `json:"-"` // the offending line of the file, for printing
}
