package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"sync"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// extreme makes a valid piece from a seed: any kind, sizes from a coaster to a
// hall table, groups there or not.
func extreme(seed uint64) (*piece.Piece, *piece.Workshop) {
	r := rand.New(rand.NewPCG(seed, 11))
	length := func(lo, hi float64) piece.Value[units.Length] {
		return piece.Of(units.Length(lo * math.Pow(hi/lo, r.Float64())))
	}
	pick := func(of []string) piece.Value[string] { return piece.Of(of[r.IntN(len(of))]) }
	maybe := func() bool { return r.IntN(2) == 0 }
	day := func() piece.Value[piece.Date] {
		return piece.Of(piece.Date{Year: 2020 + r.IntN(9), Month: 1 + r.IntN(12), Day: 1 + r.IntN(28)})
	}
	p := &piece.Piece{Serial: piece.Of("X-1"), Title: piece.Of("Thing"), Kind: pick(piece.Kinds), Finished: day(), Quantity: piece.Of(1 + r.IntN(9))}
	p.Top.At, p.Top.Outline.At = p.Serial.At, p.Serial.At
	o := &p.Top.Outline
	switch r.IntN(4) {
	case 0:
		o.Length, o.Width = length(20, 9000), length(10, 3000)
	case 1:
		o.Diameter = length(50, 4000)
	case 2:
		o.Length = length(100, 9000)
		for range 2 + r.IntN(9) {
			o.Widths = append(o.Widths, length(20, 2000))
		}
	default:
		l, w := float64(length(100, 5000).V), float64(length(50, 2000).V)
		for _, q := range [][2]float64{{0, 0}, {l, w / 9}, {l * .9, w}, {l / 20, w * .95}} {
			o.Points = append(o.Points, piece.Point{X: units.Length(q[0]), Y: units.Length(q[1]), At: p.Serial.At})
		}
	}
	p.Top.Thickness = length(4, 200)
	for range 1 + r.IntN(3) {
		w := piece.Wood{At: p.Serial.At, Species: pick([]string{"black-walnut", "wych-elm", "white-oak", "balsa", "Quercus robur", "no such wood"}), Cut: pick(piece.Cuts), Grain: pick(piece.Grains)}
		if maybe() {
			w.Moisture = &piece.Moisture{Reading: piece.Of(units.Percent(1 + 29*r.Float64()))}
		}
		p.Top.Wood = append(p.Top.Wood, w)
	}
	if maybe() {
		x := piece.Resin{At: p.Serial.At, Pours: piece.Of(1 + r.IntN(9))}
		switch r.IntN(3) {
		case 0:
			x.Area = piece.Of(units.Percent(0.1 + 99*r.Float64()))
		case 1:
			x.Volume = piece.Of(units.Volume(0.01 * math.Pow(1000, r.Float64())))
		default:
			x.Mixed.Volume = piece.Of(units.Volume(0.01 * math.Pow(1000, r.Float64())))
		}
		p.Top.Resin = append(p.Top.Resin, x)
	}
	if maybe() {
		b := &piece.Base{At: p.Serial.At, Material: pick([]string{"steel", "white-oak", "unobtainium"}), Height: length(10, 2000)}
		if maybe() {
			b.FootprintLength, b.FootprintWidth = length(20, 9000), length(20, 3000)
		}
		if maybe() {
			b.Weight = piece.Of(units.Mass(0.01 * math.Pow(1e5, r.Float64())))
		}
		b.Fixing = &piece.Fixing{At: p.Serial.At, Bolt: pick([]string{"M8", "", "1/4 in"}), Holes: pick(piece.Holes)}
		if maybe() {
			b.Fixing.Across, b.Fixing.Slot = length(10, 2000), length(3, 40)
		}
		p.Base = b
	}
	if maybe() {
		p.Parts = append(p.Parts, piece.Part{At: p.Serial.At, Name: pick([]string{"drawer", "apron", "lower shelf", "glass"}), Material: pick([]string{"black-walnut", "steel", ""}),
			Size: []piece.Value[units.Length]{length(10, 4000), length(10, 2000), length(5, 500)}, Walls: length(1, 4), BelowTop: length(5, 3000)})
	}
	if maybe() {
		p.Finish = &piece.Finish{At: p.Serial.At, Family: pick(piece.FinishFamilies), LastCoat: day()}
	}
	if maybe() {
		p.Packing = &piece.Packing{At: p.Serial.At, How: pick(piece.PackingHow), Legs: pick([]string{"on", "off"}), Clearance: length(1, 300)}
	}
	if maybe() {
		p.Weighed = piece.Of(units.Mass(0.01 * math.Pow(1e6, r.Float64())))
	}
	if maybe() {
		p.Costs = &piece.Costs{At: p.Serial.At, Hours: piece.Of(100 * r.Float64()), Rate: piece.Of(50.0)}
	}
	w := &piece.Workshop{}
	if maybe() {
		w.Region = piece.Region{HeatingSeasonRH: piece.Of(units.Percent(98 * r.Float64())), SummerRH: piece.Of(units.Percent(98 * r.Float64())), Temperature: piece.Of(units.Celsius(40 * r.Float64()))}
	}
	return p, w
}

