package piece

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// An Assignment is a key of piece.yaml with the value that it is to have, or one that
// is to go.
type Assignment struct {
	Path  string // as the maker wrote it, such as "price.amount" or "top.wood[2].share"
	Value string

	way    []yamltext.Step
	raw    bool // brackets, as they are to stand
	remove bool // the key is to go, with all that stands behind it

	price string // the price as it was written, where this is one of its parts
}

// A SetError says why a value cannot be put into a spec, and what would be right.
type SetError struct {
	Message string // lower case, no full stop
	Remedy  string // may be empty
}

// Error returns the message with its remedy.
func (e *SetError) Error() string {
	if e.Remedy == "" {
		return e.Message
	}
	return e.Message + "; " + e.Remedy
}

// parseAssignment reads KEY=VALUE. The key is a path through the key table, parts
// joined by points; an entry of a list has its number in square brackets, counted
// from 1. The error is a *SetError.
func parseAssignment(text string) (*Assignment, error) {
	path, value, ok := strings.Cut(text, "=")
	if !ok {
		return nil, &SetError{fmt.Sprintf("%q has no equals sign", yamltext.Shorten(text)), "write KEY=VALUE, like this: availability=sold"}
	}
	a := &Assignment{Path: strings.TrimSpace(path), Value: unquoted(strings.TrimSpace(value))}
	if a.Value == "" {
		return nil, &SetError{a.Path + " has no value behind its equals sign", "write KEY=VALUE; to take the key out, write --remove " + a.Path}
	}
	key, err := a.walk()
	if err != nil {
		return nil, err
	}
	a.Value = oneReading(a.Value, key)
	return a, a.shape(key)
}

// ParseRemoval reads the path of a key that is to go, as parseAssignment reads one. The
// error is a *SetError.
func ParseRemoval(path string) (*Assignment, error) {
	a := &Assignment{Path: strings.TrimSpace(path), remove: true}
	if strings.Contains(a.Path, "=") {
		return nil, &SetError{fmt.Sprintf("%q has an equals sign in it", yamltext.Shorten(a.Path)), "write the key alone, like this: --remove seats"}
	}
	if a.Path == "" {
		return nil, &SetError{"there is no key to take out", "write the key alone, like this: --remove seats"}
	}
	if _, err := a.walk(); err != nil {
		return nil, err
	}
	return a, nil
}

// typographic are pairs of quotation marks that no shell takes off, as they come along
// when a line is pasted from a letter or a page.
var typographic = [][2]string{{"“", "”"}, {"„", "“"}, {"„", "”"}, {"«", "»"}, {"»", "«"}, {"‘", "’"}}

// unquoted takes off such a pair round a whole value.
func unquoted(value string) string {
	for _, q := range typographic {
		if inner, ok := strings.CutPrefix(value, q[0]); ok {
			if inner, ok = strings.CutSuffix(inner, q[1]); ok && !strings.Contains(inner, q[0]) && !strings.Contains(inner, q[1]) {
				return strings.TrimSpace(inner)
			}
		}
	}
	return value
}

// ParseAssignments is parseAssignment, but takes a price as people write it:
// price=$1,850 is price.amount=1850 and price.currency=USD.
func ParseAssignments(text string) ([]*Assignment, error) {
	path, value, _ := strings.Cut(text, "=")
	path, value = strings.TrimSpace(path), strings.TrimSpace(value)
	amount, currency, ok := ParsePrice(value, "")
	if path != "price" && path != "price.amount" || !ok {
		a, err := parseAssignment(text)
		return []*Assignment{a}, err
	}
	parts := []string{"price.amount=" + amount}
	if currency != "" {
		parts = append(parts, "price.currency="+currency)
	}
	var all []*Assignment
	for _, p := range parts {
		a, err := parseAssignment(p)
		if err != nil {
			return nil, err
		}
		a.price = value
		all = append(all, a)
	}
	return all, nil
}

// forMoney leaves out the currency of a price that says only dollars, where the
// piece or its workshop has dollars of its own already.
func forMoney(assignments []*Assignment, usual string) []*Assignment {
	return slices.DeleteFunc(slices.Clone(assignments), func(a *Assignment) bool {
		_, currency, _ := ParsePrice(a.price, usual)
		return a.price != "" && a.Path == "price.currency" && currency == ""
	})
}

