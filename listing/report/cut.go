package report

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// cutAtWord returns as many whole words as there is room for; a word that is longer
// than all the room is cut.
func cutAtWord(s string, n int) string {
	r := []rune(s)
	if len(r) <= n {
		return s
	}
	cut := string(r[:n])
	if i := strings.LastIndexAny(cut, " \u00a0"); i > 0 && !unicode.IsSpace(r[n]) {
		cut = cut[:i]
	}
	return strings.TrimRight(cut, " \u00a0,.;:–-&(")
}

// cutAtClause cuts at the last comma or bracket where there is one in the second half,
// else at a word, and leaves no word behind that only leads on.
func cutAtClause(s string, n int) string {
	cut := cutAtWord(s, n)
	if cut == s {
		return s
	}
	if i := strings.LastIndexAny(cut, ",;:(–"); i > n/2 {
		cut = cut[:i]
	}
	for {
		head, last, ok := cutLast(cut, " ")
		if !ok || !leadsOn[strings.ToLower(last)] {
			return strings.TrimRight(cut, " ,.;:–-&(")
		}
		cut = head
	}
}

// leadsOn are words that no title ends in, in the languages of the papers.
var leadsOn = set(`
	a an and at by for from in of on or the to with
	am an auf aus das dem den der des die ein eine einem einer für im in mit oder und vom von zu zum zur
	à au aux avec dans de des du en et la le les ou par pour sans sur un une
	al con de del e el en la las los o para por sin sobre un una y
	aan bij de een en het in met of op te uit van voor zonder`)

// set is the set of a text's words.
func set(text string) map[string]bool {
	words := map[string]bool{}
	for _, w := range strings.Fields(text) {
		words[w] = true
	}
	return words
}

// plain is a text for comparing: in small letters, hyphens as spaces.
func plain(s string) string { return strings.ReplaceAll(strings.ToLower(s), "-", " ") }

// shortened are words whose full stop ends no sentence, in the languages of the papers.
var shortened = set(`
	approx dr incl mr mrs no nr st vs
	bzw ca evtl ggf inkl max min usw vgl zzgl
	av env mme réf
	aprox núm sr sra
	bijv ong`)

// sentencesOf splits a text into its sentences: at a stop that a space and a capital
// or a figure follow, unless the word before it is an abbreviation. A line alone, such
// as a heading, is one too.
func sentencesOf(text string) []string {
	var out []string
	for _, paragraph := range strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n\n") {
		words := strings.Fields(paragraph)
		from := 0
		for i, w := range words {
			last := i == len(words)-1
			if !last && !(endsSentence(w) && startsSentence(words[i+1])) {
				continue
			}
			out = append(out, strings.Join(words[from:i+1], " "))
			from = i + 1
		}
	}
	return out
}

func endsSentence(word string) bool {
	bare := strings.TrimRight(word, `"'”’)»`)
	end, _ := utf8.DecodeLastRuneInString(bare)
	if !strings.ContainsRune(".!?…", end) {
		return false
	}
	stem := strings.ToLower(strings.Trim(bare, ".!?…(“\""))
	return end != '.' || !shortened[stem] && utf8.RuneCountInString(stem) > 1
}

func startsSentence(word string) bool {
	r, _ := utf8.DecodeRuneInString(strings.TrimLeft(word, `"'“‘(«„`))
	return unicode.IsUpper(r) || unicode.IsDigit(r)
}

// joinedBy joins what is not empty.
func joinedBy(sep string, parts ...string) string {
	var out []string
	for _, p := range parts {
		if p != "" {
			out = append(out, p)
		}
	}
	return strings.Join(out, sep)
}

func cutLast(s, sep string) (before, after string, found bool) {
	if i := strings.LastIndex(s, sep); i >= 0 {
		return s[:i], s[i+len(sep):], true
	}
	return s, "", false
}
