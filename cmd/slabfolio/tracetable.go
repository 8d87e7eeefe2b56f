package main

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"os"
	"strings"
	"unicode"

	"golang.org/x/term"
	"golang.org/x/text/width"

	"slabfolio/listing/trace"
)

// widthOf is how many columns the result has: those of the terminal; 0 when it is
// piped, so that nothing is cut.
func widthOf(w io.Writer) int {
	f, ok := w.(*os.File)
	if !ok {
		return 0
	}
	n, _, err := term.GetSize(int(f.Fd()))
	if err != nil {
		return 0
	}
	return min(max(n, 40), 160)
}

// hitsTable lays hits out for reading: a heading for each piece, its hits below
// it. wide is as of widthOf.
func hitsTable(hits []trace.Hit, wide int) string {
	field, value := 0, 0
	for _, h := range hits {
		field = min(max(field, columns(h.Field)), 20)
		if n := columns(oneLine(h.Value)); n <= 36 { // a longer one gets a line of its own
			value = max(value, n)
		}
	}
	var b strings.Builder
	for i, h := range hits {
		if i == 0 || h.Serial != hits[i-1].Serial {
			if i > 0 {
				b.WriteByte('\n')
			}
			b.WriteString(cut(pieceLine(h), wide) + "\n")
		}
		line := "  " + pad(h.Field, field) + "  "
		text, place := oneLine(h.Value), where(h)
		if h.Earlier {
			place += "  (an earlier revision)"
		}
		if n := columns(line) + value + 2 + columns(place); columns(text) <= value && (wide == 0 || n <= wide) {
			b.WriteString(line + pad(text, value) + "  " + place + "\n")
			continue
		}
		b.WriteString(cut(line+cut(text, 100), wide) + "\n" + strings.Repeat(" ", columns(line)) + place + "\n")
	}
	return strings.TrimSuffix(b.String(), "\n")
}

// pieceLine is the heading of a piece: serial, title, day, place, buyer.
func pieceLine(h trace.Hit) string {
	line := h.Serial
	if line == "" {
		line = "(no serial)"
	}
	line += "  " + oneLine(h.Title)
	if h.Finished != "" {
		line += ", finished " + h.Finished
	}
	if h.Where != "" {
		line += ", " + h.Where
	}
	if h.Buyer != "" {
		line += ", buyer: " + oneLine(h.Buyer)
	}
	return line
}

// columns is how wide a text stands on a terminal.
func columns(s string) int {
	n := 0
	for _, r := range s {
		switch k := width.LookupRune(r).Kind(); {
		case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		case k == width.EastAsianWide || k == width.EastAsianFullwidth:
			n += 2
		default:
			n++
		}
	}
	return n
}

func pad(s string, n int) string { return s + strings.Repeat(" ", max(n-columns(s), 0)) }

// cut shortens a text to n columns; 0 means that it stays whole.
func cut(s string, n int) string {
	if n == 0 || columns(s) <= n {
		return s
	}
	r := []rune(s)
	for len(r) > 0 && columns(string(r))+1 > n {
		r = r[:len(r)-1]
	}
	return strings.TrimRight(string(r), " ") + "…"
}

// oneLine puts a text on one line and keeps control characters off the terminal.
func oneLine(s string) string { return strings.Join(strings.Fields(printable(s)), " ") }

// hitsCSV writes hits as RFC 4180 has it: CRLF, quotes where needed.
func hitsCSV(hits []trace.Hit) string {
	rows := [][]string{{"serial", "title", "finished", "where", "buyer", "field", "value", "source", "file", "line", "earlier"}}
	for _, h := range hits {
		earlier := ""
		if h.Earlier {
			earlier = "yes"
		}
		rows = append(rows, []string{h.Serial, h.Title, h.Finished, h.Where, h.Buyer, h.Field, h.Value, h.Source, h.File, fmt.Sprint(h.Line), earlier})
	}
	return writeCSV(rows)
}

// writeCSV writes rows without the last line end. A text that a spreadsheet
// would take for a formula gets an apostrophe before it.
func writeCSV(rows [][]string) string {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.UseCRLF = true
	for _, row := range rows {
		for i, cell := range row {
			if cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
				row[i] = "'" + cell
			}
		}
		_ = w.Write(row) // a buffer takes everything
	}
	w.Flush()
	return strings.TrimSuffix(b.String(), "\n")
}
