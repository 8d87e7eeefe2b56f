package piece

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"slabfolio/listing/units"
)

// fieldTypes are the types that a key of a type may fill.
var fieldTypes = map[keyType][]reflect.Type{
	typeText:     {reflect.TypeFor[Value[string]]()},
	typeWord:     {reflect.TypeFor[Value[string]]()},
	typeSerial:   {reflect.TypeFor[Value[string]]()},
	typeCountry:  {reflect.TypeFor[Value[string]]()},
	typeCurrency: {reflect.TypeFor[Value[string]]()},
	typeFile:     {reflect.TypeFor[Value[string]]()},
	typeDate:     {reflect.TypeFor[Value[Date]]()},
	typeWhole:    {reflect.TypeFor[Value[int]]()},
	typeDays:     {reflect.TypeFor[Value[int]]()},
	typeNumber:   {reflect.TypeFor[Value[float64]]()},
	typeYesNo:    {reflect.TypeFor[Value[bool]](), reflect.TypeFor[bool]()},
	typeSystem:   {reflect.TypeFor[Value[units.System]]()},
	typeLength:   {reflect.TypeFor[Value[units.Length]]()},
	typeMass:     {reflect.TypeFor[Value[units.Mass]]()},
	typeVolume:   {reflect.TypeFor[Value[units.Volume]]()},
	typeAmount:   {reflect.TypeFor[Amount]()},
	typeDensity:  {reflect.TypeFor[Value[units.Density]]()},
	typePercent:  {reflect.TypeFor[Value[units.Percent]]()},
	typeTemp:     {reflect.TypeFor[Value[units.Celsius]]()},
	typeSizes:    {reflect.TypeFor[[]units.Length]()},
	typePoints:   {reflect.TypeFor[[]Point]()},
	typeSpots:    {reflect.TypeFor[[][2]float64]()},
	typeBox:      {reflect.TypeFor[Value[Box]]()},
}

// Struct fields and key table agree both ways: every key fills a field of its
// type, and every field is filled by a key.
func TestKeysAndFieldsAgree(t *testing.T) {
	unfilled := map[string]bool{ // filled by other means than a key
		"Piece.Dir": true, "Piece.Root": true, "Piece.Outdoors": true, "Workshop.Dir": true, "Workshop.Text": true, "Section.Form": true, "Fixing.Text": true,
	}
	var walk func(keys []Key, typ reflect.Type, path string) map[string]bool
	walk = func(keys []Key, typ reflect.Type, path string) map[string]bool {
		filled := map[string]bool{}
		for i := range keys {
			k := &keys[i]
			where := KeyPath(path, k.Name)
			if k.Field == "" {
				for name := range walk(k.Keys, typ, where) {
					filled[name] = true
				}
				continue
			}
			f, ok := typ.FieldByName(k.Field)
			if !ok {
				t.Errorf("%s fills %s.%s, which does not exist", where, typ.Name(), k.Field)
				continue
			}
			if filled[k.Field] && k.Type != typeSizes {
				t.Errorf("%s fills %s.%s, which another key fills as well", where, typ.Name(), k.Field)
			}
			filled[k.Field] = true
			inner := f.Type
			if k.Short != nil && k.Type != typeGroup { // a word in place of the mapping
				short, ok := typ.FieldByName(k.Short.Field)
				if !ok || !slices.Contains(fieldTypes[k.Short.Type], short.Type) {
					t.Errorf("%s, short, fills %s.%s", where, typ.Name(), k.Short.Field)
				}
				filled[k.Short.Field] = true
			}
			switch k.Many {
			case byFileName, byLanguage:
				if inner.Kind() != reflect.Map {
					t.Errorf("%s goes by file name, but %s is a %s", where, k.Field, inner)
					continue
				}
				inner = inner.Elem()
			case oneOrList:
				if inner.Kind() != reflect.Slice {
					t.Errorf("%s may be a list, but %s is a %s", where, k.Field, inner)
					continue
				}
				inner = inner.Elem()
			}
			if k.Type == typeGroup {
				if inner.Kind() == reflect.Pointer {
					inner = inner.Elem()
				}
				all := walk(k.Keys, inner, where)
				if k.Short != nil {
					all[k.Short.Field] = true
				}
				missingFields(t, inner, all, unfilled)
				continue
			}
			if !slices.Contains(fieldTypes[k.Type], inner) {
				t.Errorf("%s fills %s.%s, whose type is %s", where, typ.Name(), k.Field, inner)
			}
		}
		return filled
	}
	for _, top := range []struct {
		keys []Key
		typ  reflect.Type
	}{{pieceKeys, reflect.TypeFor[Piece]()}, {workshopKeys, reflect.TypeFor[Workshop]()}} {
		missingFields(t, top.typ, walk(top.keys, top.typ, ""), unfilled)
	}
}

