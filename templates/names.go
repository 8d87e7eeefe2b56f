package templates

import (
	"strings"

	"golang.org/x/text/language"
	"golang.org/x/text/language/display"
)

// Named is what the language calls a thing of a group: the phrase name.GROUP.ID,
// the id in small letters and with hyphens. ok is false where it has no name for it.
func (w *Words) Named(group, id string) (name string, ok bool) {
	phrase := "name." + group + "." + strings.NewReplacer(" ", "-", "'", "").Replace(strings.ToLower(id))
	if !w.Has(phrase) {
		return "", false
	}
	return w.Say(phrase, nil), true
}

// Called is Named, or the id itself where the language has no name for it.
func (w *Words) Called(group, id string) string {
	if name, ok := w.Named(group, id); ok {
		return name
	}
	return id
}

// CalledAll is Called for several.
func (w *Words) CalledAll(group string, ids []string) []string {
	names := make([]string, len(ids))
	for i, id := range ids {
		names[i] = w.Called(group, id)
	}
	return names
}

// List joins words with commas and a last "and"; "" for none.
func (w *Words) List(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return w.Say("figures.and", map[string]any{"First": strings.Join(words[:last], ", "), "Last": words[last]})
}

// MadeOf is a thing and what it is made of: "table in elm and resin".
func (w *Words) MadeOf(what string, of []string) string {
	behind := make([]string, len(of))
	for i, name := range of {
		behind[i] = w.Behind(name)
	}
	return w.Say("alt.made", map[string]any{"What": what, "Of": w.List(behind)})
}

// Behind is the name of a wood as it stands behind the word for "of": German has a
// dative there, "aus Amerikanischem Nussbaum". A name that is not the language's own,
// and one of a single word, stays as it is.
func (w *Words) Behind(name string) string {
	first, rest, several := strings.Cut(name, " ")
	if !several || !w.isWood(name) {
		return name
	}
	for ending := range strings.FieldsSeq(w.parsed["name.behind"]) { // such as er=em
		from, to, _ := strings.Cut(ending, "=")
		if stem, ok := strings.CutSuffix(first, from); ok {
			return stem + to + " " + rest
		}
	}
	return name
}

// isWood reports whether the language calls a wood so. A first word that bends is an
// adjective of the language; trade names of other languages are told by name.foreign.
func (w *Words) isWood(name string) bool {
	first, _, _ := strings.Cut(name, " ")
	for foreign := range strings.FieldsSeq(w.parsed["name.foreign"]) {
		if foreign == first {
			return false
		}
	}
	for id, text := range w.parsed {
		if strings.HasPrefix(id, "name.wood.") && text == name {
			return true
		}
	}
	return false
}

// Labelled is a name and what it names on one line: "Width: 40 cm", and with a space
// before the colon where the language has one.
func (w *Words) Labelled(name, value string) string {
	return w.Say("general.labelled", map[string]any{"Name": name, "Value": value})
}

// Apart joins what stands side by side with semicolons; "" for none.
func (w *Words) Apart(values []string) string {
	out := strings.Join(values[:min(1, len(values))], "")
	for _, v := range values[min(1, len(values)):] {
		out = w.Say("general.apart", map[string]any{"First": out, "Next": v})
	}
	return out
}

// Number writes a number or a text of figures with the decimal sign of the language:
// "137.2 cm" as "137,2 cm".
func (w *Words) Number(text string) string {
	sign, _ := w.text("name.decimal")
	if sign == "" || sign == "." {
		return text
	}
	out := []byte(text)
	for i := 1; i+1 < len(out); i++ {
		if out[i] == '.' && digit(out[i-1]) && digit(out[i+1]) {
			out[i] = sign[0]
		}
	}
	return string(out)
}

func digit(c byte) bool { return '0' <= c && c <= '9' }

// Inside is a name as it stands inside a sentence: "Wych elm" with a small letter,
// "American walnut" and other names of places and people as they are.
func (w *Words) Inside(name string) string {
	first, _, _ := strings.Cut(name, " ")
	capitals, _ := w.text("name.capitals")
	for keep := range strings.FieldsSeq(capitals) {
		if keep == "*" || keep == first {
			return name
		}
	}
	r := []rune(name)
	if len(r) < 2 || string(r[1:2]) != strings.ToLower(string(r[1:2])) {
		return name
	}
	return strings.ToLower(string(r[:1])) + string(r[1:])
}

// Country is what the language calls a country of ISO 3166-1, its two letters. ok
// is false for letters that name none.
func (w *Words) Country(letters string) (name string, ok bool) {
	if id := "country." + letters; w.Has(id) {
		return w.Say(id, nil), true
	}
	region, err := language.ParseRegion(letters)
	if err != nil || !region.IsCountry() {
		return "", false
	}
	name = display.Regions(language.Make(w.base)).Name(region)
	return name, name != ""
}

// A Name is what a language calls a thing of a group.
type Name struct {
	Lang string // "de"
	ID   string // "european-beech", as Named takes it
	Text string // "Buche"
}

// NamesOf lists what the languages but English call the things of a group ("wood",
// "material"), by language and id. A language that cannot be read has none; a test
// reads them all.
func NamesOf(group string) []Name {
	var all []Name
	for _, lang := range Langs() {
		if English(lang) {
			continue
		}
		w, err := Open(lang)
		if err != nil {
			continue
		}
		for _, phrase := range w.IDs() {
			if id, ok := strings.CutPrefix(phrase, "name."+group+"."); ok {
				all = append(all, Name{lang, id, w.Say(phrase, nil)})
			}
		}
	}
	return all
}
