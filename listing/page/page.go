// Package page writes what is read on a screen: the listing page and its plain
// text, the public catalogue and the maker's own overview. It lays out, it
// computes nothing.
package page

import (
	"slabfolio/listing/piece"
	"slabfolio/listing/report"
	"slabfolio/listing/units"
	"slabfolio/templates"
)

// Options are what the pages need beside the report.
type Options struct {
	Words  *templates.Words
	Prefer units.System // printed first

	BaseURL string // where the pieces will stand, for what covers all of them; empty when not known

	Languages  []Language // of the page, the default first; none when it is in one alone
	Folder     string     // below the default page, with its slash: "de/"; empty for that one
	MakersLang string     // of what the maker wrote, where that is not the page's
}

// A Language is one that the page can be read in.
type Language struct {
	Tag, Name string // an IETF tag; what its speakers call it
	Folder    string // as Options.Folder
}

// An Entry is one prepared piece for the catalogue and the overview.
type Entry struct {
	Folder  string // its folder in OUT
	Report  *report.Report
	Unpaged bool // there is no page over it for the maker: an earlier version made it

	Unlisted bool // it has no listing page yet, so nothing public leads there
}

// A LeftOut is a piece that could not be prepared in this run.
type LeftOut struct {
	Dir      string // the piece folder, as the maker gave it
	Serial   string // where known
	Findings []piece.Finding
}
