package piece

import (
	"bytes"
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"
)

// object is a JSON object whose keys come out sorted, as encoding/json does.
type object = map[string]any

// Schema returns the JSON Schema (draft 2020-12) of piece.yaml, made from the
// key table that the parser goes by. What a schema cannot say, the parser says:
// that shares make 100 %, and how large a quantity with a unit may be.
func Schema() ([]byte, error) {
	return schemaOf("piece.yaml", "one finished piece", pieceKeys)
}

// WorkshopSchema returns the JSON Schema of workshop.yaml.
func WorkshopSchema() ([]byte, error) {
	return schemaOf("workshop.yaml", "who the maker is, and the defaults for every piece", workshopKeys)
}

func schemaOf(file, help string, keys []Key) ([]byte, error) {
	d := defs{}
	s := d.group(&Key{Keys: keys}, "")
	s["$defs"] = object(d)
	s["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	s["title"] = file
	s["description"] = help
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(s); err != nil {
		return nil, fmt.Errorf("write the schema: %w", err)
	}
	return b.Bytes(), nil
}

// defs are the parts of a schema that are said once and referred to.
type defs object

// ref keeps a part under a name and returns a reference to it.
func (d defs) ref(name string, part object) object {
	d[name] = part
	return object{"$ref": "#/$defs/" + name}
}

// group describes a mapping.
func (d defs) group(group *Key, path string) object {
	properties := object{}
	var required []string
	for i := range group.Keys {
		k := &group.Keys[i]
		properties[k.Name] = d.key(k, join(path, k.Name))
		if k.Required {
			required = append(required, k.Name)
		}
	}
	s := object{"type": "object", "properties": properties, "additionalProperties": false}
	if len(required) > 0 {
		s["required"] = required
	}
	if len(group.Ways) > 0 {
		s["anyOf"] = waysSchema(group)
	}
	return s
}

// waysSchema says that the keys of a group make one of its ways. Ways do not
// overlap in full, so any of them is one of them.
func waysSchema(group *Key) []any {
	var all []any
	for _, w := range group.Ways {
		without := object{}
		for _, k := range group.Keys {
			if !slices.Contains(w.Need, k.Name) && !slices.Contains(w.May, k.Name) {
				without[k.Name] = object{"type": "null"} // a key with nothing behind it counts as left out
			}
		}
		need := object{}
		for _, name := range w.Need {
			need[name] = object{"not": object{"type": "null"}}
		}
		all = append(all, object{"required": w.Need, "allOf": []any{object{"properties": need}, object{"properties": without}}})
	}
	return all
}

// key describes a key with its value.
func (d defs) key(k *Key, path string) object {
	s := d.value(k, path)
	switch k.Many {
	case oneOrList:
		list := object{"type": "array", "items": s}
		if k.Required || k.Count[0] > 1 {
			list["minItems"] = max(1, k.Count[0])
		}
		if k.Count[1] > 0 {
			list["maxItems"] = k.Count[1]
		}
		if k.Count[0] > 1 {
			s = list
		} else {
			s = object{"anyOf": []any{s, list}}
		}
	case byFileName:
		s = object{"type": "object", "additionalProperties": s, "propertyNames": object{"pattern": fileNamePattern, "maxLength": 255}}
	}
	if !k.Required {
		s = object{"anyOf": []any{s, object{"type": "null"}}}
	}
	s["description"] = k.Help
	return s
}

const fileNamePattern = `^[^./\\][^/\\]*$`

// value describes one value. Groups that may be a list, words and quantities are
// kept in one place each.
func (d defs) value(k *Key, path string) object {
	switch k.Type {
	case typeGroup:
		s := d.group(k, path)
		if k.Short != nil {
			s = object{"anyOf": []any{s, d.value(k.Short, path)}}
		}
		if k.Many == oneOrList {
			return d.ref(path, s)
		}
		return s
	case typeWord:
		if len(k.Words) > 3 {
			return d.ref(k.Name, k.valueSchema())
		}
	case typeText:
		if k.OneLine {
			return d.ref("line", k.valueSchema())
		}
		if k.Pattern == "" {
			return d.ref("text", k.valueSchema())
		}
	case typeDate:
		return d.ref("date", k.valueSchema())
	case typeFile:
		return d.ref("photo", k.valueSchema())
	case typePoints:
		corner := object{"type": "array", "items": d.ref("coordinate", quantity(lengthPattern("-?"))), "minItems": 2, "maxItems": 2}
		return object{"type": "array", "items": corner, "minItems": k.Count[0], "maxItems": k.Count[1]}
	case typeLength, typeMass, typeVolume, typeAmount, typeDensity, typePercent, typeTemp, typeDays:
		name := strings.TrimPrefix(strings.TrimPrefix(k.what(), "a "), "an ")
		if k.Min > 0 {
			name = "positive-" + name
		}
		return d.ref(name, k.quantitySchema())
	}
	return k.valueSchema()
}

// valueSchema describes one value. Numbers and true or false are texts as well:
// batch: 0012 reaches a schema as a number.
func (k *Key) valueSchema() object {
	switch k.Type {
	case typeWord:
		if k.Free {
			return object{"type": []string{"string", "number", "boolean"}, "pattern": `\S`, "examples": k.Words}
		}
		return object{"anyOf": []any{object{"enum": k.Words}, object{"type": "string", "pattern": anyCase(k.Words)}}}
	case typeSerial:
		return object{"type": []string{"string", "integer"}, "pattern": `^[A-Za-z0-9][A-Za-z0-9_-]*$`, "maxLength": maxSerial, "minimum": 0, "not": object{"type": "string", "pattern": anyCase(reservedNames())}}
	case typeDate:
		return object{"type": "string", "format": "date", "pattern": `^(19|20|21)\d\d-[01]\d-[0-3]\d$`}
	case typeWhole, typeNumber:
		return k.numberSchema()
	case typeYesNo:
		return object{"anyOf": []any{object{"type": "boolean"}, object{"type": "string", "pattern": anyCase([]string{"yes", "no", "true", "false", "on", "off", "y", "n"})}}}
	case typeSystem:
		return object{"anyOf": []any{object{"enum": []string{"in", "cm", "mm"}}, object{"type": "string", "pattern": anyCase([]string{"in", "cm", "mm"})}}}
	case typeCountry:
		return object{"type": "string", "pattern": `^[A-Z]{2}$`}
	case typeCurrency:
		return object{"type": "string", "pattern": `^[A-Z]{3}$`}
	case typeFile:
		return object{"type": []string{"string", "number"}, "pattern": fileNamePattern, "maxLength": 255, "minimum": 0}
	case typeSpots:
		spot := object{"type": "array", "items": object{"type": "number", "minimum": 0, "maximum": 1}, "minItems": 2, "maxItems": 2}
		return object{"type": "array", "items": spot, "minItems": k.Count[0], "maxItems": k.Count[1]}
	case typeBox:
		return object{"type": "array", "items": object{"type": "number", "minimum": 0, "maximum": 1}, "minItems": 4, "maxItems": 4}
	case typeText:
		pattern := k.Pattern
		if pattern == "" {
			pattern = `\S`
		}
		s := object{"type": []string{"string", "number", "boolean"}, "pattern": pattern}
		if k.OneLine {
			s["pattern"], s["maxLength"] = `^[^\n]*\S[^\n]*$`, maxOneLine
		}
		return s
	}
	return k.quantitySchema()
}

func (k *Key) numberSchema() object {
	kind, pattern := "number", `^\d+(\.\d+)?$`
	if k.Type == typeWhole {
		kind, pattern = "integer", `^\d+(\.0+)?$`
	}
	s := object{"type": []string{kind, "string"}, "pattern": pattern, "minimum": k.Min}
	if k.Max > 0 {
		s["maximum"] = k.Max
	}
	return s
}

// Parts of the patterns. Spaces are those that a word processor puts in; \s is
// not used, since engines differ on what it holds.
const (
	gap      = "[ \t\u00a0\u2009\u202f]*"
	gaps     = "[ \t\u00a0\u2009\u202f]+"
	vulgars  = "[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒]"
	fraction = `([0-9]{1,4}` + gap + `[/⁄∕]` + gap + `[0-9]{1,4}|[⁰¹²³⁴⁵⁶⁷⁸⁹]{1,4}[/⁄∕][₀₁₂₃₄₅₆₇₈₉]{1,4}|` + vulgars + `)`
	anyValue = `([0-9]+(` + gaps + `|[-‐‑–])` + fraction + `|[0-9]+(` + vulgars + `|[⁰¹²³⁴⁵⁶⁷⁸⁹]{1,4}[/⁄∕][₀₁₂₃₄₅₆₇₈₉]{1,4})|` + fraction + `|[0-9]+\.?[0-9]*|\.[0-9]+)`
	metric   = `([cC][mM]|[mM][mM]|[mM]|([cC][eE][nN][tT][iI]|[mM][iI][lL][lL][iI])?[mM][eE][tT]([rR][eE]|[eE][rR])[sS]?)\.?`
	inches   = `([iI][nN]([sS]|[cC][hH]([eE][sS])?)?\.?|["”“″‟ʺ]|['’‘′ʹ´]{2})`
	feet     = `([fF]([tT]|[oO][oO][tT]|[eE][eE][tT])\.?|['’‘′ʹ´])`
)

// lengthPattern is the shape of a length with a sign before it.
func lengthPattern(sign string) string {
	both := anyValue + gap + feet + gap + `[-‐‑–]?` + gap + anyValue + gap + inches + `?`
	mixed := anyValue + gap + metric + gaps + anyValue + gap + metric
	alone := anyValue + gap + `(` + inches + `|` + feet + `|` + metric + `)?`
	return `^` + gap + sign + `(` + both + `|` + mixed + `|` + alone + `)` + gap + `$`
}

// quantitySchema describes what has a unit.
func (k *Key) quantitySchema() object {
	unit := func(words ...string) string {
		return `^` + gap + anyValue + gap + trimAnchors(anyCase(words)) + `\.?` + gap + `$`
	}
	pair := func(words ...string) string {
		u := trimAnchors(anyCase(words))
		return `^` + gap + anyValue + gap + u + `(` + gaps + anyValue + gap + u + `)?` + gap + `$`
	}
	mass := []string{"kg", "kilo", "kilos", "kilogram", "kilograms", "g", "gram", "grams", "t", "lb", "lbs", "pound", "pounds", "oz", "ounce", "ounces"}
	volume := []string{"l", "litre", "litres", "liter", "liters", "ml", "cc", "cl", "dl", "dm3", "cm3", "m3", "in3", "ft3", "dm³", "cm³", "m³", "in³", "ft³", "gal", "gallon", "gallons", "qt", "quart", "quarts", "fl oz", "floz", "fl. oz", "cu in", "cu ft"}
	density := []string{"kg/l", "g/cm3", "g/cm³", "g/ml", "g/cc", "kg/dm3", "kg/dm³", "kg/m3", "kg/m³", "lb/gal", "lbs/gal", "lb/ft3", "lb/ft³", "lbs/ft3", "lbs/ft³"}
	positive := k.Min > 0
	switch k.Type {
	case typeLength:
		s := quantity(lengthPattern(""))
		s["minimum"] = 0
		if positive {
			delete(s, "minimum")
			s["exclusiveMinimum"] = 0
			s["allOf"] = []any{object{"anyOf": []any{object{"type": "number"}, object{"pattern": "[1-9½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒¹²³⁴⁵⁶⁷⁸⁹]"}}}}
		}
		return s
	case typeSizes:
		one := anyValue + gap + `(` + inches + `|` + metric + `)?`
		return object{"type": []string{"string", "number"}, "exclusiveMinimum": 0, "pattern": fmt.Sprintf(`^%s%s(%s[x×X✕*]%s%s){%d,%d}%s$`, gap, one, gap, gap, one, k.Count[0]-1, k.Count[1]-1, gap)}
	case typeMass:
		return text(pair(mass...), positive)
	case typeVolume:
		return text(pair(volume...), positive)
	case typeAmount:
		return object{"anyOf": []any{text(pair(volume...), positive), text(pair(mass...), positive)}}
	case typeDensity:
		return text(unit(density...), positive)
	case typePercent:
		return text(unit("%", "percent", "per cent", "pct"), positive)
	case typeTemp:
		s := text(`^`+gap+`[-−]?`+gap+anyValue+gap+`([°º]|[dD][eE][gG][rR][eE][eE][sS])?`+gap+`([cC]([eE][lL][sS][iI][uU][sS])?|[fF]([aA][hH][rR][eE][nN][hH][eE][iI][tT])?)`+gap+`$`, false)
		return s
	case typeDays:
		return object{"type": []string{"string", "integer"}, "minimum": 0, "pattern": `^` + gap + `[0-9]+` + gap + trimAnchors(anyCase([]string{"d", "day", "days", "week", "weeks", "wk", "wks"})) + `?` + gap + `$`}
	}
	panic(fmt.Sprintf("piece: no schema for the type of %s", k.Name))
}

// quantity is a text of a pattern or a bare number.
func quantity(pattern string) object {
	return object{"type": []string{"string", "number"}, "pattern": pattern}
}

// text is a text of a pattern; a positive one holds a digit that is not 0.
func text(pattern string, positive bool) object {
	s := object{"type": "string", "pattern": pattern}
	if positive {
		s["allOf"] = []any{object{"pattern": "[1-9½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒]"}}
	}
	return s
}

// anyCase is a pattern for words in capitals or not, with a straight or a curly
// apostrophe.
func anyCase(words []string) string {
	var b strings.Builder
	b.WriteString("^(")
	for i, w := range words {
		if i > 0 {
			b.WriteByte('|')
		}
		for _, r := range w {
			switch {
			case unicode.IsLetter(r) && unicode.ToUpper(r) != r:
				fmt.Fprintf(&b, "[%c%c]", r, unicode.ToUpper(r))
			case r == '\'':
				b.WriteString("['’]")
			default:
				b.WriteString(regexp.QuoteMeta(string(r)))
			}
		}
	}
	b.WriteString(")$")
	return b.String()
}

func trimAnchors(pattern string) string {
	return strings.TrimSuffix(strings.TrimPrefix(pattern, "^"), "$")
}

func reservedNames() []string {
	var names []string
	for name := range reserved {
		names = append(names, strings.ToLower(name))
	}
	slices.Sort(names)
	return names
}
