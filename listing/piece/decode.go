package piece

import (
	"fmt"
	"reflect"
	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/spelling"
	"slices"
	"strings"

	"slabfolio/listing/units"
)

// A decoder fills structs from nodes by the key table.
type decoder struct {
	s       *source
	units   units.System // for bare lengths
	root    []Key        // the whole table, for hints
	blanked []string     // lines that could not be read
	today   Date         // zero when it is not known
}

// fault records a fault at a node.
func (d *decoder) fault(code string, at Place, message, remedy string) {
	d.s.add(Fault, code, at, message, remedy)
}

// group fills the struct v from a mapping. path names the group in messages and
// is empty at the top.
func (d *decoder) group(n *yamltext.Node, group *Key, v reflect.Value, path string, at Place) {
	keys := group.Keys
	if n.Shape != yamltext.Mapping {
		remedy := "write it like this: " + groupExample(keys)
		if group.Name != "" && !strings.HasSuffix(path, "]") {
			remedy = "write it like this: " + group.Name + ": " + groupExample(keys)
		}
		if meant := d.wordedAsGroup(n.Text, group); n.Shape == yamltext.Scalar && meant != "" {
			remedy = strings.Replace(remedy, groupExample(keys), meant, 1)
		}
		if n.Shape == yamltext.Scalar && !group.Required && slices.Contains(noneWords, strings.ToLower(n.Text)) {
			remedy = "take the line out when there is none"
		}
		d.fault("spec.type", n.At, fmt.Sprintf("%s holds %s, but it is made of named parts", name(path), kindWord(n)), remedy)
		return
	}
	seen, have := map[string]Place{}, map[string]bool{}
	for _, p := range n.Pairs {
		have[p.Key] = true
	}
	n = d.oneLevelUp(n, keys, path)
	for _, p := range d.s.Rejoin(n.Pairs, func(key string) bool {
		return find(keys, key) != nil || d.keyWithoutSpace(key) || d.keyWithoutColon(have, keys, key) != nil
	}) {
		if first, ok := seen[p.Key]; ok {
			d.fault("spec.duplicate-key", p.At, fmt.Sprintf("%s stands here twice: the first is on line %d", KeyPath(path, p.Key), first.Line), "keep one of the two")
			continue
		}
		seen[p.Key] = p.At
		key := find(keys, p.Key)
		if k := d.keyWithoutColon(have, keys, p.Key); key == nil && k != nil && p.Value.Shape == yamltext.Empty {
			d.blanked = append(d.blanked, k.Name)
			d.fault("spec.syntax", p.At, fmt.Sprintf("there is no colon behind %s", k.Name), "write "+k.Name+": "+strings.TrimPrefix(p.Key, k.Name+" "))
			continue
		}
		if key == nil {
			d.unknown(p, keys, path)
			continue
		}
		if next := swallowedKey(p.Value, keys); next != "" {
			d.blanked = append(d.blanked, next)
			d.fault("spec.syntax", p.Value.At, fmt.Sprintf("a comma is missing before %s:", next), fmt.Sprintf("write %s: …, %s: …", p.Key, next))
			continue
		}
		d.key(p, key, v, KeyPath(path, p.Key))
	}
	for i := range keys {
		k := &keys[i]
		if place, ok := seen[k.Name]; k.Required && (!ok || emptyValue(n, k.Name)) && !d.lost(k.Name) {
			if !ok {
				place = at
			}
			d.fault("spec.missing", place, fmt.Sprintf("%s is missing", KeyPath(path, k.Name)), k.remedy())
		}
	}
	if len(group.Ways) > 0 {
		d.checkWays(n, group, path, at)
	}
}

// noneWords are what makers write where there is nothing.
var noneWords = []string{"none", "no", "nothing", "n/a", "na", "nil", "null", "~", "-", "0", "false"}

