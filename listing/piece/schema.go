package piece

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
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
		properties[k.Name] = d.key(k, KeyPath(path, k.Name))
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
		if k.Short != nil {
			s = object{"anyOf": []any{s, d.value(k.Short, path)}}
		}
	}
	if k.Many == byLanguage {
		s = object{"type": "object", "additionalProperties": object{"anyOf": []any{s, object{"type": "null"}}}, "propertyNames": object{"pattern": langPattern}}
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
			return d.ref(k.Name+"-"+viewID(k.Words[0]), k.valueSchema()) // two keys of one name may take other words
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

func reservedNames() []string {
	var names []string
	for name := range reserved {
		names = append(names, strings.ToLower(name))
	}
	slices.Sort(names)
	return names
}
