package spelling

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// A Person is who must not be named where anybody may read it: a buyer or a supplier,
// made of the one line that a maker wrote down. The zero Person is nobody.
type Person struct {
	whole [][]token // names of two words or more, found in small letters too
	alone []token   // a surname, or the only name there is; found as names are written, with a capital
	mail  []string  // addresses, in small letters
}

// A token is a word of a name or a text. Letters with a sign are spelt in two ways:
// Müller is Muller and Mueller.
type token struct {
	word, plain, spelt string
	capital            bool
}

var (
	// titles stand before names, or beside them, and tell nobody apart; so do the words
	// for several of one name, and the forms of firms. In the languages of the papers, from
	// memory.
	titles = wordsOf(`mr mrs ms miss mx master dr prof professor sir lady lord rev the family families estate fam
		herr herrn frau familie eheleute dipl ing monsieur madame mademoiselle mme mlle m mm famille maître le la les
		señor señora señorita sr sra srta don doña familia el los las dhr heer mevrouw mevr mw meneer de het gezin fru hr
		gmbh ltd limited inc llc co ag kg ohg gbr plc bv nv vof sarl sas sa sl slu sons son söhne sohn fils hijos hijo zonen zoon
		brothers bros daughters gebrüder frères hermanos gebroeders partners partner company`)
	// particles are small and part of a name.
	particles = wordsOf("van von vom zu zum zur der den dem de del della dei da do dos das du di la le les el y e ten ter op of the af av and und et en")
	// together stand between the names of two.
	together = wordsOf("and und et y e en plus")
	// trades end the names of firms and houses, and mean themselves in a text.
	trades = wordsOf(`timber timbers wood woods woodworks lumber mill mills sawmill sawmills yard boatyard works workshop hardware steel metals supplies supply
		resin resins resource trading traders merchants merchant store stores shop gallery galleries hotel inn house hall studio studios architects architect
		interiors design designs furniture school museum church café cafe bar restaurant office group services garden gardens farm forestry trees tools paints
		holz holzhandel sägewerk werk werkstatt handel stahl galerie haus schule büro bois scierie atelier maison école bureau acier madera maderas
		aserradero taller casa tienda escuela acero hout houthandel zagerij werkplaats huis winkel staal kantoor hôtel gasthof`)
	// letterboxes are what stands before the @ and names nobody.
	letterboxes = wordsOf("info mail hello office contact kontakt contacto post sales shop studio web admin home team service welcome")
)

func wordsOf(list string) []string { return strings.Fields(list) }

// NewPerson reads what a maker wrote of somebody: a name with or without titles, a
// place, a remark in brackets, an address of mail; two people, a family or a firm.
func NewPerson(said string) Person {
	var p Person
	var names []string
	for _, field := range strings.FieldsFunc(norm.NFC.String(said), unicode.IsSpace) {
		if address := strings.ToLower(strings.Trim(field, "<>()[],;.")); strings.Contains(address, "@") {
			p.mail = append(p.mail, address)
			p.addLetterbox(address)
			field = "," // a name ends there
		}
		names = append(names, field)
	}
	head, rest := cutName(strings.Join(names, " "))
	var parts [][]token
	part := []token{}
	for _, t := range tokens(head, false) {
		switch {
		case !t.capital && slices.Contains(together, t.word) || t.word == "&":
			parts, part = append(parts, part), nil
		case !slices.Contains(titles, strings.ToLower(t.word)):
			part = append(part, t)
		}
	}
	parts = slices.DeleteFunc(append(parts, part), func(t []token) bool { return len(t) == 0 })
	if given := tokens(rest, false); len(parts) == 1 && len(parts[0]) == 1 && 0 < len(given) && len(given) <= 2 && given[0].capital { // Krantz, Wilhelmina
		p.whole = append(p.whole, append(slices.Clone(given), parts[0]...))
	}
	p.addParts(parts)
	return p
}

