package report

import (
	"slices"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
)

// What a guarantee names, by the words of makers in the languages of the papers (from
// memory).
var (
	jointWords = strings.Fields("joint joints joinery glueline gluelines fuge fugen verbindung verbindungen leimfugen holzverbindungen assemblage assemblages joints uniones ensambles verbinding verbindingen houtverbindingen")
	weldWords  = strings.Fields("weld welds welding schweissnaht schweissnahte schweissnaehte soudure soudures soldadura soldaduras las lassen lasnaden")
	castWords  = strings.Fields("cast casting castings resin pour pours guss giessharz harz coulee coulees resine resina vertido hars giethars")
)

// GuaranteeOf is the guarantee of a piece: its own words, else the workshop's. The
// workshop's, which were not written for it, are left out where they name joints, welds or
// castings and nothing else of the kind is in the piece: it would promise nothing.
func GuaranteeOf(p *piece.Piece, w *piece.Workshop) (text string, leftOut bool) {
	if p.Guarantee.V != "" || w == nil {
		return p.Guarantee.V, false
	}
	words := strings.Fields(spelling.Plain(w.Guarantee.V))
	names := func(list []string) bool {
		return slices.ContainsFunc(words, func(said string) bool { return slices.Contains(list, said) })
	}
	named, has := false, false
	for _, thing := range []struct {
		words []string
		there bool
	}{{jointWords, hasJoints(p)}, {weldWords, hasMetal(p)}, {castWords, len(p.Top.Resin) > 0}} {
		if names(thing.words) {
			named, has = true, has || thing.there
		}
	}
	if named && !has {
		return "", true
	}
	return w.Guarantee.V, false
}

// hasJoints reports whether a piece is put together of several parts of wood, or glued.
func hasJoints(p *piece.Piece) bool {
	return p.Base != nil || len(p.Parts) > 0 || len(p.Glue) > 0 || len(p.Top.Wood) > 1
}

// hasMetal reports whether there is a base or a section that may be welded.
func hasMetal(p *piece.Piece) bool {
	if p.Base == nil {
		return len(p.Top.Channels) > 0
	}
	return len(p.Base.Sections) > 0 || slices.ContainsFunc(strings.Fields(spelling.Plain(p.Base.Material.V+" "+p.Base.Style.V)), func(w string) bool {
		return slices.Contains([]string{"steel", "iron", "metal", "welded", "stainless", "brass", "aluminium", "aluminum", "stahl", "acier", "acero", "staal"}, w)
	})
}

// guarantee fills the guarantee, and says where the workshop's is left out.
func (b *builder) guarantee() {
	text, leftOut := GuaranteeOf(b.p, b.w)
	b.r.Public.Guarantee = text
	if leftOut {
		b.find(piece.Note, "guarantee.left-out", piece.Place{File: b.p.Serial.At.File}, "the workshop's guarantee ("+b.w.Guarantee.V+") names nothing that this piece has, so its papers do not give it",
			"give it one of its own: guarantee: …")
	}
}
