package piece

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v3"
)

// compiled is the schema in an independent validator, with formats asserted.
func compiled(t *testing.T, schema []byte, err error) *jsonschema.Schema {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(schema))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.AssertFormat()
	if err := c.AddResource("https://ostrel-yard.example/schema.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("https://ostrel-yard.example/schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// asJSON reads YAML as an editor does that knows no more than the schema.
func asJSON(t *testing.T, text string) any {
	t.Helper()
	var v any
	if err := yaml.Unmarshal([]byte(text), &v); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return plainJSON(v)
}

// plainJSON turns what the YAML reader returns into what the validator takes.
func plainJSON(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for k := range v {
			v[k] = plainJSON(v[k])
		}
		return v
	case []any:
		for i := range v {
			v[i] = plainJSON(v[i])
		}
		return v
	case int:
		return float64(v)
	case time.Time: // an editor's JSON has days as text
		return v.Format(time.DateOnly)
	}
	return v
}

// specBase is a right spec in lines; cases change one line of it or add some.
const specBase = `serial: OY-0311
title: Saltmarsh bench
kind: bench
finished: 2026-03-14
top:
  outline: {length: 54 in, width: 14 in}
  thickness: 1 3/4 in
  wood:
    - species: european-ash
`

// change returns the base with the line of a key replaced, or lines added.
func change(t *testing.T, key, lines string) string {
	t.Helper()
	if key == "" {
		return specBase + lines + "\n"
	}
	re := regexp.MustCompile(`(?m)^ *(- )?` + key + `:.*\n`)
	if !re.MatchString(specBase) {
		t.Fatalf("the base has no key %s", key)
	}
	if lines != "" {
		lines += "\n"
	}
	return re.ReplaceAllLiteralString(specBase, lines)
}

