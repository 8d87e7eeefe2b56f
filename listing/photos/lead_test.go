package photos

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"slabfolio/imaging/note"
	"slabfolio/listing/piece"
)

// Which photo comes first, of real ones (see SOURCES.csv there): a chair that
// surely stands whole before its backdrop goes before wood from edge to edge, and
// before a photo that is out of focus; where there is no evidence, where the maker
// said which is first or which view one is, the order stays.
func TestLead(t *testing.T) {
	const wood, room, chair, bench = "mate_Wood.jpg", "mei_cafe_wood_tables.jpg", "caltech_windsor_chair_0049.jpg", "caltech_windsor_chair_0052.jpg"
	open := func(names ...string) (shots []*Shot) {
		for _, n := range names {
			data, err := os.ReadFile(filepath.Join("..", "..", "..", "shared", "photos", "furniture", n))
			if err != nil {
				t.Skip("the reference photos are not there: ", err)
			}
			shots = append(shots, openedShot(t, n, data, false))
		}
		return shots
	}
	for _, c := range []struct {
		name   string
		shots  []string
		change func(p *piece.Photos, shots []*Shot)
		want   []string
		says   string
	}{
		{"wood before a chair", []string{wood, room, chair, bench}, nil, []string{chair, wood, room, bench}, "mate_Wood.jpg, the first by name, shows a part of it"},
		{"a room that nobody can tell", []string{room, chair}, nil, []string{room, chair}, ""},
		{"a chair is first", []string{chair, wood, bench}, nil, []string{chair, wood, bench}, ""},
		{"wood alone", []string{wood, room}, nil, []string{wood, room}, ""},
		{"the maker named one", []string{wood, chair}, func(p *piece.Photos, _ []*Shot) { p.Main.V, p.Main.At.Line = wood, 3 }, []string{wood, chair}, ""},
		{"the maker ordered them", []string{wood, chair}, func(p *piece.Photos, _ []*Shot) { p.Order = []piece.Value[string]{{V: wood}} }, []string{wood, chair}, ""},
		{"a view is known", []string{wood, chair}, func(_ *piece.Photos, s []*Shot) { s[1].Source.View = "back" }, []string{wood, chair}, ""},
		{"a known detail is first", []string{wood, room, chair}, func(_ *piece.Photos, s []*Shot) { s[0].Source.View = "detail" }, []string{chair, wood, room}, "mate_Wood.jpg, the first by name, shows a part of the piece (detail)"},
		{"a known edge, and nobody can tell", []string{wood, room}, func(_ *piece.Photos, s []*Shot) { s[0].Source.View = "edge" }, []string{room, wood}, "shows a part of the piece (edge)"},
		{"details alone", []string{wood, room}, func(_ *piece.Photos, s []*Shot) { s[0].Source.View, s[1].Source.View = "edge", "detail" }, []string{wood, room}, ""},
		{"the maker named the detail", []string{wood, chair}, func(p *piece.Photos, s []*Shot) { p.Main.V, p.Main.At.Line, s[0].Source.View = wood, 3, "detail" }, []string{wood, chair}, ""},
		{"the first is out of focus", []string{room, chair, bench}, func(_ *piece.Photos, s []*Shot) {
			s[0].Photo.Notes = append(s[0].Photo.Notes, note.Note{Code: "inspect.soft"})
		}, []string{chair, room, bench}, "less sharp or well lit"},
		{"both are out of focus", []string{room, chair}, func(_ *piece.Photos, s []*Shot) {
			for _, sh := range s {
				sh.Photo.Notes = append(sh.Photo.Notes, note.Note{Code: "inspect.soft"})
			}
		}, []string{room, chair}, ""},
	} {
		shots, spec := open(c.shots...), &piece.Photos{}
		if c.change != nil {
			c.change(spec, shots)
		}
		findings := Lead(spec, shots)
		var got []string
		for _, sh := range shots {
			got = append(got, sh.Source.Name)
		}
		if strings.Join(got, " ") != strings.Join(c.want, " ") {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
		if said := len(findings) == 1 && strings.Contains(findings[0].Message, c.says); c.says != "" && !said || c.says == "" && findings != nil {
			t.Errorf("%s: says %v, want %q", c.name, findings, c.says)
		}
	}
}
