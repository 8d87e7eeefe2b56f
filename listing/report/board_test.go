package report

import (
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// Two words are no paper on food contact, and a board's glue has to say how much water it
// stands (EN 204: D3 and D4 stand being wetted often, D2 does not; ANSI/HPVA HP-1: Type
// II and Type I; from memory).
func TestBoardsAreAskedForPapersAndGlue(t *testing.T) {
	const board = "serial: B-1\ntitle: Board\nkind: serving board\nfinished: 2026-01-02\ntop: {outline: {length: 18 in, width: 12 in}, thickness: 1 in, wood: {species: hard-maple}}\n"
	w := &piece.Workshop{Glues: []piece.GlueProduct{{Product: piece.Of("blue lid"), Class: piece.Of("pva-d3")}, {Product: piece.Of("red lid"), Class: piece.Of("pva-d2")}}}
	ask := func(spec string) *Report {
		p, findings := piece.ParsePiece("piece.yaml", []byte(spec), piece.Defaults{})
		for _, f := range findings {
			if f.Rank == piece.Fault {
				t.Fatal(f.Message)
			}
		}
		return build(t, p, w)
	}
	for said, asked := range map[string]bool{
		"food safe": true, "yes": true, "lebensmittelecht": true, "FDA approved food safe certified": true,
		"for dry food, declaration of 2026-03-02": false, "Tested to EN 1186 by its maker": false, "what the sheet says": false, "Konformitätserklärung liegt vor": false,
	} {
		r := ask(board + "finish: {family: board-oil, food_contact: \"" + said + "\"}\n")
		if f, ok := found(r, "food.no-paper"); ok != asked || ok && (!strings.Contains(f.Message, said) || f.Line != 6) {
			t.Errorf("food_contact: %s: %+v", said, f)
		}
	}
	// What no paper bears out is on no paper of ours; what the maker's own texts promise is asked about.
	for said, printed := range map[string]bool{"food safe": false, "Tested to EN 1186 by its maker": true} {
		r := ask(board + "finish: {family: board-oil, food_contact: \"" + said + "\"}\n")
		got := ""
		for _, c := range r.Public.Cautions {
			got += c.Text + "\n"
		}
		if strings.Contains(strings.ToLower(got), strings.ToLower(said)) != printed || strings.Contains(got, "not certified") == printed {
			t.Errorf("%s: %s", said, got)
		}
	}
	for lines, asked := range map[string]bool{
		"story: A food-safe board.\n": true, "finish: {family: board-oil, product: food safe oil}\n": true, "story: Lebensmittelecht geölt.\n": true, "story: A board for bread.\n": false,
		"story: A food-safe board.\nfinish: {family: board-oil, food_contact: \"declaration of 2026-03-02\"}\n": false,
	} {
		if f, ok := found(ask(board+lines), "food.claimed"); ok != asked {
			t.Errorf("%q: %+v", lines, f)
		}
		if f, ok := found(ask(strings.Replace(board, "serving board", "other", 1)+lines), "food.claimed"); ok != asked {
			t.Errorf("%q: %+v", lines, f)
		}
	}
	for glue, asked := range map[string]bool{
		"yellow wood glue": true, "white glue": true, "pva-d2": true, "hide-glue": true, "red lid": true, "hot glue": true, "PVA": true,
		"pva-d3": false, "pva-d4": false, "blue lid": false, "yellow wood glue, D3": false, "yellow wood glue, Type II": false, "polyurethane-glue": false, "epoxy": false, "cyanoacrylate": false, "wasserfester Leim": false, "PU-Leim": false,
	} {
		r := ask(board + "glue: \"" + glue + "\"\n")
		if f, ok := found(r, "glue.water"); ok != asked || ok && !strings.Contains(f.Message, glue) {
			t.Errorf("glue: %s: %+v", glue, f)
		}
		if r := ask(strings.Replace(board, "serving board", "bench", 1) + "glue: \"" + glue + "\"\n"); asked {
			if f, ok := found(r, "glue.water"); ok {
				t.Errorf("a bench with %s: %+v", glue, f)
			}
		}
	}
}

// A load that stands in the maker's texts is a promise that nothing bears out, in five
// languages (words from memory); what it weighs, or what was carried to it, is none.
func TestALoadInTheStoryIsAskedAbout(t *testing.T) {
	for said, asked := range map[string]bool{
		"A shelf that holds 40 kg of books.": true, "It takes up to\n  90 lbs.": true, "Rated for 25 kg.": true, "Trägt bis zu 30 kg.": true, "Supporte 20 kg.": true, "Soporta hasta 20 kg.": true, "Draagt tot 25 kg.": true,
		"It weighs 40 kg.": false, "The slab came in at 90 kg, green.": false, "It takes two people and a van.": false, "It holds eight books.": false, "Es wiegt 30 kg.": false,
	} {
		r := build(t, spec(t, "serial: A1\ntitle: Tide\nkind: shelf\nfinished: 2026-09-18\nstory: |\n  "+said+"\ntop: {outline: {length: 90 cm, width: 20 cm}, thickness: 3 cm, wood: {species: white-oak}}\n"), nil)
		if f, ok := found(r, "stability.load-claimed"); ok != asked {
			t.Errorf("%q: asked %t: %s", said, ok, f.Message)
		}
	}
}

// A part with a current in it is asked about, in five languages (words from memory).
func TestAPartWithACurrentInIt(t *testing.T) {
	for name, asked := range map[string]bool{
		"LED strip": true, "LED-Band": true, "USB charger": true, "Netzteil": true, "ruban LED": true, "enchufe": true, "ledstrip": true,
		"drawer": false, "lead weight": false, "socket screws": false, "prise de main": false, "power socket": true, "light ash lipping": false, "hidden brackets": false, "Schublade": false, "threaded inserts": false,
	} {
		r := build(t, spec(t, "serial: A1\ntitle: Tide\nkind: shelf\nfinished: 2026-09-18\nparts: [{name: "+name+", weight: 120 g}]\ntop: {outline: {length: 90 cm, width: 20 cm}, thickness: 3 cm, wood: {species: white-oak}}\n"), nil)
		if f, ok := found(r, "electric.part"); ok != asked || ok && UrgencyOf(f) != Harm {
			t.Errorf("%q: asked %t, %v", name, ok, f)
		}
	}
}
