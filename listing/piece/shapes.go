package piece

import (
	"fmt"
	"reflect"
	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/spelling"
	"strconv"
	"strings"
	"time"
	"unicode"

	"slabfolio/listing/units"
)

// maxSerial keeps folder names short enough for every file system.
const maxSerial = 64

// shaped reads texts that have a shape: serials, codes, file names.
func (d *decoder) shaped(n *yamltext.Node, text string, k *Key, field reflect.Value, path string) {
	problem, remedy := "", k.remedy()
	switch k.Type {
	case typeSerial:
		problem = serialProblem(text)
		if mended := mendSerial(text); problem != "" && mended != "" {
			remedy = "write it like this: serial: " + mended
		}
	case typeCountry:
		if !capitals(text, 2) {
			problem = fmt.Sprintf("%q is not a country's two letters", yamltext.Shorten(text))
			if up := strings.ToUpper(text); capitals(up, 2) {
				remedy = "write it in capitals: " + up
			} else if anywhere().MatchString(text) {
				remedy = "name the countries that you send to, by their two letters, your own first; leave " + k.Name + " out where you say it to whoever asks"
			} else if !d.s.full() { // a name costs a look at all countries
				if code, ok := ParseCountry(text); ok {
					remedy = "write its two letters: " + code
				}
			}
		}
	case typeCurrency:
		if !capitals(text, 3) {
			problem = fmt.Sprintf("%q is not a currency's three letters", yamltext.Shorten(text))
			if up := strings.ToUpper(text); capitals(up, 3) {
				remedy = "write it in capitals: " + up
			} else if codes := currencyMeant(text); len(codes) == 1 {
				remedy = "write the three letters: " + codes[0]
			} else if len(codes) > 1 {
				remedy = "say whose, in three letters: " + spelling.Or(codes)
			}
		}
	case typeFile:
		problem, remedy = d.fileName(text), k.fileRemedy()
		if i := strings.LastIndexAny(text, "/\\"); i+1 < len(text) && d.fileName(text[i+1:]) == "" {
			remedy = "write its name alone: " + text[i+1:]
		}
	}
	if problem != "" {
		d.fault("spec.value", n.At, path+": "+problem, remedy)
		return
	}
	put(field, text, n.At)
}

func capitals(s string, n int) bool {
	if len(s) != n {
		return false
	}
	for i := range len(s) {
		if s[i] < 'A' || s[i] > 'Z' {
			return false
		}
	}
	return true
}

// reserved are names that Windows keeps for devices, whatever their case.
var reserved = map[string]bool{
	"CON": true, "PRN": true, "AUX": true, "NUL": true,
	"COM1": true, "COM2": true, "COM3": true, "COM4": true, "COM5": true, "COM6": true, "COM7": true, "COM8": true, "COM9": true,
	"LPT1": true, "LPT2": true, "LPT3": true, "LPT4": true, "LPT5": true, "LPT6": true, "LPT7": true, "LPT8": true, "LPT9": true,
}

// serialProblem says why a text cannot be a serial; empty when it can.
func serialProblem(text string) string {
	for _, r := range text {
		if !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '_') {
			what := fmt.Sprintf("%q", r)
			if r == ' ' {
				what = "a space"
			}
			return fmt.Sprintf("%q has %s in it, and a serial names a folder", yamltext.Shorten(text), what)
		}
	}
	switch {
	case len(text) > maxSerial:
		return fmt.Sprintf("%q is longer than %d letters", yamltext.Shorten(text), maxSerial)
	case text[0] == '-' || text[0] == '_':
		return fmt.Sprintf("%q does not begin with a letter or a digit", yamltext.Shorten(text))
	case reserved[strings.ToUpper(text)]:
		return fmt.Sprintf("%q is a name that Windows keeps for itself", text)
	}
	return ""
}

// mendSerial puts a hyphen where a serial has what no folder's name should have;
// empty where even that is no serial.
func mendSerial(text string) string {
	mended := strings.Join(strings.FieldsFunc(text, func(r rune) bool { return serialProblem("a"+string(r)) != "" }), "-")
	if mended == "" || serialProblem(mended) != "" {
		return ""
	}
	return mended
}

