package piece

import (
	"fmt"
	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/spelling"
	"slices"
	"strings"

	"slabfolio/listing/units"
)

// unknown reports a key that is not in the table, with what may be meant.
func (d *decoder) unknown(p yamltext.Pair, keys []Key, path string) {
	if d.s.full() {
		d.s.unsaid++
		return
	}
	message := fmt.Sprintf("%q is not a key that is known here", yamltext.Shorten(p.Key))
	if path != "" {
		message = fmt.Sprintf("%q is not a key that is known in %s", yamltext.Shorten(p.Key), path)
	}
	if k := unspacedKey(keys, p.Key); k != nil && p.Value.Shape == yamltext.Empty {
		d.fault("spec.syntax", p.At, fmt.Sprintf("%q has no space behind its colon", yamltext.Shorten(p.Key)), "write "+k.Name+": "+strings.TrimPrefix(p.Key, k.Name+":"))
		return
	}
	if name, _, ok := strings.Cut(p.Key, ":"); ok && p.Value.Shape == yamltext.Empty && d.keyWithoutSpace(p.Key) {
		p.Key = name
		d.unknown(p, keys, path)
		return
	}
	if rest, ok := strings.CutPrefix(p.Key, "-"); ok && rest != "" {
		d.fault("spec.syntax", p.At, fmt.Sprintf("%q has no space behind its hyphen", yamltext.Shorten(p.Key)), "write - "+rest)
		d.blanked = append(d.blanked, rest)
		return
	}
	if rest := strings.TrimLeft(p.Key, "–—•·‣ "); rest != p.Key {
		d.fault("spec.syntax", p.At, fmt.Sprintf("%q begins with a dash or dot that is no plain hyphen", yamltext.Shorten(p.Key)), "write - "+rest+": …")
		d.blanked = append(d.blanked, rest)
		return
	}
	lower := strings.ToLower(strings.NewReplacer("-", "_", " ", "_").Replace(p.Key))
	if near := nearest(lower, keyNames(keys)); near != "" {
		d.blanked = append(d.blanked, near) // it is not missing, it is misspelt
		d.fault("spec.unknown-key", p.At, message, fmt.Sprintf("did you mean %q", near))
		return
	}
	for _, other := range strings.Split(otherKeys[lower], "|") {
		if find(keys, firstName(other)) != nil {
			d.fault("spec.unknown-key", p.At, message, fmt.Sprintf("did you mean %q", other))
			return
		}
	}
	if round := p.Value.Text; lower == "diameter" && strings.HasSuffix(path, "footprint") && round != "" { // a round foot takes as much both ways
		d.fault("spec.unknown-key", p.At, message, fmt.Sprintf("of a round foot write the diameter for both: footprint: {length: %s, width: %s}", round, round))
		return
	}
	if places := d.elsewhere(lower, path); len(places) > 0 {
		d.fault("spec.unknown-key", p.At, message, d.belongs(p, places, keys, path))
		return
	}
	if other := slipped(lower, keys); other != "" {
		d.fault("spec.unknown-key", p.At, message, fmt.Sprintf("did you mean %q", other))
		return
	}
	remedy := "known here: " + strings.Join(keyNames(keys), ", ")
	if inTranslation(path) {
		remedy = translationTakes(keys)
	}
	d.fault("spec.unknown-key", p.At, message, remedy)
}

// belongs says where a key that stands in the wrong place is known. That its line is
// indented wrongly is said where that can bring it here: where it is known around this
// group, or in a group beside or within it. Between { } nothing is indented.
func (d *decoder) belongs(p yamltext.Pair, places []string, keys []Key, path string) string {
	if inTranslation(path) {
		return translationTakes(keys)
	}
	remedy := "it belongs " + inPlaces(places)
	line := []rune(d.s.Line(p.At.Line))
	before := string(line[:min(len(line), max(0, p.At.Column-1))])
	switch {
	case !slices.ContainsFunc(places, func(place string) bool { return adjoins(place, path) }):
		return remedy + "; known here: " + strings.Join(keyNames(keys), ", ")
	case strings.Trim(before, " -") != "":
		return remedy + "; look at the brackets around it"
	case path == "" && len(places) == 1 && !strings.ContainsRune(places[0], '.'):
		return remedy + ": write it below the line " + places[0] + ":, two spaces further in"
	}
	return remedy + "; look at how far the line is indented"
}

// inPlaces says where: in price, or at the outermost level.
func inPlaces(places []string) string {
	said := make([]string, len(places))
	for i, p := range places {
		said[i] = "in " + p
		if p == outermost {
			said[i] = "at " + p
		}
	}
	return strings.Join(said, " or ")
}

// listEntry is the number behind the name of a list.
var listEntry = spelling.Pattern(`\[\d+\]`)

// adjoins reports whether a line of one group can come into another by its indentation
// alone: out of a group around it, out of one that such a group or it holds, or out of
// any to the margin.
func adjoins(place, path string) bool {
	path = listEntry().ReplaceAllString(path, "")
	within := func(outer string) bool {
		return outer == "" || outer == path || strings.HasPrefix(path, outer+".")
	}
	parent := ""
	if i := strings.LastIndexByte(place, '.'); i >= 0 {
		parent = place[:i]
	}
	return path == "" || place == outermost || within(place) || within(parent)
}

// outermost is what the level of the keys that stand at the margin is called.
const outermost = "the outermost level"