// schemaCases are specs with the verdict that parser and schema must share. The
// key is the line of the base that gives way; empty: lines are added.
var schemaCases = []struct {
	name, key, lines string
	valid            bool
}{
	{"the base", "", "", true},
	{"serial of digits", "serial", "serial: 0142", true},
	{"serial with a space", "serial", "serial: OY 0142", false},
	{"serial with a slash", "serial", "serial: OY/0142", false},
	{"serial that begins with a hyphen", "serial", "serial: \"-0142\"", false},
	{"serial that Windows keeps", "serial", "serial: nul", false},
	{"serial too long", "serial", "serial: " + strings.Repeat("A", 65), false},
	{"no serial", "serial", "", false},
	{"no title", "title", "", false},
	{"no kind", "kind", "", false},
	{"no finished", "finished", "", false},
	{"title is a number", "title", "title: 1984", true},
	{"title of two lines", "title", "title: |\n  Saltmarsh\n  bench", false},
	{"title too long", "title", "title: " + strings.Repeat("bench ", 40), false},
	{"title is empty", "title", "title: \"\"", false},
	{"kind in capitals", "kind", "kind: Console Table", true},
	{"kind not known", "kind", "kind: sofa", false},
	{"kind is a list", "kind", "kind: [bench]", false},
	{"date in another order", "finished", "finished: 14.3.2026", false},
	{"date not in the calendar", "finished", "finished: 2026-02-30", false},
	{"date in quotes", "finished", "finished: \"2026-03-14\"", true},
	{"quantity", "", "quantity: 6", true},
	{"quantity 0", "", "quantity: 0", false},
	{"quantity not whole", "", "quantity: 1.5", false},
	{"quantity in quotes", "", "quantity: \"6\"", true},
	{"quantity too large", "", "quantity: 20000", false},
	{"units", "", "units: cm", true},
	{"units not known", "", "units: feet", false},
	{"unknown key", "", "colour: red", false},
	{"unknown key in top", "", "  weight: 3 kg", false},
	{"thickness bare", "thickness", "  thickness: 1.75", true},
	{"thickness as a fraction", "thickness", "  thickness: 1-3/4\"", true},
	{"thickness with a sign", "thickness", "  thickness: 1¾ in", true},
	{"thickness in cm", "thickness", "  thickness: 4.4 cm", true},
	{"thickness negative", "thickness", "  thickness: -1 in", false},
	{"thickness nothing", "thickness", "  thickness: 0 in", false},
	{"thickness bare nothing", "thickness", "  thickness: 0", false},
	{"thickness with a comma", "thickness", "  thickness: 4,4 cm", false},
	{"thickness in yards", "thickness", "  thickness: 1 yd", false},
	{"thickness not a number", "thickness", "  thickness: thick", false},
	{"thickness missing", "thickness", "", false},
	{"outline of widths", "outline", "  outline: {length: 54 in, widths: [14 in, 15 in, 14 1/2 in]}", true},
	{"outline of feet and inches", "outline", "  outline: {length: 4' 6 1/2\", width: 1 ft 2 in}", true},
	{"outline of curly feet and inches", "outline", "  outline: {length: 4’ 6 ½”, width: 0.4 m}", true},
	{"outline of one width", "outline", "  outline: {length: 54 in, widths: [14 in]}", false},
	{"outline of points", "outline", "  outline: {points: [[0, 0], [54, 0.5], [-1, 14 in]]}", true},
	{"outline of two points", "outline", "  outline: {points: [[0, 0], [54, 0.5]]}", false},
	{"outline of a point of three", "outline", "  outline: {points: [[0, 0, 0], [54, 0.5], [1, 1]]}", false},
	{"outline round", "outline", "  outline: {diameter: 36 in}", true},
	{"outline with a length alone", "outline", "  outline: {length: 54 in}", false},
	{"outline in two ways", "outline", "  outline: {length: 54 in, width: 14 in, diameter: 36 in}", false},
	{"outline from a photo with paper", "outline", "  outline: {photo: plan.jpg, paper_sheet: a4, resin_at: [[0.5, 0.3]]}", true},
	{"outline from a photo with marks", "outline", "  outline: {photo: plan.jpg, paper_sheet: letter, marks: [[0, 0], [1, 0], [1, 1], [0, 1]]}", true},
	{"outline from a photo with a tape", "outline", "  outline: {photo: plan.jpg, length: 54 in, width: 14 in}", true},
	{"outline from a photo alone", "outline", "  outline: {photo: plan.jpg}", false},
	{"marks outside the photo", "outline", "  outline: {photo: plan.jpg, paper_sheet: a4, marks: [[0, 0], [2, 0], [1, 1], [0, 1]]}", false},
	{"three marks", "outline", "  outline: {photo: plan.jpg, paper_sheet: a4, marks: [[0, 0], [1, 0], [1, 1]]}", false},
	{"no wood", "species", "", false},
	{"wood without a species", "species", "    - {share: 100 %}", false},
	{"wood moisture in short", "species", "    - {species: elm, moisture: 9 %}", true},
	{"wood moisture in full", "species", "    - {species: elm, moisture: {reading: 9%, on: 2026-01-02, meter: pin}}", true},
	{"wood moisture without a sign", "species", "    - {species: elm, moisture: 9}", false},
	{"wood cut", "species", "    - {species: elm, cut: quarter-sawn, grain: end grain}", true},
	{"wood cut not known", "species", "    - {species: elm, cut: quartered}", false},
	{"wood country", "species", "    - {species: elm, origin: {country: GB}}", true},
	{"wood country in small letters", "species", "    - {species: elm, origin: {country: gb}}", false},
	{"resin alone", "", "  resin: {area: 18 %, density: 1.10 kg/l, tint: dye}", true},
	{"resin list", "", "  resin: [{volume: 900 ml}, {mixed: 5.6 kg, left_over: 0.3 kg}]", true},
	{"resin mixed in US units", "", "  resin: {mixed: 1.1 gal, left_over: 32 fl oz}", true},
	{"resin mixed without a unit", "", "  resin: {mixed: 5.6}", false},
	{"resin density in words", "", "  resin: {area: 18 %, density: heavy}", false},
	{"channels", "", "  channels: [{section: 1 1/2 x 1/2 x 1/8 in, length: 12 in, count: 3}]", true},
	{"channel without a length", "", "  channels: [{section: 1 1/2 x 1/2 x 1/8 in}]", false},
	{"base sections", "", "base: {sections: [{section: 80 x 40 x 3 mm, length: 3.2 m}, {plate: 200 x 80 x 6 mm, count: 4}, {bar: 12 mm, length: 60 cm}]}", true},
	{"base section of two sizes", "", "base: {sections: [{section: 80 x 40 mm, length: 3.2 m}]}", false},
	{"base section said twice", "", "base: {sections: [{tube: 48 x 3 mm, bar: 12 mm, length: 1 m}]}", false},
	{"base weight in pounds and ounces", "", "base: {weight: 12 lb 4 oz}", true},
	{"base weight bare", "", "base: {weight: 12}", false},
	{"base fixing in words", "", "base: {fixing: eight bolts in slots}", true},
	{"base fixing in keys", "", "base: {fixing: {bolt: M8, holes: slotted, slot: 12 mm}}", true},
	{"base fixing hole not known", "", "base: {fixing: {holes: big}}", false},
	{"parts", "", "parts: [{name: drawer, size: [20 in, 12 in, 3 1/2 in], walls: 1/2 in}]", true},
	{"parts of two sizes", "", "parts: [{name: drawer, size: [20 in, 12 in]}]", false},
	{"finish", "", "finish: {family: hardwax-oil, coats: 2, last_coat: 2026-03-12}", true},
	{"finish not known", "", "finish: {family: varnishish}", false},
	{"glue alone", "", "glue: pva-d3", true},
	{"glue of its own name", "", "glue: [pva-d3, what grandfather used]", true},
	{"glue empty list", "", "glue: []", true},
	{"wood empty list", "species", "    []", false},
	{"material batch of noughts", "", "materials: [{use: resin, batch: 0012, ratio: \"2:1\", show: yes}]", true},
	{"material show in words", "", "materials: [{use: resin, show: perhaps}]", false},
	{"log", "", "log: [{date: 2027-02-10, did: oiled}]", true},
	{"log without a deed", "", "log: [{date: 2027-02-10}]", false},
	{"price", "", "price: {amount: 1450, currency: GBP}", true},
	{"price with a sign", "", "price: {amount: 1450, currency: £}", false},
	{"price negative", "", "price: {amount: -3}", false},
	{"availability", "", "availability: not for sale", true},
	{"availability not known", "", "availability: soon", false},
	{"ships to one country", "", "delivery: {ships_to: GB}", true},
	{"legs off", "", "packing: {how: crate on skid, legs: off}", true},
	{"legs in quotes", "", "packing: {legs: \"off\"}", true},
	{"packing not known", "", "packing: {how: by hand}", false},
	{"resin that is nowhere", "", "  resin: {area: 0 %}", false},
	{"nothing for a text", "", "mark: null\nfound: ~\nguarantee: Null\nreturns: NULL", true},
	{"nothing for the title", "title", "title: ~", false},
	{"nothing for the photos", "", "photos: ~", true},
	{"views", "", "photos: {views: {IMG_1.jpg: three-quarter, IMG_2.jpg: maker’s mark}}", true},
	{"view not known", "", "photos: {views: {IMG_1.jpg: nice}}", false},
	{"view of a file in a folder", "", "photos: {views: {photos/IMG_1.jpg: front}}", false},
	{"crop box", "", "photos: {crop_boxes: {IMG_1.jpg: [0.05, 0.10, 0.95, 0.90]}}", true},
	{"crop box of three", "", "photos: {crop_boxes: {IMG_1.jpg: [0.05, 0.10, 0.95]}}", false},
	{"blend of one frame", "", "photos: {blends: [{name: n, frames: [a.jpg]}]}", false},
	{"empty optional key", "", "story:", true},
	{"empty group", "", "buyer:", true},
}

