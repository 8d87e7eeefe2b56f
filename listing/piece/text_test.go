package piece

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"slabfolio/listing/units"
)

// Text is taken as it stands in the file, whatever YAML would make of it. (A
// YAML library decodes 0142 into 98 and 1e3 into 1000.)
func TestTextIsTakenAsWritten(t *testing.T) {
	for _, text := range []string{
		"0012", "0142", "1e3", "0x10", "0o17", "0b11", "1_000", "2027-01-01", "yes", "no", "on", "off", "true", ".nan", ".inf", "-.inf", "1.10", "+5", "007", "12:30", "1.0.0",
		"A1142", "batch 7 (second half)", "50 % more", "it's", "O'Hare", "a-b_c", "ümlaut ø 漢字", "=1+1", "x # y"[:1], "3 4", "<b>", "10.000,50", "\\n", "a\"b", "// path",
	} {
		p, findings := ParsePiece("piece.yaml", []byte(specBase+"materials:\n  - {use: resin}\n  - use: resin\n    batch: "+text+"\nmark: "+text+"   # a remark\n"), Defaults{})
		for _, f := range findings {
			t.Errorf("%q: %s", text, f.Message)
		}
		if got := p.Materials[1].Batch.V; got != text {
			t.Errorf("batch: %s arrived as %q", text, got)
		}
		if got := p.Mark.V; got != text {
			t.Errorf("mark: %s arrived as %q", text, got)
		}
		if !strings.ContainsAny(text, `"\#{}[],'`) {
			p, _ := ParsePiece("piece.yaml", []byte(specBase+"materials: [{use: resin, batch: "+text+"}]\n"), Defaults{})
			if got := p.Materials[0].Batch.V; got != text {
				t.Errorf("{batch: %s} arrived as %q", text, got)
			}
		}
	}
}

// A serial keeps its noughts.
func TestSerialKeepsItsNoughts(t *testing.T) {
	p, findings := ParsePiece("piece.yaml", []byte(change(t, "serial", "serial: 0142")), Defaults{})
	if len(findings) != 0 || p.Serial.V != "0142" {
		t.Errorf("serial: 0142 arrived as %q, with %v", p.Serial.V, findings)
	}
}

// Quotes, straight and curly, blocks and folds.
func TestWaysOfWritingText(t *testing.T) {
	for _, c := range []struct{ lines, want string }{
		{`mark: "burnt, rear left"`, "burnt, rear left"},
		{`mark: 'the maker''s own'`, "the maker's own"},
		{"mark: “burnt, rear left”", "burnt, rear left"},
		{"mark: “burnt: rear left” # where", "burnt: rear left"},
		{"mark: ‘burnt’", "burnt"},
		{"mark: „burnt“", "burnt"},
		{"mark: called “the heron” by some", "called “the heron” by some"},
		{"mark: “one” and “two”", "“one” and “two”"},
		{"mark: |\n  first line\n    second, further in\n\n  third: line # no remark\n", "first line\n  second, further in\n\nthird: line # no remark"},
		{"mark: >\n  folded\n  text\n", "folded text"},
		{"mark: >\n\n  first\n\n  second\n", "first\nsecond"},
		{"mark: |\n  a\n  \tb\n", "a\n\tb"},
		{"mark: one line\n  and the next", "one line and the next"},
		{"mark:\n  below its key", "below its key"},
		{"mark: burnt    ", "burnt"},
		{"mark:\tburnt", "burnt"},
	} {
		p, findings := ParsePiece("piece.yaml", []byte(specBase+c.lines+"\n"), Defaults{})
		for _, f := range findings {
			t.Errorf("%q: %d:%d %s", c.lines, f.Line, f.Column, f.Message)
		}
		if p.Mark.V != c.want {
			t.Errorf("%q arrived as %q, want %q", c.lines, p.Mark.V, c.want)
		}
	}
}

