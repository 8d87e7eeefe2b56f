package report

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
	"slabfolio/templates"
)

// A copywriter words what is known of a piece. It praises nothing.
type copywriter struct {
	pub    *Public
	words  *templates.Words
	metric bool
}

// what is the kind of piece, "" for one that has no name of its own.
func (c *copywriter) what() string { return c.pub.KindIn(c.words) }

// saysKind reports whether a title already says what the piece is: it holds the noun of a
// kind, of one piece or several, alone or within a compound (the last word of the kind, in
// French and Spanish the first), or another name for such a thing. A console that hangs
// on a wall is a console, and no "console, shelf".
func (c *copywriter) saysKind(title string) bool {
	if moreKinds[c.lang()]().MatchString(title) {
		return true
	}
	return slices.ContainsFunc(piece.Kinds, func(kind string) bool { return kind != "other" && c.saysNoun(title, c.words.Called("kind", kind)) })
}

// lang is the language alone: "en".
func (c *copywriter) lang() string {
	lang, _, _ := strings.Cut(c.words.Lang, "-")
	return lang
}

// moreKinds are what such pieces are called beside the names of their kinds, by language
// (from memory).
var moreKinds = map[string]pattern{
	"en": whole(`consoles?|nightstands?|shelves|sideboards?|credenzas?|chairs?|armchairs?|cabinets?|dressers?|chests?|coasters?|trivets?|trays?|lamps?|mirrors?|bowls?|racks?`),
	"de": whole(`\pL*(?:tische?|konsolen?|regale?|schränke?|schrank|stühle?|stuhl|kommoden?|truhen?|untersetzer|tabletts?|lampen?|leuchten?|spiegel|schalen?|bretter|bänke)`),
	"fr": whole(`consoles?|étagères?|chaises?|fauteuils?|buffets?|armoires?|commodes?|coffres?|dessous[- ]de[- ](?:verre|plat)|lampes?|miroirs?|coupes?`),
	"es": whole(`consolas?|estanterías?|sillas?|sillones|sillón|aparador(?:es)?|armarios?|cómodas?|arcones|arcón|posavasos|salvamanteles|bandejas?|lámparas?|espejos?|cuencos?|repisas?`),
	"nl": whole(`\pL*(?:tafels?|banken|bank|planken|consoles?|rekken|rek|stoelen|stoel|kasten|kast|dressoirs?|commodes?|onderzetters?|dienbladen|dienblad|lampen|lamp|spiegels?|schalen|schaal)`),
}

// saysNoun reports the same of any name: "in pale maple" says sycamore maple.
func (c *copywriter) saysNoun(title, name string) bool {
	words := strings.Fields(plain(name))
	if len(words) == 0 {
		return false
	}
	noun := words[len(words)-1]
	if lang := c.lang(); lang == "fr" || lang == "es" {
		noun = words[0]
	}
	return slices.ContainsFunc(strings.FieldsFunc(plain(title), notLetter), func(word string) bool {
		one := singular(word, noun)
		return one == noun || compound(one, noun) && !slices.Contains(anyWood, one)
	})
}

// singular is a word without the ending that several of a thing have, where a noun or the
// end of a noun is left; else the word.
func singular(word, noun string) string {
	for _, ending := range []string{"s", "es", "e", "en", "n", "er"} {
		if one, ok := strings.CutSuffix(word, ending); ok && utf8.RuneCountInString(one) >= 4 && (strings.HasSuffix(one, noun) || strings.HasSuffix(noun, one)) {
			return one
		}
	}
	return word
}

// anyWood are the words of which a wood's name can be made and that name none: a wooden
// board says nothing of rosewood. In the languages of the papers (from memory).
var anyWood = []string{"wood", "baum", "holz", "bois", "madera", "hout", "boom"}

// compound reports whether one of two words ends in the other, which is no shorter
// than four letters.
func compound(a, b string) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	return utf8.RuneCountInString(a) >= 4 && strings.HasSuffix(b, a)
}

func notLetter(r rune) bool { return !unicode.IsLetter(r) }

// made are the woods and resins, as words within a sentence.
func (c *copywriter) made() []string { return append(c.woods(), c.resins()...) }

