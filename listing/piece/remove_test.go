package piece

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"strconv"
	"strings"
	"testing"

	"slabfolio/listing/piece/yamltext"
)

// leftWithout is what is left of values by their paths when one goes: entries behind it move
// up, and what is left with nothing goes too.
func leftWithout(all map[string]string, path string) map[string]string {
	left := map[string]string{}
	for p, v := range all {
		if p != path && !strings.HasPrefix(p, path+".") && !strings.HasPrefix(p, path+"[") {
			left[p] = v
		}
	}
	open, outer := strings.LastIndexByte(path, '['), path[:strings.LastIndexAny(path, ".[")]
	if strings.HasSuffix(path, "]") {
		n, _ := strconv.Atoi(strings.TrimSuffix(path[open+1:], "]"))
		moved := map[string]string{}
		for p, v := range left {
			if rest, ok := strings.CutPrefix(p, outer+"["); ok {
				number, behind, _ := strings.Cut(rest, "]")
				if k, _ := strconv.Atoi(number); k > n {
					p = fmt.Sprintf("%s[%d]%s", outer, k-1, behind)
				}
			}
			moved[p] = v
		}
		left = moved
	}
	for p := range left {
		if outer == "" || strings.HasPrefix(p, outer+".") || strings.HasPrefix(p, outer+"[") {
			return left
		}
	}
	return leftWithout(left, outer)
}

// Whatever is taken out of whatever spec, another reader of YAML (go.yaml.in/yaml/v3)
// misses that and nothing else, and no remark is lost.
func TestRemoveTakesNothingElse(t *testing.T) {
	made, refused := 0, 0
	eachForm(t, nil, func(name string, data []byte, read *yamltext.Text, before map[string]string) {
		allWays(read, read.Root, nil, "", func(way []yamltext.Step, path string) {
			if _, there := before[path]; !there {
				return // a value with a comma in brackets, which the other reader parts
			}
			c, err := yamltext.Remove(t.Context(), data, way, func(string) bool { return false })
			if err != nil {
				below := name == "remarks" && path == ".found" && errors.Is(err, yamltext.ErrNotSound) // an indented remark below it would come to stand in the story above it
				if refused++; !below && !errors.Is(err, yamltext.ErrRemarks) {
					t.Errorf("%s: %s: %v", name, path, err)
				}
				return
			}
			made++
			want, got := leftWithout(before, path), saidByAnother(t, c.Data)
			for p, v := range want {
				if v == "" { // what it takes for a key where a comma belongs to the value
					delete(want, p)
					delete(got, p)
				}
			}
			if !maps.Equal(got, want) {
				t.Errorf("%s: without %s: %q became %q", name, path, c.Before, c.After)
			}
			if was, is := bytes.Count(data, []byte("# ")), bytes.Count(c.Data, []byte("# ")); was != is {
				t.Errorf("%s: without %s there are %d remarks, were %d", name, path, is, was)
			}
		})
	})
	t.Logf("%d values taken out, %d not for remarks among their lines", made, refused)
	if made < 1000 || refused > made/20 {
		t.Errorf("%d values taken out, %d refused", made, refused)
	}
}

// How what is left stands.
func TestRemoveLeavesTheRest(t *testing.T) {
	for _, c := range []struct{ file, path, want string }{
		{"serial: A\r\nseats: 2\r\ntitle: B\r\n", "seats", "serial: A\r\ntitle: B\r\n"},
		{"serial: A\nseats: 2", "seats", "serial: A"},
		{"seats: 2   # as I count\ntitle: x\n", "seats", "# as I count\ntitle: x\n"},
		{"price: {amount: 5, currency: GBP}   # net\n", "price.currency", "price: {amount: 5}   # net\n"},
		{"title: x\nprice: {amount: 5}   # net\n", "price.amount", "title: x\n# net\n"},
		{"title: x\nprice:\n  amount: 5\nmark: y\n", "price.amount", "title: x\nmark: y\n"},
		{"glue:\n  - a   # first\n  - b\n", "glue[2]", "glue:\n  - a   # first\n"},
		{"top:\n  wood:\n    - species: elm\n      cut: flat-sawn\n", "top.wood.cut", "top:\n  wood:\n    - species: elm\n"},
		{"top:\n  wood:\n    - cut: flat-sawn\n      species: elm\n", "top.wood.cut", "top:\n  wood:\n    - species: elm\n"},
		{"story: |\n  one\n\n  two # three\n\ntitle: x\n", "story", "\ntitle: x\n"},
		{"title: x\n", "seats", "title: x\n"},
		{"title: x\n", "finish.coats", "title: x\n"},
	} {
		a, err := ParseRemoval(c.path)
		if err != nil {
			t.Errorf("%s: %v", c.path, err)
			continue
		}
		got, err := a.edit(t.Context(), []byte(c.file), func(key string) bool { return anyKey(pieceKeys, key) })
		if err != nil {
			t.Errorf("%q without %s: %v", c.file, c.path, err)
		} else if string(got.Data) != c.want {
			t.Errorf("%q without %s:\n%q, want\n%q", c.file, c.path, got.Data, c.want)
		}
	}
	for _, c := range []struct{ file, path, says string }{
		{"glue:\n  - a   # first\n  - b\ntitle: x\n", "glue", "remarks"},
		{"top: {wood: [{species: elm}, {species: oak}]}\n", "top.wood.species", "top.wood[1].species"},
		{"glue: [a, b]\n", "glue[3]", "no entry"},
		{"serial A\n", "mark", "slips"},
		{"serial: A\n", "serial", "without changing something else"},
		{"serial: A\n", "seats=2", "the key alone"},
		{"serial: A\n", " ", "no key"},
		{"serial: A\n", "seat", `did you mean "seats"`},
	} {
		a, err := ParseRemoval(c.path)
		if err == nil {
			_, _, _, err = setIn(t.Context(), "piece.yaml", []byte(c.file), Defaults{}, []*Assignment{a})
		}
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q without %s: %v, want %q", c.file, c.path, err, c.says)
		}
	}
}
