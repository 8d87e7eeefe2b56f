package page

import (
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"strings"
)

// makersLang is the language of the pages that only the maker reads.
const makersLang = "en"

// The scripts of the maker's own pages. Nothing but filter, sort and pointing hangs
// on them, and the pages for others have none.
//
//go:embed board.js
var boardScript string

//go:embed point.js
var pointScript string

// policy is the Content-Security-Policy (W3C, level 3) of a page: nothing may be
// loaded but pictures beside it, and no script runs but the one with these letters.
// A name or a story that slips a script in has no way to run it.
func policy(script string) string {
	sum := sha256.Sum256([]byte(script))
	return "default-src 'none'; img-src 'self' file:; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; script-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// longMonth writes 2026-09 as "September 2026".
func longMonth(iso string, o *Options) string {
	year, month, ok := strings.Cut(iso, "-")
	if !ok {
		return iso
	}
	return o.Words.Say("general.month."+strings.TrimPrefix(month, "0"), nil) + " " + year
}
