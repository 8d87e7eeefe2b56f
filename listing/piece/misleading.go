package piece

import (
	"fmt"
	"net/url"
	"slabfolio/listing/piece/yamltext"
	"slices"
	"strings"
	"unicode"
)

// hiddenLetters are the letters that nobody sees and that change how the text
// around them reads, by the names that the Unicode Standard has for them.
var hiddenLetters = map[rune]string{
	'\u061c': "Arabic letter mark", '\u200b': "zero width space", '\u200c': "zero width non-joiner", '\u200d': "zero width joiner",
	'\u200e': "left-to-right mark", '\u200f': "right-to-left mark", '\u202a': "left-to-right embedding", '\u202b': "right-to-left embedding",
	'\u202c': "pop directional formatting", '\u202d': "left-to-right override", '\u202e': "right-to-left override", '\u2060': "word joiner",
	'\u2066': "left-to-right isolate", '\u2067': "right-to-left isolate", '\u2068': "first strong isolate", '\u2069': "pop directional isolate",
	'\u00ad': "soft hyphen", '\ufeff': "zero width no-break space",
}

// checkHidden looks for letters that nobody sees in a text that names something or
// can be clicked, and takes them out of it.
func checkHidden(d *decoder, key string, v *Value[string]) {
	var names []string
	clean := strings.Map(func(r rune) rune {
		name, hidden := hiddenLetters[r]
		if !hidden {
			return r
		}
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
		return -1
	}, v.V)
	if len(names) == 0 {
		return
	}
	d.doubt("spec.hidden-letter", v.At, fmt.Sprintf("%s holds letters that nobody sees (%s); they are left out of everything that is made", key, strings.Join(names, ", ")),
		"delete the line and type it again, without copying it from elsewhere")
	v.V = strings.TrimSpace(clean)
}

// webSchemes are what an address that a buyer may click begins with.
var webSchemes = []string{"http", "https", "mailto"}

// checkWeb refuses an address that is none, or that runs something instead of
// opening a page.
func checkWeb(d *decoder, key string, v *Value[string]) {
	if !v.Set() || v.V == "" {
		return
	}
	wrong := func(why string) {
		d.fault("spec.value", v.At, fmt.Sprintf("%s is %q: %s", key, yamltext.Shorten(v.V), why), "write it as https://ostrel-yard.example, with your own name")
	}
	if strings.ContainsFunc(v.V, func(r rune) bool { return unicode.IsSpace(r) || unicode.IsControl(r) }) {
		wrong("an address has no blanks in it")
		return
	}
	u, err := url.Parse(v.V)
	scheme, rest, hasScheme := strings.Cut(v.V, ":")
	switch {
	case hasScheme && isPort(rest) && !strings.Contains(scheme, "/"):
		// a name and a port, as in ostrel-yard.example:8080
	case err != nil:
		wrong("that is no address")
	case u.Scheme != "" && !slices.Contains(webSchemes, strings.ToLower(u.Scheme)):
		wrong(fmt.Sprintf("an address that begins with %s: opens no page", u.Scheme))
	case u.Scheme != "" && u.Opaque == "" && u.Host == "":
		wrong("there is nothing behind " + u.Scheme + ":")
	}
}

// isPort reports whether what stands behind a colon is a port, with or without a
// path.
func isPort(s string) bool {
	digits, _, _ := strings.Cut(s, "/")
	return digits != "" && strings.Trim(digits, "0123456789") == ""
}
