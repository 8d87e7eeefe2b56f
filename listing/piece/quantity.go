package piece

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"reflect"
	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/spelling"
	"strconv"
	"strings"

	"slabfolio/listing/units"
)

// quantity reads everything that has a unit.
func (d *decoder) quantity(n *yamltext.Node, text string, k *Key, field reflect.Value, path string) {
	var err error
	if problem, remedy := almost(text, k); problem != "" {
		d.fault("spec.value", n.At, path+": "+problem, remedy)
		return
	}
	d.roughStock(n, text, k, path)
	switch k.Type {
	case typeLength:
		err = measured(d, n, text, k, field, path, func(s string) (units.Length, error) { return units.ParseLength(s, d.units) })
	case typeMass:
		err = measured(d, n, text, k, field, path, units.ParseMass)
	case typeVolume:
		err = measured(d, n, text, k, field, path, units.ParseVolume)
	case typeDensity:
		err = measured(d, n, text, k, field, path, units.ParseDensity)
	case typePercent:
		err = measured(d, n, text, k, field, path, units.ParsePercent)
	case typeTemp:
		err = measured(d, n, text, k, field, path, units.ParseTemperature)
	case typeDays:
		err = measured(d, n, text, k, field, path, units.ParseDays)
	case typeSystem:
		var v units.System
		if v, err = units.ParseSystem(text); err == nil {
			put(field, v, n.At)
		}
	case typeAmount:
		err = d.amount(n, text, k, field, path)
	}
	var u *units.Error
	if errors.As(err, &u) {
		d.fault("spec.value", n.At, path+": "+u.Message, cmp.Or(d.withUnit(text, k), u.Remedy))
	}
}

// quarters is a thickness as rough stock is sold: in quarters of an inch (common
// practice of the timber trade, no source).
var quarters = spelling.Pattern(`^(4|5|6|8|10|12|16)/4\s*("|”|″|in\.?|inch|inches)?$`)

// roughStock doubts a finished size that is written as the trade sells rough
// boards: planing and flattening took some of it away.
func (d *decoder) roughStock(n *yamltext.Node, text string, k *Key, path string) {
	m := quarters().FindStringSubmatch(strings.ToLower(text))
	if k.Type != typeLength || m == nil || strings.HasPrefix(path, "costs.") {
		return
	}
	if v, err := strconv.Atoi(m[1]); err == nil {
		d.doubt("spec.rough", n.At, fmt.Sprintf("%s: %q is how rough stock is sold, and a finished piece is thinner", path, yamltext.Shorten(text)),
			fmt.Sprintf("measure the finished piece and write what it is, such as %s; if it is %s all the same, write that", units.Length(planed(v)).Plain(d.units), units.Length(float64(v)/4*units.MillimetresPerInch).Plain(units.Inches)))
	}
}

// planed is what rough stock of so many quarters of an inch is about, in
// millimetres, when it is planed on both faces: 3/16 in less, and 1/4 in less from
// 8/4 on (the trade's usual allowance; from memory).
func planed(quarters int) float64 {
	less := 0.1875
	if quarters >= 8 {
		less = 0.25
	}
	return (float64(quarters)/4 - less) * units.MillimetresPerInch
}

// bareNumber is a number that stands alone.
var bareNumber = spelling.Pattern(`^\d+(\.\d+)?$`)

// withUnit shows a bare number with the units that the maker's lengths are in;
// empty where the number is not bare or needs no unit.
func (d *decoder) withUnit(text string, k *Key) string {
	if !bareNumber().MatchString(text) {
		return ""
	}
	inch := d.units == units.Inches
	switch {
	case k.Type == typeMass && inch:
		return fmt.Sprintf("write the unit behind it: %s lb, or %s kg", text, text)
	case k.Type == typeMass:
		return fmt.Sprintf("write the unit behind it: %s kg, or %s lb", text, text)
	case k.Type == typeAmount && inch:
		return fmt.Sprintf("write the unit behind it: %s fl oz, %s qt, %s gal or %s l; or by weight: %s lb or %s kg", text, text, text, text, text, text)
	case k.Type == typeAmount:
		return fmt.Sprintf("write the unit behind it: %s l or %s ml; or by weight: %s kg or %s lb", text, text, text, text)
	case k.Type == typeVolume && inch:
		return fmt.Sprintf("write the unit behind it: %s fl oz, %s qt, %s gal or %s l", text, text, text, text)
	case k.Type == typeVolume:
		return fmt.Sprintf("write the unit behind it: %s l or %s ml", text, text)
	}
	return ""
}

// ounces is an amount in ounces that does not say whether of volume or of mass.
var ounces = spelling.Pattern(`(?i)^([\d./ ]+?)\s*(?:oz\.?|ounces?)$`)

