package piece

import (
	"fmt"
	"strings"

	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// checkExamples looks for values of the starter file that were left standing. One
// of them alone may be the maker's own; several together are not.
func checkExamples(d *decoder, p *Piece) {
	kind := p.Kind.V
	if !p.Kind.Set() {
		return
	}
	example := func(path string) string {
		if own, ok := byKind[kind][path]; ok {
			return own
		}
		return keyAt(path).Example
	}
	length := func(v Value[units.Length], path string) bool {
		want, err := units.ParseLength(example(path), units.Inches)
		return v.Set() && err == nil && v.V == want
	}
	var left []string
	var first Place
	add := func(name string, at Place, is bool) {
		if is {
			if left = append(left, name); first.Line == 0 {
				first = at
			}
		}
	}
	o := &p.Top.Outline
	outline := length(o.Length, "top.outline.length") && length(o.Width, "top.outline.width")
	add("length", o.Length.At, outline)
	add("width", o.Width.At, outline)
	add("thickness", p.Top.Thickness.At, length(p.Top.Thickness, "top.thickness"))
	if len(p.Top.Wood) == 1 {
		species := p.Top.Wood[0].Species
		add("species", species.At, species.V == example("top.wood.species"))
	}
	fresh := p.Title.V == starterTitle || p.Finished.Set() && p.Finished.V == starterDate // these two are told of by themselves
	if len(left) > 1 || len(left) == 1 && fresh {
		verb := "are"
		if len(left) == 1 {
			verb = "is"
		}
		d.doubt("spec.starter", first, fmt.Sprintf("%s %s still what a fresh file of a %s has", spelling.And(left), verb, kind), "write what you measured and the wood that it is; if that is what it is, let it stand")
	}
}

// placeholder reports whether an example stands for something that only the maker
// knows, so that no maker would write the same.
func placeholder(k *Key) bool {
	return k.Type == typeText && (strings.HasPrefix(k.Example, "the ") || strings.HasPrefix(k.Example, "what ") || strings.Count(k.Example, " ") >= 9)
}

// doubtExample doubts a text that is still the example of the fresh file.
func (d *decoder) doubtExample(text string, k *Key, at Place, path string) {
	if placeholder(k) && spelling.OneLine(text) == spelling.OneLine(strings.TrimPrefix(k.Example, "|")) {
		d.doubt("spec.starter", at, fmt.Sprintf("%s is still the example of the fresh file", path), "write your own, or take the line out")
	}
}

// keyAt returns the key at a path that the table has.
func keyAt(path string) *Key {
	var last *Key
	for k := range keysAlong(path) {
		last = k
	}
	return last
}

// checkFuture doubts days that are still to come, where only what is past makes
// sense.
func checkFuture(d *decoder, p *Piece) {
	if d.today == (Date{}) {
		return
	}
	ahead := func(v Value[Date], name string) {
		if v.Set() && d.today.Before(v.V) {
			d.doubt("spec.date", v.At, fmt.Sprintf("%s is %s, and that day is still to come", name, v.V), "write the day on which it was done; year, month, day")
		}
	}
	ahead(p.Finished, "finished")
	if p.Finish != nil {
		ahead(p.Finish.LastCoat, "finish.last_coat")
	}
	for _, w := range p.Top.Wood {
		if w.Moisture != nil {
			ahead(w.Moisture.On, "moisture.on")
		}
	}
	for _, m := range p.Materials {
		ahead(m.Bought, "bought")
	}
	for _, l := range p.Log {
		ahead(l.Date, "date")
	}
	if p.Buyer != nil {
		ahead(p.Buyer.Delivered, "buyer.delivered")
	}
}
