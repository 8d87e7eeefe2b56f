package main

import (
	"encoding/csv"
	"strings"
	"testing"

	"slabfolio/listing/trace"
)

func someHits() []trace.Hit {
	return []trace.Hit{
		{Serial: "OY-1", Title: "Console", Field: "glue", Value: "pva-d3", Finished: "2026-05-27", Where: "sold", Buyer: "A. Buyer", Source: "yard/OY-1", File: "piece.yaml", Line: 9},
		{Serial: "OY-1", Title: "Console", Field: "top.wood.species", Value: "木目 cafe\u0301", Source: "shelf/OY-1", File: "piece.yaml", Line: 12, InBag: true, Earlier: true},
		{Serial: "OY-2", Title: "=1+1", Field: "story", Value: "a \"long\", long\nstory " + strings.Repeat("of wood ", 30) + "\x1b[31m", Source: "yard/OY-2", File: "piece.yaml", Line: 3},
	}
}

// The table keeps to the terminal where that cuts no place of a hit short, and
// its columns stand below one another, whatever the letters.
func TestTableFitsTheTerminal(t *testing.T) {
	for _, wide := range []int{0, 60, 80, 120} {
		text := hitsTable(someHits(), wide)
		var places []int
		for line := range strings.SplitSeq(text, "\n") {
			if n := columns(line); wide > 0 && n > wide && !strings.Contains(line, ".yaml:") {
				t.Errorf("%d columns on a terminal of %d: %q", n, wide, line)
			}
			if i := strings.Index(line, "yard/OY-1/"); i >= 0 {
				places = append(places, columns(line[:i]))
			}
			if i := strings.Index(line, "shelf/OY-1/data/piece/piece.yaml:12"); i >= 0 {
				places = append(places, columns(line[:i]))
			}
			if strings.ContainsRune(line, '\x1b') {
				t.Errorf("a control character: %q", line)
			}
		}
		if len(places) != 2 || (wide == 0 || wide == 120) && places[0] != places[1] {
			t.Errorf("at %d columns the places of hits begin at %v:\n%s", wide, places, text)
		}
	}
}

// RFC 4180: lines end with CRLF, quotes are doubled; what a spreadsheet would
// take for a formula gets an apostrophe.
func TestTableForASpreadsheet(t *testing.T) {
	text := hitsCSV(someHits()) + "\n"
	if n := strings.Count(text, "\r\n"); n != 5 { // one of them within a quoted text
		t.Errorf("%d lines end with CRLF, want 5:\n%q", n, text)
	}
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil || len(rows) != 4 {
		t.Fatal(err, len(rows))
	}
	if got := rows[3]; got[1] != "'=1+1" || !strings.HasPrefix(got[6], "a \"long\", long\nstory") {
		t.Errorf("%q", got)
	}
	if got := rows[2]; got[10] != "yes" || got[9] != "12" {
		t.Errorf("%q", got)
	}
}

func TestDaysThatAreNone(t *testing.T) {
	for day, want := range map[string]bool{"2025": true, "2025-01": true, "2024-02-29": true, "2025-02-29": false, "2025-13": false, "25": false, "2025-1": false, "today": false, "2025-01-01T": false} {
		if got := isDay(day); got != want {
			t.Errorf("%q: %v, want %v", day, got, want)
		}
	}
}