func checkExtreme(t *testing.T, seed uint64) {
	p, w := extreme(seed)
	r, err := Build(p, w, Options{Words: words(t)})
	if err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	for name, f := range r.Figures {
		// The rounded edges of one figure may only touch.
		if !(f.Low <= f.Value && f.Value <= f.High) || math.IsInf(f.High, 0) {
			t.Errorf("seed %d: %s: %g, %g, %g out of order", seed, name, f.Low, f.Value, f.High)
		}
		if f.Value < 0 && name != "overhang_end_mm" && name != "overhang_side_mm" && name != "costs.margin" {
			t.Errorf("seed %d: %s is %g", seed, name, f.Value)
		}
	}
	numbers(t, seed, "Public", reflect.ValueOf(r.Public))
	all, err := JSON(r)
	if err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	var back map[string]any
	if err := json.Unmarshal(all, &back); err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	ordered(t, fmt.Sprintf("seed %d", seed), back)
	if bytes.Contains(all, []byte("<no value>")) || bytes.Contains(all, []byte("NaN")) || bytes.Contains(all, []byte("Inf ")) {
		t.Errorf("seed %d: a text has a hole in it", seed)
	}
	if seed%16 != 0 {
		return // a sixteenth of all tells whether chance comes in
	}
	again, err := Build(p, w, Options{Words: words(t)})
	if err != nil {
		t.Fatal(err)
	}
	if b, _ := JSON(again); !bytes.Equal(all, b) {
		t.Errorf("seed %d: built twice, and not the same", seed)
	}
}

// ordered checks every range of report.json, wherever it stands: low <= value
// <= high, under the names that ranges bear there.
func ordered(t *testing.T, at string, v any) {
	t.Helper()
	switch v := v.(type) {
	case []any:
		for i, x := range v {
			ordered(t, fmt.Sprintf("%s.%d", at, i), x)
		}
	case map[string]any:
		for _, names := range [][3]string{{"low", "value", "high"}, {"low_kg", "kg", "high_kg"}, {"low_kg", "gross_kg", "high_kg"}} {
			low, lok := v[names[0]].(float64)
			is, ok := v[names[1]].(float64)
			high, hok := v[names[2]].(float64)
			if lok && ok && hok && !(low <= is && is <= high) {
				t.Errorf("%s: %s %g, %s %g, %s %g", at, names[0], low, names[1], is, names[2], high)
			}
		}
		for k, x := range v {
			ordered(t, at+"."+k, x)
		}
	}
}

// numbers checks that no number below v is negative or no number.
func numbers(t *testing.T, seed uint64, at string, v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) || f < 0 {
			t.Errorf("seed %d: %s is %g", seed, at, f)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			numbers(t, seed, at, v.Elem())
		}
	case reflect.Slice:
		for i := range v.Len() {
			numbers(t, seed, at, v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			numbers(t, seed, at+"."+v.Type().Field(i).Name, v.Field(i))
		}
	}
}

func TestExtremePieces(t *testing.T) {
	for seed := range uint64(250) {
		checkExtreme(t, seed)
	}
}

// The tables are shared by all pieces of a batch: none may leave a mark on them.
func TestPiecesSideBySide(t *testing.T) {
	want := make([][]byte, 24)
	for i := range want {
		p, w := extreme(uint64(i))
		r, err := Build(p, w, Options{Words: words(t)})
		if err != nil {
			t.Fatal(err)
		}
		want[i], _ = JSON(r)
	}
	var wg sync.WaitGroup
	for i := range want {
		wg.Go(func() {
			p, w := extreme(uint64(i))
			r, err := Build(p, w, Options{Words: words(t)})
			if err != nil {
				t.Error(err)
				return
			}
			if got, _ := JSON(r); !bytes.Equal(got, want[i]) {
				t.Errorf("piece %d comes out otherwise beside others", i)
			}
		})
	}
	wg.Wait()
}

func FuzzExtremePieces(f *testing.F) {
	f.Add(uint64(1))
	f.Fuzz(checkExtreme)
}

func TestEmptyListsAreLists(t *testing.T) {
	r := &Report{}
	all, err := JSON(r)
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(string(all), "null") {
		t.Errorf("null in %s", all)
	}
}
