package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"slabfolio/listing/assembly"
	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
	"slabfolio/listing/wood"
)

// madeOf lists what the piece is made of, for everybody to see.
func (b *builder) madeOf() {
	pub := &b.r.Public
	pub.Materials = append(pub.Materials, b.woodsOfTop()...)
	for i, r := range b.p.Top.Resin {
		name := b.words.Say("figures.resin.name", nil)
		pub.Materials = append(pub.Materials, Material{Role: "resin", Name: name, Share: b.mix.resinShares[i], Detail: b.resinDetail(r)})
	}
	roundShares(pub.Materials)
	if s := b.p.Base; s != nil {
		b.noteForeignMaterial(s.Material)
		pub.Base = &Base{Style: b.known(s.Style.V), Material: b.materialName(s.Material.V), Coating: s.Coating.V, Feet: s.Feet.V, Fixing: b.fixingText(s.Fixing)}
		if s.Material.Set() {
			pub.Materials = append(pub.Materials, Material{Role: "base", Name: spelling.Capital(pub.Base.Material), Detail: s.Coating.V})
		}
	} else if !assembly.Flat(b.p.Kind.V) {
		b.find(piece.Doubt, "base.missing", piece.Place{File: b.p.Serial.At.File}, "no base is described, so height, weight and stability of the whole piece are not known",
			"add `base:` with material, weight, height and footprint")
	}
	seen := map[string]bool{}
	for _, q := range b.p.Parts {
		b.noteForeignMaterial(q.Material)
		part := Part{Name: b.known(q.Name.V), Material: b.materialName(q.Material.V), Count: max(1, q.Count.V)}
		if len(q.Size) == 3 {
			l, w, h := q.Size[0].V, q.Size[1].V, q.Size[2].V
			part.Text = Text{In: units.Sizes(units.Inches, l, w, h), Cm: b.words.Number(units.Sizes(units.Centimetres, l, w, h))}
		}
		pub.Parts = append(pub.Parts, part)
		if part.Material != "" && !seen[part.Material] {
			seen[part.Material] = true
			pub.Materials = append(pub.Materials, Material{Role: "part", Name: spelling.Capital(part.Material), Detail: part.Name})
		}
	}
	for _, m := range b.p.Materials {
		if m.Show.V {
			pub.Shown = append(pub.Shown, ShownMaterial{Use: m.Use.V, Product: forBuyer(m.Product.V)})
		}
	}
}

// woodsOfTop are the woods of the top, those that read alike as one with the sum of their
// shares, however each was spelt.
func (b *builder) woodsOfTop() (out []Material) {
	if b.allResin() {
		return nil // the spec has to name a wood, and there is none in the top
	}
	said, percent := b.sharesSaid(), []float64(nil)
	for i, w := range b.p.Top.Wood {
		m := Material{Role: "wood", Name: spelling.Capital(b.known(w.Species.V)), Origin: b.origin(w), Detail: b.woodDetail(w)}
		if s, err := b.woods.Resolve(w); err == nil {
			b.askWhichTree(w, s.Name, s.Botanical)
			b.noteForeign(w, s)
			m.Name, m.Botanical = b.woodName(w, s), s.Botanical
			m.Detail = b.withQualities(m, s.Qualities)
		}
		at := slices.Index(out, m)
		if at < 0 {
			at, out, percent = len(out), append(out, m), append(percent, 0)
		}
		percent[at] += b.mix.woodShares[i]
	}
	for i := range out {
		if said {
			out[i].Share = percent[i]
		}
	}
	return out
}

// allResin reports whether the top holds no wood to speak of.
func (b *builder) allResin() bool { return b.mix.resinShare > 0.999 }

// sharesSaid reports whether the maker said how the woods share the top. Where
// that is not said the sums take equal shares, and nobody is told so for a fact.
func (b *builder) sharesSaid() bool {
	for _, w := range b.p.Top.Wood {
		if !w.Share.Set() {
			return len(b.p.Top.Wood) == 1
		}
	}
	return true
}

