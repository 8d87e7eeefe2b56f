package listing

import (
	"slices"
	"strings"
	"unicode"
)

// tellingWords are words that only texts of one language of the papers have, among them
// the colours that makers write of resin (from memory). Words that English has too, such
// as rot, noir and claro, are left out.
var tellingWords = map[string][]string{
	"de": strings.Fields("und mit der das aus für von auf ist nicht eine einen zwei drei schwarz blau grün weiß weiss grau braun gelb türkis rauchgrau klar durchsichtig stahl eiche beine füße kufen schwarze blaue grüne graue"),
	"fr": strings.Fields("et avec pour une des dans les deux trois bleu bleue vert verte noire blanche gris grise fumé jaune rouge transparente acier chêne pieds cadres"),
	"es": strings.Fields("con para una las los del dos tres azul negro negra blanco blanca rojo roja amarillo gris transparente acero roble patas"),
	"nl": strings.Fields("en van het een uit voor twee drie blauw blauwe groen groene zwart zwarte grijs grijze rood geel helder staal eiken poten"),
	"en": strings.Fields("and with the from for two three blue green grey gray black white red yellow clear smoke steel oak legs frames"),
}

// inAnotherLanguage reports whether a text has a word that only another language than a
// paper's and than English has, and none of that paper's own.
func inAnotherLanguage(text, lang string) bool {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) })
	has := func(l string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(tellingWords[l], w) })
	}
	if tellingWords[lang] == nil || has(lang) {
		return false
	}
	for l := range tellingWords {
		if l != lang && l != "en" && has(l) { // English words are at home in all
			return true
		}
	}
	return false
}
