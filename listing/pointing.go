package listing

import (
	"context"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"slabfolio/listing/ordinary"
	"slabfolio/listing/page"
	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/spelling"
)

// addOverview writes the maker's page over the piece. It comes last, when the
// files that it leads to are there.
func (w *work) addOverview(context.Context) error {
	there := func(name string) bool {
		_, err := os.Stat(filepath.Join(w.folder.Dir, filepath.FromSlash(name)))
		return err == nil
	}
	english, err := w.b.words(w.b.plainEnglish()) // the maker's side is in English
	if err != nil {
		return err
	}
	html, err := page.PieceOverview(w.report, w.pointing(), there, &page.Options{Words: english, Prefer: w.report.Prefer})
	if err != nil {
		return w.named(page.PieceOverviewName, err)
	}
	return w.folder.Write(page.PieceOverviewName, html)
}

// pointing tells the page what the spec says of places in the photos.
func (w *work) pointing() *page.Pointing {
	spec, outline := &w.job.Piece.Photos, &w.job.Piece.Top.Outline
	p := &page.Pointing{Names: map[string]string{}, Marks: outline.Marks, ResinAt: outline.ResinAt,
		Boxes: w.given(spec.CropBoxes), Cards: w.given(spec.GreyCard)}
	for i, s := range w.sources {
		name := s.Name
		if photos.ByName(w.sources, name) != i {
			name = s.Rel
		}
		p.Names[s.Rel] = yamltext.Quote(name, true, "")
	}
	if i := photos.ByName(w.sources, outline.Photo.V); i >= 0 && outline.Photo.Set() {
		p.Plan = w.sources[i].Rel
	}
	for _, v := range spec.Order {
		if i := photos.ByName(w.sources, v.V); i < 0 || w.sources[i].Role != photos.Publish {
			p.Order = append(p.Order, yamltext.Quote(v.V, true, ""))
		}
	}
	lines := w.specLines()
	p.Photos, p.Outline = blockOf(lines, "photos"), blockOf(lines, "top", "outline")
	p.Photos.Has = keysGiven(map[string]bool{"main": spec.Main.Set(), "order": len(spec.Order) > 0, "crop_boxes": len(spec.CropBoxes) > 0, "grey_card": len(spec.GreyCard) > 0 || spec.GreyFind.Set()})
	p.Outline.Has = keysGiven(map[string]bool{"marks": len(outline.Marks) > 0, "resin_at": len(outline.ResinAt) > 0})
	return p
}

// given lists the boxes of a key of the spec, by name.
func (w *work) given(boxes map[string]piece.Value[piece.Box]) []page.GivenBox {
	out := []page.GivenBox{}
	for _, name := range slices.Sorted(maps.Keys(boxes)) {
		g := page.GivenBox{Name: yamltext.Quote(name, true, ""), Box: boxes[name].V}
		if i := photos.ByName(w.sources, name); i >= 0 {
			g.Source = w.sources[i].Rel
		}
		out = append(out, g)
	}
	return out
}

func keysGiven(keys map[string]bool) []string {
	out := []string{}
	for _, k := range slices.Sorted(maps.Keys(keys)) {
		if keys[k] {
			out = append(out, k)
		}
	}
	return out
}

// specLines are the lines of the piece's spec; none when it cannot be read any more.
func (w *work) specLines() []string {
	data, err := ordinary.Read(filepath.Join(w.job.Dir, w.job.Piece.Serial.At.File), yamltext.MaxFile+1)
	if err != nil {
		return nil
	}
	return strings.Split(strings.ReplaceAll(strings.TrimPrefix(string(data), "\ufeff"), "\r\n", "\n"), "\n")
}

// keyLine is a line that begins a group: its indentation, its name, what stands behind.
var keyLine = spelling.Pattern(`^( *)([a-z_]+):\s*(.*)$`)

// blockOf finds how a group of keys stands in a spec, by its names from the
// outside in. A group that is not there would be indented by two spaces a level.
func blockOf(lines []string, names ...string) page.Block {
	b := page.Block{Indent: 2 * len(names)}
	from := 0
	for level, name := range names {
		i := slices.IndexFunc(lines[from:], func(l string) bool {
			m := keyLine().FindStringSubmatch(l)
			return m != nil && m[2] == name && (m[1] == "") == (level == 0)
		})
		if i < 0 {
			return page.Block{Indent: b.Indent, Line: 0, Braces: b.Braces}
		}
		from += i
		m := keyLine().FindStringSubmatch(lines[from])
		if strings.HasPrefix(m[3], "{") {
			return page.Block{Line: from + 1, Indent: b.Indent, Braces: true}
		}
		from++
	}
	b.Line = from
	for _, l := range lines[from:] {
		if text := strings.TrimLeft(l, " "); text != "" && text[0] != '#' {
			if n := len(l) - len(text); n > 0 {
				b.Indent = n
			}
			break
		}
	}
	return b
}
