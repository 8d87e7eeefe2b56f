package yamltext

import (
	"context"
	"strings"
)

// Remove takes a key out of the file that data holds, with all that stands behind it;
// a group or list entry that would be left with nothing goes with it. Everything else
// stays as it is, byte for byte, and a remark behind the value keeps its line. A key
// that is not there changes nothing. The error is one of those of an edit, or the
// context's.
func Remove(ctx context.Context, data []byte, way []Step, known func(key string) bool) (*Change, error) {
	t, err := Read(ctx, "", data)
	if err != nil {
		return nil, err
	}
	if len(t.Slips) > 0 || t.Root == nil || t.Root.Shape != Mapping && t.Root.Shape != Empty {
		return nil, ErrSlips
	}
	e := &edit{t: t, data: data, known: known}
	e.split()
	switch got, err := e.takeOut(t.Root, way); {
	case err != nil:
		return nil, err
	case got == emptied:
		return nil, ErrNotSound
	case got == notThere:
		return &Change{Data: data}, nil
	}
	c := e.change()
	c.onlyTaken()
	after, err := Read(ctx, "", c.Data)
	if err != nil {
		return nil, err
	}
	if len(after.Slips) > 0 || after.Root == nil || !(&reread{t, after, known}).sameWithout(t.Root, after.Root, way) {
		return nil, ErrNotSound
	}
	return c, nil
}

// onlyTaken leaves out of a change the line beside those that were taken out.
func (c *Change) onlyTaken() {
	if rest, ok := strings.CutSuffix(c.Before, "\n"+c.After); ok {
		c.Before, c.After = rest, ""
	} else if rest, ok := strings.CutPrefix(c.Before, c.After+"\n"); ok {
		c.Line += 1 + strings.Count(c.After, "\n")
		c.Before, c.After = rest, ""
	}
}

// What became of a way that was to be taken out of a node.
type taken int

const (
	notThere taken = iota
	cut            // the edit is laid down
	emptied        // nothing of the node would be left: it has to go itself
)

// takeOut goes the way from a node on and lays the edit down.
func (e *edit) takeOut(n *Node, way []Step) (taken, error) {
	switch n.Shape {
	case List: // an entry of a list that was not counted
		if len(n.Items) != 1 {
			return notThere, ErrWhich
		}
		return e.takeOut(n.Items[0], way)
	case Scalar, Empty:
		return notThere, nil
	}
	pairs := e.t.Rejoin(n.Pairs, e.known)
	for i := range pairs {
		p := &pairs[i]
		if p.Key != way[0].Key || p.bare {
			continue
		}
		got, err := e.takeBehind(p.Value, way)
		if err != nil || got != emptied {
			return got, err
		}
		parts := make([]stretch, len(pairs))
		for k, q := range pairs {
			parts[k] = stretch{q.from, q.Value.to, q.Value.Style == Block}
		}
		return e.cutPart(parts, i, n.flow)
	}
	return notThere, nil
}

// takeBehind takes the rest of a way out of the value of its first key; emptied means
// that the key goes with it.
func (e *edit) takeBehind(v *Node, way []Step) (taken, error) {
	entry := way[0].Entry
	if entry == 0 || v.Shape != List && entry == 1 {
		if len(way) == 1 {
			return emptied, nil
		}
		return e.takeOut(v, way[1:])
	}
	if v.Shape != List || entry > len(v.Items) {
		return notThere, ErrNoEntry
	}
	if len(way) > 1 {
		if got, err := e.takeOut(v.Items[entry-1], way[1:]); err != nil || got != emptied {
			return got, err
		}
	}
	parts := make([]stretch, len(v.Items))
	for k, item := range v.Items {
		parts[k] = stretch{item.from, item.to, item.Style == Block}
	}
	return e.cutPart(parts, entry-1, v.flow)
}

// A stretch is where a pair or an entry stands.
type stretch struct {
	from, to spot
	block    bool // a text behind | or >, in which # begins no remark
}

