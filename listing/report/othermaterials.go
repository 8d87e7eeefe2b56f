package report

import (
	"regexp"
	"slices"

	"slabfolio/listing/piece"
)

// A pattern is made when it is first looked with.
type pattern = func() *regexp.Regexp

// A careMaterial is a material beside wood, resin and metal that the papers have care
// for, with the words that tell it in the languages of the papers (from memory).
type careMaterial struct {
	id   string
	said string
}

var careMaterials = []careMaterial{
	{"leather", `leathers?|cowhide|saddle hide|\pL*leder(?:riemen|bezug|bezüge|griffe?|bänder|gurte)?|leder\pL+|cuirs?|cueros?|leer|leren|lederen`},
	{"fabric", `upholster\pL*|fabrics?|textiles?|cushions?|cushioned|canvas|velvet|linen|tweed|\pL*polster\pL*|\pL*stoffe?|stoffbezug|samt|tissus?|toile|velours|coussins?|rembourrée?s?|capitonnée?s?|tapizad[oa]s?|telas?|terciopelo|cojín|cojines|gestoffeerde?|bekleding|stoffen|kussens?|fluweel`},
	{"cord", `(?:paper|danish|woven|cotton|hemp|jute|sisal|flax)[- ]+cords?|cord[- ]+(?:seats?|wrapped|woven|weave|bound|wrap)|ropes?|(?:papier|hanf|baumwoll|jute)kordeln?|kordel\pL*|seile?|seilgeflecht|cordes?|cordage|cuerdas?|papierkoord|koord\pL*|touw`},
	{"cane", `cane|caned|caning|cane[- ]work|rattan|rush|rushes|seagrass|wicker|\pL*rohrgeflecht|wiener geflecht|peddigrohr|binsen\pL*|weide(?:n)?geflecht|cannage|cannée?s?|rotin|paillée?s?|paillage|joncs?|osier|rejilla|enea|ratán|mimbre|anea|rotan|riet|biezen|webbing en riet`},
	{"stone", `stone|granite|marble|slate|travertine|limestone|quartzite|terrazzo|soapstone|concrete|granit|marmor|schiefer|kalkstein|naturstein|\pL*beton|marbre|ardoise|pierre|béton|granito|mármol|pizarra|piedra|hormigón|graniet|marmer|leisteen|natuursteen`},
}

// otherThanCare are words that name another thing or another material than the words of
// careMaterials that they hold.
var (
	imitations  = whole(`(?:faux|fake|imitation|artificial|synthetic|vegan|eco|bonded)[- ]+leather|leather[- ]+look|leatherette|kunstleder|lederimitat|simili(?:cuir)?|cuir synthétique|cuero (?:sintético|artificial)|polipiel|kunstleer|(?:artificial|engineered|reconstituted|cast|sintered)[- ]+stone|kunststein|stone[- ]+(?:grey|gray|look)|concrete[- ]+(?:grey|gray|look)`)
	underFeet   = whole(`(?:leather|fabric|felt|cork|rubber|leder|stoff|filz|kork|gummi|cuir|feutre|liège|caoutchouc|cuero|fieltro|corcho|goma|leer|vilt|kurk|rubber)[- ]*(?:pads?|washers?|feet|foot|glides?|gliders?|buffers?|discs?|füße|gleiter|scheiben?|patins?|rondelles?|arandelas?|dopjes|glijders?)`)
	uncaredFor  = whole(`suede|nubuck|cork|linoleum|lino|vellum|parchment|shagreen|horn|bone|mother[- ]of[- ]pearl|ceramics?|tiles?|porcelain|acrylic|perspex|polycarbonate|corian|plastics?|rubber|wildleder|nubukleder|kork|pergament|keramik|fliesen?|kunststoff|gummi|daim|nubuck|liège|parchemin|céramique|carrelage|plastique|caoutchouc|ante|corcho|pergamino|cerámica|azulejos?|plástico|goma|nubuk|kurk|perkament|keramiek|tegels?|kunststof`)
	glassSaid   = whole(`glass|glas|\pL*(?:glasplatte|spiegelglas|rauchglas)|verre|vidrio|cristal`)
	glassFibres = whole(`(?:glass|glas)[- ]*(?:fib(?:re|er)s?|faser\pL*|vezel\pL*)|fibres? de verre|fibra de vidrio`)
)

// careMaterialSaid are the patterns of careMaterials, in their order.
var careMaterialSaid = func() []pattern {
	var all []pattern
	for _, m := range careMaterials {
		all = append(all, whole(m.said))
	}
	return all
}()

// otherMaterials are the materials beside wood, resin and metal that base and parts are
// said to be of, in the order that their care is written in. Of one that the papers have
// no care for nothing is claimed, and the maker is told.
func (b *builder) otherMaterials(glass bool) []string {
	var out []string
	look := func(said string, at piece.Place) {
		for _, other := range []pattern{underFeet, glassFibres} {
			said = other().ReplaceAllString(said, " ; ")
		}
		unknown := ""
		for _, odd := range []pattern{imitations, uncaredFor} {
			if m := odd().FindStringSubmatch(said); m != nil {
				unknown = m[1]
				said = odd().ReplaceAllString(said, " ; ")
			}
		}
		for i, m := range careMaterials {
			if careMaterialSaid[i]().MatchString(said) && !slices.Contains(out, m.id) {
				out = append(out, m.id)
			}
		}
		if unknown != "" {
			b.find(piece.Note, "care.unknown-material", at, "the papers say nothing of the care of "+unknown+": none is known here", "ask whoever sold it, and tell the buyer in the story, or in delivery: assembly")
		}
	}
	if s := b.p.Base; s != nil {
		look(s.Style.V+" ; "+s.Material.V+" ; "+s.Coating.V, s.At)
	}
	for _, p := range b.p.Parts {
		look(p.Name.V+" ; "+p.Material.V, p.At)
	}
	if glass {
		out = append(out, "glass")
	}
	return out
}
