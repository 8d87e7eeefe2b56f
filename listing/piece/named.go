package piece

import (
	"fmt"
	"strings"

	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/spelling"
)

// A Secret is somebody whom nothing that others read is to name: who has the piece, or
// who sold what went into it.
type Secret struct {
	Who    string // "the buyer" or "a supplier"
	Said   string // as the spec says it
	Person spelling.Person
	where  string // the key that it stands in
	code   string
}

// Secrets lists those whom a piece's spec names in private keys, each once.
func (p *Piece) Secrets() []Secret {
	var out []Secret
	if p.Buyer != nil && p.Buyer.Name.Set() {
		out = append(out, Secret{"the buyer", p.Buyer.Name.V, spelling.NewPerson(p.Buyer.Name.V), "buyer", "spec.buyer-named"})
	}
	said := map[string]bool{"": true}
	for _, m := range p.Materials {
		if !said[m.Supplier.V] {
			out = append(out, Secret{"a supplier", m.Supplier.V, spelling.NewPerson(m.Supplier.V), "supplier", "spec.supplier-named"})
		}
		said[m.Supplier.V] = true
	}
	return out
}

// checkNamed doubts every value of a spec that names the buyer or a supplier where
// anybody may read it: who has a piece, and who sold what is in it, is private. Names of
// photos are looked at where it is known which of them are published.
func checkNamed(d *decoder, w *Written, p *Piece) {
	for _, s := range p.Secrets() {
		doubt := func(path, text string, at Place) {
			named := s.Person.In(text)
			if path == "serial" || path == "photos.blends.name" {
				named = s.Person.InFileName(text)
			}
			// A product has its maker's name before it, who may have sold it: it is on every tin.
			branded := s.where == "supplier" && strings.Contains(path, ".product") && strings.HasPrefix(text, named)
			if named != "" && !branded {
				d.doubt(s.code, at, fmt.Sprintf("%s names %s, %q, and everybody can read it", path, s.Who, yamltext.Shorten(named)),
					fmt.Sprintf("take the name out of it, unless it only is a word like the name; the name stands in %s, which is never published", s.where))
			}
		}
		var look func(w *Written, path string)
		look = func(w *Written, path string) {
			for _, item := range w.Items {
				look(item, path)
			}
			for _, k := range w.Keys {
				if at := KeyPath(path, k.Name); ReaderOf(at) == Anyone && !namesFiles(at) {
					look(k.Value, at)
				}
			}
			if w.Single {
				doubt(path, w.Text, w.At)
			}
		}
		look(w, "")
		for _, m := range p.Materials {
			if m.Show.V {
				doubt("materials.use, which show: yes makes public,", m.Use.V, m.Use.At)
				doubt("materials.product, which show: yes makes public,", m.Product.V, m.Product.At)
			}
		}
	}
}
