package page

import (
	"bytes"

	"slabfolio/listing/spelling"
)

// noBreak is the space at which no line ends.
const noBreak = "\u00a0"

var (
	beforeUnit = spelling.Pattern(`([\d¼½¾⅛⅜⅝⅞]) (in|cm|mm|m|lb|oz|kg|g|%|°C|°F)([^\pL\d]|$)`)
	mixed      = spelling.Pattern(`(\d) (\d+/\d)`)
	times      = spelling.Pattern(`([\d¼½¾⅛⅜⅝⅞]) × `)
	listed     = spelling.Pattern(`<dd>[^<]*(?:<br>[^<]*)*`)
	inListSize = spelling.Pattern(`\(?[\d¼½¾⅛⅜⅝⅞][\d.,/¼½¾⅛⅜⅝⅞ ]*(?: × [\d.,/¼½¾⅛⅜⅝⅞ ]+)+ (?:in|cm|mm)\)?`)
)

// setForScreen sets what stands in the body of a page as it reads well in any font: a
// number stays on one line with its unit and the sign behind it; a size in a list moves to
// the next line whole, with its bracket, and is parted behind a × only where the column is
// narrower than all of it;
// a fraction has a plain slash, since the fraction slash lies across the digits in a
// font that has no fractions. The head, for programs, stays as it is.
func setForScreen(html []byte) []byte {
	head, body, ok := bytes.Cut(html, []byte("<body>"))
	if !ok {
		return html
	}
	body = plainSlashes(body)
	body = listed().ReplaceAllFunc(body, func(item []byte) []byte {
		return inListSize().ReplaceAll(item, []byte(`<span class="size">$0</span>`))
	})
	body = times().ReplaceAll(body, []byte("$1"+noBreak+"× "))
	body = mixed().ReplaceAll(body, []byte("$1"+noBreak+"$2"))
	body = beforeUnit().ReplaceAll(body, []byte("$1"+noBreak+"$2$3"))
	return bytes.Join([][]byte{head, body}, []byte("<body>"))
}

// plainSlashes writes fractions with a plain slash, as setForScreen does. The maker's
// own pages take no more of it: their script stands as its sum in their policy.
func plainSlashes(html []byte) []byte { return bytes.ReplaceAll(html, []byte("⁄"), []byte("/")) }