// walk follows the path through the key table.
func (a *Assignment) walk() (*Key, error) {
	keys, at := pieceKeys, ""
	var last *Key
	for rest := a.Path; rest != ""; {
		part, after, _ := strings.Cut(rest, ".")
		name, entry, err := numberOf(part)
		if err != nil {
			return nil, err
		}
		k := find(keys, name)
		if k == nil {
			if ours, from1 := ourNotation(a.Path, 1), ourNotation(a.Path, 0); ours != "" {
				if from1 != ours && from1 != "" { // whoever wrote the number may count from 1, as people do
					ours = from1 + "=…, or " + ours + "=… where you counted from 0"
				} else {
					ours += "=…"
				}
				return nil, &SetError{fmt.Sprintf("%q is not how a key is named here", yamltext.Shorten(a.Path)), "write " + ours + ": parts are joined by points, and an entry of a list has its number in square brackets, counted from 1"}
			}
			return nil, noSuchKey(name, at, keys)
		}
		if entry > 0 && k.Many != oneOrList {
			return nil, &SetError{fmt.Sprintf("%s is no list", KeyPath(at, name)), "leave out the number in brackets"}
		}
		a.way = append(a.way, yamltext.Step{Key: name, Entry: entry})
		at, keys, last, rest = KeyPath(at, name), k.Keys, k, after
		switch {
		case k.Many == byFileName && rest != "": // the rest is the name of a file
			a.way = append(a.way, yamltext.Step{Key: rest})
			one := *k
			one.Many = 0
			return &one, nil
		case k.Many == byLanguage && rest != "":
			tag, after, _ := strings.Cut(rest, ".")
			a.way = append(a.way, yamltext.Step{Key: tag})
			at, rest = KeyPath(at, tag), after
		}
	}
	if last == nil {
		return nil, &SetError{"there is no key before the equals sign", "write KEY=VALUE, like this: availability=sold"}
	}
	return last, nil
}

// otherJoints are what other notations join the parts of a path with.
var otherJoints = spelling.Pattern(`[./:>\\\s()\[\]-]+`)

// ourNotation writes a path in another notation in ours, such as top.wood.0.species,
// top/wood/0/species and top.wood(1).species; empty where it is no path of the key
// table in any. first is what is added to the number of an entry: 1 where they are counted
// from nought there, 0 where from 1, as in round brackets.
func ourNotation(path string, first int) string {
	keys, at := pieceKeys, ""
	var last *Key
	counted := false
	for _, part := range otherJoints().Split(strings.Trim(path, "$./[]"), -1) {
		n, err := strconv.Atoi(part)
		if err == nil && last != nil && last.Many == oneOrList && !counted {
			if n == 0 {
				n = 1
			} else if !strings.Contains(path, "(") {
				n += first
			}
			at, counted = fmt.Sprintf("%s[%d]", at, n), true
			continue
		}
		k := find(keys, strings.ToLower(part))
		if k == nil {
			return ""
		}
		at, keys, last, counted = KeyPath(at, k.Name), k.Keys, k, false
	}
	return at
}

// numberOf parts "wood[2]" into its name and its number.
func numberOf(part string) (name string, entry int, err error) {
	name, rest, ok := strings.Cut(part, "[")
	if !ok {
		return part, 0, nil
	}
	n, bad := strconv.Atoi(strings.TrimSuffix(rest, "]"))
	if bad != nil || n < 1 || !strings.HasSuffix(rest, "]") {
		return "", 0, &SetError{fmt.Sprintf("%q does not name an entry", yamltext.Shorten(part)), "write the number of the entry in square brackets, counted from 1, like this: " + name + "[2]"}
	}
	return name, n, nil
}

// noSuchKey says which key may be meant.
func noSuchKey(name, at string, keys []Key) error {
	where := ""
	if at != "" {
		where = " in " + at
	}
	remedy := "known here: " + strings.Join(keyNames(keys), ", ")
	lower := strings.ToLower(strings.ReplaceAll(name, "-", "_"))
	if near := nearest(lower, keyNames(keys)); near != "" {
		remedy = fmt.Sprintf("did you mean %q", KeyPath(at, near))
	} else if other, _, _ := strings.Cut(otherKeys[lower], "|"); other != "" && find(keys, firstName(other)) != nil {
		remedy = fmt.Sprintf("did you mean %q", KeyPath(at, other))
	} else if at == "" {
		d := decoder{root: pieceKeys}
		if places := d.elsewhere(lower, ""); len(places) > 0 {
			for i := range places {
				places[i] = KeyPath(places[i], lower)
			}
			remedy = "did you mean " + spelling.Or(places)
		}
	}
	return &SetError{fmt.Sprintf("%q is not a key that is known%s", yamltext.Shorten(name), where), remedy}
}

// shape finds out whether the value is a text or brackets as they are to stand.
func (a *Assignment) shape(k *Key) error {
	entry := a.way[len(a.way)-1].Entry > 0
	listed, keyed := a.Value[0] == '[', a.Value[0] == '{'
	switch k.Type {
	case typePoints, typeSpots, typeBox:
		a.raw = true
		if !listed && k.Many == one {
			return &SetError{fmt.Sprintf("%s needs a list in square brackets", a.Path), "write it like this: " + a.Path + "=" + k.Example}
		}
	case typeGroup:
		a.raw = keyed || listed && k.Many == oneOrList && !entry
		if !a.raw && (k.Short == nil || k.Many == oneOrList) { // one value would take the place of all that is known of a wood
			return &SetError{fmt.Sprintf("%s is made of named parts", a.Path), "name the part, like this: " + a.Path + "." + firstValue(k.Keys) + "=…"}
		}
	case typeYesNo:
		a.raw = slices.Contains([]string{"yes", "no", "true", "false", "on", "off"}, strings.ToLower(a.Value))
	default:
		a.raw = listed && k.Many == oneOrList && !entry || keyed && k.Many == byFileName
	}
	if last := a.Value[len(a.Value)-1]; listed && last != ']' && a.raw || keyed && last != '}' && a.raw {
		return &SetError{fmt.Sprintf("the value of %s does not end with its closing bracket", a.Path), "write it like this: " + a.Path + "=[one, two]"}
	}
	if a.raw && strings.ContainsAny(a.Value, "\n\r") {
		return &SetError{fmt.Sprintf("the value of %s goes over several lines", a.Path), "write it on one"}
	}
	return nil
}

