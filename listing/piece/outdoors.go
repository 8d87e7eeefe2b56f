package piece

import (
	"strings"

	"slabfolio/listing/spelling"
)

// Outdoors is where the maker says that the piece is to stand in the open.
type Outdoors struct {
	Key  string // kind, title or story; empty where nothing says so
	Said string // the words
	At   Place
}

// Words stand by themselves between these.
const (
	beforeWords = `(?i)(?:^|[^\pL\d])(`
	afterWords  = `)(?:$|[^\pL\d])`
)

// What says that a piece is to stand in the open, in the languages of the papers (from
// memory): what it is called, and what a story says of where it stands. A tree that stood
// outside, or a slab that dried there, is no such piece.
var (
	calledOutdoor = spelling.Pattern(beforeWords + `(?:garden|outdoor|patio|terrace|veranda|balcony)[- ](?:\pL+[- ]){0,2}(?:bench|benches|seat|stool|stools|table|tables|furniture|shelf)|(?:bench|seat|stool|table) for (?:the|a) (?:garden|patio|terrace)|` +
		`(?:garten|terrassen|balkon|außen|outdoor)-?\pL*(?:bank|bänke|tisch|tische|hocker|regal|möbel)|(?:banc|table|tabouret|mobilier)s? (?:\pL+ )?(?:de jardin|de terrasse|d[’']extérieur)|` +
		`(?:banco|mesa|taburete)s? (?:\pL+ )?(?:de jardín|de terraza|de exterior)|(?:tuin|buiten|terras|balkon)-?\pL*(?:bank|banken|tafel|tafels|kruk|meubel)` + afterWords)
	livesOutdoors = spelling.Pattern(beforeWords + `(?:to stand|stands|to stay|stays|to live|lives|can stay|can stand|left|kept|made|built|meant|for use) (?:\pL+ ){0,3}?(?:outside|outdoors|out of doors)|` +
		`für draußen|für den (?:garten|außenbereich)|(?:steht|stehen|bleibt|bleiben) (?:\pL+ ){0,3}?(?:draußen|im freien)|(?:reste|rester|vit|vivre|fait|conçue?) (?:\pL+ ){0,3}?(?:dehors|à l[’']extérieur|pour l[’']extérieur)|` +
		`para (?:el )?exterior(?:es)?|(?:está|queda|hech[oa]) (?:\pL+ ){0,3}?al aire libre|voor buiten|(?:staat|blijft) (?:\pL+ ){0,3}?buiten` + afterWords)
)

// readOutdoors finds what says that the piece is to stand in the open, in the language
// that the spec is written in: its translations are of the same piece.
func readOutdoors(w *Written, p *Piece) {
	called, lives := calledOutdoor().FindStringSubmatch, livesOutdoors().FindStringSubmatch
	look := func(key, text string, at Place, words func(string) []string) {
		if m := words(strings.Join(strings.Fields(text), " ")); m != nil && p.Outdoors.Key == "" {
			p.Outdoors = Outdoors{key, m[1], at}
		}
	}
	if kind := w.Key("kind"); kind != nil && kind.Single {
		look("kind", kind.Text, kind.At, called)
	}
	look("title", p.Title.V, p.Title.At, called)
	look("story", p.Story.V, p.Story.At, called)
	look("story", p.Story.V, p.Story.At, lives)
}
