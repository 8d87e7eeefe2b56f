package piece

import (
	"cmp"
	"fmt"
	"math"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/units"
)

// put stores a value with its place in a field of type Value[T].
func put[T any](field reflect.Value, v T, at Place) {
	if p, ok := field.Addr().Interface().(*Value[T]); ok {
		*p = Value[T]{v, at}
		return
	}
	if p, ok := field.Addr().Interface().(*T); ok { // a bare field without a place
		*p = v
		return
	}
	panic(fmt.Sprintf("piece: the key table and a field of type %s do not agree", field.Type()))
}

// value reads one value into field. owner is the struct around it, for the
// types that fill more than one field.
func (d *decoder) value(n *yamltext.Node, k *Key, owner, field reflect.Value, path string) {
	switch k.Type {
	case typePoints:
		d.points(n, k, field, path)
		return
	case typeSpots:
		d.spots(n, k, field, path)
		return
	case typeBox:
		d.box(n, k, field, path)
		return
	}
	if n.Shape != yamltext.Scalar {
		d.fault("spec.type", n.At, fmt.Sprintf("%s holds %s, but it needs a single value", path, kindWord(n)), k.remedy())
		return
	}
	text := strings.TrimSpace(n.Text)
	if text == "" {
		d.fault("spec.value", n.At, fmt.Sprintf("%s is an empty text", path), k.remedy())
		return
	}
	d.remark(n, k, path)
	switch k.Type {
	case typeText:
		if k.Pattern != "" && !patterns()[k.Pattern].MatchString(text) {
			d.fault("spec.value", n.At, fmt.Sprintf("%s: %q does not have the right form", path, yamltext.Shorten(text)), cmp.Or(languageRemedy(text, k), k.remedy()))
			return
		}
		d.text(n, k, field, path)
	case typeWord:
		d.word(n, text, k, field, path)
	case typeSerial, typeCountry, typeCurrency, typeFile:
		d.shaped(n, text, k, field, path)
	case typeDate:
		if date, problem, remedy := parseDate(text); problem != "" {
			d.fault("spec.date", n.At, path+": "+problem, remedy)
		} else {
			put(field, date, n.At)
		}
	case typeYesNo:
		d.yesNo(n, text, field, path)
	case typeWhole, typeNumber:
		d.number(n, text, k, field, path)
	case typeSizes:
		d.sizes(n, text, k, owner, field, path)
	default:
		d.quantity(n, text, k, field, path)
	}
}

// patterns are the compiled patterns of the key tables.
var patterns = sync.OnceValue(func() map[string]*regexp.Regexp {
	m := map[string]*regexp.Regexp{}
	var walk func(keys []Key)
	walk = func(keys []Key) {
		for _, k := range keys {
			if k.Pattern != "" {
				m[k.Pattern] = regexp.MustCompile(k.Pattern)
			}
			walk(k.Keys)
		}
	}
	walk(pieceKeys)
	walk(workshopKeys)
	return m
})

// maxText bounds a text value, in bytes.
const maxText = 64 << 10

// maxOneLine bounds a text that has to fit on a line, in letters.
const maxOneLine = 200

func (d *decoder) text(n *yamltext.Node, k *Key, field reflect.Value, path string) {
	text := n.Text
	if n.Style == yamltext.Block {
		text = strings.Trim(text, "\n") // empty lines around a block are no text
	}
	odd := strings.IndexFunc(text, func(r rune) bool { return unicode.IsControl(r) && r != '\n' && r != '\t' })
	switch {
	case len(text) > maxText:
		d.fault("spec.value", n.At, fmt.Sprintf("%s is longer than %d letters", path, maxText), "shorten it; what is longer belongs in a file of papers/")
	case odd >= 0 || !utf8.ValidString(text):
		d.fault("spec.value", n.At, fmt.Sprintf("%s has an invisible character in it that no text has", path), "write a backslash as two between double quotes, or put the text in single quotes")
	case k.OneLine && strings.Contains(text, "\n"):
		d.fault("spec.value", n.At, fmt.Sprintf("%s goes over several lines", path), "write it on one line; a longer text belongs in story")
	case k.OneLine && utf8.RuneCountInString(text) > maxOneLine:
		d.fault("spec.value", n.At, fmt.Sprintf("%s is longer than %d letters", path, maxOneLine), "shorten it; a longer text belongs in story")
	default:
		d.doubtExample(text, k, n.At, path)
		d.doubtNoName(text, n.At, path)
		put(field, text, n.At)
	}
}

// wordKey makes two spellings of a word equal: case and the kind of apostrophe.
func wordKey(s string) string {
	return strings.ToLower(strings.ReplaceAll(strings.TrimSpace(s), "’", "'"))
}

