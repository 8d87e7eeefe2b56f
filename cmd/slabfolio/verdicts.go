package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"slabfolio/listing/archive"
)

// tellVerdict says what was found of one bag: whole, or every fault by its name.
func tellVerdict(c *console, w io.Writer, v *archive.Verdict) {
	if c.json {
		c.object(struct {
			Type string `json:"type"`
			*archive.Verdict
			Valid bool `json:"valid"`
		}{"piece", v, v.Valid()})
		return
	}
	if c.quiet && v.Valid() {
		return
	}
	word := "whole and unchanged"
	if !v.Valid() {
		word = "NOT whole"
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s, %s, %s\n", printable(filepath.ToSlash(v.Bag)), word, plural(v.Files, "file"), bytesText(v.Bytes))
	told := 0
	for _, p := range v.Problems {
		rank := "fault"
		if p.Warning {
			if rank = "note"; c.quiet {
				continue
			}
		}
		if told++; told > mostTold {
			fmt.Fprintf(&b, "  and %d more; --json lists them all\n", len(v.Problems)-mostTold)
			break
		}
		fmt.Fprintf(&b, "  %s: %s\n", rank, printable(strings.ReplaceAll(p.Message, "\n", " ")))
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	if _, err := io.WriteString(w, b.String()); err != nil && w != c.out { // the bar has ended
		_, _ = io.WriteString(c.out, b.String())
	}
}

// mostTold is how many problems of one bag are said in words.
const mostTold = 100

func summariseVerdicts(c *console, verdicts []*archive.Verdict) error {
	bad := 0
	kinds := map[string]int{}
	for _, v := range verdicts {
		if v.Valid() {
			continue
		}
		bad++
		for _, p := range v.Problems {
			if !p.Warning {
				kinds[p.Kind]++
			}
		}
	}
	switch {
	case c.json:
		c.object(struct {
			Type   string         `json:"type"`
			Bags   int            `json:"bags"`
			Bad    int            `json:"bad"`
			Faults map[string]int `json:"faults"`
		}{"summary", len(verdicts), bad, kinds})
	case len(verdicts) == 0:
		c.say("no bag found there; slabfolio archive makes one")
	case c.quiet:
	case bad == 0:
		c.result("%s checked, all whole", plural(len(verdicts), "bag"))
	default:
		c.result("%s checked, %d not whole%s", plural(len(verdicts), "bag"), bad, kindsText(kinds))
	}
	if bad > 0 || len(verdicts) == 0 {
		return errFault
	}
	return nil
}

// kindsText counts the faults that a maker acts on in different ways: what is
// gone, what is another, what the disk does not give.
func kindsText(kinds map[string]int) string {
	var parts []string
	for _, k := range []string{archive.Missing, archive.Changed, archive.Extra, archive.Unreadable} {
		if n := kinds[k]; n > 0 {
			parts = append(parts, fmt.Sprintf("%s %s", plural(n, "file"), k))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return ": " + strings.Join(parts, ", ")
}

// bytesText writes a size as people say it.
func bytesText(n int64) string {
	switch {
	case n < 1000:
		return plural(int(n), "byte")
	case n < 1e6:
		return fmt.Sprintf("%.1f kB", float64(n)/1e3)
	case n < 1e9:
		return fmt.Sprintf("%.1f MB", float64(n)/1e6)
	}
	return fmt.Sprintf("%.1f GB", float64(n)/1e9)
}
