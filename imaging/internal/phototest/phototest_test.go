package phototest

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// The 34 pairs of Sharma, Wu and Dalal (2005), table 1.
func TestDeltaE(t *testing.T) {
	f, err := os.Open(filepath.Join(Reference(t), "ciede2000.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) != 35 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for _, row := range rows[1:] {
		var v [8]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(row[i], 64); err != nil {
				t.Fatal(err)
			}
		}
		if got := DeltaE(v[1], v[2], v[3], v[4], v[5], v[6]); math.Abs(got-v[7]) > 1e-4 {
			t.Errorf("pair %v: %.4f, want %.4f", v[0], got, v[7])
		}
	}
}