// firstValue is the first key of a group that has a value of its own.
func firstValue(keys []Key) string {
	for i := range keys {
		if keys[i].Type != typeGroup {
			return keys[i].Name
		}
	}
	return keys[0].Name
}

// setIn puts values into a spec and leaves everything else as it is, byte for byte:
// remarks, order, line ends. It returns the new file, what changed in it line by
// line, and what there is to say of it. A value that makes a fault which was not
// there before changes nothing: the faults are returned with a nil file. The error
// is a *SetError, or the context's.
func setIn(ctx context.Context, file string, data []byte, defaults Defaults, assignments []*Assignment) (after []byte, changes []yamltext.Change, findings []Finding, err error) {
	known := func(key string) bool { return anyKey(pieceKeys, key) }
	after = data
	for _, a := range assignments {
		c, err := a.edit(ctx, after, known)
		if err != nil {
			return nil, nil, nil, a.explain(file, err)
		}
		if after = c.Data; c.Before != c.After {
			changes = append(changes, *c)
		}
	}
	was, before, err := parsePiece(ctx, file, data, defaults)
	if err != nil {
		return nil, nil, nil, err
	}
	if err := standsTwice(before, assignments); err != nil {
		return nil, nil, nil, err
	}
	will, findings, err := parsePiece(ctx, file, after, defaults)
	if err != nil {
		return nil, nil, nil, err
	}
	findings = append(News(before, findings, changes), readOtherwise(file, was, will)...)
	faults := slices.ContainsFunc(findings, func(f Finding) bool { return f.Rank == Fault })
	if faults {
		return nil, nil, findings, nil
	}
	return after, changes, findings, nil
}

// standsTwice refuses to set a key that the spec has twice: which of them counts is not
// for us to say.
func standsTwice(findings []Finding, assignments []*Assignment) error {
	for _, f := range findings {
		for _, a := range assignments {
			if f.Code == "spec.duplicate-key" && strings.HasPrefix(f.Message, a.Path+" ") {
				return &SetError{f.Message + fmt.Sprintf(", and this one on line %d", f.Line), "take one of the two out by hand, then set it"}
			}
		}
	}
	return nil
}

// readOtherwise tells that a change of units makes other sizes of bare figures.
func readOtherwise(file string, was, will *Piece) []Finding {
	if was.Units.V == will.Units.V {
		return nil
	}
	sizes := func(p *Piece) []Value[units.Length] {
		o := &p.Top.Outline
		return []Value[units.Length]{o.Length, o.Width, o.Diameter, p.Top.Thickness}
	}
	before := sizes(was)
	for i, now := range sizes(will) {
		if old := before[i]; old.Set() && now.Set() && old.V != now.V {
			in := cmp.Or(was.Units.V, will.Units.V)
			return []Finding{{Rank: Doubt, Code: "set.units", File: file, Line: now.At.Line,
				Message: fmt.Sprintf("sizes without a unit are read in another one from now on: what was %s becomes %s", old.V.Plain(in), now.V.Plain(in)),
				Remedy:  "write the unit behind each of them, or put units back"}}
		}
	}
	return nil
}

// edit makes the change in a file.
func (a *Assignment) edit(ctx context.Context, data []byte, known func(key string) bool) (*yamltext.Change, error) {
	if a.remove {
		return yamltext.Remove(ctx, data, a.way, known)
	}
	c, err := yamltext.Set(ctx, data, a.way, a.Value, a.raw, known)
	if errors.Is(err, yamltext.ErrNoGroup) {
		return a.beside(ctx, data, known, err)
	}
	return c, err
}

// News returns the findings after a change that are news. What was found before is
// none, nor is a doubt or note that only counts otherwise now, unless it stands on a
// line that the change writes.
func News(before, after []Finding, changes []yamltext.Change) []Finding {
	same, code := map[string]int{}, map[string]int{}
	for _, f := range before {
		same[f.Code+f.Message]++
		code[f.Code]++
	}
	for _, f := range after {
		code[f.Code]--
	}
	var out []Finding
	for _, f := range after {
		key := f.Code + f.Message
		if same[key]--; same[key] >= 0 {
			continue
		}
		written := slices.ContainsFunc(changes, func(c yamltext.Change) bool { return c.After != "" && c.Line == f.Line })
		if f.Rank == Fault || code[f.Code] < 0 || written {
			out = append(out, f)
		}
	}
	return out
}

// anyKey reports whether a name is a key anywhere in a table.
func anyKey(keys []Key, name string) bool {
	for i := range keys {
		if keys[i].Name == name || anyKey(keys[i].Keys, name) {
			return true
		}
	}
	return false
}