// key fills the field of one key.
func (d *decoder) key(p yamltext.Pair, k *Key, v reflect.Value, path string) {
	field := v
	if k.Field != "" {
		field = v.FieldByName(k.Field)
	}
	if p.Value.Nothing() {
		if !k.Required {
			remedy, what := "fill it in, or take the line out", "nothing behind it"
			if p.Value.Shape != yamltext.Empty {
				what = p.Value.Text + " behind it, which is nothing,"
			}
			if _, remark, ok := strings.Cut(d.s.Line(p.At.Line), ": #"); ok && remark != "" && remark[0] != ' ' {
				remedy = "a # begins a remark: put a text that begins with it in quotes"
			}
			d.s.add(Note, "spec.empty", p.At, fmt.Sprintf("%s has %s and counts as left out", path, what), remedy)
		}
		return
	}
	switch {
	case k.Many == byFileName && k.Short != nil && p.Value.Shape == yamltext.Scalar:
		d.value(p.Value, k.Short, v, v.FieldByName(k.Short.Field), path)
	case k.Many == byFileName:
		d.byFile(p, k, field, path)
	case k.Many == byLanguage:
		d.byLanguage(p, k, field, path)
	case k.Type == typeGroup && k.Many == oneOrList:
		d.groups(p, k, field, path)
	case k.Type == typeGroup:
		d.single(p.Value, k, field, path, p.At)
	case k.Many == oneOrList:
		d.values(p, k, field, path)
	default:
		d.value(p.Value, k, v, field, path)
	}
}

// single fills a struct, or a pointer to one, or the struct around it. It returns
// false, and fills nothing, when the node is no mapping.
func (d *decoder) single(n *yamltext.Node, k *Key, field reflect.Value, path string, at Place) bool {
	if n.Shape != yamltext.Mapping && (k.Short == nil || n.Shape != yamltext.Scalar) {
		d.group(n, k, reflect.Value{}, path, at)
		return false
	}
	if field.Kind() == reflect.Pointer {
		field.Set(reflect.New(field.Type().Elem()))
		field = field.Elem()
	}
	if k.Field != "" || k.Many == oneOrList {
		setAt(field, at)
	}
	if k.Short != nil && n.Shape == yamltext.Scalar {
		d.value(n, k.Short, field, field.FieldByName(k.Short.Field), path)
		return true
	}
	d.group(n, k, field, path, at)
	return true
}

// groups fills a slice of structs from a list of mappings, or from one alone.
func (d *decoder) groups(p yamltext.Pair, k *Key, field reflect.Value, path string) {
	d.each(p, k, field, path, "fill it in, or take the hyphen out", func(n *yamltext.Node, e reflect.Value, where string) bool {
		return d.single(n, k, e, where, n.At)
	})
}

// values fills a slice of Value from a list, or from one value alone.
func (d *decoder) values(p yamltext.Pair, k *Key, field reflect.Value, path string) {
	d.each(p, k, field, path, "fill it in, or take it out of the list", func(n *yamltext.Node, e reflect.Value, where string) bool {
		d.value(n, k, reflect.Value{}, e, where)
		return !e.IsZero()
	})
}

// each fills a slice with what fill makes of every entry of a list, or of the one
// value that stands for a list; an entry for which it returns false is left out.
func (d *decoder) each(p yamltext.Pair, k *Key, field reflect.Value, path, remedy string, fill func(n *yamltext.Node, e reflect.Value, where string) bool) {
	items, numbered := []*yamltext.Node{p.Value}, p.Value.Shape == yamltext.List
	if numbered {
		items = p.Value.Items
	}
	if numbered && d.decimalComma(items, k, path) || !d.count(len(items), k, p.Value.At, path) {
		return
	}
	slice := reflect.MakeSlice(field.Type(), 0, len(items))
	for i, n := range items {
		where := path
		if numbered {
			where = fmt.Sprintf("%s[%d]", path, i+1)
		}
		if n.Nothing() {
			d.fault("spec.type", n.At, fmt.Sprintf("%s is empty", where), remedy)
			continue
		}
		if e := reflect.New(field.Type().Elem()).Elem(); fill(n, e, where) {
			slice = reflect.Append(slice, e)
		}
	}
	field.Set(slice)
}

// byFile fills a map from file names to values.
func (d *decoder) byFile(p yamltext.Pair, k *Key, field reflect.Value, path string) {
	if p.Value.Shape != yamltext.Mapping {
		d.fault("spec.type", p.Value.At, fmt.Sprintf("%s holds %s, but it needs a file name before each value", path, kindWord(p.Value)), "write it like this: "+k.Name+": "+k.Example)
		return
	}
	m := reflect.MakeMap(field.Type())
	seen := map[string]Place{}
	file := Key{Name: k.Name, Type: typeFile}
	for _, q := range d.s.Rejoin(p.Value.Pairs, func(string) bool { return false }) {
		where := path + " of " + q.Key
		if first, ok := seen[q.Key]; ok {
			d.fault("spec.duplicate-key", q.At, fmt.Sprintf("%s stands here twice: the first is on line %d", where, first.Line), "keep one of the two")
			continue
		}
		seen[q.Key] = q.At
		if problem := d.fileName(q.Key); problem != "" {
			d.fault("spec.value", q.At, fmt.Sprintf("%s: %s", path, problem), file.fileRemedy())
			continue
		}
		if q.Value.Nothing() {
			d.fault("spec.type", q.At, fmt.Sprintf("%s has nothing behind it", where), "write it like this: "+k.Name+": "+k.Example)
			continue
		}
		e := reflect.New(field.Type().Elem()).Elem()
		if d.value(q.Value, k, reflect.Value{}, e, where); !e.IsZero() {
			m.SetMapIndex(reflect.ValueOf(q.Key), e)
		}
	}
	field.Set(m)
}

