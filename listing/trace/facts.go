package trace

import (
	"strings"

	"slabfolio/listing/piece"
)

// recordOf lists what a spec says of what went into the piece.
func (t *reader) recordOf(p *piece.Piece, w *piece.Workshop) *Record {
	r := &Record{Serial: p.Serial.V, Title: p.Title.V, Where: p.Availability.V}
	if p.Finished.Set() {
		r.Finished, r.At = p.Finished.V.String(), p.Finished.At
	}
	if p.Buyer != nil {
		r.Buyer = p.Buyer.Name.V
	}
	for _, w := range p.Top.Wood {
		r.add("top.wood.species", "species", w.Species, t.woodNames(w.Species.V)...)
		r.add("top.wood.origin", "", w.OriginNote)
	}
	for _, c := range p.Top.Resin {
		r.add("top.resin.material", "resin", c.Material, chemistry(c.Material.V, w)...)
		r.add("top.resin.colour", "resin", c.Colour)
		r.bare("top.resin", c.At)
	}
	for _, g := range p.Glue {
		r.add("glue", "glue", g, glueClass(g.V, w)...)
	}
	if f := p.Finish; f != nil {
		r.add("finish.family", "finish", f.Family)
		r.add("finish.product", "finish", f.Product, family(f.Product.V, w)...)
	}
	if b := p.Base; b != nil {
		r.add("base.style", "", b.Style)
		t.maybeWood(r, "base.material", b.Material)
		r.add("base.coating", "", b.Coating)
		r.bare("base", b.At)
	}
	for _, part := range p.Parts {
		r.add("parts.name", "", part.Name)
		t.maybeWood(r, "parts.material", part.Material)
	}
	for _, m := range p.Materials {
		r.material(m, w)
	}
	for _, l := range p.Log {
		r.add("log.did", "", l.Did)
		for _, m := range l.Materials {
			r.add("log.materials", "", m)
		}
	}
	r.add("title", "", p.Title)
	r.add("kind", "", p.Kind)
	r.add("found", "", p.Found)
	r.add("story", "", p.Story)
	return r
}

func (r *Record) add(field, kind string, v piece.Value[string], also ...string) {
	if v.Set() && strings.TrimSpace(v.V) != "" {
		r.Facts = append(r.Facts, Fact{Field: field, Value: v.V, Also: also, At: v.At, kind: kind})
	}
}

// bare lists a part of which nothing is named, so that its word finds the piece.
func (r *Record) bare(part string, at piece.Place) {
	if n := len(r.Facts); n > 0 && partOf(r.Facts[n-1].Field) == partOf(part) {
		return
	}
	r.Facts = append(r.Facts, Fact{Field: part, Value: partOf(part), At: at})
}

// woodNames are the other names of a wood.
func (t *reader) woodNames(species string) []string {
	t.mu.Lock()
	defer t.mu.Unlock()
	names, ok := t.names[species]
	if !ok {
		if s, err := t.woods.Lookup(species); err == nil {
			names = []string{s.ID, s.Name, s.Botanical}
		}
		t.names[species] = names
	}
	return names
}

// maybeWood lists a material that may be a wood.
func (t *reader) maybeWood(r *Record, field string, v piece.Value[string]) {
	kind := ""
	names := t.woodNames(v.V)
	if names != nil {
		kind = "species"
	}
	r.add(field, kind, v, names...)
}

// chemistry is what the workshop says of a resin that it names by its product.
func chemistry(product string, w *piece.Workshop) []string {
	for _, x := range w.Resins {
		if strings.EqualFold(x.Product.V, product) && x.Chemistry.Set() {
			return []string{x.Chemistry.V}
		}
	}
	return nil
}

// glueClass is the class of a glue that the workshop names by its product.
func glueClass(product string, w *piece.Workshop) []string {
	for _, g := range w.Glues {
		if strings.EqualFold(g.Product.V, product) && g.Class.Set() {
			return []string{g.Class.V}
		}
	}
	return nil
}

// family is the family of a finish that the workshop names by its product.
func family(product string, w *piece.Workshop) []string {
	for _, f := range w.Finishes {
		if strings.EqualFold(f.Product.V, product) && f.Family.Set() {
			return []string{f.Family.V}
		}
	}
	return nil
}

// material lists one line of materials. What it was used for says which filter
// it answers.
func (r *Record) material(m piece.Material, w *piece.Workshop) {
	kind := ""
	use := strings.ToLower(m.Use.V)
	for _, k := range []struct{ word, kind string }{
		{"resin", "resin"}, {"glue", "glue"}, {"adhesive", "glue"}, {"finish", "finish"}, {"oil", "finish"}, {"varnish", "finish"}, {"lacquer", "finish"}, {"wax", "finish"},
	} {
		if strings.Contains(use, k.word) {
			kind = k.kind
			break
		}
	}
	r.add("materials.use", "", m.Use)
	r.add("materials.product", kind, m.Product, append(glueClass(m.Product.V, w), family(m.Product.V, w)...)...)
	r.add("materials.chemistry", kind, m.Chemistry)
	r.add("materials.hardener", kind, m.Hardener)
	r.add("materials.batch", "batch", m.Batch)
	r.add("materials.supplier", "supplier", m.Supplier)
}
