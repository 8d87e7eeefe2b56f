package report

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
)

// boardContact asks what finish and resin of a board are documented for, before
// the listing says that they are not certified.
func (b *builder) boardContact() {
	b.claimedSafe()
	if b.p.Kind.V != "serving board" {
		return
	}
	b.boardGlue()
	if said := b.saidOfFood(); said != "" && !namesPaper(said) {
		at := b.p.Finish.At
		if b.p.Finish.FoodContact.Set() {
			at = b.p.Finish.FoodContact.At
		}
		b.noPaper(at, said)
	}
	if said := b.saidOfResinFood(); said != "" && !namesPaper(said) {
		b.noPaper(b.p.Top.Resin[0].At, said)
	}
	at, of, remedy := b.p.Top.At, "", ""
	switch f := b.p.Finish; {
	case b.saidOfFood() != "":
	case f == nil:
		of, remedy = "the board, whose finish is not told,", "add finish: {family: …, product: …, food_contact: \"what its sheet says\"}"
	case b.family != nil && b.family.ID == "bare":
		at, of, remedy = f.At, "the bare wood", "where you have a paper on it, write finish: {family: bare, food_contact: \"what it says\"}; where you have none, leave it so"
	default:
		at, of, remedy = f.At, "its finish", "look at the sheet of "+cmp.Or(f.Product.V, "the finish")+": where it documents food contact, write finish: {…, food_contact: \"what the sheet says\"}, or the same with the product in workshop.yaml; where it does not, leave it so"
	}
	if of != "" {
		b.find(piece.Doubt, "food.not-documented", at, "the listing will say that "+of+" is not certified for direct food contact: nothing tells what is documented", remedy)
	}
	if r := b.p.Top.Resin; len(r) > 0 && b.saidOfResinFood() == "" {
		b.find(piece.Doubt, "food.resin-not-documented", r[0].At, "the listing will say that the resin is not certified for direct food contact, and that no food goes on it: nothing tells what its sheet documents",
			"where the sheet documents food contact, write in workshop.yaml resins: [{product: "+strconv.Quote(cmp.Or(r[0].Material.V, "the name on the tin"))+", food_contact: \"what the sheet says\"}], and name that product in resin: {material: …}; where it does not, leave it so")
	}
}

// papers are what a paper on food contact is called, in the languages of the papers.
var papers = spelling.Pattern(`(?i)\d|\b(?:sheet|data ?sheet|declaration|statement|certificate|letter|report|tested to)\b|datenblatt|merkblatt|erklärung|zertifikat|gutachten|prüfbericht|déclaration|\bfiche\b|certificat|attestation|declaración|\bficha\b|certificado|verklaring|\bblad\b|informatieblad|certificaat`)

// namesPaper reports whether what is said of food contact names a paper, or holds a
// figure, as the number of a standard or a date does.
func namesPaper(said string) bool { return papers().MatchString(said) }

// documented is what is said of food contact where it names a paper, else nothing.
func documented(said string) string {
	if namesPaper(said) {
		return said
	}
	return ""
}

// safeSaid are words that promise that food may touch a thing, in the languages of the
// papers (from memory).
var safeSaid = whole(`food[- ]?(?:safe|grade|approved)|safe for food|lebensmittel(?:echt|sicher|tauglich|unbedenklich)\pL*|alimentaires?|apt[oa]s? para (?:uso alimentario|alimentos)|(?:voedsel|levensmiddel)(?:veilig|echt)\pL*`)

// claimedSafe asks about a promise that stands in the maker's own texts, which are printed
// as they are, where no paper is named that bears it out.
func (b *builder) claimedSafe() {
	if b.documentedFood() != "" {
		return
	}
	look := func(where string, v piece.Value[string]) {
		if m := safeSaid().FindStringSubmatch(v.V); m != nil {
			b.find(piece.Doubt, "food.claimed", v.At, fmt.Sprintf("%s says %q, and nothing names a paper that documents it", where, m[1]),
				"take it out, or name the paper that documents it: finish: {food_contact: \"for dry and moist food, declaration of 2026-03-02\"}")
		}
	}
	b.eachText(look)
	if b.p.Finish != nil {
		look("the product", b.p.Finish.Product)
	}
}

// eachText goes through the maker's texts that buyers read as they are: title, story,
// captions.
func (b *builder) eachText(look func(where string, v piece.Value[string])) {
	look("the title", b.p.Title)
	look("the story", b.p.Story)
	for _, file := range slices.Sorted(maps.Keys(b.p.Photos.Captions)) {
		look("a caption", b.p.Photos.Captions[file])
	}
}