// askWhichTree asks which of two trees is meant, where the maker's word is the name
// of both and no origin tells. Where the workshop's country tells, it says so.
func (b *builder) askWhichTree(w piece.Wood, table, botanical string) {
	n := b.woods.Namesake(w)
	if beyond := b.woods.AlsoElsewhere(w); beyond != "" {
		b.find(piece.Note, "wood.namesake", w.Species.At, fmt.Sprintf("%q is taken for %s (%s), and may be the name of %s", w.Species.V, table, botanical, beyond),
			fmt.Sprintf("write %s if that is meant, or where the tree stood (origin)", botanical))
	}
	if n.Told || n.Other == "" {
		return
	}
	european, err := b.woods.Lookup(n.Other)
	american, err2 := b.woods.AtHome("").Lookup(w.Species.V)
	switch {
	case err != nil || err2 != nil:
	case n.Home == "":
		b.find(piece.Doubt, "wood.namesake", w.Species.At, fmt.Sprintf("%q is taken for %s (%s), and in Europe it is the name of another tree, %s (%s)", w.Species.V, table, botanical, european.Name, european.Botanical),
			fmt.Sprintf("write %s if that is meant, or %s", n.Other, botanical))
	default:
		other := american
		if !n.European {
			other = european
		}
		b.find(piece.Note, "wood.namesake", w.Species.At, fmt.Sprintf("%q is taken for %s (%s), as in the workshop's country, %s; elsewhere it is the name of %s (%s)", w.Species.V, table, botanical, n.Home, other.Name, other.Botanical),
			fmt.Sprintf("write %s if that is meant, or where the tree stood (origin)", other.Botanical))
	}
}

// noteForeign notes how a wood's name in another language was read.
func (b *builder) noteForeign(w piece.Wood, s wood.Species) {
	if s.ReadFrom != "" {
		b.find(piece.Note, "wood.read-as", w.Species.At, fmt.Sprintf("%q is read as %s (%s)", w.Species.V, s.Name, s.Botanical), fmt.Sprintf("write %s; where it is another one, that one", s.ID))
	}
}

// noteForeignMaterial does so for a material of base or parts, which may be a wood.
func (b *builder) noteForeignMaterial(v piece.Value[string]) {
	name, id := "", ""
	if m, err := b.materials.Lookup(v.V); err == nil {
		if m.ReadFrom != "" {
			name, id = m.Name, m.ID
		}
	} else if s, err := b.woods.Lookup(v.V); err == nil && s.ReadFrom != "" {
		name, id = s.Name+" ("+s.Botanical+")", s.ID
	}
	if id != "" {
		b.find(piece.Note, "material.read-as", v.At, fmt.Sprintf("%q is read as %s", v.V, name), fmt.Sprintf("write %s; where it is another one, that one", id))
	}
}

// roundShares rounds the percentages of the top to what they are known to: whole ones,
// and tenths where one of them is below ten. Those that make up all of it add up to a
// hundred as they are printed, too: what is left over goes to those that rounding down
// took most from.
func roundShares(of []Material) {
	sum, step := 0.0, 1.0
	for _, m := range of {
		sum += m.Share
		if m.Share > 0 && m.Share < 10 {
			step = 0.1
		}
	}
	down := func(m Material) float64 { return math.Floor(m.Share/step + 1e-9) }
	order, left := make([]int, len(of)), 100/step
	for i, m := range of {
		order[i], left = i, left-down(m)
	}
	slices.SortStableFunc(order, func(i, k int) int {
		return cmp.Compare(of[k].Share/step-down(of[k]), of[i].Share/step-down(of[i]))
	})
	whole := math.Abs(sum-100) < step/2
	for n, i := range order {
		steps := math.Round(of[i].Share / step)
		if whole {
			steps = down(of[i])
			if float64(n) < math.Round(left) {
				steps++
			}
		}
		of[i].Share = round(steps*step, 1)
	}
}

// woodName is the wood's name for people. What the maker wrote stands where it is
// a name; an id or a botanical name takes the table's. In another language it is
// that language's trade name, where it has one.
func (b *builder) woodName(w piece.Wood, s wood.Species) string {
	if name, ok := b.words.Named("wood", s.ID); ok {
		return spelling.Capital(name)
	}
	said := w.Species.V
	botanical := s.ReadFrom != "" || strings.Contains(strings.ToLower(s.Botanical), strings.ToLower(said))
	table := shortName(s.Name)
	if table == "" || (!botanical && strings.Contains(said, " ") && !strings.Contains(said, "-")) {
		return spelling.Capital(said)
	}
	return spelling.Capital(table)
}

