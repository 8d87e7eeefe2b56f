package yamltext

// sameExcept reports whether two trees say the same but for the value at the end of a
// way, which is the one that was put in; after is the text of the second.
func (e *edit) sameExcept(after *Text, a, b *Node, way []Step) bool {
	if len(way) == 0 {
		return e.raw && b.Shape != Empty || b.Shape == Scalar && b.Text == e.value
	}
	if a.Shape == List && b.Shape == List && len(a.Items) == 1 && len(b.Items) == 1 {
		return e.sameExcept(after, a.Items[0], b.Items[0], way)
	}
	if b.Shape != Mapping || a.Shape != Mapping && a.Shape != Empty {
		return false
	}
	before, now := e.t.Rejoin(a.Pairs, e.known), after.Rejoin(b.Pairs, e.known)
	for i, p := range now {
		old := &Node{Shape: Empty}
		if i < len(before) {
			if old = before[i].Value; before[i].Key != p.Key {
				return false
			}
		}
		good := same(old, p.Value)
		if p.Key == way[0].Key && (i >= len(before) || !good) {
			good = e.sameExceptEntry(after, old, p.Value, way)
		}
		if !good {
			return false
		}
	}
	return len(now) >= len(before)
}

// sameExceptEntry is sameExcept for what stands behind the first key of a way.
func (e *edit) sameExceptEntry(after *Text, a, b *Node, way []Step) bool {
	n := way[0].Entry
	if n == 0 || b.Shape != List || a.Shape != List {
		return e.sameExcept(after, a, b, way[1:])
	}
	if len(a.Items) != len(b.Items) {
		return false
	}
	for i := range a.Items {
		if i != n-1 && !same(a.Items[i], b.Items[i]) {
			return false
		}
	}
	return e.sameExcept(after, a.Items[n-1], b.Items[n-1], way[1:])
}

// same reports whether two nodes say the same, wherever they stand.
func same(a, b *Node) bool {
	if a.Shape != b.Shape || a.Text != b.Text || len(a.Pairs) != len(b.Pairs) || len(a.Items) != len(b.Items) {
		return false
	}
	for i := range a.Pairs {
		if a.Pairs[i].Key != b.Pairs[i].Key || !same(a.Pairs[i].Value, b.Pairs[i].Value) {
			return false
		}
	}
	for i := range a.Items {
		if !same(a.Items[i], b.Items[i]) {
			return false
		}
	}
	return true
}
