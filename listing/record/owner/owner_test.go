package owner

import (
	"io/fs"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
	"slabfolio/testdata"
	"slabfolio/testdata/beside"
)

func allPhotos(string) bool { return true }

// withoutPlaces sets every Place in a value to the zero one, or to line 1 where a
// value is set, so that two pieces compare by what they say.
func withoutPlaces(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			withoutPlaces(v.Elem())
		}
	case reflect.Slice:
		for i := range v.Len() {
			withoutPlaces(v.Index(i))
		}
	case reflect.Map:
		for _, k := range v.MapKeys() {
			c := reflect.New(v.Type().Elem()).Elem()
			c.Set(v.MapIndex(k))
			withoutPlaces(c)
			v.SetMapIndex(k, c)
		}
	case reflect.Struct:
		if p, ok := v.Addr().Interface().(*piece.Place); ok {
			*p = piece.Place{Line: min(p.Line, 1)}
			return
		}
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				withoutPlaces(v.Field(i))
			}
		}
	}
}

// private takes out of a piece what the owner's copy must not say.
func private(p *piece.Piece) {
	p.Costs, p.Buyer = nil, nil
	for i := range p.Materials {
		p.Materials[i].Supplier = piece.Value[string]{}
	}
	p.Photos.LeaveOut = nil
}

// sameButPrivate redacts a spec, reads it back without its workshop, and compares.
func sameButPrivate(t *testing.T, data []byte, w *piece.Workshop) string {
	t.Helper()
	out, err := Spec("piece.yaml", data, w, allPhotos)
	if err != nil {
		t.Fatal(err)
	}
	want, _ := piece.ParsePiece("piece.yaml", data, w.Defaults())
	got, findings := piece.ParsePiece("piece.yaml", out, piece.Defaults{})
	for _, f := range findings {
		if f.Rank == piece.Fault {
			t.Errorf("line %d: %s\n%s", f.Line, f.Message, out)
		}
	}
	private(want)
	if !want.Units.Set() {
		want.Units.At = got.Units.At // the workshop's are written in
	}
	if want.Price != nil && !want.Price.Currency.Set() && w != nil {
		want.Price.Currency.V, want.Price.Currency.At = w.Currency.V, got.Price.Currency.At
	}
	withoutPlaces(reflect.ValueOf(want).Elem())
	withoutPlaces(reflect.ValueOf(got).Elem())
	for i := range reflect.TypeOf(*want).NumField() {
		name := reflect.TypeOf(*want).Field(i).Name
		a, b := reflect.ValueOf(*want).Field(i).Interface(), reflect.ValueOf(*got).Field(i).Interface()
		if !reflect.DeepEqual(a, b) {
			t.Errorf("%s: was %+v, is %+v\n%s", name, a, b, out)
		}
	}
	return string(out)
}

// contractExample is the full example of the contract, section 3.
func contractExample(t *testing.T) string {
	t.Helper()
	data := beside.Read(t, "CONTRACT.md")
	block := regexp.MustCompile(`(?m)^    serial: OY-0142(.|\n)*?\n\n[A-Z]`).Find(data)
	if len(block) < 3000 {
		t.Fatalf("the example in the contract was not found: %d bytes", len(block))
	}
	text := block[:len(block)-3]
	return regexp.MustCompile(`(?m)^    `).ReplaceAllString(string(text), "")
}

func TestOwnersSpecSaysTheSame(t *testing.T) {
	out := sameButPrivate(t, []byte(contractExample(t)), &piece.Workshop{})
	for _, secret := range []string{"costs", "hours", "46", " rate:", "260", "118", "buyer:", "2026-10-02", "supplier", "#", "IMG_2050.jpg", "leave_out"} {
		if strings.Contains(out, secret) {
			t.Errorf("the owner's spec holds %q:\n%s", secret, out)
		}
	}
}

func TestOwnersSpecOfTheDemo(t *testing.T) {
	text, err := fs.ReadFile(testdata.Demo, "demo/workshop.yaml")
	if err != nil {
		t.Fatal(err)
	}
	w, _ := piece.ParseWorkshop("workshop.yaml", text)
	specs, err := fs.Glob(testdata.Demo, "demo/*/piece.yaml")
	if err != nil || len(specs) == 0 {
		t.Fatal(err, len(specs))
	}
	for _, name := range specs {
		t.Run(name, func(t *testing.T) {
			data, err := fs.ReadFile(testdata.Demo, name)
			if err != nil {
				t.Fatal(err)
			}
			sameButPrivate(t, data, w)
		})
	}
}

