//go:build unix

package main

import (
	"bytes"
	"encoding/json"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"slabfolio/listing/report"
)

// pointScript plays a maker in a headless browser: draws a box round the piece with
// the mouse, moves a corner of it with the keys, points at a grey card, at the
// corners of a sheet and at resin, and puts the photos in another order.
const pointScript = `
const { chromium } = require(process.argv[2] + '/playwright-core');
const url = require('url');
(async () => {
  const browser = await chromium.launch({ executablePath: process.argv[3], args: ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking'] });
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
  const page = await context.newPage();
  const problems = [];
  page.on('console', m => problems.push(m.text()));
  page.on('pageerror', e => problems.push(e.message));
  await page.goto(url.pathToFileURL(process.argv[4]).href);
  const article = name => page.locator('.pair').filter({ has: page.locator('h3', { hasText: name }) }).filter({ has: page.locator('.tools button') });
  const photo = name => article(name).first();
  const over = p => p.locator('.over');
  const at = async (o, x, y) => { const b = await o.boundingBox(); return [b.x + x * b.width, b.y + y * b.height]; };
  const drag = async (o, from, to) => {
    await o.scrollIntoViewIfNeeded();
    await page.mouse.move(...await at(o, ...from));
    await page.mouse.down();
    await page.mouse.move(...await at(o, (from[0] + to[0]) / 2, (from[1] + to[1]) / 2));
    await page.mouse.move(...await at(o, ...to));
    await page.mouse.up();
  };
  const lines = key => page.locator('[data-for=' + key + '] textarea').inputValue();
  const out = {};
  const turned = photo('turned');
  await turned.locator('[data-do=box]').click();
  await drag(over(turned), [0.55, 0.75], [0.15, 0.25]);       // from the lower right to the upper left
  out.dragged = await lines('photos');
  await turned.locator('.over button').nth(1).focus();
  for (let i = 0; i < 5; i++) await page.keyboard.press('Shift+ArrowRight');
  for (let i = 0; i < 5; i++) await page.keyboard.press('ArrowDown');
  out.keys = await lines('photos');
  await page.keyboard.press('Escape');
  await turned.locator('[data-do=card]').click();
  await drag(over(turned), [0.80, 0.10], [0.86, 0.18]);
  await turned.getByRole('button', { name: 'Done' }).click();
  const order = page.locator('#order');
  await order.locator('summary').click();
  await order.locator('li').first().dragTo(order.locator('li').last());
  out.orderDragged = await lines('photos');
  await order.locator('li').last().getByRole('button').first().focus();
  await page.keyboard.press('Enter');
  out.order = await lines('photos');
  const plan = article('plan').last();
  await plan.locator('[data-do=marks]').click();
  for (const [i, c] of JSON.parse(process.argv[5]).entries()) {
    const h = plan.locator('.over button').nth(i), b = await h.boundingBox();
    await page.mouse.move(b.x + b.width / 2, b.y + b.height / 2);
    await page.mouse.down();
    await page.mouse.move(...await at(over(plan), ...c), { steps: 3 });
    await page.mouse.up();
  }
  await plan.getByRole('button', { name: 'Done' }).click();
  await plan.locator('[data-do=resin]').click();
  await page.mouse.click(...await at(over(plan), 0.5, 0.51));
  await page.mouse.click(...await at(over(plan), 0.3, 0.9));
  await page.keyboard.press('Delete');
  out.outline = await lines('outline');
  await page.locator('[data-for=photos] button').click();
  out.copied = await page.locator('[data-for=photos] button').textContent();
  out.problems = problems;
  console.log(JSON.stringify(out));
  await browser.close();
})().catch(e => { console.error(e); process.exit(1); });
`