// materialName is a material for people: a wood's name, or what the maker wrote
// without the hyphens of an id.
func (b *builder) materialName(said string) string {
	if said == "" {
		return ""
	}
	if m, err := b.materials.Lookup(said); err != nil {
		if s, err := b.woods.Lookup(said); err == nil {
			if name, ok := b.words.Named("wood", s.ID); ok {
				return name
			}
			if strings.Contains(said, " ") && s.ReadFrom == "" && !strings.Contains(strings.ToLower(s.Botanical), strings.ToLower(said)) {
				return said
			}
			return b.words.Inside(shortName(s.Name))
		}
	} else if name, ok := b.words.Named("material", m.ID); ok {
		return name
	} else if (m.ID == said || m.ReadFrom != "") && len(m.Aliases) > 0 {
		return m.Aliases[0]
	} else if m.ReadFrom != "" {
		return b.words.Inside(shortName(m.Name))
	}
	if name := b.known(said); name != said || strings.Contains(said, " ") {
		return name
	}
	return strings.ReplaceAll(said, "-", " ")
}

// known is a word that many makers write for a part, or for a wood without saying which
// of several, in the language of the papers; any other stays as it was written.
func (b *builder) known(said string) string {
	if name, ok := b.words.Named("word", strings.TrimSpace(said)); ok {
		return name
	}
	return said
}

// shortName is a wood's name without what stands behind it in brackets, since its
// botanical name stands in brackets there: "Hard maple", not "Hard maple (sugar
// maple) (Acer saccharum)".
func shortName(table string) string {
	if !strings.HasSuffix(table, ")") {
		return table // European (wild) cherry
	}
	name, _, _ := strings.Cut(table, " (")
	return name
}

func (b *builder) origin(w piece.Wood) string {
	country := w.Country.V
	if name, ok := b.words.Country(country); ok {
		country = name
	}
	country = spelling.Capital(country)
	switch {
	case country == "":
		return w.OriginNote.V
	case w.OriginNote.V == "":
		return country
	}
	return b.words.Say("figures.origin", map[string]any{"Country": country, "Note": w.OriginNote.V})
}

// woodDetail says how the wood was cut, where the maker said it.
func (b *builder) woodDetail(w piece.Wood) string {
	var out []string
	if w.Cut.Set() {
		out = append(out, b.words.Say("figures.cut."+w.Cut.V, nil))
	}
	if id := "figures.grain." + strings.ReplaceAll(w.Grain.V, " ", "-"); b.words.Has(id) {
		out = append(out, b.words.Say(id, nil))
	}
	return strings.Join(out, ", ")
}

// withQualities puts the words that describe a wood (burl, spalted) before its
// detail, where its name does not say them.
func (b *builder) withQualities(m Material, words []string) string {
	var out []string
	for _, w := range words {
		if !strings.Contains(" "+spelling.Plain(m.Name)+" ", " "+w+" ") {
			out = append(out, b.words.Called("quality", w))
		}
	}
	if m.Detail != "" {
		out = append(out, m.Detail)
	}
	return strings.Join(out, ", ")
}

func (b *builder) resinDetail(r piece.Resin) string {
	switch {
	case r.Pours.V > 1 && r.Colour.V != "":
		return b.words.Say("figures.resin.pours", map[string]any{"Colour": r.Colour.V, "Pours": b.number(r.Pours.V)})
	case r.Pours.V > 1:
		return b.words.Say("figures.resin.pours-plain", map[string]any{"Pours": b.number(r.Pours.V)})
	}
	return r.Colour.V
}

// countBefore is a count that stands before a size: in words, or with a sign
// between, since "8 5/16-18 bolts" reads as eight and five sixteenths.
func (b *builder) countBefore(n int) string {
	if text := b.number(n); text != fmt.Sprint(n) {
		return text
	}
	return fmt.Sprint(n) + " ×"
}

func (b *builder) fixingText(f *piece.Fixing) string {
	if f == nil {
		return ""
	}
	if f.Text.V != "" {
		return f.Text.V
	}
	var out []string
	kind, plain := "", spelling.Plain(f.Method.V)
	if plain == "screws" || plain == "screw" {
		kind = "-screws"
	}
	if f.Method.V != "" && (f.Bolt.V == "" || kind == "" && plain != "bolts") {
		out = append(out, f.Method.V)
	}
	switch {
	case f.Bolt.V != "" && f.Count.V > 0:
		out = append(out, b.words.Say("figures.fixing.count"+kind, map[string]any{"N": f.Count.V, "Count": b.countBefore(f.Count.V), "Bolt": f.Bolt.V}))
	case f.Bolt.V != "":
		out = append(out, b.words.Say("figures.fixing.bolt"+kind, map[string]any{"Bolt": f.Bolt.V}))
	}
	if id := "figures.fixing." + f.Holes.V; b.words.Has(id) {
		out = append(out, b.words.Say(id, nil))
	}
	return strings.Join(out, ", ")
}
