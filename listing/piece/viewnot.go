package piece

import (
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"

	"slabfolio/listing/spelling"
)

// notViews are groups of words in file names that hold a word of a view and mean
// something else, in the languages of the papers (from memory); a bar parts words that
// serve alike.
var notViews = []string{
	// kinds of pieces and of edges, tools and places
	"end table|tables", "end result|user|mill|product|cap", "end of day|week|year|job|work", "dead|week|year|rear end", "front door|yard|garden|room|royal|page|cover", "back yard|garden|ground|drop|saw|door|room|story|up|again", "feed|play|come|pay back",
	"top coat|coats|coated|soil|secret|quality", "desk|lap top", "under lamp|light|construction|coat|glaze|sun|tree|cover|stairs|window|way", "overhead light|lights|lamp|lighting|projector|door", "foot path|ball|print|note|stool|rest|bridge|long",
	"scale model|drawing", "mark and|und|et|y|en", "show|mush|bath|bed|living|work room", "joint venture",
	"plan a|b|c|d", "plan de travail", "plan large|américain|americain|rapproché|rapproche|serré|serre", "floor|ground|business|site|floor|work plan",
	// by the sea, on the rim of the town, in front of the barn, before the sanding
	"bord de|du mer|lac|route|rivière|riviere|fleuve|canal", "bord de l", "au|à|a bord", "borde del|de mar|río|rio|camino", "am|vom rand|rande", "ci dessous|dessus", "bottom up", "rand der|des",
	"devant|derrière|derriere|dessous le|la|les|l|un|une|notre", "delante|detrás|detras|debajo del|de",
	"avant après|apres|ponçage|poncage|travaux|restauration|huilage|collage|vernis|finition|réparation|reparation|livraison|coulée|coulee|le|la|les|et|de",
}

// kindsCalled are words for pieces, and ends of such words, in the languages of the papers
// (common practice, no source).
var (
	kindsCalled = strings.Fields("bench benches table tables desk desks board boards slab slabs shelf shelves stool stools panel panels tray trays counter countertop worktop mantel console bowl lamp" +
		" hocker regal regale konsole tablett tische bretter bänke platten banc bancs planche planches bureau tabouret étagère étagères plateau billot mesa mesas banco bancos tabla tablas escritorio taburete estante estantes bandeja tablero kruk wandplank dienblad planken tafels")
	kindsEnd = []string{"tisch", "tische", "bank", "brett", "platte", "tafel", "plank", "regal", "bord"}
)

// naturalEdges are the words for an edge and for end grain that name a kind of piece as
// well: a live-edge bench, a board of end grain.
var naturalEdges = sync.OnceValue(func() [][]string {
	var out [][]string
	for called := range strings.SplitSeq("live edge, natural edge, raw edge, waney edge, live edged, end grain, endgrain, baumkante, waldkante, naturkante, hirnholz, stirnholz, bord vif, bords vifs, bord naturel, bois de bout, canto vivo, borde vivo, canto natural, borde natural, veta de testa, boomkant, boomrand, kopshout", ", ") {
		out = append(out, nameWords(called))
	}
	return out
})

// measures are the words of feet that a figure before them makes a length or a number.
var measures = strings.Fields("foot feet fuß fuss füße fuesse fusse pieds patas poten voeten")

// withoutNotViews returns the words of a name with those emptied that hold a view's word
// and mean something else.
func withoutNotViews(have []string) []string {
	out := slices.Clone(have)
	blank := func(at, n int) {
		for i := at; i < at+n; i++ {
			out[i] = ""
		}
	}
	for _, phrase := range notViews {
		parts := strings.Fields(phrase)
		for at := 0; at+len(parts) <= len(have); at++ {
			if matches(have[at:], parts) {
				blank(at, len(parts))
			}
		}
	}
	for _, words := range naturalEdges() {
		for at := 0; at+len(words) <= len(have); at++ {
			if slices.Equal(have[at:at+len(words)], words) && ofAKind(have, at, at+len(words)) {
				blank(at, len(words))
			}
		}
	}
	for i, w := range have {
		if slices.Contains(measures, w) && i > 0 && isMeasure(have[i-1], i+1 == len(have), w) {
			out[i] = ""
		}
	}
	for at := 0; at+2 <= len(have); at++ {
		if have[at] == "3" && have[at+1] == "4" && !threeQuarters(have, at) {
			blank(at, 2)
		}
	}
	return out
}

func matches(have, parts []string) bool {
	for i, part := range parts {
		if !slices.Contains(strings.Split(part, "|"), have[i]) {
			return false
		}
	}
	return true
}

// ofAKind reports whether a natural edge in a name, from word at to the one before end,
// tells what kind of piece it is: the piece is named too. "live edge of the bench" is
// the edge.
func ofAKind(have []string, at, end int) bool {
	if end < len(have) && slices.Contains([]string{"of", "von", "vom", "der", "des", "du", "de", "del", "van"}, have[end]) {
		return false
	}
	return slices.ContainsFunc(have[:at], isKind) || slices.ContainsFunc(have[end:], isKind)
}

func isKind(word string) bool {
	return slices.Contains(kindsCalled, word) || slices.ContainsFunc(kindsEnd, func(end string) bool { return strings.HasSuffix(word, end) })
}

// isMeasure reports whether a word before one for feet makes a length of it: six-foot,
// 8 feet. Of 14-feet.jpg the number is that of the shot list.
func isMeasure(before string, last bool, feet string) bool {
	n, err := strconv.Atoi(before)
	if err != nil {
		return before == "one" || spelling.Number(before) > 1 // the other words for one are articles
	}
	return before[0] != '0' && n <= 30 && (n < 10 || !last || feet == "foot")
}

// threeQuarters reports whether 3 and 4 in a name are three quarters, and no date and no
// numbers of the photo: they are all that it says, or stand beside the piece's kind or a
// word for a view.
func threeQuarters(have []string, at int) bool {
	var beside []string
	if at > 0 {
		beside = append(beside, have[at-1])
	}
	if at+2 < len(have) {
		beside = append(beside, have[at+2])
	}
	number := func(w string) bool { return strings.IndexFunc(w, unicode.IsLetter) < 0 }
	switch {
	case len(beside) == 0, slices.ContainsFunc(beside, func(w string) bool {
		return slices.Contains([]string{"view", "angle", "shot", "left", "right", "ansicht", "vue", "vista", "aanzicht", "links", "rechts", "gauche", "droite"}, w)
	}):
		return true
	}
	return !slices.ContainsFunc(beside, number) && slices.ContainsFunc(beside, isKind)
}

// parted puts a space where a capital follows a small letter: TopView.
func parted(name string) string {
	var b strings.Builder
	var last rune
	for _, r := range name {
		if unicode.IsUpper(r) && unicode.IsLower(last) {
			b.WriteByte(' ')
		}
		b.WriteRune(r)
		last = r
	}
	return b.String()
}