// languageTag is what names a language.
var languageTag = spelling.Pattern(langPattern)

// byLanguage fills a map from tags of languages to structs.
func (d *decoder) byLanguage(p yamltext.Pair, k *Key, field reflect.Value, path string) {
	if p.Value.Shape != yamltext.Mapping {
		d.fault("spec.type", p.Value.At, fmt.Sprintf("%s holds %s, but it needs a language before each group", path, kindWord(p.Value)), "write it like this: "+k.Name+": {de: "+groupExample(k.Keys)+"}")
		return
	}
	m := reflect.MakeMap(field.Type())
	for _, q := range p.Value.Pairs {
		where := path + "." + q.Key
		switch {
		case !languageTag().MatchString(q.Key):
			d.fault("spec.value", q.At, fmt.Sprintf("%s: %q names no language", path, yamltext.Shorten(q.Key)), "write the language's letters, such as de or en-GB")
			continue
		case m.MapIndex(reflect.ValueOf(q.Key)).IsValid():
			d.fault("spec.duplicate-key", q.At, fmt.Sprintf("%s stands here twice", where), "keep one of the two")
			continue
		case q.Value.Nothing():
			continue
		}
		e := reflect.New(field.Type().Elem()).Elem()
		if d.single(q.Value, k, e, where, q.At) {
			m.SetMapIndex(reflect.ValueOf(q.Key), e)
		}
	}
	field.Set(m)
}

// count checks how many entries a list has.
func (d *decoder) count(n int, k *Key, at Place, path string) bool {
	least, most := k.Count[0], k.Count[1]
	if k.Type == typeSizes {
		return true
	}
	switch {
	case n == 0 && !k.Required && least < 2:
		d.s.add(Note, "spec.empty", at, fmt.Sprintf("%s is an empty list and counts as left out", path), "fill it in, or take the line out")
		return true
	case n == 0:
		d.fault("spec.type", at, fmt.Sprintf("%s is an empty list", path), "write it like this: "+k.line()+"; or take the line out")
	case most > 0 && least == most && n != most:
		d.fault("spec.type", at, fmt.Sprintf("%s has %s, but it needs %d", path, entries(n), most), "write it like this: "+d.sizesExample(at, k, most))
	case n < least:
		d.fault("spec.type", at, fmt.Sprintf("%s has %s, but it needs %d or more", path, entries(n), least), "write it like this: "+k.line())
	case most > 0 && n > most:
		d.fault("spec.type", at, fmt.Sprintf("%s has %s; more than %d are not read", path, entries(n), most), "take some out")
	default:
		return true
	}
	return false
}

func entries(n int) string {
	if n == 1 {
		return "one entry"
	}
	return fmt.Sprintf("%d entries", n)
}

// lost reports whether a key stood on a line that could not be read.
func (d *decoder) lost(key string) bool {
	return slices.ContainsFunc(d.blanked[:min(len(d.blanked), maxFindings)], func(line string) bool { return strings.Contains(line, key) })
}

func emptyValue(n *yamltext.Node, key string) bool {
	for _, p := range n.Pairs {
		if p.Key == key {
			return p.Value.Nothing()
		}
	}
	return true
}

func find(keys []Key, name string) *Key {
	for i := range keys {
		if keys[i].Name == name {
			return &keys[i]
		}
	}
	return nil
}

// setAt sets the At field of a struct, where it has one.
func setAt(v reflect.Value, at Place) {
	if f := v.FieldByName("At"); f.IsValid() && f.Type() == reflect.TypeFor[Place]() {
		f.Set(reflect.ValueOf(at))
	}
}

// KeyPath is the path of a key within the group at a path, such as top.thickness; "" is
// the file itself.
func KeyPath(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

func name(path string) string {
	if path == "" {
		return "the file"
	}
	return path
}
