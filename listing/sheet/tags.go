package sheet

import (
	"fmt"
	"slices"
	"strings"
)

// A tagged PDF (ISO 32000-1, 14.7 and 14.8) tells a reader that cannot see the page
// what stands on it and in which order: each piece of the page's content is marked
// with a number, and a tree of elements names the numbers. What is no content, such
// as lines and the footer, is marked as an artifact.

// An element is one part of a document: a heading, a paragraph, a cell, a figure.
type element struct {
	role   string // a standard structure type: H1, H2, P, Table, TR, TH, TD, Figure, Link
	alt    string // of a figure
	parent *element
	kids   []kid
	number int // of its object, once written
}

// A kid is an element, a piece of content of a page, or a link's annotation.
type kid struct {
	element    *element
	page, mcid int
	link       int // one more than its place among the links; 0: none
}

// A link is a place on a page that leads elsewhere, in points from the lower left.
type link struct {
	page    int
	rect    [4]float64
	uri     string
	element *element
}

// A bookmark is a heading in the list of contents.
type bookmark struct {
	title string
	page  int
	y     float64 // in points from the lower edge
	level int
}

// tags are what the finishing pass writes the structure from.
type tags struct {
	root      element
	marks     map[int][]*element // by page, the element of each number
	links     []link
	bookmarks []bookmark
}

func newTags() *tags { return &tags{root: element{role: "Document"}, marks: map[int][]*element{}} }

// element returns a new element under the document. It becomes part of the tree
// when something is drawn for it, so that what is only tried leaves no trace.
func (d *doc) element(role string) *element { return d.under(&d.tags.root, role) }

func (d *doc) under(parent *element, role string) *element {
	return &element{role: role, parent: parent}
}

// tagged draws what belongs to an element; without one, it is drawn as it is. What
// is drawn within belongs to the outermost element.
func (d *doc) tagged(e *element, draw func()) {
	if d.trial != nil {
		return
	}
	if e == nil || d.current != nil || d.inArtifact {
		draw()
		return
	}
	d.current = e
	d.beginMark(e)
	draw()
	d.endMark()
	d.current = nil
}

func (d *doc) beginMark(e *element) {
	attach(e)
	page := d.pdf.PageNo()
	id := len(d.tags.marks[page])
	d.tags.marks[page] = append(d.tags.marks[page], e)
	e.kids = append(e.kids, kid{page: page, mcid: id})
	d.pdf.RawWriteStr(fmt.Sprintf("/%s <</MCID %d>> BDC", e.role, id))
}

func (d *doc) endMark() { d.pdf.RawWriteStr("EMC") }

// attach puts an element, and what it stands in, into the tree.
func attach(e *element) {
	if e.parent == nil || slices.ContainsFunc(e.parent.kids, func(k kid) bool { return k.element == e }) {
		return
	}
	attach(e.parent)
	e.parent.kids = append(e.parent.kids, kid{element: e})
}

// artifact draws what is no content: it is passed over by who cannot see the page.
// Within an element it belongs to that.
func (d *doc) artifact(draw func()) {
	if d.trial != nil {
		return
	}
	if d.current != nil || d.inArtifact {
		draw()
		return
	}
	d.inArtifact = true
	d.pdf.RawWriteStr("/Artifact BMC")
	draw()
	d.pdf.RawWriteStr("EMC")
	d.inArtifact = false
}

// figure draws a picture that words stand for.
func (d *doc) figure(alt string, draw func()) {
	e := d.element("Figure")
	e.alt = alt
	d.tagged(e, draw)
}

// addBookmark puts a heading into the list of contents.
func (d *doc) addBookmark(title string, level int, top float64) {
	if d.moved {
		return
	}
	d.tags.bookmarks = append(d.tags.bookmarks, bookmark{title, d.pdf.PageNo(), (d.h - top) / pt, level})
}

// A target is a text that leads somewhere.
type target struct{ text, uri string }

// targets are the addresses that the document may name: the maker's and the
// listing's.
func (d *doc) targets() []target {
	var all []target
	add := func(text, uri string) {
		if text = strings.TrimSpace(text); text != "" && !strings.ContainsAny(text, " \t\n") {
			all = append(all, target{text, uri + text})
		}
	}
	if m := d.r.Public.Maker; m != nil {
		add(m.Email, "mailto:")
		if strings.Contains(m.Web, "://") {
			add(m.Web, "")
		} else {
			add(m.Web, "https://")
		}
	}
	add(d.r.PageAddress(), "")
	slices.SortFunc(all, func(a, b target) int { return len(b.text) - len(a.text) })
	return all
}

// linked draws text that may hold addresses, each as a link within its element. It
// reports whether it did.
func (d *doc) linked(x, y float64, st style, s string) bool {
	if d.current == nil || d.current.role != "P" && d.current.role != "LBody" {
		return false
	}
	for _, t := range d.targets() {
		before, after, ok := strings.Cut(s, t.text)
		if !ok {
			continue
		}
		outer := d.current
		if before != "" {
			d.text(x, y, st, before)
			x += d.width(st, before)
		}
		w := d.width(st, t.text)
		d.endMark()
		e := d.under(outer, "Link")
		d.current = e
		d.beginMark(e)
		d.text(x, y, st, t.text)
		d.endMark()
		d.addLink(e, x, y, w, st.size, t.uri)
		d.current = outer
		d.beginMark(outer)
		d.text(x+w, y, st, after)
		return true
	}
	return false
}

// addLink makes a place on the page lead elsewhere. Under a transformation, as on a
// sheet of several cards, it would lie wrong, and is left out.
func (d *doc) addLink(e *element, x, y, w, size float64, uri string) {
	if d.moved {
		return
	}
	d.tags.links = append(d.tags.links, link{d.pdf.PageNo(), [4]float64{x / pt, (d.h-y)/pt - 0.2*size, (x + w) / pt, (d.h-y)/pt + 0.75*size}, uri, e})
	e.kids = append(e.kids, kid{link: len(d.tags.links)})
}
