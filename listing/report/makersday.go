package report

import (
	"fmt"
	"strings"
	"time"

	"slabfolio/listing/care"
	"slabfolio/listing/piece"
	"slabfolio/templates"
)

// told writes a day inside a finding, which is English whatever the language of the
// papers: as that English writes it, else as 2 August 2026.
func (b *builder) told(d piece.Date) string {
	if templates.English(b.words.Lang) {
		return strings.ReplaceAll(care.Day(b.words, d), "\u00a0", " ") // a terminal breaks its lines itself
	}
	return fmt.Sprintf("%d %s %d", d.Day, time.Month(d.Month), d.Year)
}