// cutName cuts what is said of somebody behind the name: at a comma, a bracket, a
// line's end, a word such as "from", a number.
func cutName(said string) (head, rest string) {
	said = strings.TrimLeft(said, " ,;")
	if i := strings.IndexAny(said, ",;(<[\n/|–—"); i >= 0 {
		said, rest = said[:i], said[i+1:]
		if j := strings.IndexAny(rest, ",;)\n"); j >= 0 {
			rest = rest[:j]
		}
	}
	words := strings.Fields(said)
	for i, w := range words {
		from := slices.Contains([]string{"from", "in", "at", "near", "next", "who", "with", "via", "aus", "bei", "über", "chez", "à", "uit", "bij", "c/o", "-"}, w)
		if from || strings.IndexFunc(w, unicode.IsDigit) >= 0 || strings.HasPrefix(w, "+") {
			return strings.Join(words[:i], " "), rest
		}
	}
	return said, rest
}

// addParts adds the names of one or of several people, each in words without titles.
func (p *Person) addParts(parts [][]token) {
	several := slices.ContainsFunc(parts, func(t []token) bool { return len(t) > 1 && !isTrade(t[len(t)-1]) })
	for _, words := range parts {
		last := words[len(words)-1]
		small := !slices.ContainsFunc(words, func(t token) bool { return t.capital })
		switch {
		case small && (len(words) == 1 || slices.ContainsFunc(words, isSmallWord)): // no name, but words such as "a neighbour"
		case len(words) > 1:
			p.whole = append(p.whole, words)
			if last.capital && !isTrade(last) {
				p.addAlone(last)
			}
		case several: // Wilhelmina and Jon Krantz
			other := parts[len(parts)-1]
			p.whole = append(p.whole, []token{last, other[len(other)-1]})
		default:
			p.addAlone(last)
		}
	}
}

func (p *Person) addAlone(t token) {
	if utf8.RuneCountInString(t.word) >= 3 {
		p.alone = append(p.alone, t)
	}
}

// addLetterbox adds the surname of an address such as w.krantz@mail.example.
func (p *Person) addLetterbox(address string) {
	box, _, _ := strings.Cut(address, "@")
	words := tokens(box, false)
	if n := len(words); n > 1 && utf8.RuneCountInString(words[n-1].word) > 3 && !slices.Contains(letterboxes, words[n-1].word) && !isTrade(words[n-1]) {
		p.alone = append(p.alone, words[n-1])
	}
}

func isTrade(t token) bool { return slices.Contains(trades, strings.ToLower(t.word)) }

func isSmallWord(t token) bool {
	return utf8.RuneCountInString(t.word) < 3 || slices.Contains(particles, t.word) || slices.Contains(wordsOf("my our his her their its your from for mein meine unser unsere eine einer mon notre une mi nuestro mijn onze een"), t.word)
}

// Whole lists the names of more than one word, and the addresses of mail, in small
// letters: what can be looked for where no word can be told from the next.
func (p Person) Whole() []string {
	out := slices.Clone(p.mail)
	for _, run := range p.whole {
		out = append(out, strings.ToLower(join(run, " ")))
	}
	return out
}

// In returns what of the person a text names, as it is written of the person; "" when it
// names nobody. A surname counts as a whole word with a capital, so that "an ash top" does
// not name Ann Ash; an ending such as that of "the Krantzes" is allowed for.
func (p Person) In(text string) string {
	if p.nobody() {
		return ""
	}
	text = norm.NFC.String(text)
	small := strings.ToLower(text)
	for _, m := range p.mail {
		if holds(small, m) {
			return m
		}
	}
	return p.among(tokens(text, false), true)
}

// InFileName is In for the name of a file, or its path: in names like
// wilhelmina-krantz_2.jpg, krantz.jpg and WilhelminaKrantz.jpg capitals mean nothing.
func (p Person) InFileName(name string) string {
	if p.nobody() {
		return ""
	}
	name = norm.NFC.String(name)
	for _, split := range []bool{false, true} {
		if found := p.among(tokens(name, split), false); found != "" {
			return found
		}
	}
	joined := tokens(name, false)
	for _, run := range p.whole {
		one, other := join(run, "plain"), join(run, "spelt")
		if len(one) >= 7 && slices.ContainsFunc(joined, func(t token) bool { return strings.Contains(t.plain, one) || strings.Contains(t.spelt, other) }) {
			return join(run, " ")
		}
	}
	return ""
}

func (p Person) nobody() bool { return len(p.whole)+len(p.alone)+len(p.mail) == 0 }

