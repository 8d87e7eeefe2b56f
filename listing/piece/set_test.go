package piece

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"go.yaml.in/yaml/v3"

	"slabfolio/listing/piece/yamltext"
)

// said is what an independent reader of YAML (go.yaml.in/yaml/v3) has for each
// value, by its path, without places.
func saidByAnother(t *testing.T, data []byte) map[string]string {
	t.Helper()
	var doc yaml.Node
	if err := yaml.Unmarshal(data, &doc); err != nil {
		t.Errorf("the other reader: %v", err)
		return nil
	}
	all := map[string]string{}
	var walk func(n *yaml.Node, path string)
	walk = func(n *yaml.Node, path string) {
		switch n.Kind {
		case yaml.DocumentNode:
			walk(n.Content[0], path)
		case yaml.MappingNode:
			for i := 0; i+1 < len(n.Content); i += 2 {
				walk(n.Content[i+1], path+"."+n.Content[i].Value)
			}
		case yaml.SequenceNode:
			for i, c := range n.Content {
				walk(c, fmt.Sprintf("%s[%d]", path, i+1))
			}
		default:
			all[path] = n.Value
		}
	}
	walk(&doc, "")
	return all
}

// ways lists the ways to all single values of a tree that stand behind a key.
func allWays(t *yamltext.Text, n *yamltext.Node, at []yamltext.Step, path string, visit func(way []yamltext.Step, path string)) {
	for _, p := range t.Rejoin(n.Pairs, func(string) bool { return false }) {
		step := yamltext.Step{Key: p.Key}
		way, where := append(append([]yamltext.Step{}, at...), step), path+"."+p.Key
		switch p.Value.Shape {
		case yamltext.Scalar, yamltext.Empty:
			visit(way, where)
		case yamltext.Mapping:
			allWays(t, p.Value, way, where, visit)
		case yamltext.List:
			for i, item := range p.Value.Items {
				way := append([]yamltext.Step{}, way...)
				way[len(way)-1].Entry = i + 1
				if item.Shape == yamltext.Mapping {
					allWays(t, item, way, fmt.Sprintf("%s[%d]", where, i+1), visit)
				} else if item.Shape == yamltext.Scalar {
					visit(way, fmt.Sprintf("%s[%d]", where, i+1))
				}
			}
		}
	}
}

// eachForm hands out specs of every kind, those of more too, with each way of ending
// lines and beginning a file: as bytes, as read, and as another reader of YAML has them.
func eachForm(t *testing.T, more map[string]string, see func(name string, data []byte, read *yamltext.Text, before map[string]string)) {
	t.Helper()
	full := example(pieceKeys, "", leftOfWays(0), "")
	files := map[string]string{"full": full, "starter": string(Starter("console table", "OY-0320", words(t).Say)), "remarks": remarks(full)}
	maps.Copy(files, more)
	demo, err := filepath.Glob("../../testdata/demo/*/piece.yaml")
	if err != nil || len(demo) == 0 {
		t.Fatal(err, len(demo))
	}
	for _, name := range demo {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		files[name] = string(data)
	}
	for name, text := range files {
		for _, form := range []string{text, strings.ReplaceAll(text, "\n", "\r\n"), "\ufeff" + strings.TrimSuffix(text, "\n")} {
			data := []byte(form)
			read, err := yamltext.Read(t.Context(), "piece.yaml", data)
			if err != nil || len(read.Slips) > 0 {
				t.Fatalf("%s: %v %+v", name, err, read.Slips)
			}
			see(name, data, read, saidByAnother(t, data))
		}
	}
}

