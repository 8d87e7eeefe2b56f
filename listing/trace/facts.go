package trace

import (
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/wood"
)

// recordOf lists what a spec says of what went into the piece.
func recordOf(p *piece.Piece, w *piece.Workshop, woods *wood.Table) *Record {
	r := &Record{Serial: p.Serial.V, Title: p.Title.V, Where: p.Availability.V}
	if p.Finished.Set() {
		r.Finished = p.Finished.V.String()
	}
	if p.Buyer != nil {
		r.Buyer = p.Buyer.Name.V
	}
	r.top(p, woods)
	for _, g := range p.Glue {
		r.add("glue", "glue", g, glueClass(g.V, w)...)
	}
	if f := p.Finish; f != nil {
		r.add("finish.family", "finish", f.Family)
		r.add("finish.product", "finish", f.Product)
	}
	if b := p.Base; b != nil {
		r.add("base.style", "", b.Style)
		r.add("base.material", "", b.Material)
		r.add("base.coating", "", b.Coating)
	}
	for _, part := range p.Parts {
		r.add("parts.name", "", part.Name)
		r.add("parts.material", "species", part.Material, names(part.Material.V, woods)...)
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

func (r *Record) top(p *piece.Piece, woods *wood.Table) {
	for _, w := range p.Top.Wood {
		r.add("top.wood.species", "species", w.Species, names(w.Species.V, woods)...)
		r.add("top.wood.origin", "", w.OriginNote)
	}
	for _, c := range p.Top.Resin {
		r.add("top.resin.material", "resin", c.Material)
		r.add("top.resin.colour", "resin", c.Colour)
	}
}

// names are the other names of a wood.
func names(species string, woods *wood.Table) []string {
	s, err := woods.Lookup(species)
	if err != nil {
		return nil
	}
	return []string{s.ID, s.Name, s.Botanical}
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
	r.add("materials.product", kind, m.Product, glueClass(m.Product.V, w)...)
	r.add("materials.chemistry", kind, m.Chemistry)
	r.add("materials.hardener", kind, m.Hardener)
	r.add("materials.batch", "batch", m.Batch)
	r.add("materials.supplier", "supplier", m.Supplier)
}