func missingFields(t *testing.T, typ reflect.Type, filled, unfilled map[string]bool) {
	t.Helper()
	for f := range typ.Fields() {
		if f.Name == "At" && f.Type == reflect.TypeFor[Place]() || unfilled[typ.Name()+"."+f.Name] {
			continue
		}
		if !filled[f.Name] {
			t.Errorf("no key fills %s.%s", typ.Name(), f.Name)
		}
	}
}

// Every key has a help sentence of the right form, an example and, for words,
// words; limits are in order.
func TestKeysAreComplete(t *testing.T) {
	var walk func(keys []Key, path string)
	walk = func(keys []Key, path string) {
		seen := map[string]bool{}
		for _, k := range keys {
			where := KeyPath(path, k.Name)
			switch {
			case seen[k.Name]:
				t.Errorf("%s stands in the table twice", where)
			case k.Reader == unsaid:
				t.Errorf("%s does not say who may read it", where)
			case k.Help == "" || strings.HasSuffix(k.Help, "."):
				t.Errorf("%s: help %q", where, k.Help)
			case k.Type != typeGroup && k.Example == "":
				t.Errorf("%s has no example", where)
			case k.Type == typeGroup && len(k.Keys) == 0:
				t.Errorf("%s has no keys", where)
			case k.Type == typeWord && len(k.Words) == 0:
				t.Errorf("%s has no words", where)
			case k.Max != 0 && k.Max < k.Min:
				t.Errorf("%s: limits %v to %v", where, k.Min, k.Max)
			case k.Count[1] < k.Count[0]:
				t.Errorf("%s: counts %v", where, k.Count)
			}
			seen[k.Name] = true
			walk(k.Keys, where)
		}
	}
	walk(pieceKeys, "")
	walk(workshopKeys, "")
}

// The quantities of the table all have limits, so that a table of 4 km is a
// fault wherever it is written.
func TestQuantitiesHaveLimits(t *testing.T) {
	for _, k := range allKeys(pieceKeys, "") {
		switch k.key.Type {
		case typeLength, typeMass, typeVolume, typeAmount, typeDensity, typePercent, typeSizes, typePoints, typeWhole, typeNumber:
			if k.key.Max == 0 {
				t.Errorf("%s has no upper limit", k.path)
			}
		}
	}
}

type pathKey struct {
	path string
	key  Key
}

func allKeys(keys []Key, path string) []pathKey {
	var all []pathKey
	for _, k := range keys {
		where := KeyPath(path, k.Name)
		all = append(all, pathKey{where, k})
		all = append(all, allKeys(k.Keys, where)...)
	}
	return all
}

// example writes keys with their examples as YAML. Of keys that cannot stand
// together, the named ones are written.
func example(keys []Key, indent string, leave map[string]bool, path string) string {
	var b strings.Builder
	for _, k := range keys {
		where := KeyPath(path, k.Name)
		if leave[where] {
			continue
		}
		if k.Type != typeGroup {
			fmt.Fprintf(&b, "%s%s: %s\n", indent, k.Name, strings.ReplaceAll(k.Example, "\n", "\n"+indent))
			continue
		}
		fmt.Fprintf(&b, "%s%s:\n", indent, k.Name)
		inner := example(k.Keys, indent+"    ", leave, where)
		if k.Many == byLanguage {
			inner = indent + "  de:\n" + inner
		}
		if k.Many == oneOrList {
			inner = indent + "  - " + strings.TrimPrefix(inner, indent+"    ")
		}
		b.WriteString(inner)
	}
	return b.String()
}