func (d *decoder) word(n *yamltext.Node, text string, k *Key, field reflect.Value, path string) {
	for _, w := range k.Words {
		if wordKey(w) == wordKey(text) {
			put(field, w, n.At)
			return
		}
	}
	if k.Free {
		put(field, text, n.At)
		return
	}
	if w := sameWord(text, k); w != "" {
		d.s.add(Note, "spec.read-as", n.At, fmt.Sprintf("%s: %q is read as %q", path, yamltext.Shorten(text), w), wordLine(k, w))
		put(field, w, n.At)
		return
	}
	if d.s.full() {
		d.s.unsaid++
		return
	}
	d.fault("spec.word", n.At, fmt.Sprintf("%s: %q is not a word that is known here", path, yamltext.Shorten(text)), wordRemedy(text, k))
}

// wordLine shows a word as it is to stand.
func wordLine(k *Key, word string) string {
	if k.Many != one {
		return "write " + word
	}
	return "write " + k.Name + ": " + word
}

// yesNo reads yes or no. YAML 1.2 takes yes and no for text, makers do not.
func (d *decoder) yesNo(n *yamltext.Node, text string, field reflect.Value, path string) {
	switch strings.ToLower(text) {
	case "yes", "true", "on", "y":
		put(field, true, n.At)
	case "no", "false", "off", "n":
		put(field, false, n.At)
	default:
		d.fault("spec.value", n.At, fmt.Sprintf("%s: %q is neither yes nor no", path, yamltext.Shorten(text)), "write yes or no")
	}
}

func (d *decoder) number(n *yamltext.Node, text string, k *Key, field reflect.Value, path string) {
	remedy := k.remedy()
	if m := figureFirst().FindStringSubmatch(text); m != nil {
		remedy = "write the figure alone: " + k.Name + ": " + m[1]
	}
	remedy = cmp.Or(figureMeant(text, k), remedy)
	if k.Type == typeWhole {
		if i, err := strconv.Atoi(text); err == nil && strings.Trim(text, "0123456789-") == "" && i >= int(k.Min) && (k.Max == 0 || i <= int(k.Max)) {
			put(field, i, n.At)
			return
		}
	}
	v, err := strconv.ParseFloat(text, 64)
	if k.Type == typeWhole && err == nil && v == math.Trunc(v) && v >= k.Min && v <= 1e9 && (k.Max == 0 || v <= k.Max) && strings.Trim(text, "0123456789.") == "" {
		put(field, int(v), n.At) // 2.0
		return
	}
	plain := strings.Trim(text, "0123456789.-") == "" && !strings.HasPrefix(text, ".") && !strings.HasSuffix(text, ".")
	amount, currency, isMoney := money(text)
	if m := roughly().FindStringSubmatch(text); m != nil {
		if a, _, ok := money(m[1]); ok && k.Max == maxMoney {
			remedy = "write the figure alone: " + k.Name + ": " + a
		}
	}
	switch {
	case k.Max == maxMoney && inThousands().MatchString(text):
		d.fault("spec.value", n.At, fmt.Sprintf("%s: %q is not written out", path, yamltext.Shorten(text)), remedy)
	case k.Max == maxMoney && isMoney && currency != "":
		d.fault("spec.value", n.At, fmt.Sprintf("%s: %q has more in it than the figure", path, yamltext.Shorten(text)), "write "+k.Name+": "+amount+currencyPlace(path, currency))
	case k.Max == maxMoney && isMoney && thousands().MatchString(text):
		d.fault("spec.value", n.At, fmt.Sprintf("%s: %q has a comma in it", path, yamltext.Shorten(text)), "write "+amount)
	case k.Max == maxMoney && isMoney && continental().MatchString(text) && err != nil:
		d.fault("spec.value", n.At, fmt.Sprintf("%s: %q has points between its thousands", path, yamltext.Shorten(text)), "write "+amount)
	case strings.Contains(text, ",") && roughly().FindString(text) == "":
		d.fault("spec.value", n.At, fmt.Sprintf("%s: %q has a comma in it", path, yamltext.Shorten(text)), units.CommaRemedy(text, "1450"))
	case err != nil || !plain:
		d.fault("spec.value", n.At, fmt.Sprintf("%s: %q is not a number", path, yamltext.Shorten(text)), remedy)
	case v < 0:
		d.fault("spec.value", n.At, fmt.Sprintf("%s: %q is negative", path, yamltext.Shorten(text)), remedy)
	case v < k.Min || k.Max > 0 && v > k.Max:
		d.fault("spec.value", n.At, fmt.Sprintf("%s: %q is out of bounds", path, yamltext.Shorten(text)), fmt.Sprintf("write a number from %s to %s", trim(k.Min), trim(k.Max)))
	case k.Type == typeWhole:
		d.fault("spec.value", n.At, fmt.Sprintf("%s: %q is not a whole number", path, yamltext.Shorten(text)), remedy)
	default:
		if k.Max == maxMoney && continental().MatchString(text) {
			d.doubt("price.thousands", n.At, fmt.Sprintf("%s: %s is read as %s", path, text, trim(v)), fmt.Sprintf("write %s if the point parts the thousands, else %s", strings.ReplaceAll(text, ".", ""), trim(v)))
		}
		put(field, v, n.At)
	}
}

func trim(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
