package rendition

import (
	"strings"
	"unicode/utf8"
)

// Meta is what a published photo says about itself. Empty fields are left out.
type Meta struct {
	Creator, Copyright, Title, Description, Alt string

	Taken  string // "2026-09-18T14:03:11", with "+02:00" behind it where known
	Credit string

	Composite bool // made of several frames rather than one
	Painted   bool // around the photo, or behind the piece, stands a ground that no camera saw
}

// maxField bounds one text, in bytes as written, so that the packet fits the
// one segment that a JPEG has for it.
const maxField = 8000

// Kinds of digital source, IPTC NewsCodes, scheme digitalsourcetype. A ground
// that is made by rule from the photo's own edge is "algorithmicallyEnhanced"
// (algorithmically-altered media); the terms with "composite" and "synthetic" in
// them are for other captures laid in and for what a trained model made up.
const (
	sourceCapture   = "http://cv.iptc.org/newscodes/digitalsourcetype/digitalCapture"
	sourceComposite = "http://cv.iptc.org/newscodes/digitalsourcetype/compositeCapture"
	sourcePainted   = "http://cv.iptc.org/newscodes/digitalsourcetype/algorithmicallyEnhanced"
)

// xmpPacket returns the XMP packet of m: dc, photoshop, xmp, xmpRights and the two
// IPTC schemas (IPTC Photo Metadata Standard 2021.1). The same m gives the same
// bytes.
func xmpPacket(m Meta) []byte {
	var b strings.Builder
	b.WriteString("<?xpacket begin=\"\ufeff\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n" +
		`<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">` +
		`<rdf:Description rdf:about=""` +
		` xmlns:dc="http://purl.org/dc/elements/1.1/"` +
		` xmlns:xmp="http://ns.adobe.com/xap/1.0/"` +
		` xmlns:xmpRights="http://ns.adobe.com/xap/1.0/rights/"` +
		` xmlns:photoshop="http://ns.adobe.com/photoshop/1.0/"` +
		` xmlns:Iptc4xmpCore="http://iptc.org/std/Iptc4xmpCore/1.0/xmlns/"` +
		` xmlns:Iptc4xmpExt="http://iptc.org/std/Iptc4xmpExt/2008-02-29/">` + "\n")
	text := func(open, value, shut string) {
		if v := escape(value); v != "" {
			b.WriteString(open + v + shut + "\n")
		}
	}
	const alt, altEnd = `<rdf:Alt><rdf:li xml:lang="x-default">`, `</rdf:li></rdf:Alt>`
	text(`<dc:creator><rdf:Seq><rdf:li>`, m.Creator, `</rdf:li></rdf:Seq></dc:creator>`)
	text(`<dc:rights>`+alt, m.Copyright, altEnd+`</dc:rights>`)
	if strings.TrimSpace(m.Copyright) != "" {
		text(`<xmpRights:Marked>`, "True", `</xmpRights:Marked>`)
	}
	text(`<dc:title>`+alt, m.Title, altEnd+`</dc:title>`)
	text(`<dc:description>`+alt, m.Description, altEnd+`</dc:description>`)
	text(`<photoshop:Credit>`, m.Credit, `</photoshop:Credit>`)
	text(`<photoshop:DateCreated>`, m.Taken, `</photoshop:DateCreated>`)
	text(`<xmp:CreateDate>`, m.Taken, `</xmp:CreateDate>`)
	text(`<Iptc4xmpCore:AltTextAccessibility>`+alt, m.Alt, altEnd+`</Iptc4xmpCore:AltTextAccessibility>`)
	source := sourceCapture
	switch {
	case m.Painted:
		source = sourcePainted
	case m.Composite:
		source = sourceComposite
	}
	text(`<Iptc4xmpExt:DigitalSourceType>`, source, `</Iptc4xmpExt:DigitalSourceType>`)
	b.WriteString("</rdf:Description></rdf:RDF></x:xmpmeta>\n<?xpacket end=\"r\"?>")
	return []byte(b.String())
}

// escape returns s as XML character data: markup escaped, what XML 1.0 cannot
// hold left out, line breaks kept, cut at maxField bytes.
func escape(s string) string {
	var b strings.Builder
	for _, r := range strings.TrimSpace(s) {
		var v string
		switch {
		case r == '&':
			v = "&amp;"
		case r == '<':
			v = "&lt;"
		case r == '>':
			v = "&gt;"
		case r == utf8.RuneError, r < ' ' && r != '\n' && r != '\t', r == 0xfffe, r == 0xffff, r == 0x7f:
			continue
		default:
			v = string(r)
		}
		if b.Len()+len(v) > maxField {
			break
		}
		b.WriteString(v)
	}
	return b.String()
}