// leftOfWays are the keys to leave out for each way of saying an outline and of
// saying a section.
func leftOfWays(n int) map[string]bool {
	leave := map[string]bool{}
	for _, g := range []struct {
		path string
		keys []Key
		ways []way
	}{{"top.outline", find(topKey.Keys, "outline").Keys, outlineWays}, {"base.sections", sectionKeys("box"), sectionWays}} {
		w := g.ways[n%len(g.ways)]
		for _, k := range g.keys {
			if !slices.Contains(w.Need, k.Name) && !slices.Contains(w.May, k.Name) {
				leave[KeyPath(g.path, k.Name)] = true
			}
		}
	}
	return leave
}

// The examples of the table, all of them at once, make a spec without a fault,
// in every way of saying the outline, and every one of them arrives.
func TestExamplesParse(t *testing.T) {
	for w := range outlineWays {
		text := example(pieceKeys, "", leftOfWays(w), "")
		p, findings := ParsePiece("piece.yaml", []byte(text), Defaults{})
		for _, f := range findings {
			if f.Code == "spec.starter" {
				continue // they are the examples
			}
			t.Errorf("way %d: %d:%d: %s: %s; %s\n%s", w, f.Line, f.Column, f.Rank, f.Message, f.Remedy, f.Snippet)
		}
		for _, k := range allKeys(pieceKeys, "") {
			if k.key.Type == typeGroup || leftOfWays(w)[k.path] || k.key.Field == "" {
				continue
			}
			if !arrived(reflect.ValueOf(p).Elem(), pieceKeys, strings.Split(k.path, ".")) {
				t.Errorf("way %d: the example of %s did not arrive", w, k.path)
			}
		}
	}
	_, findings := ParseWorkshop("workshop.yaml", []byte(example(workshopKeys, "", nil, "")))
	for _, f := range findings {
		if f.Code == "spec.starter" {
			continue
		}
		t.Errorf("workshop: %d:%d: %s; %s", f.Line, f.Column, f.Message, f.Remedy)
	}
}

// arrived reports whether the value at a path of keys is set.
func arrived(v reflect.Value, keys []Key, path []string) bool {
	for v.Kind() == reflect.Slice || v.Kind() == reflect.Pointer || v.Kind() == reflect.Map && len(path) > 0 {
		if v.Kind() == reflect.Map {
			if v.Len() == 0 {
				return false
			}
			v = v.MapIndex(v.MapKeys()[0])
			continue
		}
		if v.Kind() == reflect.Slice {
			if v.Len() == 0 {
				return false
			}
			v = v.Index(0)
			continue
		}
		if v.IsNil() {
			return false
		}
		v = v.Elem()
	}
	if len(path) == 0 {
		return !v.IsZero()
	}
	k := find(keys, path[0])
	if k == nil {
		return false
	}
	if k.Field != "" {
		v = v.FieldByName(k.Field)
	}
	if len(path) == 1 && k.Type != typeGroup {
		return !v.IsZero()
	}
	return arrived(v, k.Keys, path[1:])
}

// Who may read a key is said once, in the table. A key below one that is the
// maker's alone is the maker's as well, and what nobody knows is.
func TestReaderOf(t *testing.T) {
	for path, want := range map[string]Reader{
		"serial": Anyone, "top.wood.origin.country": Anyone, "photos.captions.a.jpg": Anyone, "photos.blends.strength.a.b.jpg": Anyone, "translations.de.title": Anyone, "materials": Owner, "materials.batch": Owner, "log.did": Owner,
		"materials.supplier": Maker, "costs": Maker, "costs.items.for": Maker, "buyer.name": Maker, "photos.leave_out": Maker, "no.such": Maker, "top.nothing": Maker,
	} {
		if got := ReaderOf(path); got != want {
			t.Errorf("ReaderOf(%q) = %d, want %d", path, got, want)
		}
	}
	want := []string{"materials.supplier", "buyer", "buyer.name", "buyer.delivered", "costs", "costs.hours", "costs.rate", "costs.items", "costs.items.for", "costs.items.amount", "costs.slabs", "costs.slabs.size", "costs.slabs.count", "photos.leave_out"}
	var maker []string
	for _, k := range allKeys(pieceKeys, "") {
		if k.key.Reader == Maker {
			maker = append(maker, k.path)
		}
	}
	if diff := cmp.Diff(want, maker); diff != "" {
		t.Errorf("what the maker alone may read (-want +got):\n%s", diff)
	}
	for _, k := range allKeys(pieceKeys, "") {
		if ReaderOf(k.path) < k.key.Reader {
			t.Errorf("%s says more than its group does", k.path)
		}
	}
}
