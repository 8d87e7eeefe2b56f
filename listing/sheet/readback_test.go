package sheet

import (
	"bytes"
	"compress/zlib"
	"encoding/hex"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"
)

// A reader of our own files, so that what stands on a page can be tested where no
// other program is at hand: text with its place, and the lines that are drawn. It
// knows the operators that we write, and fails the test at any other.

// A textRun is one string as it is shown, in points from the lower left corner.
type textRun struct {
	page   int
	x, y   float64
	font   string
	size   float64
	text   string
	upward bool
	as     string // what is read in its place, within a span of ActualText
	spans  bool   // it stands within one
}

// A drawnPath is one painted path, in points from the lower left corner.
type drawnPath struct {
	page   int
	points [][2]float64
	closed bool
	width  float64 // of the line
	dashes string
	paint  string // S, f, B, with or without a star
}

type pageContent struct {
	texts    []textRun
	paths    []drawnPath
	pictures [][4]float64 // left, lower, right and upper edge, in points
}

// objects returns the source of every object by its number.
func objects(data []byte) map[int][]byte {
	all := map[int][]byte{}
	const start = " 0 obj\n"
	for at := bytes.Index(data, []byte(start)); at >= 0; {
		line := bytes.LastIndexByte(data[:at], '\n') + 1
		n, err := strconv.Atoi(string(data[line:at]))
		at += len(start)
		if body := data[at:]; err == nil { // else it is in a stream
			if i := bytes.Index(body, []byte("\nendobj\n")); i >= 0 {
				all[n] = body[:i]
			}
		}
		next := bytes.Index(data[at:], []byte(start))
		if next < 0 {
			break
		}
		at += next
	}
	return all
}