// fileName says why a text cannot name a photo beside the spec.
func (d *decoder) fileName(text string) string {
	switch {
	case len(text) > 255:
		return fmt.Sprintf("%q is too long for a file name", yamltext.Shorten(text))
	case strings.ContainsAny(text, "/\\"):
		return fmt.Sprintf("%q holds a folder, and photos are named without one", yamltext.Shorten(text))
	case text == "." || text == ".." || strings.HasPrefix(text, "."):
		return fmt.Sprintf("%q is a hidden file", yamltext.Shorten(text))
	case strings.IndexFunc(text, unicode.IsControl) >= 0:
		return fmt.Sprintf("%q has an invisible character in it", yamltext.Shorten(text))
	}
	return ""
}

// parseDate reads 2026-09-18. For another order of day, month and year it
// offers the right form, if only one can be meant.
func parseDate(text string) (date Date, problem, remedy string) {
	remedy = "write year, month and day like this: 2026-09-18"
	if iso := wordyDate(text); iso != "" && iso != text && strings.ContainsFunc(text, unicode.IsLetter) {
		return Date{}, fmt.Sprintf("%q has its month in letters", yamltext.Shorten(text)), "write " + iso
	}
	fields := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune("-./ ‐‑–", r) })
	if len(fields) != 3 {
		return Date{}, fmt.Sprintf("%q is not a date", yamltext.Shorten(text)), remedy
	}
	var n [3]int
	for i, f := range fields {
		v, err := strconv.Atoi(strings.Trim(f, ","))
		if err != nil || v < 0 {
			return Date{}, fmt.Sprintf("%q is not a date", yamltext.Shorten(text)), remedy
		}
		n[i] = v
	}
	iso := func(y, m, d int) string { return fmt.Sprintf("%04d-%02d-%02d", y, m, d) }
	if text == iso(n[0], n[1], n[2]) {
		if !calendar(n[0], n[1], n[2]) {
			problem, remedy := noSuchDay(n[0], n[1], n[2])
			return Date{}, problem, remedy
		}
		if n[0] < 1900 || n[0] > 2199 {
			return Date{}, fmt.Sprintf("the year of %q cannot be right", text), remedy
		}
		return Date{n[0], n[1], n[2]}, "", ""
	}
	if y, m, d := n[2], n[1], n[0]; y > 31 && m >= 1 && m <= 12 && d <= 31 && !calendar(y, m, d) && !calendar(y, d, m) { // 31.11.2026, and of 31/11/2026 no day either way
		problem, remedy := noSuchDay(y, m, d)
		return Date{}, fmt.Sprintf("%q: %s", yamltext.Shorten(text), problem), remedy
	}
	problem = fmt.Sprintf("%q is not in the order year, month, day", yamltext.Shorten(text))
	var ways []string
	switch y := n[2]; {
	case n[0] > 31 && calendar(n[0], n[1], n[2]):
		problem, ways = fmt.Sprintf("%q is not written with two digits each for month and day and hyphens between", yamltext.Shorten(text)), []string{iso(n[0], n[1], n[2])}
	case y > 31:
		if calendar(y, n[1], n[0]) {
			ways = append(ways, iso(y, n[1], n[0]))
		}
		if calendar(y, n[0], n[1]) && n[0] != n[1] && !(len(ways) == 1 && strings.Count(text, ".") == 2) { // 1.4.2026 has its day first wherever it is written so
			ways = append(ways, iso(y, n[0], n[1]))
		}
	}
	if len(ways) > 0 {
		remedy = "write " + strings.Join(ways, " or ")
	}
	return Date{}, problem, remedy
}

func calendar(y, m, d int) bool {
	if y < 1 || y > 9999 || m < 1 || m > 12 || d < 1 || d > 31 {
		return false
	}
	t := time.Date(y, time.Month(m), d, 0, 0, 0, 0, time.UTC)
	return t.Day() == d && int(t.Month()) == m
}

