package piece

import "slices"

// lent are the parts that an earlier piece lends to a new one, and what of them is
// its own alone: days, boxes that were made to its size, what it cost.
var lent = []struct {
	name string
	only []string // these keys; all when nil
	not  []string // not these
}{
	{name: "units"}, // what the lengths below were written in
	{name: "base"},
	{name: "finish", not: []string{"last_coat"}},
	{name: "packing", not: []string{"packages"}},
	{name: "costs", only: []string{"rate"}},
}

// Like returns what a new piece may take over from an earlier one, as it is
// written there: base, finish, packing and the hourly rate.
func Like(earlier *Written) *Written {
	w := &Written{}
	for _, part := range lent {
		v := earlier.Key(part.name)
		if v == nil {
			continue
		}
		v = v.Copy()
		v.Keys = slices.DeleteFunc(v.Keys, func(k WrittenKey) bool {
			return part.only != nil && !slices.Contains(part.only, k.Name) || slices.Contains(part.not, k.Name)
		})
		if v.Single || len(v.Keys) > 0 || len(v.Items) > 0 {
			w.Put(part.name, v)
		}
	}
	return w
}
