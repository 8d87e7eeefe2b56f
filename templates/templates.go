// Package templates holds every word and layout that a buyer sees, one folder a
// language, embedded: phrases in *.yaml files (id to text), pages in *.html.
package templates

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"sync"
	texttemplate "text/template"
)

//go:embed en en-US de es fr nl
var files embed.FS

// regions are the tags that differ from their language in a few phrases or in
// none; those are in a folder of the tag's name where there are any.
var regions = map[string]string{"en-GB": "en", "en-US": "en"}

// Words is all the text of one language.
type Words struct {
	Lang    string
	base    string // the language that Lang is a region's form of, or Lang
	phrases map[string]*texttemplate.Template
	parsed  map[string]string
	respell *speller          // of a region, for parsed; nil: none
	own     map[string]string // of a region, in place of those in parsed
	mu      sync.Mutex
}

// Langs lists the languages that there are, sorted.
func Langs() []string {
	entries, _ := fs.ReadDir(files, ".")
	names := slices.Collect(maps.Keys(regions))
	for _, e := range entries {
		if e.IsDir() {
			names = append(names, e.Name())
		}
	}
	slices.Sort(names)
	return slices.Compact(names)
}

// Open reads the phrases of a language, an IETF tag such as "en". It returns an
// error for a language that is not there, and for a phrase that does not parse
// or stands in two files.
func Open(lang string) (*Words, error) {
	if !slices.Contains(Langs(), lang) {
		return nil, fmt.Errorf("no language %q; there are: %s", lang, strings.Join(Langs(), ", "))
	}
	w := &Words{Lang: lang, base: lang, phrases: map[string]*texttemplate.Template{}, parsed: map[string]string{}}
	if base, ok := regions[lang]; ok {
		w.base = base
	}
	if err := w.read(w.base); err != nil {
		return nil, err
	}
	if err := w.addEnglish(); err != nil {
		return nil, err
	}
	if err := w.adapt(); err != nil {
		return nil, err
	}
	return w, nil
}

// English reports whether a language tag, such as "en-GB", is of English.
func English(tag string) bool { return tag == "en" || strings.HasPrefix(tag, "en-") }

// Match finds the language that serves a tag in any case: the very one, or the one
// it belongs to, as "de" serves "de-AT". It is false where there is none.
func Match(tag string) (string, bool) {
	base, _, _ := strings.Cut(tag, "-")
	for _, want := range []string{tag, base} {
		for _, lang := range Langs() {
			if strings.EqualFold(lang, want) {
				return lang, true
			}
		}
	}
	return "", false
}

// addEnglish gives a language the phrases that it has none of its own for: those
// that only the maker reads, which are English in every language.
func (w *Words) addEnglish() error {
	if w.base == "en" {
		return nil
	}
	english := &Words{parsed: map[string]string{}}
	if err := english.read("en"); err != nil {
		return err
	}
	for id, text := range english.parsed {
		if !w.Has(id) && !strings.HasPrefix(id, "country.") {
			w.parsed[id] = text
		}
	}
	return nil
}

// read adds the phrases of a folder.
func (w *Words) read(folder string) error {
	names, err := fs.Glob(files, path.Join(folder, "*.yaml"))
	if err != nil {
		return err
	}
	for _, name := range names {
		m, err := phrasesOf(name)
		if err != nil {
			return err
		}
		for id, text := range m {
			if _, ok := w.parsed[id]; ok {
				return fmt.Errorf("read %s: phrase %q stands in two files", name, id)
			}
			w.parsed[id] = text
		}
	}
	return nil
}

// phrasesOf reads one file of phrases.
func phrasesOf(name string) (map[string]string, error) {
	data, err := files.ReadFile(name)
	if err != nil {
		return nil, err
	}
	m, err := readPhrases(string(data))
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	return m, nil
}

// IDs lists every phrase, sorted.
func (w *Words) IDs() []string {
	ids := make([]string, 0, len(w.parsed))
	for id := range w.parsed {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	return ids
}

// Has reports whether the phrase is there.
func (w *Words) Has(id string) bool { _, ok := w.parsed[id]; return ok }

// Say returns a phrase with data put in; data may be nil. Phrases use
// text/template syntax. A phrase that is not there, or whose data is missing, is
// a programmer's mistake and panics; a test says every phrase.
func (w *Words) Say(id string, data map[string]any) string {
	t, err := w.phrase(id)
	if err != nil {
		panic("templates: " + err.Error())
	}
	if data == nil {
		data = map[string]any{}
	}
	var b bytes.Buffer
	if err := t.Execute(&b, data); err != nil {
		panic("templates: " + id + ": " + err.Error())
	}
	return b.String()
}

func (w *Words) phrase(id string) (*texttemplate.Template, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if t, ok := w.phrases[id]; ok {
		return t, nil
	}
	text, ok := w.text(id)
	if !ok {
		return nil, fmt.Errorf("no phrase %q in %s", id, w.Lang)
	}
	t, err := texttemplate.New(id).Option("missingkey=error").Parse(text)
	if err != nil {
		return nil, err
	}
	w.phrases[id] = t
	return t, nil
}

// Page returns an HTML template of the language, such as "listing.html". In it,
// {{say "id"}} and {{say "id" "Name" value …}} put in a phrase.
func (w *Words) Page(name string, funcs template.FuncMap) (*template.Template, error) {
	data, err := files.ReadFile(path.Join("en", name)) // one layout for all; its words are phrases
	if err != nil {
		return nil, err
	}
	t := template.New(name).Funcs(template.FuncMap{"say": func(id string, pairs ...any) string {
		m := map[string]any{}
		for i := 0; i+1 < len(pairs); i += 2 {
			m[fmt.Sprint(pairs[i])] = pairs[i+1]
		}
		return w.Say(id, m)
	}})
	return t.Funcs(funcs).Parse(string(data))
}