// cutPart lays down that one of several parts goes; emptied where it is the only one.
func (e *edit) cutPart(parts []stretch, i int, flow bool) (taken, error) {
	p := parts[i]
	before := e.t.reading[p.from.line][:p.from.byte]
	led := strings.TrimSpace(before) != "" && strings.Trim(before, " -") == "" // behind a hyphen
	switch {
	case len(parts) == 1:
		return emptied, nil
	case flow && i+1 == len(parts): // with the comma before it
		return cut, e.between(parts[i-1].to, p.to)
	case flow, led && strings.TrimRight(before, " ") != before && i+1 < len(parts) && parts[i+1].from.byte == p.from.byte && !e.entryLine(parts[i+1].from):
		return cut, e.between(p.from, parts[i+1].from)
	}
	return cut, e.wholeLines(p)
}

// entryLine reports whether a hyphen stands before a spot, so that an entry begins there.
func (e *edit) entryLine(s spot) bool {
	return strings.Contains(e.t.reading[s.line][:s.byte], "-")
}

// between takes out what stands between two spots.
func (e *edit) between(from, to spot) error {
	if from.line != to.line && e.remarked(from.line, to) {
		return ErrRemarks
	}
	e.from, e.to = e.offset(from), e.offset(to)
	return nil
}

// wholeLines takes out the lines of a part; a remark behind its only line stays there.
func (e *edit) wholeLines(p stretch) error {
	tail := e.t.reading[p.to.line][p.to.byte:]
	remark := strings.HasPrefix(strings.TrimSpace(tail), "#")
	switch {
	case remark && p.from.line == p.to.line && !p.block && !e.entryLine(p.from):
		e.from, e.to = e.offset(p.from), e.offset(spot{p.to.line, p.to.byte + strings.IndexByte(tail, '#')})
		return nil
	case remark, p.block && strings.Contains(e.t.reading[p.from.line], " #"),
		!p.block && p.from.line != p.to.line && e.remarked(p.from.line, p.to):
		return ErrRemarks
	case strings.TrimSpace(tail) != "":
		return ErrNotSound
	}
	first, next := p.from.line, p.to.line+1
	if e.from = e.lines[first].from; next < len(e.lines) {
		e.to = e.lines[next].from
		return nil
	}
	e.to = len(e.data)
	if first > 0 {
		e.from = e.lines[first-1].to
	}
	return nil
}

// A reread is a file before and after an edit.
type reread struct {
	before, after *Text
	known         func(key string) bool
}

// sameWithout reports whether the second tree says what the first does, but for what
// stood at the end of a way.
func (e *reread) sameWithout(a, b *Node, way []Step) bool {
	if a.Shape == List {
		return b.Shape == List && len(a.Items) == 1 && len(b.Items) == 1 && e.sameWithout(a.Items[0], b.Items[0], way)
	}
	if a.Shape != Mapping || b.Shape != Mapping {
		return false
	}
	before, now := e.before.Rejoin(a.Pairs, e.known), e.after.Rejoin(b.Pairs, e.known)
	k := 0
	for _, p := range before {
		if p.Key != way[0].Key || p.bare {
			if k >= len(now) || now[k].Key != p.Key || !same(p.Value, now[k].Value) {
				return false
			}
			k++
			continue
		}
		if k >= len(now) || now[k].Key != p.Key { // it went, and nothing else did
			continue
		}
		if !e.sameWithoutBehind(p.Value, now[k].Value, way) {
			return false
		}
		k++
	}
	return k == len(now)
}

// sameWithoutBehind is sameWithout for what stands behind the first key of a way.
func (e *reread) sameWithoutBehind(a, b *Node, way []Step) bool {
	n := way[0].Entry
	if n == 0 || a.Shape != List {
		return len(way) > 1 && e.sameWithout(a, b, way[1:])
	}
	if b.Shape != List {
		return false
	}
	whole := len(b.Items) == len(a.Items)-1
	if !whole && (len(b.Items) != len(a.Items) || len(way) == 1) {
		return false
	}
	k := 0
	for i, item := range a.Items {
		switch {
		case i == n-1 && whole:
			continue
		case i == n-1:
			if !e.sameWithout(item, b.Items[k], way[1:]) {
				return false
			}
		case !same(item, b.Items[k]):
			return false
		}
		k++
	}
	return true
}
