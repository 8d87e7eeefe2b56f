package wood

import (
	"slices"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
)

// A shared name is one that the table takes for one tree, and that is another's where
// that one does not grow.
type sharedName struct {
	grows  []string // the countries where it is that tree's
	others []string // ids of what else it may be elsewhere
	beyond string   // and what the table does not hold
}

// nearEurope are countries beside those of europe where its trees grow too (the ranges
// of the floras, from memory); latin are those of Cedrela.
var (
	nearEurope = strings.Fields("AD AF AM AZ BY DZ FO GE GG GI IL IM IQ IR JE KG KZ LB MA MC RU SM SY TJ TM TN UZ VA XK")
	latin      = strings.Fields("AR BO BR BZ CO CR CU DO EC GF GT GY HN HT JM MX NI PA PE PR PY SR SV TT VE")
	caribbean  = strings.Fields("BS CU DO HT JM MX PR TT")
	inAndNear  = append(slices.Clone(europe), nearEurope...)
)

// sharedNames are such names of the table (common practice, no source; the trees after
// the floras, from memory), and a trade name of another language.
var sharedNames = map[string]sharedName{
	"cypress":    {northAmerica, []string{"baldcypress", "port-orford-cedar"}, "a Cupressus, the cypress of Europe"},
	"holly":      {northAmerica, []string{"american-holly"}, "Ilex aquifolium, the holly of Europe"},
	"dogwood":    {northAmerica, []string{"flowering-dogwood"}, "another Cornus, such as Cornus sanguinea or Cornus mas of Europe"},
	"bay laurel": {northAmerica, []string{"california-laurel"}, "Laurus nobilis, the laurel of Europe"},
	"cedro":      {latin, []string{"cedar-of-lebanon", "deodar", "spanish-cedar"}, "another true cedar, such as Cedrus atlantica"},
	"yew":        {inAndNear, []string{"yew", "pacific-yew"}, "another Taxus"},
	"hornbeam":   {inAndNear, []string{"hornbeam"}, "Carpinus caroliniana, the hornbeam of North America"},
	"lime":       {inAndNear, []string{"small-leaved-lime", "basswood"}, "Citrus, the tree of the fruit"}, // a Tilia is linden or basswood in North America
	"limewood":   {inAndNear, []string{"small-leaved-lime", "basswood"}, "Citrus, the tree of the fruit"},
	"lime wood":  {inAndNear, []string{"small-leaved-lime", "basswood"}, "Citrus, the tree of the fruit"},
	"guayacan":   {append(slices.Clone(caribbean), inAndNear...), []string{"lignum-vitae", "ipe"}, "Handroanthus guayacan or another tree of that name"},
}

// overseas are European names that settlers gave to other trees, which the table does not
// hold (after the floras, from memory).
var overseas = map[string]string{
	"alerce": "Fitzroya cupressoides, the alerce of Chile and Argentina", "roble": "Nothofagus obliqua, the roble of Chile, or Tabebuia rosea, that of Central America",
	"nogal": "another Juglans, such as Juglans pyriformis of Mexico or Juglans australis of Argentina",
}

// elsewhere is the error of a name that the table takes for one tree, where the wood comes
// from a country in which it is another's; nil where it is not, or no country is known.
func (t *Table) elsewhere(name string, s Species, country string) error {
	key, country := t.bareName(name), strings.ToUpper(strings.TrimSpace(country))
	if len(country) != 2 || t.own[plainID(key)] {
		return nil
	}
	if n, shared := sharedNames[key]; shared {
		if slices.Contains(n.grows, country) {
			return nil
		}
		return &AmbiguousError{Name: name, Among: n.others, Beyond: n.beyond}
	}
	if s.ReadFrom == "" || !slices.Contains(inEurope, s.ID) || slices.Contains(inAndNear, country) {
		return nil
	}
	e := &AmbiguousError{Name: name, Beyond: overseas[key]}
	if e.Beyond == "" {
		e.Beyond = "another tree that bears the name where it grew"
	}
	genus, _, _ := strings.Cut(s.Botanical, " ")
	for _, kin := range t.species {
		if g, _, _ := strings.Cut(kin.Botanical, " "); g == genus && !slices.Contains(inEurope, kin.ID) && len(e.Among) < 4 {
			e.Among = append(e.Among, kin.ID)
		}
	}
	e.Among = append(e.Among, s.ID)
	return e
}

// bareName is a plain name without words that only describe the wood, in English or in
// another language of the papers.
func (t *Table) bareName(name string) string {
	key := spelling.Plain(name)
	if at, _, rest := t.woodsNamed(key); len(at) > 0 {
		return rest
	}
	return bareForeign(key)
}

// grewIn is the country that tells which tree a name is of: the wood's own, else that of
// the workshop.
func (t *Table) grewIn(w piece.Wood) string {
	if w.Country.V != "" {
		return w.Country.V
	}
	return t.home
}

// AlsoElsewhere says what a wood's name is the name of in other countries, where no
// country tells which is meant; "" where it is of one tree, or a country tells.
func (t *Table) AlsoElsewhere(w piece.Wood) string {
	key := t.bareName(w.Species.V)
	if t.grewIn(w) != "" || t.own[plainID(key)] {
		return ""
	}
	return sharedNames[key].beyond
}