// What is pointed at in the browser, pasted into piece.yaml, is read by check and
// used by prepare; places are shares of the photo as it stands upright, whatever the
// camera wrote about how it was held (Exif 2.3, tag 0x0112).
func TestPointing(t *testing.T) {
	node, chromium := need(t, "node"), need(t, "chromium")
	modules := filepath.Dir(filepath.Dir(nodeModule(t, "playwright-core", "package.json")))
	dir := t.TempDir()
	piece := filepath.Join(dir, "P-1")
	write(t, filepath.Join(piece, "piece.yaml"), pointedSpec("", "    crop_boxes: {front.jpg: [0.1, 0.1, 0.9, 0.9]}\n    main: \"turned, 1.jpg\""))
	write(t, filepath.Join(piece, "turned, 1.jpg"), sideways(t, room(1200, 900)))
	write(t, filepath.Join(piece, "front.jpg"), encoded(t, room(900, 900)))
	sheet := [4][2]float64{{0.44, 0.42}, {0.58, 0.44}, {0.57, 0.58}, {0.43, 0.56}}
	write(t, filepath.Join(piece, "plan.jpg"), encoded(t, planWithoutSheet()))
	out := filepath.Join(dir, "out")
	runs(t, exitFault, "prepare", piece, "--out", out, "--cache", filepath.Join(dir, "cache")) // no sheet is found
	corners, err := json.Marshal(sheet)
	if err != nil {
		t.Fatal(err)
	}
	script := filepath.Join(dir, "point.cjs")
	write(t, script, pointScript)
	cmd := exec.Command(node, script, modules, chromium, filepath.Join(out, "P-1", "overview", "index.html"), string(corners))
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	said, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, &stderr)
	}
	var got struct {
		Dragged, Keys, Order, OrderDragged, Outline, Copied string
		Problems                                            []string
	}
	if err := json.Unmarshal(said, &got); err != nil {
		t.Fatal(err)
	}
	t.Logf("photos:\n%s\noutline:\n%s", got.Order, got.Outline)
	if len(got.Problems) > 0 || got.Copied != "Copied" {
		t.Errorf("%q; the button says %q", got.Problems, got.Copied)
	}
	if want := `    crop_boxes: {front.jpg: [0.1, 0.1, 0.9, 0.9], "turned, 1.jpg": [0.15, 0.25, 0.55, 0.75]}`; !sameBut(got.Dragged, want, 0.003) {
		t.Errorf("a box was dragged:\n%s, want\n%s", got.Dragged, want)
	}
	if want := `    crop_boxes: {front.jpg: [0.1, 0.1, 0.9, 0.9], "turned, 1.jpg": [0.15, 0.25, 0.65, 0.76]}`; !sameBut(got.Keys, want, 0.003) {
		t.Errorf("a corner was moved by keys:\n%s, want\n%s", got.Keys, want)
	}
	if !strings.Contains(got.OrderDragged, "\n    main: front.jpg\n    order: [front.jpg, \"turned, 1.jpg\"]") || !strings.Contains(got.Order, "\n    main: \"turned, 1.jpg\"\n    order: [\"turned, 1.jpg\", front.jpg]") {
		t.Errorf("the order, dragged and moved back:\n%s\n%s", got.OrderDragged, got.Order)
	}
	if want := "    marks: [[0.44, 0.42], [0.58, 0.44], [0.57, 0.58], [0.43, 0.56]]\n    resin_at: [[0.5, 0.51]]"; !sameBut(got.Outline, want, 0.004) {
		t.Errorf("sheet and resin:\n%s, want\n%s", got.Outline, want)
	}
	// Pasted as the page says: below the head of the group, in place of what begins alike.
	write(t, filepath.Join(piece, "piece.yaml"), pointedSpec(got.Outline, got.Order))
	if text := runs(t, exitDone, "check", piece, "--cache", filepath.Join(dir, "cache")); strings.Contains(text, "fault") {
		t.Errorf("check:\n%s", text)
	}
	runs(t, exitDone, "prepare", piece, "--out", out, "--cache", filepath.Join(dir, "cache"))
	checkPointed(t, out)
}

