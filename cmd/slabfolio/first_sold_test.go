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
		{nil, []piece.Finding{soft, base, fault, tips}, "stability.tips photo.unreadable base.missing"},
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

// What several pieces are told alike is said once for all; what each is told in words of
// its own is said of the first, with its place, and the others are named behind.
func TestFirstToDoOfSeveralPieces(t *testing.T) {
	told := func(message string) listing.Result {
		return listing.Result{Serial: "OY-" + message[:1], Findings: []piece.Finding{{Rank: piece.Doubt, Code: "x", Message: message[2:], File: "piece.yaml", Line: 9}}}
	}
	for want, results := range map[string][]listing.Result{
		"OY-1: 2 photos cannot be used, each for a reason of its own, such as a.jpg: this file is empty": {{Serial: "OY-1", Findings: []piece.Finding{
			{Rank: piece.Fault, Code: "photo.unreadable", Message: "this file is empty", File: "a.jpg"}, {Rank: piece.Fault, Code: "photo.unreadable", Message: "this is a text", File: "b.jpg"}}}},
		"OY-1, OY-2: no photo":             {told("1 no photo"), told("2 no photo")},
		"OY-1 (piece.yaml, line 9): 85 kg": {told("1 85 kg")},
		"OY-1 (piece.yaml, line 9): 85 kg; the same of OY-2, OY-3, with figures of their own": {told("1 85 kg"), told("2 31 kg"), told("3 85 kg")},
		// What is on no piece, as a changed file in OUT, stands by itself.
		"out/index.html: kept; y": {{Findings: []piece.Finding{{Rank: piece.Doubt, Code: "x", Message: "kept", Remedy: "y", File: "out/index.html"}}}, told("1 85 kg")},
		"no drive":                {{Findings: []piece.Finding{{Rank: piece.Fault, Code: "x", Message: "no drive"}}}, told("1 85 kg")},
	} {
		list := firstToDo(results)
		if len(list) == 0 || list[0].line() != want {
			t.Errorf("%d lines, %q; want %q", len(list), list[0].line(), want)
		}
	}
}