// measured reads one quantity and keeps it when it lies within the limits of its
// key.
func measured[T ~float64 | ~int](d *decoder, n *yamltext.Node, text string, k *Key, field reflect.Value, path string, parse func(string) (T, error)) error {
	v, err := parse(text)
	if err == nil && d.within(n, text, float64(v), k, path) {
		put(field, v, n.At)
	}
	return err
}

// amount reads a volume or, failing that, a mass.
func (d *decoder) amount(n *yamltext.Node, text string, k *Key, field reflect.Value, path string) error {
	a := field.Addr().Interface().(*Amount)
	if m := ounces().FindStringSubmatch(text); m != nil {
		remedy := fmt.Sprintf("write %s fl oz if it was measured in a cup", m[1])
		if kg, err := units.ParseMass(text); err == nil {
			remedy += fmt.Sprintf("; if it was weighed, write %s", poundsAndOunces(float64(kg)))
		}
		return &units.Error{Text: text, Message: fmt.Sprintf("%q can be ounces of volume or of weight", yamltext.Shorten(text)), Remedy: remedy}
	}
	if v, err := units.ParseVolume(text); err == nil {
		if d.within(n, text, float64(v), k, path) {
			a.Volume = Value[units.Volume]{v, n.At}
		}
		return nil
	}
	m, err := units.ParseMass(text)
	if err != nil {
		var u *units.Error
		errors.As(err, &u)
		return &units.Error{Text: text, Message: strings.Replace(u.Message, "not a mass", "neither a volume nor a mass", 1), Remedy: "write a volume or a mass with its unit, like this: 5.6 l or 6.2 kg"}
	}
	if d.within(n, text, float64(m), k, path) {
		a.Mass = Value[units.Mass]{m, n.At}
	}
	return nil
}

// poundsAndOunces writes a mass so that nobody takes its ounces for a volume.
func poundsAndOunces(kg float64) string {
	oz := kg / units.KilogramsPerPound * 16
	lb := math.Floor(oz/16 + 1e-9)
	if lb == 0 {
		return fmt.Sprintf("%s g", strconv.FormatFloat(math.Round(kg*10000)/10, 'f', -1, 64))
	}
	if rest := oz - 16*lb; rest > 0.05 {
		return fmt.Sprintf("%.0f lb %s oz", lb, strconv.FormatFloat(math.Round(rest*10)/10, 'f', -1, 64))
	}
	return fmt.Sprintf("%.0f lb", lb)
}

// within checks the limits of a key.
func (d *decoder) within(n *yamltext.Node, text string, v float64, k *Key, path string) bool {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		d.fault("spec.value", n.At, fmt.Sprintf("%s: %q is not a number that makes sense", path, yamltext.Shorten(text)), k.remedy())
		return false
	}
	if k.Min == 0 && k.Max == 0 || v >= k.Min && v <= k.Max {
		return true
	}
	message := fmt.Sprintf("%s: %q is less than this can be", path, yamltext.Shorten(text))
	if v == 0 {
		message = fmt.Sprintf("%s: %q is nothing at all", path, yamltext.Shorten(text))
	} else if v > k.Max {
		message = fmt.Sprintf("%s: %q is more than this can be", path, yamltext.Shorten(text))
	}
	remedy := d.otherUnit(text, k) + fmt.Sprintf("write %s, from %s to %s", k.what(), k.limit(k.Min), k.limit(k.Max))
	if v == 0 {
		remedy += ", or take the line out"
	}
	d.fault("spec.value", n.At, message, remedy)
	return false
}

// sizes reads a section as it is bought and fills form and sizes of owner.
func (d *decoder) sizes(n *yamltext.Node, text string, k *Key, owner, field reflect.Value, path string) {
	if !field.IsNil() {
		return // said twice, which the ways of the group report
	}
	sizes, err := units.ParseSizes(text, d.units)
	var u *units.Error
	if errors.As(err, &u) {
		d.fault("spec.value", n.At, path+": "+u.Message, u.Remedy)
		return
	}
	least, most := k.Count[0], k.Count[1]
	if len(sizes) < least || len(sizes) > most {
		need := strconv.Itoa(least)
		if most > least {
			need = fmt.Sprintf("%d or %d", least, most)
		}
		remedy := k.remedy()
		if k.Form == "box" && len(sizes) == 2 {
			remedy += "; a round tube is written tube: 48.3 x 3.2 mm"
		}
		d.fault("spec.value", n.At, fmt.Sprintf("%s: %q has %d sizes, but it needs %s", path, yamltext.Shorten(text), len(sizes), need), remedy)
		return
	}
	for _, l := range sizes {
		if !d.within(n, text, float64(l), k, path) {
			return
		}
	}
	field.Set(reflect.ValueOf(sizes))
	owner.FieldByName("Form").SetString(k.Form)
}