// The schema and the parser give the same verdict on the same specs.
func TestSchemaAgreesWithParser(t *testing.T) {
	data, err := Schema()
	schema := compiled(t, data, err)
	for _, c := range schemaCases {
		t.Run(c.name, func(t *testing.T) {
			text := change(t, c.key, c.lines)
			parsed, said := verdict(text)
			invalid := schema.Validate(asJSON(t, text))
			if parsed != c.valid {
				t.Errorf("the parser says %v, want %v: %s\n%s", parsed, c.valid, said, text)
			}
			if (invalid == nil) != c.valid {
				t.Errorf("the schema says %v, want %v: %v\n%s", invalid == nil, c.valid, invalid, text)
			}
		})
	}
	if len(data) > 160<<10 { // parts are said once; written out it would be twice that
		t.Errorf("the schema has %d KiB", len(data)>>10)
	}
	if len(schemaCases) < 60 {
		t.Errorf("only %d cases", len(schemaCases))
	}
}

// verdict reports whether the parser finds no fault.
func verdict(text string) (bool, string) {
	_, findings := ParsePiece("piece.yaml", []byte(text), Defaults{})
	for _, f := range findings {
		if f.Rank == Fault {
			return false, fmt.Sprintf("%d:%d: %s", f.Line, f.Column, f.Message)
		}
	}
	return true, ""
}