func inTranslation(path string) bool { return strings.HasPrefix(path, "translations.") }

// translationTakes says what of a piece can be said in another language.
func translationTakes(keys []Key) string {
	return "a translation takes " + spelling.And(keyNames(keys)) + "; all else stays as you wrote it"
}

func firstName(path string) string {
	first, _, _ := strings.Cut(path, ".")
	return first
}

// elsewhere lists the groups of the table that hold a key of that name. For a key at
// the margin those with the name of one thing come alone, where there are any: a name
// beside a workshop is the workshop's, and not that of one of its woods.
func (d *decoder) elsewhere(name, path string) []string {
	var places []string
	var walk func(keys []Key, at string)
	walk = func(keys []Key, at string) {
		for _, k := range keys {
			if k.Name == name && at != path {
				where := at
				if where == "" {
					where = outermost
				}
				places = append(places, where)
			}
			walk(k.Keys, KeyPath(at, k.Name))
		}
	}
	walk(d.root, "")
	ofOne := func(place string) bool { return !strings.HasSuffix(place, "s") }
	if path == "" && slices.ContainsFunc(places, ofOne) {
		places = slices.DeleteFunc(places, func(place string) bool { return !ofOne(place) })
	}
	if len(places) > 3 {
		places = places[:3]
	}
	return places
}

func keyNames(keys []Key) []string {
	names := make([]string, len(keys))
	for i, k := range keys {
		names[i] = k.Name
	}
	return names
}

// wordRemedy says which words are right, or which may be meant.
func wordRemedy(text string, k *Key) string {
	all := strings.Join(k.Words, ", ")
	if beside, _ := kindBeside(text); k.Name == "kind" && beside.Count > 1 {
		if said, _, err := ReadKind(text); err == nil {
			return fmt.Sprintf("write kind: %s and quantity: %d", said.Kind, said.Count)
		}
	}
	switch meant := wordsNear(text, k); {
	case len(meant) == 1 && nearest(text, k.Words) != "":
		return fmt.Sprintf("did you mean %q", meant[0])
	case len(meant) == 1:
		return fmt.Sprintf("did you mean %q; all the words: %s", meant[0], all)
	case len(meant) > 1:
		return "say which: " + spelling.Or(toldApart(meant))
	case k.Name == "family":
		return "use one of: " + strings.Join(toldApart(k.Words), ", ") + "; the tin or its data sheet says which, and its name goes into product"
	}
	return "use one of: " + all
}

// toldApart quotes words, each with what tells it from the others.
func toldApart(words []string) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = fmt.Sprintf("%q", w)
		if told := tellApart[w]; told != "" {
			out[i] += " (" + told + ")"
		}
	}
	return out
}

// line shows the key as it stands in a file.
func (k *Key) line() string { return k.Name + ": " + k.Example }

// remedy shows how a key is written.
func (k *Key) remedy() string {
	switch {
	case k.Type == typeGroup && k.Example != "":
		return "write it like this: " + k.line()
	case k.Type == typeGroup:
		return "write it like this: " + k.Name + ": " + groupExample(k.Keys)
	case k.Type == typeWord && !k.Free:
		return "write one of: " + strings.Join(k.Words, ", ")
	case strings.HasPrefix(k.Example, "|"):
		return "write it like this: " + k.Name + ": a line of text"
	}
	return "write it like this: " + k.line()
}

func (k *Key) fileRemedy() string { return "write the name of a photo alone, like this: IMG_2041.jpg" }

// groupExample shows a group on one line: with the keys that it needs, or with
// its first two.
func groupExample(keys []Key) string {
	var needed, first []string
	for i := range keys {
		k := &keys[i]
		if k.Type == typeGroup || strings.HasPrefix(k.Example, "|") {
			continue
		}
		if k.Required {
			needed = append(needed, k.line())
		}
		if len(first) < 2 {
			first = append(first, k.line())
		}
	}
	if len(needed) > 0 {
		first = needed
	}
	return "{" + strings.Join(first, ", ") + "}"
}

// what names the type of a key, for messages.
func (k *Key) what() string {
	switch k.Type {
	case typeLength, typeSizes, typePoints:
		return "a length"
	case typeMass:
		return "a mass"
	case typeVolume:
		return "a volume"
	case typeAmount:
		return "an amount"
	case typeDensity:
		return "a density"
	case typePercent:
		return "a share"
	case typeTemp:
		return "a temperature"
	case typeDays:
		return "a time"
	}
	return "a number"
}

// limit writes a limit of a key with its unit.
func (k *Key) limit(v float64) string {
	switch k.Type {
	case typeLength, typeSizes, typePoints:
		switch l := units.Length(v); {
		case v >= 1000:
			return fmt.Sprintf("%s m (%.0f ft)", trim(v/1000), l.Inches()/12)
		case v >= 2:
			return fmt.Sprintf("%s mm (%s)", trim(v), l.Plain(units.Inches))
		}
		return trim(v) + " mm"
	case typeMass:
		return trim(v) + " kg"
	case typeVolume:
		return trim(v) + " l"
	case typeAmount:
		return trim(v) + " l or kg"
	case typeDensity:
		return units.Density(v).Exact()
	case typePercent:
		return trim(v) + " %"
	case typeTemp:
		return trim(v) + " C"
	case typeDays:
		return trim(v) + " days"
	}
	return trim(v)
}