// among looks for the person among the words of a text.
func (p Person) among(text []token, capitals bool) string {
	for _, run := range p.whole {
		// What is all small may be no name but words; in a text it is one where it has capitals.
		asName := capitals && !slices.ContainsFunc(run, func(t token) bool { return t.capital })
		for i := 0; i+len(run) <= len(text); i++ {
			n := 0
			for n < len(run) && (!asName || text[i+n].capital) && (run[n].equals(text[i+n]) || n == len(run)-1 && run[n].inflected(text[i+n])) {
				n++
			}
			if n == len(run) {
				return join(run, " ")
			}
		}
	}
	for _, name := range p.alone {
		for _, t := range text {
			if (t.capital || !capitals) && (name.equals(t) || name.inflected(t)) {
				return name.word
			}
		}
	}
	return ""
}

func (t token) equals(o token) bool {
	return t.plain == o.plain || t.spelt == o.spelt
}

// inflected reports whether another word is this one with the ending of a plural or of
// what is somebody's.
func (t token) inflected(o token) bool {
	if utf8.RuneCountInString(t.word) < 4 {
		return false
	}
	for _, end := range []string{"s", "es"} {
		if o.plain == t.plain+end || o.spelt == t.spelt+end {
			return true
		}
	}
	return false
}

// join joins words as they are written, or, by the name of a spelling, without gaps.
func join(words []token, how string) string {
	var b strings.Builder
	for i, t := range words {
		switch how {
		case "plain":
			b.WriteString(t.plain)
		case "spelt":
			b.WriteString(t.spelt)
		default:
			if i > 0 {
				b.WriteString(how)
			}
			b.WriteString(t.word)
		}
	}
	return b.String()
}

// tokens are the words of a text, letters alone, and the sign &. Asked to, it splits
// words at capitals within them.
func tokens(text string, split bool) []token {
	var out []token
	from, last := -1, rune(0)
	end := func(to int) {
		if from >= 0 {
			out = append(out, newToken(text[from:to]))
		}
		from = -1
	}
	for i, r := range text {
		switch {
		case !unicode.IsLetter(r) && !unicode.Is(unicode.Mn, r):
			end(i)
			if r == '&' || r == '+' {
				out = append(out, token{word: "&", plain: "&", spelt: "&"})
			}
		case from < 0:
			from = i
		case split && unicode.IsUpper(r) && unicode.IsLower(last):
			end(i)
			from = i
		}
		last = r
	}
	end(len(text))
	return out
}

// beyondMarks are letters that do not come apart into a plain one and a sign, and
// withMarks how letters with signs are spelt where there are none.
var (
	beyondMarks = strings.NewReplacer("ß", "ss", "æ", "ae", "œ", "oe", "ø", "o", "ł", "l", "đ", "d", "ð", "d", "þ", "th")
	withMarks   = strings.NewReplacer("ä", "ae", "ö", "oe", "ü", "ue", "å", "aa", "ø", "oe")
)

func newToken(word string) token {
	first, _ := utf8.DecodeRuneInString(word)
	small := strings.ToLower(word)
	t := token{word: word, plain: small, spelt: small, capital: unicode.IsUpper(first) || unicode.IsTitle(first)}
	if !isASCII(small) {
		t.plain, t.spelt = unmarked(small), unmarked(withMarks.Replace(small))
	}
	return t
}

func isASCII(s string) bool {
	return strings.IndexFunc(s, func(r rune) bool { return r >= utf8.RuneSelf }) < 0
}

// unmarked takes the signs off letters.
func unmarked(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return r
	}, norm.NFD.String(beyondMarks.Replace(s)))
}

// holds reports whether a text holds an address that nothing goes on from.
func holds(text, address string) bool {
	for from := 0; ; {
		i := strings.Index(text[from:], address)
		if i < 0 {
			return false
		}
		i += from
		before, _ := utf8.DecodeLastRuneInString(text[:i])
		after, _ := utf8.DecodeRuneInString(text[i+len(address):])
		if !unicode.IsLetter(before) && !unicode.IsDigit(before) && !unicode.IsLetter(after) && !unicode.IsDigit(after) {
			return true
		}
		from = i + len(address)
	}
}