// streamOf returns the data of a stream, inflated.
func streamOf(t testing.TB, object []byte) []byte {
	t.Helper()
	head, rest, ok := bytes.Cut(object, []byte("\nstream\n"))
	if !ok {
		t.Fatalf("no stream in %.80q", object)
	}
	rest = bytes.TrimSuffix(rest, []byte("\nendstream"))
	if !bytes.Contains(head, []byte("FlateDecode")) {
		return rest
	}
	r, err := zlib.NewReader(bytes.NewReader(rest))
	if err != nil {
		t.Fatal(err)
	}
	out, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

var (
	kids     = regexp.MustCompile(`/Kids\[([^\]]*)\]`)
	contents = regexp.MustCompile(`/Contents (\d+) 0 R`)
	fontName = regexp.MustCompile(`/BaseFont/(?:utf8)?(\S+?)/`)
	fontRef  = regexp.MustCompile(`/(F[0-9a-f]{6,}) (\d+) 0 R`)
)

// pageStreams returns the content of every page, in order.
func pageStreams(t testing.TB, data []byte) [][]byte {
	t.Helper()
	all := objects(data)
	m := kids.FindSubmatch(all[1])
	if m == nil {
		t.Fatal("no list of pages in object 1")
	}
	var out [][]byte
	for _, ref := range regexp.MustCompile(`(\d+) 0 R`).FindAllSubmatch(m[1], -1) {
		n, _ := strconv.Atoi(string(ref[1]))
		c := contents.FindSubmatch(all[n])
		k, _ := strconv.Atoi(string(c[1]))
		out = append(out, streamOf(t, all[k]))
	}
	return out
}

// fontNames returns the names of the fonts by their resource names.
func fontNames(data []byte) map[string]string {
	all := objects(data)
	names := map[string]string{}
	for _, m := range fontRef.FindAllSubmatch(all[2], -1) {
		n, _ := strconv.Atoi(string(m[2]))
		if f := fontName.FindSubmatch(all[n]); f != nil {
			names[string(m[1])] = string(f[1])
		}
	}
	return names
}

// readBack reads every page of a document of ours.
func readBack(t testing.TB, data []byte) []pageContent {
	t.Helper()
	fonts := fontNames(data)
	var out []pageContent
	for i, stream := range pageStreams(t, data) {
		in := &interpreter{t: t, page: i + 1, fonts: fonts, state: state{matrix: [6]float64{1, 0, 0, 1, 0, 0}}}
		in.run(stream)
		out = append(out, in.pageContent)
	}
	return out
}

type state struct {
	matrix [6]float64
	width  float64
	dashes string
	font   string
	size   float64
}

type interpreter struct {
	pageContent
	t     testing.TB
	page  int
	fonts map[string]string
	state
	kept   []state
	args   []string
	at     [2]float64 // of the text
	path   [][2]float64
	closed bool
	marked int // marked content that is open, but for spans
	span   *string
}

func (in *interpreter) run(stream []byte) {
	for len(stream) > 0 {
		var token string
		token, stream = nextToken(stream)
		switch {
		case token == "":
		case strings.ContainsAny(token[:1], "(<[/+-.0123456789"):
			in.args = append(in.args, token)
		default:
			in.operator(token)
			in.args = nil
		}
	}
}

// nextToken cuts the next token off: a string, a name, a number, an array or a
// dictionary as a whole, or an operator.
func nextToken(b []byte) (string, []byte) {
	b = bytes.TrimLeft(b, " \n\r\t")
	if len(b) == 0 {
		return "", nil
	}
	switch {
	case b[0] == '(':
		for i := 1; i < len(b); i++ {
			if b[i] == '\\' {
				i++
			} else if b[i] == ')' {
				return string(b[:i+1]), b[i+1:]
			}
		}
	case b[0] == '[':
		i := bytes.IndexByte(b, ']')
		return string(b[:i+1]), b[i+1:]
	case bytes.HasPrefix(b, []byte("<<")):
		i := bytes.Index(b, []byte(">>"))
		return string(b[:i+2]), b[i+2:]
	}
	if i := bytes.IndexAny(b, " \n\r\t"); i >= 0 {
		return string(b[:i]), b[i:]
	}
	return string(b), nil
}

// number is the ith of the operands.
func (in *interpreter) number(i int) float64 {
	in.t.Helper()
	v, err := strconv.ParseFloat(in.args[i], 64)
	if err != nil {
		in.t.Fatalf("operand %d of %q: %v", i, in.args, err)
	}
	return v
}

// point is the ith operand and the next, on the page.
func (in *interpreter) point(i int) [2]float64 {
	x, y, m := in.number(i), in.number(i+1), in.matrix
	return [2]float64{m[0]*x + m[2]*y + m[4], m[1]*x + m[3]*y + m[5]}
}

func (in *interpreter) operator(op string) {
	in.t.Helper()
	switch op {
	case "q":
		in.kept = append(in.kept, in.state)
	case "Q":
		in.state, in.kept = in.kept[len(in.kept)-1], in.kept[:len(in.kept)-1]
	case "cm":
		in.multiply()
	case "w":
		in.width = in.number(0)
	case "d":
		in.dashes = in.args[0]
	case "Tf":
		in.font, in.size = in.fonts[strings.TrimPrefix(in.args[0], "/")], in.number(1)
	case "Td":
		in.at = in.point(0)
	case "Tj":
		if in.marked != 1 {
			in.t.Errorf("page %d: %s is marked %d times, want once", in.page, in.args[0], in.marked)
		}
		run := textRun{in.page, in.at[0], in.at[1], in.font, in.size, utf16Text(in.args[0]), in.matrix[1] != 0, "", in.span != nil}
		if in.span != nil {
			run.as = *in.span
		}
		in.texts = append(in.texts, run)
	case "m":
		in.path, in.closed = [][2]float64{in.point(0)}, false
	case "l":
		in.path = append(in.path, in.point(0))
	case "h":
		in.closed = true
	case "re":
		p, w, h := in.point(0), in.number(2), in.number(3)
		in.path, in.closed = [][2]float64{p, {p[0] + w, p[1]}, {p[0] + w, p[1] + h}, {p[0], p[1] + h}}, true
	case "S", "s", "f", "f*", "B", "B*":
		in.paths = append(in.paths, drawnPath{in.page, in.path, in.closed || op == "s", in.width, in.dashes, op})
	case "BDC", "BMC":
		if in.args[0] == "/Span" {
			in.openSpan()
			return
		}
		in.marked++
	case "EMC":
		if in.span != nil {
			in.span = nil
			return
		}
		in.marked--
	case "Do": // a picture fills the unit square
		m := in.matrix
		in.pictures = append(in.pictures, [4]float64{m[4], m[5], m[4] + m[0], m[5] + m[3]})
	case "BT", "ET", "J", "j", "G", "g", "RG", "rg", "gs":
	default:
		in.t.Fatalf("the page has an operator %q (%q)", op, in.args)
	}
}

// openSpan reads the words that stand for what a span shows.
func (in *interpreter) openSpan() {
	in.t.Helper()
	m := actualText.FindStringSubmatch(in.args[1])
	if m == nil || in.span != nil {
		in.t.Fatalf("page %d: a span of %q, or one within another", in.page, in.args[1])
	}
	b, err := hex.DecodeString(m[1])
	if err != nil {
		in.t.Fatal(err)
	}
	var units []uint16
	for i := 0; i+1 < len(b); i += 2 {
		units = append(units, uint16(b[i])<<8|uint16(b[i+1]))
	}
	s := string(utf16.Decode(units))
	in.span = &s
}

var actualText = regexp.MustCompile(`^<</ActualText<feff([0-9a-f]*)> >>$`)

// multiply puts a matrix before the current one (ISO 32000-1, 8.3.4).
func (in *interpreter) multiply() {
	var a [6]float64
	for i := range a {
		a[i] = in.number(i)
	}
	b := in.matrix
	in.matrix = [6]float64{
		a[0]*b[0] + a[1]*b[2], a[0]*b[1] + a[1]*b[3],
		a[2]*b[0] + a[3]*b[2], a[2]*b[1] + a[3]*b[3],
		a[4]*b[0] + a[5]*b[2] + b[4], a[4]*b[1] + a[5]*b[3] + b[5],
	}
}

// utf16Text reads a string operand: UTF-16 with escapes, as gofpdf writes it.
func utf16Text(s string) string {
	var b []byte
	s = s[1 : len(s)-1]
	for i := 0; i < len(s); i++ {
		c := s[i]
		if c == '\\' {
			i++
			c = s[i]
			if c == 'r' {
				c = '\r'
			}
		}
		b = append(b, c)
	}
	var units []uint16
	for i := 0; i+1 < len(b); i += 2 {
		units = append(units, uint16(b[i])<<8|uint16(b[i+1]))
	}
	return string(utf16.Decode(units))
}

// layoutText is a document as text with positions, a line for each run of text:
// page, place in millimetres from the upper left, font, size, text.
func layoutText(t testing.TB, data []byte, height float64) string {
	t.Helper()
	var b strings.Builder
	for _, p := range readBack(t, data) {
		for _, r := range p.texts {
			more := ""
			if r.upward {
				more = " upward"
			}
			text := fmt.Sprintf("%q", r.text)
			if r.spans && strings.Trim(r.text, " ") == "" {
				text = "gap"
			}
			if r.spans {
				text += fmt.Sprintf(" read as %q", r.as)
			}
			fmt.Fprintf(&b, "%d %6.1f %6.1f %s %.4g%s %s\n", r.page, r.x*pt, height-r.y*pt, r.font, r.size, more, text)
		}
	}
	return b.String()
}