// Values that YAML would like to turn into something else.
func TestOwnersSpecKeepsValues(t *testing.T) {
	const spec = `serial: 0142
title: "Yes: a \"table\", 50 % #1"
kind: 'side table'
finished: 2026-01-02
story: |
  Two lines,
    one deeper: {not} [yaml] # no remark

  and a third after a gap.
found: >
  folded
  lines
mark: off   # a remark that names A. Buyer
top:
  outline: {length: 54 in, width: 1' 4 1/2"}
  thickness: 1¾ in
  wood: {species: wych-elm}
packing: {how: crate, legs: "off"}
delivery: {assembly: eight bolts, 5 mm key}
glue: hide-glue
materials: {use: glue, product: ~ , batch: 0012, supplier: hidden, chemistry: "null"}
log:
  - {date: 2027-01-01, did: "- oiled\n- waxed", materials: [no, "on", 0x1F, 1e3]}
photos:
  captions: {a.jpg: "* a star", b c.jpg: & so on}
  blends: {name: light, frames: [l-1.jpg, l-2.jpg]}
buyer: {name: A. Buyer}
`
	data := []byte(strings.ReplaceAll(strings.ReplaceAll(spec, " ~ ", " tilde ~ "), "b c.jpg: & so on", `b c.jpg: "& so on"`))
	_, findings := piece.ParsePiece("piece.yaml", data, piece.Defaults{})
	for _, f := range findings {
		if f.Rank == piece.Fault && f.Code != "spec.missing" {
			t.Logf("%d: %s", f.Line, f.Message)
		}
	}
	out := sameButPrivate(t, data, &piece.Workshop{Units: piece.Of(units.System("cm")), Currency: piece.Of("GBP")})
	for _, secret := range []string{"Buyer", "hidden", "remark that"} {
		if strings.Contains(out, secret) {
			t.Errorf("the owner's spec holds %q:\n%s", secret, out)
		}
	}
	if !strings.Contains(out, "units: cm") {
		t.Errorf("the workshop's units are not written in:\n%s", out)
	}
}

// Photos that the copy does not hold are not named in it.
func TestOwnersSpecNamesNoOtherPhotos(t *testing.T) {
	const spec = "serial: A\nphotos:\n  main: a.jpg\n  order: [a.jpg, packed.jpg]\n  views: {a.jpg: front, packed.jpg: packed}\n  captions: {receipt.jpg: what it cost}\n  turn: {receipt.jpg: 90, a.jpg: 90}\n  leave_out: [receipt.jpg]\n  blends:\n    - {name: l, frames: [a.jpg, receipt.jpg]}\ntranslations: {de: {captions: {a.jpg: vorn, receipt.jpg: Preis}}}\n"
	out, err := Spec("piece.yaml", []byte(spec), nil, func(name string) bool { return name == "a.jpg" })
	if err != nil {
		t.Fatal(err)
	}
	const want = "serial: A\nphotos:\n  main: a.jpg\n  order: [a.jpg]\n  views: {a.jpg: front}\n  turn: {a.jpg: 90}\ntranslations:\n  de:\n    captions: {a.jpg: vorn}\n"
	if string(out) != want {
		t.Errorf("got\n%s\nwant\n%s", out, want)
	}
}

// Whatever can be read as a spec reads back the same, but for what is private.
func FuzzRedact(f *testing.F) {
	specs, err := fs.Glob(testdata.Demo, "demo/*/piece.yaml")
	if err != nil {
		f.Fatal(err)
	}
	for _, name := range specs {
		data, err := fs.ReadFile(testdata.Demo, name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(data))
	}
	f.Add("serial: 0142\ntitle: |\n  a\n   b\nlog: {date: 2027-01-01, did: \"x\\ty\"}\n")
	f.Fuzz(func(t *testing.T, text string) {
		want, findings := piece.ParsePiece("piece.yaml", []byte(text), piece.Defaults{})
		for _, f := range findings {
			if f.Rank == piece.Fault && f.Code != "spec.missing" {
				return // such a piece is never sealed
			}
		}
		out, err := Spec("piece.yaml", []byte(text), nil, allPhotos)
		if err != nil {
			return
		}
		got, _ := piece.ParsePiece("piece.yaml", out, piece.Defaults{})
		if got.Costs != nil || got.Buyer != nil {
			t.Errorf("private matters in\n%s", out)
		}
		private(want)
		withoutPlaces(reflect.ValueOf(want).Elem())
		withoutPlaces(reflect.ValueOf(got).Elem())
		want.Top.At, got.Top.At = piece.Place{}, piece.Place{}
		if !reflect.DeepEqual(want, got) {
			t.Errorf("from\n%s\nto\n%s\nwas %+v\nis  %+v", text, out, want, got)
		}
	})
}
