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
}

// An Entry is one prepared piece for the catalogue and the overview.
type Entry struct {
	Folder string // its folder in OUT
	Report *report.Report
}

// A LeftOut is a piece that could not be prepared in this run.
type LeftOut struct {
	Dir      string // the piece folder, as the maker gave it
	Serial   string // where known
	Findings []piece.Finding
}
