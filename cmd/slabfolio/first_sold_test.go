package main

import (
	"strings"
	"testing"

	"slabfolio/listing"
	"slabfolio/listing/piece"
)

// The terminal and the overview agree about sold pieces: their photos are nothing to
// do, other doubts stand behind those of pieces that are still there, faults do not wait.
func TestFirstToDoOfSoldPieces(t *testing.T) {
	finding := func(rank piece.Rank, code string) piece.Finding {
		return piece.Finding{Rank: rank, Code: code, Message: code}
	}
	tree, soft, base := finding(piece.Doubt, "wood.namesake"), finding(piece.Doubt, "photo.soft"), finding(piece.Doubt, "base.missing")
	fault, tips := finding(piece.Fault, "photo.unreadable"), finding(piece.Doubt, "stability.tips")
	for _, c := range []struct {
		sold, stock []piece.Finding
		want        string
	}{
		{[]piece.Finding{tree, soft}, nil, "wood.namesake"},
		{[]piece.Finding{soft}, nil, ""},
		{[]piece.Finding{tree}, []piece.Finding{base}, "base.missing wood.namesake"},
		{[]piece.Finding{fault, tree}, []piece.Finding{base}, "photo.unreadable base.missing wood.namesake"},
		{[]piece.Finding{tree, tips}, []piece.Finding{base}, "stability.tips base.missing wood.namesake"},
	} {
		results := []listing.Result{{Serial: "OY-1", Sold: true, Findings: c.sold}, {Serial: "OY-2", Findings: c.stock}}
		var codes []string
		for _, d := range firstToDo(results) {
			codes = append(codes, d.Code)
		}
		if got := strings.Join(codes, " "); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}