// A comma inside { } belongs to the value when what follows is no key.
func TestCommasInsideBraces(t *testing.T) {
	text := specBase + `delivery: {ships_to: [GB], assembly: eight bolts,5 mm key, and patience, lead_time: 2 weeks}
photos: {captions: {a.jpg: The staple, grown over, b.jpg: “Grain, close”}}
`
	p, findings := ParsePiece("piece.yaml", []byte(text), Defaults{})
	for _, f := range findings {
		t.Errorf("%d:%d %s", f.Line, f.Column, f.Message)
	}
	if got, want := p.Delivery.Assembly.V, "eight bolts,5 mm key, and patience"; got != want {
		t.Errorf("assembly arrived as %q, want %q", got, want)
	}
	if got, want := p.Delivery.LeadTime.V, "2 weeks"; got != want {
		t.Errorf("lead_time arrived as %q, want %q", got, want)
	}
	if got, want := p.Photos.Captions["a.jpg"].V, "The staple, grown over"; got != want {
		t.Errorf("the caption arrived as %q, want %q", got, want)
	}
	if got, want := p.Photos.Captions["b.jpg"].V, "Grain, close"; got != want {
		t.Errorf("the curly caption arrived as %q, want %q", got, want)
	}
}

// yes and no, on and off.
func TestYesAndNo(t *testing.T) {
	for text, want := range map[string]bool{"yes": true, "true": true, "Yes": true, "on": true, "\"yes\"": true, "no": false, "false": false, "off": false} {
		p, findings := ParsePiece("piece.yaml", []byte(specBase+"materials: [{use: resin, show: "+text+"}]\n"), Defaults{})
		if len(findings) != 0 || !p.Materials[0].Show.Set() || p.Materials[0].Show.V != want {
			t.Errorf("show: %s arrived as %+v, with %v", text, p.Materials[0].Show, findings)
		}
	}
	for _, text := range []string{"off", "\"off\"", "'off'", "“off”", "Off"} {
		p, findings := ParsePiece("piece.yaml", []byte(specBase+"packing: {legs: "+text+"}\n"), Defaults{})
		if len(findings) != 0 || p.Packing.Legs.V != "off" {
			t.Errorf("legs: %s arrived as %q, with %v", text, p.Packing.Legs.V, findings)
		}
	}
}

// A byte order mark, Windows line ends and old Macintosh ones change nothing,
// neither values nor places.
func TestFileForms(t *testing.T) {
	want, findings := ParsePiece("piece.yaml", []byte(specBase), Defaults{})
	if len(findings) != 0 {
		t.Fatal(findings)
	}
	for name, text := range map[string]string{
		"byte order mark":    "\ufeff" + specBase,
		"windows":            strings.ReplaceAll(specBase, "\n", "\r\n"),
		"both":               "\ufeff" + strings.ReplaceAll(specBase, "\n", "\r\n"),
		"old macintosh":      strings.ReplaceAll(specBase, "\n", "\r"),
		"no end of line":     strings.TrimSuffix(specBase, "\n"),
		"lines at the end":   specBase + "\n\n\n",
		"end of document":    specBase + "...\n",
		"spaces at line end": strings.ReplaceAll(specBase, "\n", "   \n"),
	} {
		got, findings := ParsePiece("piece.yaml", []byte(text), Defaults{})
		if len(findings) != 0 || !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %v\ngot  %+v\nwant %+v", name, findings, got, want)
		}
	}
	got, findings := ParsePiece("piece.yaml", []byte("---\n"+specBase), Defaults{})
	if len(findings) != 0 || got.Title.At.Line != want.Title.At.Line+1 {
		t.Errorf("start of document: %v, title on line %d", findings, got.Title.At.Line)
	}
}

