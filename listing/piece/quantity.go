package piece

import (
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
		d.fault("spec.Value", n.At, path+": "+problem, remedy)
		return
	}
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
		d.fault("spec.Value", n.At, path+": "+u.Message, u.Remedy)
	}
}

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

// within checks the limits of a key.
func (d *decoder) within(n *yamltext.Node, text string, v float64, k *Key, path string) bool {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		d.fault("spec.Value", n.At, fmt.Sprintf("%s: %q is not a number that makes sense", path, spelling.Shorten(text)), k.remedy())
		return false
	}
	if k.Min == 0 && k.Max == 0 || v >= k.Min && v <= k.Max {
		return true
	}
	message := fmt.Sprintf("%s: %q is less than this can be", path, spelling.Shorten(text))
	if v == 0 {
		message = fmt.Sprintf("%s: %q is nothing at all", path, spelling.Shorten(text))
	} else if v > k.Max {
		message = fmt.Sprintf("%s: %q is more than this can be", path, spelling.Shorten(text))
	}
	remedy := d.otherUnit(text, k) + fmt.Sprintf("write %s, from %s to %s", k.what(), k.limit(k.Min), k.limit(k.Max))
	if v == 0 {
		remedy += ", or take the line out"
	}
	d.fault("spec.Value", n.At, message, remedy)
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
		d.fault("spec.Value", n.At, path+": "+u.Message, u.Remedy)
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
		d.fault("spec.Value", n.At, fmt.Sprintf("%s: %q has %d sizes, but it needs %s", path, spelling.Shorten(text), len(sizes), need), remedy)
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