// What a schema cannot say, or cannot see: YAML has turned the text into
// something else before the schema gets it. Each case names the reason.
func TestWhatTheSchemaCannotSay(t *testing.T) {
	data, err := Schema()
	schema := compiled(t, data, err)
	for _, c := range []struct {
		why, key, lines string
		parser          bool // the schema says the opposite
	}{
		{"how large a quantity with a unit is", "thickness", "  thickness: 4000 m", false},
		{"that inches behind feet are under twelve", "outline", "  outline: {length: 4 ft 14 in, width: 14 in}", false},
		{"that shares make 100 %", "species", "    - {species: elm, share: 60 %}\n    - {species: ash, share: 30 %}", false},
		{"that the corners of a box are in order", "", "photos: {crop_boxes: {IMG_1.jpg: [0.9, 0.1, 0.1, 0.9]}}", false},
		{"that less is left over than was mixed", "", "  resin: {mixed: 2 l, left_over: 3 l}", false},
		{"that a wall is thinner than its section", "", "base: {sections: [{tube: 48 x 30 mm, length: 1 m}]}", false},
		{"that a photo is not wanted and left out at once", "", "photos: {main: a.jpg, leave_out: [a.jpg]}", false},
		{"that all widths cannot be nothing", "outline", "  outline: {length: 54 in, widths: [0, 0]}", false},
		{"how a number was written", "", "quantity: 0x10", false},
		{"how a number was written", "", "quantity: 1_0", false},
		{"that a fraction is less than one", "thickness", "  thickness: 1 5/4 in", false},
		{"that a value may go on behind a comma inside { }", "", "delivery: {assembly: eight bolts, 5 mm key}", true},
	} {
		text := change(t, c.key, c.lines)
		parsed, said := verdict(text)
		if parsed != c.parser {
			t.Errorf("%s: the parser says %v: %s\n%s", c.why, parsed, said, text)
		}
		invalid := schema.Validate(asJSON(t, text))
		if (invalid == nil) == c.parser {
			t.Errorf("%s: the schema agrees by now; move the case to the table\n%s", c.why, text)
		}
	}
}

// The examples of the key tables satisfy their schemas.
func TestSchemaTakesTheExamples(t *testing.T) {
	data, err := Schema()
	schema := compiled(t, data, err)
	for w := range outlineWays {
		text := example(pieceKeys, "", leftOfWays(w), "")
		if err := schema.Validate(asJSON(t, text)); err != nil {
			t.Errorf("way %d: %v", w, err)
		}
	}
	data, err = WorkshopSchema()
	schema = compiled(t, data, err)
	if err := schema.Validate(asJSON(t, example(workshopKeys, "", nil, ""))); err != nil {
		t.Error(err)
	}
}