// Every value knows its place: what stands there in the file is the value.
func TestPlaces(t *testing.T) {
	text := example(pieceKeys, "", leftOfWays(0), "")
	lines := strings.Split(text, "\n")
	p, _ := ParsePiece("piece.yaml", []byte(text), Defaults{})
	checked := 0
	var walk func(v reflect.Value, path string)
	walk = func(v reflect.Value, path string) {
		switch v.Kind() {
		case reflect.Pointer:
			if !v.IsNil() {
				walk(v.Elem(), path)
			}
		case reflect.Slice:
			for i := range v.Len() {
				walk(v.Index(i), fmt.Sprintf("%s[%d]", path, i))
			}
		case reflect.Map:
			for _, k := range v.MapKeys() {
				walk(v.MapIndex(k), path+"."+k.String())
			}
		case reflect.Struct:
			if at := v.FieldByName("At"); at.IsValid() && strings.HasPrefix(v.Type().Name(), "Value[") {
				place := at.Interface().(Place)
				if place.Line == 0 {
					return
				}
				checked++
				rest := string([]rune(lines[place.Line-1])[place.Column-1:])
				want := fmt.Sprint(v.FieldByName("V").Interface())
				if s, ok := v.FieldByName("V").Interface().(string); ok && !strings.HasPrefix(rest, "|") && !strings.HasPrefix(strings.TrimLeft(rest, `"`), s) {
					t.Errorf("%s = %q has the place %s, where the file has %q", path, s, place, rest)
				}
				if i, ok := v.FieldByName("V").Interface().(int); ok && !strings.HasPrefix(rest, fmt.Sprint(i)) {
					t.Errorf("%s = %s has the place %s, where the file has %q", path, want, place, rest)
				}
				return
			}
			for f, fv := range v.Fields() {
				walk(fv, path+"."+f.Name)
			}
		}
	}
	walk(reflect.ValueOf(p).Elem(), "piece")
	if checked < 100 {
		t.Errorf("only %d values were looked at", checked)
	}
}

// Bare lengths take the file's units, else the workshop's, else inches; the key
// may stand below the lengths.
func TestBareUnits(t *testing.T) {
	for _, c := range []struct {
		defaults Defaults
		lines    string
		want     units.Length
		system   units.System
	}{
		{Defaults{}, "", 2 * 25.4, units.Inches},
		{Defaults{Units: units.Centimetres}, "", 20, units.Centimetres},
		{Defaults{Units: units.Centimetres}, "units: mm", 2, units.Millimetres},
		{Defaults{}, "units: cm", 20, units.Centimetres},
	} {
		p, findings := ParsePiece("piece.yaml", []byte(change(t, "thickness", "  thickness: 2")+c.lines+"\n"), c.defaults)
		if len(findings) != 0 && c.want >= 2 || p.Top.Thickness.V != c.want || p.Units.V != c.system {
			t.Errorf("%+v %q: %v, %v; %v", c.defaults, c.lines, p.Top.Thickness.V, p.Units.V, findings)
		}
	}
}

// A bare null or ~ is nothing (YAML 1.2.2, 10.3.2): it counts as left out, is told, and no
// buyer reads it. In quotes it is a text like any other.
func TestNullIsNothing(t *testing.T) {
	for _, word := range []string{"null", "Null", "NULL", "~"} {
		p, findings := ParsePiece("piece.yaml", []byte(change(t, "", "mark: "+word+"\nfound: "+word)), Defaults{})
		if p == nil || p.Mark.Set() || p.Found.Set() || len(findings) != 2 || findings[0].Code != "spec.empty" || !strings.Contains(findings[0].Message, "mark has "+word+" behind it, which is nothing") {
			t.Errorf("%s: %+v", word, findings)
		}
		w, err := ParseWritten("piece.yaml", []byte(change(t, "", "mark: "+word)))
		if err != nil || w.Key("mark").String() != "" {
			t.Errorf("%s is written on as %q, %v", word, w.Key("mark"), err)
		}
		if p, findings := ParsePiece("piece.yaml", []byte(change(t, "", `mark: "`+word+`"`)), Defaults{}); p == nil || p.Mark.V != word || len(findings) != 0 {
			t.Errorf("%q in quotes: %+v", word, findings)
		}
	}
}