// woods are the woods, each once.
func (c *copywriter) woods() (names []string) {
	for _, m := range c.pub.Materials {
		if name := c.words.Inside(m.Name); m.Role == "wood" && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// resins are the resins with their colours, each once.
func (c *copywriter) resins() (names []string) {
	for _, m := range c.pub.Materials {
		if m.Role != "resin" {
			continue
		}
		if name := c.words.Say("alt.resin", map[string]any{"Colour": firstClause(m.Detail)}); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// size is the size in the system printed first, or in the other.
func (c *copywriter) size(first bool) string {
	d := c.pub.Dimensions
	switch {
	case d == nil:
		return ""
	case first == c.metric:
		return d.Text.Cm
	}
	return d.Text.In
}

func (c *copywriter) weight(first bool) string {
	w := c.pub.Weight
	if w == nil {
		return ""
	}
	lb, kg := w.Text.Values()
	text := lb
	if first == c.metric {
		text = kg
	}
	if w.Weighed == nil {
		return c.words.Say("paste.about", map[string]any{"Weight": text})
	}
	return text
}

// title is the maker's own title with as much behind it as there is room for.
func (c *copywriter) title(n int) string {
	title := cutAtClause(spelling.OneLine(c.pub.Title), n)
	has := func(part string) bool { return strings.Contains(plain(title), plain(part)) }
	add := func(part string) {
		if part != "" && !has(part) && utf8.RuneCountInString(title)+2+utf8.RuneCountInString(part) <= n {
			title += ", " + part
		}
	}
	if !c.saysKind(title) {
		add(c.what())
	}
	said := title
	unsaid := func(names []string) []string {
		return slices.DeleteFunc(names, func(name string) bool { return has(name) || slices.Contains(c.woods(), name) && c.saysNoun(said, name) })
	}
	before := title
	if add(c.words.List(unsaid(c.made()))); title == before { // all of the woods or none
		add(c.words.List(unsaid(c.woods())))
	}
	before = title
	if add(c.size(true)); title != before { // never the other system's alone
		add(c.size(false))
	}
	if m := c.pub.Maker; m != nil {
		add(m.Name)
	}
	return title
}

// sentences say what the piece is, the most telling first, and of a batch how many
// there are; what the maker tells comes behind the first of them.
func (c *copywriter) sentences() []string {
	what := c.pub.What(c.words)
	if made := c.made(); len(made) > 0 {
		what = c.words.MadeOf(what, made)
	}
	out := []string{joinedBy(", ", spelling.Capital(what), c.size(true), c.weight(true)) + "."}
	if c.pub.Quantity > 1 {
		id := "paste.batch"
		if c.pub.Set {
			id = "paste.set"
		}
		out[0] += " " + c.words.Say(id, map[string]any{"N": c.pub.Quantity})
	}
	say := func(id, value string) {
		if value != "" {
			out = append(out, c.words.Say(id, map[string]any{"Value": strings.TrimRight(value, ". ")}))
		}
	}
	say("paste.found", spelling.OneLine(c.pub.Found))
	if f := c.pub.Finish; f != nil {
		say("paste.finish", joinedBy(", ", f.Called(), f.Sheen))
	}
	if b := c.pub.Base; b != nil {
		say("paste.base", joinedBy(", ", b.Words()...))
	}
	if c.pub.Seats > 0 {
		say("paste.seats", strconv.Itoa(c.pub.Seats))
	}
	say("paste.mark", spelling.OneLine(c.pub.Mark))
	if m := c.pub.Maker; m != nil {
		if by := c.pub.WorkBy(c.words); by != "" {
			out = append(out, spelling.Capital(strings.TrimRight(by, ". "))+".")
		} else {
			say("paste.maker", m.Name)
		}
	}
	say("paste.serial", c.pub.Serial)
	return out
}

// bullets are five facts, the most asked for first.
func (c *copywriter) bullets() []string {
	var out []string
	add := func(id string, values ...string) {
		if text := joinedBy(", ", values...); text != "" && len(out) < fiveBullets {
			out = append(out, c.words.Labelled(c.words.Say("page.fact."+id, nil), text))
		}
	}
	both := func(first, second string) string {
		if first == "" || second == "" {
			return first + second
		}
		return c.words.Say("figures.both", map[string]any{"First": first, "Second": second})
	}
	out = append(out, c.words.Labelled(c.words.Say("paste.size", nil), both(c.size(true), c.size(false))))
	if c.size(true) == "" {
		out = out[:0]
	}
	add("wood", c.words.List(c.names("wood")))
	add("resin", c.names("resin")...)
	if c.pub.Quantity > 1 {
		add("quantity", strconv.Itoa(c.pub.Quantity))
		add("weight-each", both(c.weight(true), c.weight(false)))
	} else {
		add("weight", both(c.weight(true), c.weight(false)))
	}
	if f := c.pub.Finish; f != nil {
		add("finish", f.Called(), f.Sheen)
	}
	if b := c.pub.Base; b != nil {
		add("base", b.Words()...)
	}
	if c.pub.Seats > 0 {
		add("seats", strconv.Itoa(c.pub.Seats))
	}
	add("found", spelling.OneLine(c.pub.Found))
	add("mark", spelling.OneLine(c.pub.Mark))
	add("finished", c.words.Day(c.pub.Finished))
	add("serial", c.pub.Serial)
	if m := c.pub.Movement; m != nil {
		add("movement", m.Text)
	}
	return out
}

// names are the materials of a role, with what the maker told of a resin.
func (c *copywriter) names(role string) (names []string) {
	for _, m := range c.pub.Materials {
		if m.Role == role && role == "resin" {
			names = append(names, c.words.Inside(m.Name), m.Detail)
		} else if m.Role == role {
			names = append(names, m.Name)
		}
	}
	if len(names) > 0 {
		names[0] = spelling.Capital(names[0])
	}
	return names
}

// keywords are up to a dozen words that somebody who looks for such a piece may type,
// put together as the language does: "Stahlgestell", "table basse en noyer". None holds
// a comma or semicolon: pasted in a row, it would fall apart.
func (c *copywriter) keywords() []string {
	var out []string
	seen := map[string]bool{}
	add := func(text string) {
		word, _, _ := strings.Cut(spelling.OneLine(noCommas.Replace(text)), " (")
		key := strings.ToLower(word)
		if len(out) < dozenKeywords && !seen[key] && word != "" && utf8.RuneCountInString(word) <= keywordLength {
			seen[key] = true
			out = append(out, word)
		}
	}
	what, made := c.what(), c.made()
	say := func(id string, data map[string]any) { // of a piece that has a name
		if data["What"] = what; what != "" {
			add(c.words.Say("paste.word."+id, data))
		}
	}
	add(what)
	for _, m := range made {
		if strings.Count(m, " ") > wordsTyped { // nobody types a whole colour
			m = c.words.Say("alt.resin", map[string]any{"Colour": ""})
		}
		add(m)
	}
	for _, m := range made[:min(len(made), 1)] {
		say("made", map[string]any{"Of": c.words.Behind(m)})
	}
	if len(c.resins()) > 0 {
		say("resin", map[string]any{})
	}
	say("wooden", map[string]any{})
	if f := c.pub.Finish; f != nil {
		add(f.Name)
	}
	if b := c.pub.Base; b != nil && b.Material != "" {
		add(c.words.Say("paste.word.base", map[string]any{"Material": c.words.Behind(c.words.Inside(b.Material))}))
	}
	if d := c.pub.Dimensions; d != nil && d.Length != nil {
		say("long", map[string]any{"Length": c.typedLength(units.Length(*d.Length))})
	}
	for _, m := range c.pub.Materials {
		species, _, _ := strings.Cut(m.Botanical, " / ")
		add(species)
	}
	add(c.pub.Title)
	if m := c.pub.Maker; m != nil {
		add(m.Name)
	}
	if c.pub.Seats > 0 {
		say("seats", map[string]any{"N": c.pub.Seats})
	}
	return out
}

// typedLength is a length as somebody types it who looks for one: without decimals, and
// in the units of the language's readers, British ones in the maker's.
func (c *copywriter) typedLength(l units.Length) string {
	english := templates.English(c.words.Lang)
	if english && (!c.metric || c.words.Lang == "en-US") {
		return strconv.FormatFloat(l.Inches(), 'f', 0, 64) + " in"
	}
	return strconv.FormatFloat(l.Centimetres(), 'f', 0, 64) + " cm"
}

// noCommas takes what would part a keyword in two.
var noCommas = strings.NewReplacer(",", " ", ";", " ", "|", " ")

// tags are the first keywords as tags: letters and digits in one go.
func tags(keywords []string) string {
	var out []string
	for _, k := range keywords {
		tag := strings.Map(func(r rune) rune {
			if unicode.IsLetter(r) || unicode.IsDigit(r) {
				return unicode.ToLower(r)
			}
			return -1
		}, k)
		if first, _ := utf8.DecodeRuneInString(tag); len(out) < mostTags && unicode.IsLetter(first) && strings.Count(k, " ") < 3 {
			out = append(out, "#"+tag)
		}
	}
	return strings.Join(out, " ")
}

// description is what the piece is, then the maker's own sentences from the first on
// as far as there is room, then other facts. The first sentence is cut at a word where
// it alone is too long.
func (c *copywriter) description(n int) string {
	facts := c.sentences()
	text := cutAtWord(facts[0], n)
	add := func(s string) bool {
		if utf8.RuneCountInString(text)+1+utf8.RuneCountInString(s) > n {
			return false
		}
		text += " " + s
		return true
	}
	for _, s := range sentencesOf(c.pub.Story) {
		if !add(ended(s)) {
			break // what comes later leans on what came before
		}
	}
	for _, s := range facts[1:] {
		add(s)
	}
	if m := c.pub.Movement; m != nil && n >= forMovement { // no short text may end on it
		add(strings.TrimRight(m.Text, ".") + ".")
	}
	return text
}

// ended is a sentence with its full stop, which what comes behind it needs.
func ended(s string) string {
	words := strings.Fields(s)
	if len(words) == 0 || endsSentence(words[len(words)-1]) || strings.HasSuffix(s, ":") {
		return s
	}
	return strings.TrimRight(s, ",;–- ") + "."
}
