package table

import (
	"slices"
	"strings"
	"testing"
)

func TestEachGivesCellsByTheirColumn(t *testing.T) {
	var got []string
	err := Each("woods.csv", "id,names,density\nash,ash|common ash,\"680\"\nelm,,\n", func(r Row) {
		got = append(got, r.Text("id"), strings.Join(r.Words("names"), "+"))
		if d := r.Number("density"); (r.Text("id") == "ash") != (d == 680) {
			t.Errorf("density of %s is %g", r.Text("id"), d)
		}
		if d := r.NumberOr("density", 500); r.Text("id") == "elm" && d != 500 {
			t.Errorf("density that is not known: %g, want 500", d)
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	if want := []string{"ash", "ash+common ash", "elm", ""}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// A slip of the hand in a table is never read as nought.
func TestEveryBadCellIsNamed(t *testing.T) {
	err := Each("t.csv", "id,mm,days\na,12 mm,2.5\nb,NaN,3\nc,-Inf,3\nd,+Inf,3\n", func(r Row) {
		r.Number("mm")
		r.Whole("days")
		r.Text("colour")
	})
	if err == nil {
		t.Fatal("no error")
	}
	for _, want := range []string{`t.csv, line 2: mm is "12 mm"`, "t.csv, line 2: days is 2.5", `t.csv, line 3: mm is "NaN"`, `t.csv, line 4: mm is "-Inf"`, `t.csv, line 5: mm is "+Inf"`, `there is no column "colour"`} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("the error lacks %q: %v", want, err)
		}
	}
	for name, text := range map[string]string{"empty": "", "head alone": "id,mm\n", "ragged": "id,mm\na\n"} {
		if err := Each(name, text, func(Row) {}); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func TestRules(t *testing.T) {
	all, err := Rules("p.csv", "id,value,low,high,unit,source\none,2,,,mm,x\nrange,,35,55,%,y\nboth,2,1,3,kg,z\n")
	if err != nil {
		t.Fatal(err)
	}
	for id, want := range map[string]Rule{"one": {2, 2, 2, "mm", "x"}, "range": {0, 35, 55, "%", "y"}, "both": {2, 1, 3, "kg", "z"}} {
		if all[id] != want {
			t.Errorf("%s is %+v, want %+v", id, all[id], want)
		}
	}
}

// A whole number is one of at most 1,000,000,000 either way.
func TestWholeNumbersHaveALimit(t *testing.T) {
	for cell, ok := range map[string]bool{"1000000000": true, "-1000000000": true, "1000000001": false, "-1000000001": false, "7.0": true, "6.9": false} {
		err := Each("t.csv", "n\n"+cell+"\n", func(r Row) { r.Whole("n") })
		if (err == nil) != ok {
			t.Errorf("%s: %v", cell, err)
		}
	}
}