// Whatever value of whatever spec is set, to texts easy and hard to write, that
// value is the only one that another reader of YAML finds changed, and every byte
// outside it is as it was.
func TestSetChangesNothingElse(t *testing.T) {
	values := []string{"plain", "Five years: joints, resin", `quotes " and ' and \`, "# no remark", "- no list", "{no, [braces", "“curly” text", "off", "0012", "two\nlines", "ünïcode 漢字", "* & ! @ %", "ends in a colon:", "'", `"`, "x #y"}
	made, refused := 0, 0
	eachForm(t, map[string]string{"oddities": oddities}, func(name string, data []byte, read *yamltext.Text, before map[string]string) {
		n := 0
		allWays(read, read.Root, nil, "", func(way []yamltext.Step, path string) {
			value := values[n%len(values)]
			n++
			c, err := yamltext.Set(t.Context(), data, way, value, false, func(string) bool { return false })
			if err != nil {
				refused++
				if !errors.Is(err, yamltext.ErrRemarks) {
					t.Errorf("%s: %s = %q: %v", name, path, value, err)
				}
				return
			}
			made++
			after := saidByAnother(t, c.Data)
			if after == nil {
				t.Errorf("%s: %s = %q: %q became %q", name, path, value, c.Before, c.After)
				return
			}
			for p, v := range after {
				if want, ok := before[p]; p == path && v != value || p != path && (!ok || v != want) {
					t.Errorf("%s: after %s = %q, %s is %q, was %q", name, path, value, p, v, want)
				}
			}
			joined := 0 // what the other reader takes for a key, where a comma belongs to the value
			for p, v := range before {
				if _, ok := after[p]; !ok && v == "" {
					joined++
				}
			}
			if len(after) != len(before)-joined {
				t.Errorf("%s: after %s = %q there are %d values, were %d", name, path, value, len(after), len(before))
			}
			first := 0
			for first < len(data) && first < len(c.Data) && data[first] == c.Data[first] {
				first++
			}
			last := 0
			for last < len(data)-first && last < len(c.Data)-first && data[len(data)-1-last] == c.Data[len(c.Data)-1-last] {
				last++
			}
			if lines := bytes.Count(data[first:len(data)-last], []byte("\n")); lines > 1 && !strings.Contains(path, "story") && name != "oddities" && !strings.Contains(name, "demo") {
				t.Errorf("%s: %s = %q changed %d lines", name, path, value, lines+1)
			}
		})
	})
	t.Logf("%d values set, %d not for remarks among their lines", made, refused)
	if made < 1000 || refused > made/50 {
		t.Errorf("%d values set, %d refused", made, refused)
	}
}

// What is added stands at the end of its group, as the group is written.
func TestSetAdds(t *testing.T) {
	for _, c := range []struct{ file, assignment, want string }{
		{"serial: A\r\ntitle: B\r\n", "availability=sold", "serial: A\r\ntitle: B\r\navailability: sold\r\n"},
		{"serial: A", "mark=x", "serial: A\nmark: x"},
		{"serial: A\n\n# the end\n", "buyer.name=x: y", "serial: A\nbuyer:\n  name: \"x: y\"\n\n# the end\n"},
		{"price: {amount: 5}\n", "price.currency=GBP", "price: {amount: 5, currency: GBP}\n"},
		{"price: { amount: 5 }   # net\n", "price.currency=GBP", "price: { amount: 5, currency: GBP }   # net\n"},
		{"price: {amount: 1890, note: collected, or delivered}\n", "price.amount=5", "price: {amount: 5, note: collected, or delivered}\n"}, // the comma moves
		{"price: {}\n", "price.amount=5", "price: {amount: 5}\n"},
		{"price:\n    amount: 5   # net\ntitle: x\n", "price.note=collected", "price:\n    amount: 5   # net\n    note: collected\ntitle: x\n"},
		{"price:\ntitle: x\n", "price.amount=5", "price:\n  amount: 5\ntitle: x\n"},
		{"mark:   # where\n", "mark=left", "mark: left   # where\n"},
		{"top: {wood: {species: elm}}\n", "top.wood.origin.country=GB", "top: {wood: {species: elm, origin: {country: GB}}}\n"},
		{"top:\n  wood:\n    - species: elm\n      cut: flat-sawn\n", "top.wood.origin.country=GB", "top:\n  wood:\n    - species: elm\n      cut: flat-sawn\n      origin:\n        country: GB\n"},
		{"glue: pva-d3\n", "glue=[pva-d3, epoxy]", "glue: [pva-d3, epoxy]\n"},
		{"glue:\n  - a\n  - b\ntitle: x\n", "glue=epoxy", "glue: epoxy\ntitle: x\n"},
		{"photos: {captions: {a.jpg: The staple, grown over}}\n", "photos.captions.a.jpg=New", "photos: {captions: {a.jpg: New}}\n"},
		{"photos: {captions: {a.jpg: x}}\n", "photos.captions.b c.jpg=z", "photos: {captions: {a.jpg: x, b c.jpg: z}}\n"},
		{"packing: {legs: 'on'}\n", "packing.legs=off", "packing: {legs: 'off'}\n"},
		{"materials: [{use: a, show: no}]\n", "materials.show=yes", "materials: [{use: a, show: yes}]\n"},
		{"translations:\n  de: {title: Konsole}\n", "translations.de.story=Ein Absatz, kurz", "translations:\n  de: {title: Konsole, story: \"Ein Absatz, kurz\"}\n"},
		{"story: |\n  one\n\n  two\n\ntitle: x\n", "story=one line", "story: one line\n\ntitle: x\n"},
		{"# only a remark\n", "serial=A", "# only a remark\nserial: A\n"},
		{"title: x\n", "title=[untitled]", "title: \"[untitled]\"\n"},
		{"title: x\n", "title={untitled}", "title: \"{untitled}\"\n"},
		{"glue:\n  - a\n  - b\n", "glue[2]=[c]", "glue:\n  - a\n  - \"[c]\"\n"},
		{"---\nserial: A\n...\n", "mark=x", "---\nserial: A\nmark: x\n...\n"},
	} {
		a, err := parseAssignment(c.assignment)
		if err != nil {
			t.Errorf("%s: %v", c.assignment, err)
			continue
		}
		got, err := yamltext.Set(t.Context(), []byte(c.file), a.way, a.Value, a.raw, func(key string) bool { return anyKey(pieceKeys, key) })
		if err != nil {
			t.Errorf("%q with %s: %v", c.file, c.assignment, err)
		} else if string(got.Data) != c.want {
			t.Errorf("%q with %s:\n%q, want\n%q", c.file, c.assignment, got.Data, c.want)
		}
	}
}

// What cannot be set is said, and why.
func TestSetRefuses(t *testing.T) {
	for _, c := range []struct{ file, assignment, says string }{
		{"glue:\n  - a   # first\n  - b\n", "glue=epoxy", "remarks"},
		{"base: {fixing: eight bolts}\n", "base.fixing.bolt=M8", "one value stands where it needs keys"},
		{"top: {wood: [{species: elm}, {species: oak}]}\n", "top.wood.cut=flat-sawn", "top.wood[1].cut"},
		{"top: {wood: [{species: elm}]}\n", "top.wood[3].cut=flat-sawn", "no entry"},
		{"serial A\n", "mark=x", "slips"},
		{"serial: A\n", "glue=[a", "closing bracket"},
		{"serial: A\n", "glue=[a]]", "without changing something else"},
		{"serial: A\n", "glue=[a,\nb]", "several lines"},
		{"serial: A\n", "glue=[a] # x", "closing bracket"},
		{"serial: A\n", "top.outline.points=5", "a list in square brackets"},
		{"serial: A\n", "nosuch=5", "not a key"},
		{"serial: A\n", "species=elm", `did you mean "top.wood"`},
		{"serial: A\n", "thickness=2", "top.thickness"},
		{"serial: A\n", "title[2]=x", "no list"},
		{"serial: A\n", "parts[0].name=x", "counted from 1"},
		{"serial: A\n", "=x", "no key before"},
		{"serial: A\ntitle: one\nkind: bench\ntitle: two\n", "title=three", "title stands here twice: the first is on line 2, and this one on line 4"},
	} {
		a, err := parseAssignment(c.assignment)
		if err == nil {
			_, _, _, err = setIn(t.Context(), "piece.yaml", []byte(c.file), Defaults{}, []*Assignment{a})
		}
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q with %s: %v, want %q", c.file, c.assignment, err, c.says)
		}
	}
	a, _ := parseAssignment("top.thickness=4 km")
	after, _, findings, err := setIn(t.Context(), "piece.yaml", []byte(specBase), Defaults{}, []*Assignment{a})
	if after != nil || err != nil || len(findings) != 1 || findings[0].Rank != Fault || findings[0].Line != 7 {
		t.Errorf("a table of 4 km: %v, %v", findings, err)
	}
}

