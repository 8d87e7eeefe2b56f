package piece

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
)

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
