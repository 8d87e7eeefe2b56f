package piece

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// A comma inside [ ] parts two values, so that 97,5 cm becomes 97 and 5 cm. Both are
// good lengths, and nothing else would tell.

// wholePart and decimalPart are what a decimal comma leaves before and behind it.
var (
	wholePart   = spelling.Pattern(`^\d{1,4}$`)
	decimalPart = spelling.Pattern(`^(\d{1,3})\s*(\pL[\pL.]*|["'”″′%])?$`)
	unitBehind  = spelling.Pattern(`[\pL"'”″′%]$`)
)

// A halved is a value of a list that its decimal comma may have cut in two.
type halved struct {
	first          int    // the index of its whole part
	text           string // as it was meant: 97,5 cm
	tight          bool   // nothing stands between the comma and the digits
	whole, decimal float64
	unit           string // behind the second part
}

// halvedValues finds the values of a list on one line that a decimal comma may have
// cut in two.
func (d *decoder) halvedValues(items []*yamltext.Node) (all []halved) {
	for i := 0; i+1 < len(items); i++ {
		a, b := items[i], items[i+1]
		m := decimalPart().FindStringSubmatch(b.Text)
		if a.Style != yamltext.Bare || b.Style != yamltext.Bare || a.At.Line != b.At.Line || m == nil || !wholePart().MatchString(a.Text) {
			continue
		}
		h := halved{first: i, text: a.Text + "," + b.Text, unit: m[2]}
		h.tight = b.At.Column == a.At.Column+utf8.RuneCountInString(a.Text)+1
		h.whole, _ = strconv.ParseFloat(a.Text, 64) // digits
		h.decimal, _ = strconv.ParseFloat(m[1], 64) // digits
		all = append(all, h)
		i++
	}
	return all
}

// loose reports whether a blank stands behind a comma of a list, as most people
// write one between two values.
func loose(items []*yamltext.Node) bool {
	for i := 0; i+1 < len(items); i++ {
		a, b := items[i], items[i+1]
		if a.At.Line != b.At.Line || b.At.Column > a.At.Column+utf8.RuneCountInString(a.Text)+1 {
			return true
		}
	}
	return false
}

// decimalComma asks back where a list of lengths shows that a decimal comma cut a
// value in two. It reports whether it did.
func (d *decoder) decimalComma(items []*yamltext.Node, k *Key, path string) bool {
	if k.Type != typeLength || slices.ContainsFunc(items, func(n *yamltext.Node) bool { return n.Shape != yamltext.Scalar }) {
		return false
	}
	all := d.halvedValues(items)
	for _, h := range all {
		if !d.isHalved(h, len(all), items, k) {
			continue
		}
		parts := []string{items[h.first].Text + " " + h.unit, items[h.first+1].Text}
		d.fault("spec.value", items[h.first].At, fmt.Sprintf("%s: %s inside [ ] reads as two values, %s and %s", path, h.text, items[h.first].Text, items[h.first+1].Text),
			fmt.Sprintf("%s; if it is two values, write %s, %s", units.CommaRemedy(h.text, "97.5 cm"), strings.TrimSpace(parts[0]), parts[1]))
		return true
	}
	return false
}

// isHalved weighs what shows that two entries are one: a unit behind the second
// alone where all others have one; no blank behind this comma where others have one;
// too many entries; or a figure that is far less than both of its neighbours.
func (d *decoder) isHalved(h halved, pairs int, items []*yamltext.Node, k *Key) bool {
	n, most := len(items), k.Count[1]
	bare := 0
	for _, item := range items {
		if !unitBehind().MatchString(item.Text) {
			bare++
		}
	}
	switch {
	case h.unit != "" && bare <= pairs:
		return h.tight || h.decimal < 10 && n > 2
	case !h.tight || h.unit != "":
		return false
	case k.Count[0] == most:
		return n > most && n-pairs <= most
	case loose(items):
		return true
	}
	next := h.first + 2
	if next >= n {
		return false
	}
	after, err := strconv.ParseFloat(items[next].Text, 64)
	return err == nil && h.decimal < 10 && 4*h.decimal < h.whole && 4*h.decimal < after
}

// commaHint shows how a decimal is written, where a list has too many entries and a
// comma without a blank may have made them.
func (d *decoder) commaHint(items []*yamltext.Node) string {
	for _, h := range d.halvedValues(items) {
		if h.tight {
			return fmt.Sprintf("; a comma parts two values: if %s is one, %s", h.text, units.CommaRemedy(h.text, "97.5"))
		}
	}
	return ""
}
