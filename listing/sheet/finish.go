package sheet

import (
	"bytes"
	"compress/zlib"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"sync"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// quietLibrary keeps pdfcpu from reading or writing a configuration on disk.
var quietLibrary = sync.OnceFunc(api.DisableConfigDir)

// finish makes PDF/A-1b (ISO 19005-1) of what gofpdf wrote: it adds the output
// intent and the XMP packet, takes away what the standard forbids, and writes
// the objects again. pdfcpu reads the file; we write it, since pdfcpu's writer
// stamps the clock into the Info dictionary and the file ID.
func finish(raw []byte, m meta, t *tags) ([]byte, error) {
	quietLibrary()
	conf := model.NewDefaultConfiguration()
	conf.Offline = true
	ctx, err := pdfcpu.Read(bytes.NewReader(raw), conf)
	if err != nil {
		return nil, fmt.Errorf("read back: %w", err)
	}
	root, err := ctx.Catalog()
	if err != nil {
		return nil, fmt.Errorf("read back the catalog: %w", err)
	}
	w := &pdfWriter{next: 1}
	for n := range ctx.Table {
		w.next = max(w.next, n+1)
	}
	info, err := w.standard(root, m)
	if err != nil {
		return nil, err
	}
	pages, numbers, err := pagesOf(ctx, root)
	if err != nil {
		return nil, err
	}
	w.addStructure(root, pages, numbers, t)
	old := 0
	if ctx.Info != nil {
		old = ctx.Info.ObjectNumber.Value()
	}
	for n, entry := range ctx.Table {
		if n == 0 || n == old || entry == nil || entry.Free || entry.Object == nil {
			continue
		}
		src, err := source(entry.Object)
		if err != nil {
			return nil, fmt.Errorf("object %d: %w", n, err)
		}
		w.objects = append(w.objects, object{n, src})
	}
	return w.write(ctx.Root.ObjectNumber.Value(), info), nil
}

// pagesOf returns the pages in order, and the numbers of their objects.
func pagesOf(ctx *model.Context, root types.Dict) (pages []types.Dict, numbers []int, err error) {
	tree, err := ctx.DereferenceDict(root["Pages"])
	if err != nil {
		return nil, nil, fmt.Errorf("read back the pages: %w", err)
	}
	for _, k := range tree.ArrayEntry("Kids") {
		r, ok := k.(types.IndirectRef)
		if !ok {
			return nil, nil, fmt.Errorf("read back the pages: a page is no object of its own")
		}
		page, err := ctx.DereferenceDict(r)
		if err != nil {
			return nil, nil, fmt.Errorf("read back a page: %w", err)
		}
		pages, numbers = append(pages, page), append(numbers, r.ObjectNumber.Value())
	}
	return pages, numbers, nil
}

// standard adds what PDF/A-1b asks for to the catalog, and takes away what
// gofpdf leaves there; it returns the number of the Info dictionary.
func (w *pdfWriter) standard(root types.Dict, m meta) (info int, err error) {
	icc, err := deflate(srgbProfile())
	if err != nil {
		return 0, err
	}
	profile := w.add(stream("/Filter/FlateDecode/N 3", icc))
	// The XMP packet stays readable to tools that scan for it (6.7.2).
	packet := w.add(stream("/Subtype/XML/Type/Metadata", m.xmp()))
	intent := w.add([]byte(fmt.Sprintf(
		"<</DestOutputProfile %d 0 R/Info(sRGB IEC61966-2.1)/OutputConditionIdentifier(sRGB IEC61966-2.1)/S/GTS_PDFA1/Type/OutputIntent>>", profile)))
	root.Delete("Names") // gofpdf writes an empty one
	root.Update("Metadata", *types.NewIndirectRef(packet, 0))
	root.Update("OutputIntents", types.Array{*types.NewIndirectRef(intent, 0)})
	root.Update("Lang", types.StringLiteral(m.lang))
	root.Update("ViewerPreferences", types.Dict{"DisplayDocTitle": types.Boolean(true)})
	return w.add([]byte(m.info())), nil
}

// source returns an object as it stands in a file.
func source(o types.Object) ([]byte, error) {
	switch o := o.(type) {
	case types.StreamDict:
		return streamSource(o)
	case *types.StreamDict:
		return streamSource(*o)
	}
	return []byte(o.PDFString()), nil
}

func streamSource(sd types.StreamDict) ([]byte, error) {
	if sd.Raw == nil {
		return nil, fmt.Errorf("stream was not read")
	}
	sd.Dict.Update("Length", types.Integer(len(sd.Raw)))
	return slices.Concat([]byte(sd.Dict.PDFString()), []byte("\nstream\n"), sd.Raw, []byte("\nendstream")), nil
}

func stream(dict string, data []byte) []byte {
	return slices.Concat([]byte(fmt.Sprintf("<<%s/Length %d>>\nstream\n", dict, len(data))), data, []byte("\nendstream"))
}

func deflate(data []byte) ([]byte, error) {
	var b bytes.Buffer
	w := zlib.NewWriter(&b)
	if _, err := w.Write(data); err != nil {
		return nil, err
	}
	err := w.Close()
	return b.Bytes(), err
}

// A pdfWriter writes a file of plain objects and one cross-reference table.
type pdfWriter struct {
	objects []object
	next    int // the next free object number
}

type object struct {
	number int
	source []byte
}

func (w *pdfWriter) add(src []byte) int {
	w.objects = append(w.objects, object{w.next, src})
	w.next++
	return w.next - 1
}

// write returns the file. Its ID is a hash of all that stands before it.
func (w *pdfWriter) write(root, info int) []byte {
	slices.SortFunc(w.objects, func(a, b object) int { return a.number - b.number })
	var b bytes.Buffer
	b.WriteString("%PDF-1.4\n%\xe2\xe3\xcf\xd3\n") // four bytes above 127 (6.1.2)
	offsets := make(map[int]int, len(w.objects))
	for _, o := range w.objects {
		offsets[o.number] = b.Len()
		fmt.Fprintf(&b, "%d 0 obj\n", o.number)
		b.Write(o.source)
		b.WriteString("\nendobj\n")
	}
	sum := sha256.Sum256(b.Bytes())
	id := hex.EncodeToString(sum[:16])
	start := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n", w.next)
	for n := range w.next {
		if at, ok := offsets[n]; ok {
			fmt.Fprintf(&b, "%010d 00000 n \n", at)
		} else {
			fmt.Fprintf(&b, "%010d 65535 f \n", 0)
		}
	}
	fmt.Fprintf(&b, "trailer\n<</ID[<%s><%s>]/Info %d 0 R/Root %d 0 R/Size %d>>\nstartxref\n%d\n%%%%EOF\n", id, id, info, root, w.next, start)
	return b.Bytes()
}
