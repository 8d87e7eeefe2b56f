package report

import (
	"fmt"

	"slabfolio/listing/piece"
)

// standsOutside tells the maker of a piece that is to stand in the open that what is
// reckoned of a heated room is left out: its movement between two seasons indoors, and
// that its wood is too wet for one. What only finish, glue and wood themselves answer is
// asked.
func (b *builder) standsOutside() {
	o := b.p.Outdoors
	if o.Key == "" {
		return
	}
	b.find(piece.Doubt, "piece.outdoors", o.At, fmt.Sprintf("%s says %q, and what is told of seasons, of the right room and of wet wood is of a heated room: the papers leave it out", o.Key, o.Said),
		"look whether the sheets of finish, glue and resin allow rain and frost, and whether the wood lasts outside (EN 350), and say in the story what the owner has to do; if the piece stands in a room, say it otherwise")
}

// outdoors reports whether the piece is to stand in the open.
func (b *builder) outdoors() bool { return b.p.Outdoors.Key != "" }
