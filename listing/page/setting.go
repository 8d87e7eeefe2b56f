package page

import (
	"bytes"

	"slabfolio/listing/spelling"
)

// noBreak is the space at which no line ends.
const noBreak = "\u00a0"

var (
	beforeUnit = spelling.Pattern(`([\d¼½¾⅛⅜⅝⅞]) (in|cm|mm|m|lb|kg|%|°C|°F)([^\pL\d]|$)`)
	mixed      = spelling.Pattern(`(\d) (\d+/\d)`)
	times      = spelling.Pattern(`([\d¼½¾⅛⅜⅝⅞]) × `)
)

// setForScreen sets what stands in the body of a page as it reads well in any font: a
// size, and a number with its unit, stay on one line where the column is wide enough;
// a fraction has a plain slash, since the fraction slash lies across the digits in a
// font that has no fractions. The head, for programs, stays as it is.
func setForScreen(html []byte) []byte {
	head, body, ok := bytes.Cut(html, []byte("<body>"))
	if !ok {
		return html
	}
	body = plainSlashes(body)
	body = times().ReplaceAll(body, []byte("$1"+noBreak+"×"+noBreak))
	body = mixed().ReplaceAll(body, []byte("$1"+noBreak+"$2"))
	body = beforeUnit().ReplaceAll(body, []byte("$1"+noBreak+"$2$3"))
	return bytes.Join([][]byte{head, body}, []byte("<body>"))
}

// plainSlashes writes fractions with a plain slash, as setForScreen does. The maker's
// own pages take no more of it: their script stands as its sum in their policy.
func plainSlashes(html []byte) []byte { return bytes.ReplaceAll(html, []byte("⁄"), []byte("/")) }
