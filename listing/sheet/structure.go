package sheet

import (
	"fmt"
	"strings"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// addStructure writes the tree of a tagged file, its links and bookmarks, and hangs
// them into the catalog and the pages (ISO 32000-1, 14.7.2 to 14.7.4, 12.3.3,
// 12.5.6.5).
func (w *pdfWriter) addStructure(root types.Dict, pages []types.Dict, numbers []int, t *tags) {
	if len(t.root.kids) == 0 {
		return
	}
	tree := w.reserve()
	w.reserveElements(&t.root)
	annotations := w.addLinks(pages, numbers, t)
	w.addElements(&t.root, tree, numbers, annotations)
	var nums strings.Builder
	for i := range pages {
		refs := make([]string, len(t.marks[i+1]))
		for k, e := range t.marks[i+1] {
			refs[k] = ref(e.number)
		}
		fmt.Fprintf(&nums, "%d[%s]", i, strings.Join(refs, " "))
		pages[i].Update("StructParents", types.Integer(i))
	}
	for i, l := range t.links {
		fmt.Fprintf(&nums, "%d %s ", len(pages)+i, ref(l.element.number))
	}
	parents := w.add([]byte(fmt.Sprintf("<</Nums[%s]>>", nums.String())))
	w.set(tree, fmt.Sprintf("<</K %s/ParentTree %s/ParentTreeNextKey %d/Type/StructTreeRoot>>", ref(t.root.number), ref(parents), len(pages)+len(t.links)))
	root.Update("MarkInfo", types.Dict{"Marked": types.Boolean(true)})
	root.Update("StructTreeRoot", *types.NewIndirectRef(tree, 0))
	if n := w.addBookmarks(t.bookmarks, numbers); n > 0 {
		root.Update("Outlines", *types.NewIndirectRef(n, 0))
	}
}

func ref(number int) string { return fmt.Sprintf("%d 0 R", number) }

// reserve returns the number of an object that is set later.
func (w *pdfWriter) reserve() int { w.next++; return w.next - 1 }

func (w *pdfWriter) set(number int, source string) {
	w.objects = append(w.objects, object{number, []byte(source)})
}

func (w *pdfWriter) reserveElements(e *element) {
	e.number = w.reserve()
	for _, k := range e.kids {
		if k.element != nil {
			w.reserveElements(k.element)
		}
	}
}

// addElements writes an element and all below it.
func (w *pdfWriter) addElements(e *element, parent int, numbers, annotations []int) {
	var kids []string
	for _, k := range e.kids {
		switch {
		case k.element != nil:
			w.addElements(k.element, e.number, numbers, annotations)
			kids = append(kids, ref(k.element.number))
		case k.link > 0:
			kids = append(kids, fmt.Sprintf("<</Obj %s/Type/OBJR>>", ref(annotations[k.link-1])))
		default:
			kids = append(kids, fmt.Sprintf("<</MCID %d/Pg %s/Type/MCR>>", k.mcid, ref(numbers[k.page-1])))
		}
	}
	more := ""
	if e.alt != "" {
		more = "/Alt" + textString(e.alt)
	}
	if e.role == "TH" {
		more = "/A<</O/Table/Scope/Row>>"
	}
	w.set(e.number, fmt.Sprintf("<<%s/K[%s]/P %s/S/%s/Type/StructElem>>", more, strings.Join(kids, " "), ref(parent), e.role))
}

// addLinks writes an annotation for each link, to be printed as nothing (ISO
// 19005-1, 6.5.3: the flag Print set), and returns their numbers.
func (w *pdfWriter) addLinks(pages []types.Dict, numbers []int, t *tags) []int {
	var all []int
	byPage := map[int]types.Array{}
	for i, l := range t.links {
		n := w.add([]byte(fmt.Sprintf("<</A<</S/URI/URI%s>>/Border[0 0 0]/Contents%s/F 4/P %s/Rect[%.2f %.2f %.2f %.2f]/StructParent %d/Subtype/Link/Type/Annot>>",
			asciiString(l.uri), textString(l.uri), ref(numbers[l.page-1]), l.rect[0], l.rect[1], l.rect[2], l.rect[3], len(pages)+i)))
		all = append(all, n)
		byPage[l.page-1] = append(byPage[l.page-1], *types.NewIndirectRef(n, 0))
	}
	for i := range pages {
		if len(byPage[i]) > 0 {
			pages[i].Update("Annots", byPage[i])
		}
	}
	return all
}

// asciiString writes an address as a PDF string: what is not plain in it, in
// percent escapes.
func asciiString(s string) string {
	var b strings.Builder
	b.WriteByte('(')
	for _, c := range []byte(s) {
		if c <= ' ' || c >= 0x7f || c == '(' || c == ')' || c == '\\' {
			fmt.Fprintf(&b, "%%%02X", c)
			continue
		}
		b.WriteByte(c)
	}
	b.WriteByte(')')
	return b.String()
}

// addBookmarks writes the list of contents, headings under the title before them,
// and returns its number; 0 where there are none.
func (w *pdfWriter) addBookmarks(all []bookmark, numbers []int) int {
	if len(all) == 0 {
		return 0
	}
	outlines := w.reserve()
	items := make([]int, len(all))
	for i := range all {
		items[i] = w.reserve()
	}
	for i, b := range all {
		more := ""
		if i > 0 {
			more += "/Prev " + ref(items[i-1])
		}
		if i+1 < len(all) {
			more += "/Next " + ref(items[i+1])
		}
		w.set(items[i], fmt.Sprintf("<</Dest[%s/XYZ 0 %.2f null]%s/Parent %s/Title%s>>", ref(numbers[b.page-1]), b.y, more, ref(outlines), textString(b.title)))
	}
	w.set(outlines, fmt.Sprintf("<</Count %d/First %s/Last %s/Type/Outlines>>", len(all), ref(items[0]), ref(items[len(items)-1])))
	return outlines
}
