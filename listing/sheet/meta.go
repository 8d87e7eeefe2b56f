package sheet

import (
	"bytes"
	"encoding/hex"
	"encoding/xml"
	"fmt"
	"time"
	"unicode/utf16"

	"slabfolio/listing/spelling"
)

// meta is what a file says of itself, in its Info dictionary and, word for
// word the same, in its XMP packet.
type meta struct {
	title, author, subject, creator, producer, lang string
	date                                            time.Time
}

// langTag is what may stand in the catalog unescaped: letters of a BCP 47 tag.
var langTag = spelling.Pattern(`^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*$`)

func (d *doc) meta() meta {
	p := &d.r.Public
	author := ""
	if p.Maker != nil {
		author = p.Maker.Name
	}
	lang := d.r.Lang
	if !langTag().MatchString(lang) {
		lang = d.o.Words.Lang
	}
	producer := "slabfolio"
	if d.o.Version != "" {
		producer += " " + d.o.Version
	}
	// Long or odd texts are cut to what one line of a title bar can hold; the
	// page has them whole.
	m := d.faces[serif]
	subject := "meta.subject." + d.file
	if d.file == "certificate" {
		subject = d.byWork(subject)
	}
	short := func(s string) string {
		r := []rune(m.clean(s))
		if len(r) > 250 {
			r = append(r[:249], '…')
		}
		return string(r)
	}
	return meta{
		title:   short(d.say("meta.title."+d.file, "Title", p.Title, "Serial", p.Serial)),
		author:  short(author),
		subject: short(d.say(subject, "Kind", d.kind(), "Serial", p.Serial)),
		creator: producer, producer: producer,
		lang: lang, date: d.date(),
	}
}

// xmp returns the packet, padded as the XMP specification advises, read-only.
// A property whose value is empty is left out, as it is in the Info dictionary.
func (m meta) xmp() []byte {
	esc := func(s string) string {
		var b bytes.Buffer
		_ = xml.EscapeText(&b, []byte(s)) // a buffer does not fail
		return b.String()
	}
	var b bytes.Buffer
	b.WriteString("<?xpacket begin=\"\ufeff\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n")
	b.WriteString(`<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">` + "\n")
	b.WriteString(`<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:xmp="http://ns.adobe.com/xap/1.0/"` +
		` xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/">` + "\n")
	b.WriteString("<pdfaid:part>1</pdfaid:part><pdfaid:conformance>B</pdfaid:conformance>\n")
	b.WriteString("<dc:format>application/pdf</dc:format>\n")
	alt := func(tag, s string) {
		if s != "" {
			fmt.Fprintf(&b, "<dc:%s><rdf:Alt><rdf:li xml:lang=\"x-default\">%s</rdf:li></rdf:Alt></dc:%s>\n", tag, esc(s), tag)
		}
	}
	alt("title", m.title)
	alt("description", m.subject)
	if m.author != "" {
		fmt.Fprintf(&b, "<dc:creator><rdf:Seq><rdf:li>%s</rdf:li></rdf:Seq></dc:creator>\n", esc(m.author))
	}
	fmt.Fprintf(&b, "<dc:language><rdf:Bag><rdf:li>%s</rdf:li></rdf:Bag></dc:language>\n", esc(m.lang))
	when := m.date.UTC().Format(time.RFC3339)
	fmt.Fprintf(&b, "<xmp:CreatorTool>%s</xmp:CreatorTool><pdf:Producer>%s</pdf:Producer>\n", esc(m.creator), esc(m.producer))
	fmt.Fprintf(&b, "<xmp:CreateDate>%s</xmp:CreateDate><xmp:ModifyDate>%s</xmp:ModifyDate>\n", when, when)
	b.WriteString("</rdf:Description>\n</rdf:RDF></x:xmpmeta>\n<?xpacket end=\"r\"?>")
	return b.Bytes()
}

// info returns the Info dictionary, as PDF source. Text is UTF-16 in hex, so
// that nothing in it needs escaping.
func (m meta) info() string {
	when := m.date.UTC().Format("20060102150405")
	s := "<<"
	for _, e := range [][2]string{
		{"Author", m.author}, {"Creator", m.creator}, {"Producer", m.producer}, {"Subject", m.subject}, {"Title", m.title},
	} {
		if e[1] != "" {
			s += fmt.Sprintf("/%s%s", e[0], textString(e[1]))
		}
	}
	return s + fmt.Sprintf("/CreationDate(D:%s+00'00')/ModDate(D:%s+00'00')>>", when, when)
}

// textString writes s as a hexadecimal PDF text string.
func textString(s string) string {
	b := []byte{0xfe, 0xff}
	for _, u := range utf16.Encode([]rune(s)) {
		b = append(b, byte(u>>8), byte(u))
	}
	return "<" + hex.EncodeToString(b) + ">"
}