// Another unit for bare figures makes other sizes, which is said; of sizes with a unit
// there is nothing to say.
func TestSetUnitsTellsOfBareSizes(t *testing.T) {
	const bare = "serial: A\nunits: cm\ntop:\n  outline: {length: 40, width: 20}\n  thickness: 2\n"
	said := func(text string, change func() (*Assignment, error)) string {
		a, err := change()
		if err != nil {
			t.Fatal(err)
		}
		_, _, findings, err := setIn(t.Context(), "piece.yaml", []byte(text), Defaults{}, []*Assignment{a})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range findings {
			if f.Code == "set.units" {
				return f.Message
			}
		}
		return ""
	}
	inches := func() (*Assignment, error) { return parseAssignment("units=in") }
	if m := said(bare, inches); !strings.Contains(m, "what was 40 cm becomes 101.6 cm") {
		t.Errorf("cm to in: %q", m)
	}
	if m := said(bare, func() (*Assignment, error) { return ParseRemoval("units") }); m == "" {
		t.Error("units taken out: nothing is said")
	}
	if m := said(strings.NewReplacer("40", "40 cm", "20", "20 cm", ": 2\n", ": 2 cm\n").Replace(bare), inches); m != "" {
		t.Errorf("sizes with their unit: %q", m)
	}
}