// loadSaid are words that promise a load, with its figure, in the languages of the papers
// (from memory). What a piece weighs, and what a person carries, is no such promise.
var loadSaid = whole(`(?:holds?|carry|carries|takes?|bears?|supports?|withstands?|rated (?:for|to)|load (?:of|up to)|loaded with) (?:\pL+ ){0,2}?\d[\d.,]* ?(?:kg|kilos?|kilograms?|lbs?|pounds?|stone)|` +
	`(?:trägt|hält|tragfähigkeit|belastbar|traglast)(?: \pL+){0,3}? \d[\d.,]* ?(?:kg|kilo)|(?:supporte|porte|tient|charge)(?: \pL+){0,3}? \d[\d.,]* ?(?:kg|kilos?)|` +
	`(?:soporta|aguanta|carga)(?: \pL+){0,3}? \d[\d.,]* ?(?:kg|kilos?)|(?:draagt|houdt|belastbaar|draagkracht|draagvermogen)(?: \pL+){0,3}? \d[\d.,]* ?(?:kg|kilo)`)

// claimedLoad asks about a load that stands in the maker's own texts: no figure here
// bears it out, and whoever believes it may get hurt.
func (b *builder) claimedLoad() {
	b.eachText(func(where string, v piece.Value[string]) {
		if m := loadSaid().FindStringSubmatch(strings.Join(strings.Fields(v.V), " ")); m != nil {
			b.find(piece.Doubt, "stability.load-claimed", v.At, fmt.Sprintf("%s says %q, which everybody reads as a promise, and nothing here bears it out", where, m[1]),
				"take it out, unless fixings, wall and piece were tested for it; then keep the paper in papers/ and name it beside the figure")
		}
	})
}

// noPaper asks for the paper behind words that name none, which are not printed.
func (b *builder) noPaper(at piece.Place, said string) {
	b.find(piece.Doubt, "food.no-paper", at, fmt.Sprintf("%q names no paper that documents it, so it is not printed; the listing will say that it is not certified for direct food contact", said),
		"quote the sheet with its name and date, such as food_contact: \"for dry and moist food, declaration of 2026-03-02\"; where there is none, take food_contact out")
}

// What a board is glued with is wetted at every washing. How much water a glue stands is
// said in two ways: by EN 204 (thermoplastic wood adhesives, D1 to D4: D2 stands water
// now and then and briefly, D3 often and briefly, D4 often and for long), and in North
// America as Type II and Type I, by the tests of ANSI/HPVA HP-1. All from memory.
var (
	// standsWater is a glue that says itself that it may get wet.
	standsWater = spelling.Pattern(`(?i)(?:^|[^\p{L}\d])(?:d ?[34]|type ?(?:1|2|i|ii)|pu|pur)(?:$|[^\p{L}\d])|water[- ]?(?:proof|resist)|wasser(?:fest|beständig)|watervast|résistante? à l.eau|resistente al agua|polyureth|poliuretan|polyuréth|epox|époxy|cyano|superglue|super glue|resorcin`)
	// yieldsToWater are glues that are known to soften in water.
	yieldsToWater = spelling.Pattern(`(?i)(?:^|[^\p{L}\d])d ?[12](?:$|[^\p{L}\d])|hide|hot[- ]?melt|hot glue|knochenleim|hautleim|colle d.os|colle de peau|beenderlijm`)
)

// boardGlue asks how much water the glue of a board stands.
func (b *builder) boardGlue() {
	for _, g := range b.p.Glue {
		text := g.V
		for _, own := range b.w.Glues {
			if sameName(own.Product.V, g.V) && own.Class.Set() {
				text = own.Class.V
			}
		}
		const usual = "usual for boards is D3 or D4 of EN 204, or Type II or Type I on American bottles"
		switch {
		case strings.TrimSpace(text) == "" || standsWater().MatchString(text):
		case yieldsToWater().MatchString(text):
			b.find(piece.Doubt, "glue.water", g.At, fmt.Sprintf("the board is washed, and %s gives way where it is wetted often", g.V), "look at its joints after a few washings; "+usual)
		default:
			b.find(piece.Doubt, "glue.water", g.At, fmt.Sprintf("the board is washed, and %q does not say how much water the glue stands", g.V),
				"look at the bottle, and write it with the name, such as glue: "+g.V+", D3; "+usual)
		}
	}
}