// checkPointed looks whether the box was used: on the photo as published nothing of
// what lies outside of it is seen.
func checkPointed(t *testing.T, out string) {
	var r report.Report
	data, err := os.ReadFile(filepath.Join(out, "P-1", "report.json"))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &r); err != nil {
		t.Fatal(err)
	}
	i := 0
	for r.Photos[i].Source != "turned, 1.jpg" {
		i++
	}
	n := r.Photos[i].Numbers
	for name, want := range map[string]float64{"crop_left": 0.15, "crop_top": 0.25, "crop_right": 0.65, "crop_bottom": 0.76} {
		if math.Abs(n[name]-want) > 0.012 { // the box is put between pixels, and may get a little room
			t.Errorf("%s is %.3f, want %.3f", name, n[name], want)
		}
	}
	f, err := os.Open(filepath.Join(out, "P-1", "listing", r.Public.Photos[0].File))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	m, err := jpeg.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	b := m.Bounds()
	if c := color.NRGBAModel.Convert(m.At(b.Dx()*2/5, b.Dy()/2)).(color.NRGBA); c.R < 2*c.B {
		t.Errorf("the middle of the published photo is %v, want the red piece", c)
	}
	if ratio, want := float64(b.Dx())/float64(b.Dy()), 0.5*1200/(0.51*900); math.Abs(ratio/want-1) > 0.03 {
		t.Errorf("the published photo is %d × %d, ratio %.3f, want %.3f", b.Dx(), b.Dy(), ratio, want)
	}
}

// pointedSpec is the spec of a table with lines in its outline and its photos.
func pointedSpec(outline, photos string) string {
	return `serial: P-1
title: Pointed table
kind: side table
finished: 2026-06-01
photos:
` + photos + `
top:
  outline:
    photo: plan.jpg
    paper_sheet: a4
` + outline + `
  thickness: 30 mm
  wood: {species: european-oak}
`
}

// room draws a red piece in a grey room that has too much in it to find the piece.
func room(w, h int) image.Image {
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			u, v := float64(x)/float64(w), float64(y)/float64(h)
			g := uint8(120 + 50*math.Sin(37*u+5*math.Sin(23*v)) + 20*math.Sin(90*v))
			c := color.NRGBA{g, g, g, 255}
			if u > 0.2 && u < 0.6 && v > 0.3 && v < 0.7 {
				c = color.NRGBA{170, 40 + g/8, 30, 255}
			}
			m.SetNRGBA(x, y, c)
		}
	}
	return m
}

// planWithoutSheet draws a top from above whose sheet has the grey of paper in shade.
func planWithoutSheet() image.Image {
	m := image.NewNRGBA(image.Rect(0, 0, 1200, 800))
	for y := range 800 {
		for x := range 1200 {
			c := color.NRGBA{112, 112, 116, 255}
			if x > 160 && x < 1040 && y > 232 && y < 568 {
				c = color.NRGBA{168, 122, 80, 255}
			}
			m.SetNRGBA(x, y, c)
		}
	}
	return m
}

func encoded(t *testing.T, m image.Image) string {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 92}); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// sideways is a photo by a camera that was held upright: its rows are the columns
// from the right one on, and Exif's orientation is 6, "0th row at the right side"
// (Exif 2.3, 4.6.4 A).
func sideways(t *testing.T, m image.Image) string {
	t.Helper()
	b := m.Bounds()
	turned := image.NewNRGBA(image.Rect(0, 0, b.Dy(), b.Dx()))
	for y := range b.Dy() {
		for x := range b.Dx() {
			turned.Set(y, b.Dx()-1-x, m.At(x, y))
		}
	}
	const exif = "Exif\x00\x00MM\x00\x2a\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x06\x00\x00\x00\x00\x00\x00"
	data := encoded(t, turned)
	return data[:2] + "\xff\xe1\x00" + string(rune(len(exif)+2)) + exif + data[2:]
}

// sameBut reports whether two texts are alike but for numbers that differ by less
// than the give.
func sameBut(a, b string, give float64) bool {
	as, bs := numeral.FindAllString(a, -1), numeral.FindAllString(b, -1)
	if numeral.ReplaceAllString(a, "0") != numeral.ReplaceAllString(b, "0") {
		return false
	}
	for i := range as {
		x, err1 := strconv.ParseFloat(as[i], 64)
		y, err2 := strconv.ParseFloat(bs[i], 64)
		if err1 != nil || err2 != nil || math.Abs(x-y) > give {
			return false
		}
	}
	return true
}

var numeral = regexp.MustCompile(`\d+(\.\d+)?`)

// runs runs a command line that is to end with a status, and returns what it says.
func runs(t *testing.T, want int, args ...string) string {
	t.Helper()
	var out, errs bytes.Buffer
	if status := run(t.Context(), args, &console{out: &out, err: &errs}); status != want {
		t.Fatalf("%v: status %d\n%s%s", args, status, &out, &errs)
	}
	return out.String() + errs.String()
}
