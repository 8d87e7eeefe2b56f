package photos

import (
	"image"
	"image/color"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"bytes"
	"image/png"

	"slabfolio/imaging"
	"slabfolio/listing/piece"
)

// chartShot is a shot of a chart drawn from its usual sRGB codes (published values,
// ../shared/reference/colorchecker.csv) under warm light: red kept, green 0.8 and
// blue 0.6 of their code.
func chartShot(t *testing.T, name string, named bool) *Shot {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "..", "shared", "reference", "colorchecker.csv"))
	if err != nil {
		t.Skip("no reference values: ", err)
	}
	m := image.NewNRGBA(image.Rect(0, 0, 640, 440))
	for i := range m.Pix {
		m.Pix[i] = 30
	}
	for k, line := range strings.Split(strings.TrimSpace(string(data)), "\n")[1:] {
		f := strings.Split(line, ",")
		c := color.NRGBA{code(f[11], 1), code(f[12], 0.8), code(f[13], 0.6), 255}
		for y := range 62 {
			for x := range 62 {
				m.SetNRGBA(80+80*(k%6)+x, 60+80*(k/6)+y, c)
			}
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return openedShot(t, name, b.Bytes(), named)
}

func code(s string, share float64) uint8 {
	v := 0
	for _, r := range s {
		v = 10*v + int(r-'0')
	}
	return uint8(float64(v) * share)
}

func TestByChart(t *testing.T) {
	spec := &piece.Piece{}
	other := openedShot(t, "table.jpg", sceneJPEG(t, 0, 0, 0), false)
	shots := []*Shot{chartShot(t, "chart.png", false), other, {Source: Source{Rel: "broken.jpg"}}}
	shots[0].Photo.Facts.Model, other.Photo.Facts.Model = "one", "one"
	if got := ByChart(spec, shots); got != nil || shots[0].Photo == nil {
		t.Fatalf("without being asked: %v", got)
	}
	spec.Photos.GreyFind = piece.Of("auto")
	got := ByChart(spec, shots)
	if len(got) != 1 || got[0].Code != "photo.chart" || got[0].File != "chart.png" || got[0].Rank != piece.Note || !strings.Contains(got[0].Message, "it is not published") {
		t.Fatalf("findings %v", got)
	}
	if shots[0].Photo != nil || shots[0].Record.Refused == "" || shots[1].Photo == nil {
		t.Error("the chart is published, or the table is not")
	}
	if other.Photo.Numbers["chart_after"] >= other.Photo.Numbers["chart_before"] || other.Photo.Numbers["chart_before"] == 0 {
		t.Errorf("numbers %v", other.Photo.Numbers)
	}
	imaging.Develop([]*imaging.Photo{other.Photo})
	if words := strings.Join(wordsOf(other.Photo, "colour."), ", "); !strings.Contains(words, "colour chart") {
		t.Errorf("its steps say %q", words)
	}

	named := chartShot(t, "chart.png", true)
	if got := ByChart(spec, []*Shot{named}); len(got) != 1 || named.Photo == nil || strings.Contains(got[0].Message, "not published") {
		t.Errorf("named: %v", got)
	}
	spec.Photos.Tone = piece.Of("as shot")
	alone := []*Shot{chartShot(t, "chart.png", false), openedShot(t, "table.jpg", sceneJPEG(t, 0, 0, 0), false)}
	if got := ByChart(spec, alone); len(got) != 1 || !strings.Contains(got[0].Message, "as shot") || alone[0].Photo != nil || alone[1].Photo.Numbers["chart_before"] != 0 {
		t.Errorf("as shot: %v", got)
	}
	if got := ByChart(spec, []*Shot{openedShot(t, "table.jpg", sceneJPEG(t, 0, 0, 0), false)}); len(got) != 1 || got[0].Code != "photo.no-chart" || !strings.Contains(got[0].Remedy, "table.jpg") {
		t.Errorf("no chart: %v", got)
	}
	if got := ByChart(spec, nil); got != nil {
		t.Errorf("no photos: %v", got)
	}
}

// cardShot is a shot of a card of 18 % on wood under warm light, at a place in pixels
// of 480 × 320.
func cardShot(t *testing.T, name string, named bool, cards ...image.Rectangle) *Shot {
	t.Helper()
	m := image.NewNRGBA(image.Rect(0, 0, 480, 320))
	for y := range 320 {
		for x := range 480 {
			v := uint8(90 + (x*7+y*13)%40)
			c := color.NRGBA{v + 80, v + 40, v - 30, 255}
			for _, r := range cards {
				if (image.Point{x, y}).In(r) {
					c = color.NRGBA{128, 118, 96, 255}
				}
			}
			m.SetNRGBA(x, y, c)
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return openedShot(t, name, b.Bytes(), named)
}

func TestByCard(t *testing.T) {
	spec := &piece.Piece{}
	low, high := image.Rect(320, 220, 420, 290), image.Rect(40, 30, 140, 100)
	with := func() []*Shot {
		shots := []*Shot{cardShot(t, "card.png", false, low), cardShot(t, "plain.png", false)}
		for _, sh := range shots {
			sh.Photo.Facts.Model = "one"
		}
		return shots
	}
	shots := with()
	if got := ProposeCard(spec, shots); len(got) != 1 || got[0].File != "card.png" || !strings.Contains(got[0].Message, "at the lower right") || !strings.Contains(got[0].Remedy, "grey_card: auto") {
		t.Errorf("proposed: %v", got)
	}
	if got := ProposeCard(spec, shots[1:]); got != nil {
		t.Errorf("proposed where there is none: %v", got)
	}
	spec.Photos.GreyFind = piece.Of("auto")
	if got := ProposeCard(spec, shots); got != nil {
		t.Errorf("proposed what is there: %v", got)
	}
	got := ByChart(spec, shots)
	if len(got) != 1 || got[0].Code != "photo.card" || got[0].Rank != piece.Note || !strings.Contains(got[0].Message, "it is not published: it shows a grey card at the lower right") {
		t.Fatalf("findings %v", got)
	}
	if shots[0].Photo != nil || shots[0].Record.Refused == "" || shots[1].Photo.Numbers["card_cast"] == 0 {
		t.Error("the card is published, or the other not balanced")
	}
	imaging.Develop([]*imaging.Photo{shots[1].Photo})
	if words := strings.Join(wordsOf(shots[1].Photo, "colour."), ", "); !strings.Contains(words, "grey card") {
		t.Errorf("its steps say %q", words)
	}

	shots = with()
	shots[0].Source.View = "front"
	if got := ByChart(spec, shots); shots[0].Photo == nil || !strings.Contains(got[0].Message, "no other photo shows the view front") {
		t.Errorf("the only front is left out: %v", got)
	}
	shots = with()[:1]
	if got := ByChart(spec, shots); shots[0].Photo == nil || !strings.Contains(got[0].Message, "no other photo") {
		t.Errorf("the only photo is left out: %v", got)
	}
	two := []*Shot{cardShot(t, "a.png", false, low, high), cardShot(t, "b.png", false, high)}
	got = ByChart(spec, two)
	if len(got) != 1 || got[0].Rank != piece.Doubt || !strings.Contains(got[0].Message, "3 things") || two[0].Photo == nil || two[1].Photo.Numbers["card_cast"] != 0 {
		t.Errorf("three cards: %v", got)
	}
	if !strings.Contains(got[0].Remedy, "grey_card: {a.png: [") || !strings.Contains(got[0].Remedy, "b.png: [") {
		t.Errorf("the line to keep: %s", got[0].Remedy)
	}
	spec.Photos.Tone = piece.Of("as shot")
	shots = with()
	if got := ByChart(spec, shots); !strings.Contains(got[0].Message, "as shot") || shots[1].Photo.Numbers["card_cast"] != 0 {
		t.Errorf("as shot: %v", got)
	}
}
