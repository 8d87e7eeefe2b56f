package sheet

import (
	"embed"
	"fmt"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

//go:embed fonts/*.ttf
var fontFiles embed.FS

// A face is one of the fonts under fonts/.
type face int

const (
	serif face = iota
	italic
	sans
	bold
	faceCount
)

var faceNames = [faceCount]string{"serif", "serif-italic", "sans", "sans-bold"}

// metrics are what we need to know of a font to set it: which characters it
// has, how wide they are, and how pairs of them are kerned. Widths are in
// thousandths of the type size.
type metrics struct {
	data   []byte
	font   *sfnt.Font
	upm    fixed.Int26_6
	glyphs map[rune]glyph

	mu    sync.Mutex // guards buf and kerns
	buf   sfnt.Buffer
	kerns map[[2]sfnt.GlyphIndex]float64
}

type glyph struct {
	index sfnt.GlyphIndex
	width float64
}

// loadFaces parses the embedded fonts once for the life of the program.
var loadFaces = sync.OnceValues(func() (*[faceCount]*metrics, error) {
	var all [faceCount]*metrics
	for i, name := range faceNames {
		m, err := parseFace(name)
		if err != nil {
			return nil, fmt.Errorf("font %s: %w", name, err)
		}
		all[i] = m
	}
	return &all, nil
})

func parseFace(name string) (*metrics, error) {
	data, err := fontFiles.ReadFile("fonts/" + name + ".ttf")
	if err != nil {
		return nil, err
	}
	f, err := sfnt.Parse(data)
	if err != nil {
		return nil, err
	}
	m := &metrics{
		data: data, font: f, upm: fixed.Int26_6(f.UnitsPerEm()),
		glyphs: map[rune]glyph{}, kerns: map[[2]sfnt.GlyphIndex]float64{},
	}
	// Only the basic plane: gofpdf panics beyond it.
	for r := rune(0x20); r <= 0xffff; r++ {
		g, err := f.GlyphIndex(&m.buf, r)
		if err != nil {
			return nil, err
		}
		if g == 0 {
			continue
		}
		w, err := f.GlyphAdvance(&m.buf, g, m.upm, font.HintingNone)
		if err != nil {
			return nil, err
		}
		m.glyphs[r] = glyph{g, m.thousandths(w)}
	}
	return m, nil
}

func (m *metrics) thousandths(v fixed.Int26_6) float64 { return 1000 * float64(v) / float64(m.upm) }

// has reports whether the font can draw r.
func (m *metrics) has(r rune) bool { _, ok := m.glyphs[r]; return ok }

// slashWide is the most that the slash of a fraction takes, in thousandths of the type
// size; the fonts' own ½ have it still closer.
const slashWide = 240

// kern returns what is added between a and b, in thousandths of the type size; before
// stands before a, or is negative.
func (m *metrics) kern(before, a, b rune) float64 {
	switch {
	case a == '\u00a0' && strings.ContainsRune(raisedFigures, b) && (before < 0 || unicode.IsDigit(before)): // a whole number and its fraction
		return -0.6 * m.glyphs[a].width
	case b == '⁄' && strings.ContainsRune(raisedFigures, a), a == '⁄' && strings.ContainsRune(loweredFigures, b): // its two sides, as in ½
		return -max(0, m.glyphs['⁄'].width-slashWide) / 2
	}
	key := [2]sfnt.GlyphIndex{m.glyphs[a].index, m.glyphs[b].index}
	m.mu.Lock()
	defer m.mu.Unlock()
	k, ok := m.kerns[key]
	if !ok {
		// No pair, or a table that the library does not read: no kerning.
		if v, err := m.font.Kern(&m.buf, key[0], key[1], m.upm, font.HintingNone); err == nil {
			k = m.thousandths(v)
		}
		m.kerns[key] = k
	}
	return k
}

// width returns the width of s in thousandths of the type size, kerned.
func (m *metrics) width(s string) float64 {
	var w float64
	before, prev := rune(-1), rune(-1)
	for _, r := range s {
		if prev >= 0 {
			w += m.kern(before, prev, r)
		}
		w += m.glyphs[r].width
		before, prev = prev, r
	}
	return w
}
