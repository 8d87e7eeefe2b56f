// Package table reads the reference tables that are built into the calculators:
// CSV files (RFC 4180) whose first line names the columns. Every figure stands
// in such a file with its source, and none in the code.
package table

import (
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// A Row is one line of a table. What is wrong with its cells becomes the error
// of Each.
type Row struct {
	cells  map[string]string
	at     string // table and line, for errors
	faults *[]error
}

// Text returns a cell as it stands, empty where nothing is known.
func (r Row) Text(column string) string {
	cell, ok := r.cells[column]
	if !ok {
		*r.faults = append(*r.faults, fmt.Errorf("%s: there is no column %q", r.at, column))
	}
	return cell
}

// Words returns the words of a cell that are parted by |, nil where nothing is
// known.
func (r Row) Words(column string) []string {
	if cell := r.Text(column); cell != "" {
		return strings.Split(cell, "|")
	}
	return nil
}

// Number returns the number of a cell, 0 where nothing is known.
func (r Row) Number(column string) float64 { return r.NumberOr(column, 0) }

// NumberOr returns the number of a cell, otherwise where nothing is known.
func (r Row) NumberOr(column string, otherwise float64) float64 {
	cell := r.Text(column)
	if cell == "" {
		return otherwise
	}
	v, err := strconv.ParseFloat(cell, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		*r.faults = append(*r.faults, fmt.Errorf("%s: %s is %q, which is not a number", r.at, column, cell))
		return otherwise
	}
	return v
}

// Whole returns the whole number of a cell, 0 where nothing is known.
func (r Row) Whole(column string) int {
	v := r.Number(column)
	if v != math.Trunc(v) || math.Abs(v) > 1e9 {
		*r.faults = append(*r.faults, fmt.Errorf("%s: %s is %g, which is not a whole number", r.at, column, v))
		return 0
	}
	return int(v)
}

// Each calls f for every line of a table but the first. The error names every
// cell that f asked for and that is not what it has to be.
func Each(name, text string, f func(Row)) error {
	lines, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		return fmt.Errorf("read the table %s: %w", name, err)
	}
	if len(lines) < 2 {
		return fmt.Errorf("the table %s is empty", name)
	}
	var faults []error
	for i, line := range lines[1:] {
		r := Row{cells: make(map[string]string, len(line)), at: fmt.Sprintf("%s, line %d", name, i+2), faults: &faults}
		for k, cell := range line {
			r.cells[lines[0][k]] = cell
		}
		f(r)
	}
	return errors.Join(faults...)
}

// A Rule is one figure of the trade, or a range, or both.
type Rule struct {
	Value        float64 // 0 for a range alone
	Low, High    float64 // equal to Value where no range is known
	Unit, Source string
}

// Rules reads a table of figures of the trade, by their id. Its columns are
// id, value, low, high, unit and source.
func Rules(name, text string) (map[string]Rule, error) {
	all := map[string]Rule{}
	err := Each(name, text, func(r Row) {
		v := r.Number("value")
		all[r.Text("id")] = Rule{Value: v, Low: r.NumberOr("low", v), High: r.NumberOr("high", v), Unit: r.Text("unit"), Source: r.Text("source")}
	})
	return all, err
}