// points reads [[0, 0], [54, 0.5]].
func (d *decoder) points(n *yamltext.Node, k *Key, field reflect.Value, path string) {
	if n.Shape != yamltext.List {
		d.fault("spec.type", n.At, fmt.Sprintf("%s holds %s, but it needs a list of corners", path, kindWord(n)), "write it like this: "+k.line())
		return
	}
	if !d.count(len(n.Items), k, n.At, path) {
		return
	}
	var points []Point
	for i, item := range n.Items {
		where := fmt.Sprintf("%s[%d]", path, i+1)
		if item.Shape != yamltext.List || len(item.Items) != 2 || item.Items[0].Shape != yamltext.Scalar || item.Items[1].Shape != yamltext.Scalar {
			d.fault("spec.type", item.At, fmt.Sprintf("%s is not a pair of lengths", where), "write each corner as [along, across], like this: [48, 0.5]"+d.commaHint(item.Items))
			continue
		}
		var xy [2]units.Length
		good := true
		for j, c := range item.Items {
			text, sign := strings.TrimSpace(c.Text), units.Length(1)
			if rest, ok := strings.CutPrefix(text, "-"); ok { // a corner may lie left of or below the origin
				text, sign = rest, -1
			}
			v, err := units.ParseLength(text, d.units)
			if u, ok := err.(*units.Error); ok {
				d.fault("spec.value", c.At, where+": "+u.Message, u.Remedy)
				good = false
				continue
			}
			if !d.within(c, text, float64(v), k, where) {
				good = false
			}
			xy[j] = sign * v
		}
		if good {
			points = append(points, Point{X: xy[0], Y: xy[1], At: item.At})
		}
	}
	field.Set(reflect.ValueOf(points))
}

// share reads a share of a photo, 0 to 1.
func (d *decoder) share(n *yamltext.Node, where string) (float64, bool) {
	if n.Shape == yamltext.Scalar {
		if v, err := strconv.ParseFloat(n.Text, 64); err == nil && v >= 0 && v <= 1 && strings.Trim(n.Text, "0123456789.") == "" {
			return v, true
		}
	}
	what := kindWord(n)
	if n.Shape == yamltext.Scalar {
		what = fmt.Sprintf("%q", yamltext.Shorten(n.Text))
	}
	remedy := "write a number from 0 (left or top) to 1 (right or bottom), like this: 0.41"
	if v, err := strconv.ParseFloat(strings.TrimRight(strings.TrimSpace(n.Text), " %"), 64); err == nil && v > 1 && v <= 100 {
		remedy += fmt.Sprintf("; %s %% of the way is %s", trim(v), strconv.FormatFloat(v/100, 'g', 4, 64))
	}
	d.fault("spec.value", n.At, fmt.Sprintf("%s: %s is not a share of the photo", where, what), remedy)
	return 0, false
}

// spots reads [[0.5, 0.3]].
func (d *decoder) spots(n *yamltext.Node, k *Key, field reflect.Value, path string) {
	if n.Shape != yamltext.List {
		d.fault("spec.type", n.At, fmt.Sprintf("%s holds %s, but it needs a list of spots", path, kindWord(n)), "write it like this: "+k.line())
		return
	}
	if !d.count(len(n.Items), k, n.At, path) {
		return
	}
	var spots [][2]float64
	for i, item := range n.Items {
		where := fmt.Sprintf("%s[%d]", path, i+1)
		if item.Shape != yamltext.List || len(item.Items) != 2 {
			d.fault("spec.type", item.At, fmt.Sprintf("%s is not a pair of shares", where), "write each spot as [across, down], like this: [0.41, 0.40]"+d.commaHint(item.Items))
			continue
		}
		x, okX := d.share(item.Items[0], where)
		y, okY := d.share(item.Items[1], where)
		if okX && okY {
			spots = append(spots, [2]float64{x, y})
		}
	}
	field.Set(reflect.ValueOf(spots))
}

// box reads [0.05, 0.10, 0.95, 0.90].
func (d *decoder) box(n *yamltext.Node, k *Key, field reflect.Value, path string) {
	if n.Shape != yamltext.List || len(n.Items) != 4 {
		d.fault("spec.type", n.At, fmt.Sprintf("%s is not a box of four numbers", path), "write left, top, right, bottom as shares of the photo, like this: [0.05, 0.10, 0.95, 0.90]"+d.commaHint(n.Items))
		return
	}
	var b Box
	for i, item := range n.Items {
		v, ok := d.share(item, path)
		if !ok {
			return
		}
		b[i] = v
	}
	if b[0] >= b[2] || b[1] >= b[3] {
		d.fault("spec.value", n.At, fmt.Sprintf("%s: the box has no size, or its corners are the wrong way round", path), "write left, top, right, bottom, with left smaller than right and top smaller than bottom")
		return
	}
	put(field, b, n.At)
}
