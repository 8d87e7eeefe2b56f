package page

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// shopScript opens the catalogue in a headless browser at many widths, while its
// photos arrive late, and adds up what shifts (Layout Instability API, a W3C
// community group's draft: the sum of the scores of all shifts that no input began).
// Then, without script, it makes each choice of each filter and counts what is left.
const shopScript = `
const { chromium } = require(process.argv[2] + '/playwright-core');
const url = require('url');
(async () => {
  const browser = await chromium.launch({ executablePath: process.argv[3], args: ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking'] });
  const page = url.pathToFileURL(process.argv[4]).href;
  const out = { shifts: {}, wide: {}, left: {}, told: {} };
  const photo = '<svg xmlns="http://www.w3.org/2000/svg" width="1200" height="1200"><rect width="1200" height="1200"/></svg>';
  for (const width of [320, 360, 479, 480, 640, 900, 1280, 1440, 1920]) {
    const context = await browser.newContext({ viewport: { width, height: 900 } });
    const p = await context.newPage();
    await p.route(/\.(jpg|webp)$/, async r => { await new Promise(f => setTimeout(f, 250)); await r.fulfill({ contentType: 'image/svg+xml', body: photo }); });
    await p.addInitScript(() => { window.shifted = 0; new PerformanceObserver(l => { for (const e of l.getEntries()) if (!e.hadRecentInput) window.shifted += e.value; }).observe({ type: 'layout-shift', buffered: true }); });
    await p.goto(page);
    for (let i = 0; i < 3; i++) { await p.evaluate(() => window.scrollBy(0, 900)); await p.waitForTimeout(400); }
    [out.shifts[width], out.wide[width]] = await p.evaluate(() => [window.shifted, document.documentElement.scrollWidth - window.innerWidth]);
    await context.close();
  }
  const context = await browser.newContext({ javaScriptEnabled: false, viewport: { width: 900, height: 900 } });
  const p = await context.newPage();
  await p.goto(page);
  const count = () => p.locator('li:visible').count();
  out.left.all = await count();
  for (const select of await p.locator('select').all()) {
    const options = select.locator('option');
    for (let i = 1; i < await options.count(); i++) {
      await select.selectOption({ index: i });
      out.left[(await options.nth(i).textContent()).replaceAll('\u00a0', ' ')] = await count();
    }
    await select.selectOption({ index: 0 });
  }
  await p.locator('#f-kind').selectOption({ label: 'Bench' });
  await p.locator('#f-available').selectOption({ label: 'Reserved' });
  out.left.both = await count();
  out.fit = await p.locator('.fit').isVisible();
  await p.getByRole('button').click();
  out.left.again = await count();
  console.log(JSON.stringify(out));
  await browser.close();
})().catch(e => { console.error(e); process.exit(1); });
`

// inBrowser runs a script of a headless browser over a page and puts what it says
// into v. Without SLABFOLIO_REFERENCE=required the test skips where there is none.
func inBrowser(t *testing.T, script string, html []byte, v any) {
	t.Helper()
	modules := os.Getenv("SLABFOLIO_NODE_MODULES")
	node, err1 := exec.LookPath("node")
	chromium, err2 := exec.LookPath("chromium")
	_, err3 := os.Stat(filepath.Join(modules, "playwright-core", "package.json"))
	if err1 != nil || err2 != nil || err3 != nil {
		if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
			t.Fatal(err1, err2, err3)
		}
		t.Skip("node, chromium or playwright-core is missing")
	}
	dir := t.TempDir()
	page, program := filepath.Join(dir, "index.html"), filepath.Join(dir, "script.cjs")
	for name, data := range map[string][]byte{page: html, program: []byte(script)} {
		if err := os.WriteFile(name, data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	cmd := exec.Command(node, program, modules, chromium, page)
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, &stderr)
	}
	if err := json.Unmarshal(out, v); err != nil {
		t.Fatal(err)
	}
}

// The catalogue of 200 pieces stands still while photos arrive: a cumulative layout
// shift of 0.01 at most at every width. Its filters work without script, each
// alone and two together.
func TestCatalogueInBrowser(t *testing.T) {
	var entries []Entry
	for len(entries) < 200 {
		entries = append(entries, shopEntries()...)
	}
	entries = entries[:200]
	c, err := NewCatalogue(entries, options(t))
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Shifts, Wide map[string]float64
		Left         map[string]int
		Fit          bool
	}
	inBrowser(t, shopScript, c.HTML, &got)
	t.Logf("%+v", got)
	for width, shift := range got.Shifts {
		if shift > 0.01 || got.Wide[width] > 0 {
			t.Errorf("at %s pixels: it shifts by %.3f and is %.0f too wide", width, shift, got.Wide[width])
		}
	}
	want := map[string]int{}
	for _, e := range entries {
		pub := &e.Report.Public
		if !onSale(pub) {
			continue
		}
		kind, state := map[string]string{"desk": "Desk", "bench": "Bench", "shelf": "Shelf"}[pub.Kind], map[string]string{"in stock": "In stock", "reserved": "Reserved", "made to order": "Made to order"}[pub.Available]
		size := map[float64]string{500: "up to 24 in", 609.7: "24 in to 48 in", 2500: "over 72 in"}[*pub.Dimensions.Length]
		if size == "up to 24 in" {
			size = "24 in to 48 in" // it is 762 mm high
		}
		for _, name := range []string{"all", "again", kind, state, size, pub.Materials[0].Name} {
			want[name]++
		}
		if kind == "Bench" && state == "Reserved" {
			want["both"]++
		}
	}
	if len(got.Left) != len(want) || !got.Fit {
		t.Errorf("%v, want %v; how many fit is told: %v", got.Left, want, got.Fit)
	}
	for name, n := range want {
		if got.Left[name] != n {
			t.Errorf("%s leaves %d, want %d", name, got.Left[name], n)
		}
	}
}

// makerScript plays a maker at the overview, with keys alone but for the choices.
const makerScript = `
const { chromium } = require(process.argv[2] + '/playwright-core');
const url = require('url');
(async () => {
  const browser = await chromium.launch({ executablePath: process.argv[3], args: ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking'] });
  const file = url.pathToFileURL(process.argv[4]).href, out = { problems: [] };
  const open = async script => {
    const context = await browser.newContext({ javaScriptEnabled: script, viewport: { width: 1280, height: 900 } });
    const page = await context.newPage();
    page.on('console', m => { if (!/ERR_FILE_NOT_FOUND/.test(m.text())) out.problems.push(m.text()); });
    page.on('pageerror', e => out.problems.push(e.message));
    await page.goto(file);
    return page;
  };
  const page = await open(true);
  const titles = async () => (await page.locator('ol.board > li:visible a').allTextContents());
  out.first = (await titles()).length;
  await page.keyboard.press('/');
  await page.keyboard.type('NUMBER 17');
  out.searched = await titles();
  out.told = await page.locator('#told').textContent();
  await page.keyboard.press('ArrowDown');
  out.focused = await page.evaluate(() => document.activeElement.textContent);
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('Escape');
  out.cleared = (await titles()).length;
  await page.locator('select[name=show]').selectOption('loses');
  out.loses = await titles();
  await page.locator('select[name=sort]').selectOption('margin');
  out.byMargin = (await titles()).slice(0, 2);
  await page.locator('select[name=show]').selectOption('=made to order');
  await page.locator('select[name=sort]').selectOption('newest');
  out.made = await titles();
  await page.getByRole('button').click();
  await page.waitForTimeout(50);
  out.reset = (await titles()).length;
  await page.locator('ol.board a').first().focus();
  for (const k of ['ArrowDown', 'ArrowDown', 'End', 'Home', 'ArrowDown']) await page.keyboard.press(k);
  out.second = await page.evaluate(() => document.activeElement.textContent);
  await page.keyboard.press('Tab');
  out.third = await page.evaluate(() => document.activeElement.textContent);
  const plain = await open(false);
  out.plain = await plain.locator('ol.board > li:visible').count();
  out.form = await plain.locator('form').isVisible();
  await plain.locator('#sold summary').click();
  out.unfolded = await plain.locator('ol.board > li:visible').count();
  console.log(JSON.stringify(out));
  await browser.close();
})().catch(e => { console.error(e); process.exit(1); });
`

// The overview is searched, filtered and sorted without a server, by keys; without
// script it shows all there is.
func TestOverviewInBrowser(t *testing.T) {
	var entries []Entry
	for i := range 40 {
		entries = append(entries, pieceOf(i))
	}
	entries[10].Report.Costs.Margin = -2000
	entries[20].Report.Public.Title = `<img src=x onerror="document.title='hit'"><script>document.title='hit'</script>`
	data, err := Overview(entries, nil, options(t))
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		First, Cleared, Reset, Plain, Unfolded int
		Searched, Loses, ByMargin, Made        []string
		Told, Focused, Second, Third           string
		Form                                   bool
		Problems                               []string
	}
	inBrowser(t, makerScript, data, &got)
	name := func(i int) string { return entries[i].Report.Public.Title }
	if got.First != 30 || got.Cleared != 30 || got.Reset != 30 || got.Plain != 30 || got.Unfolded != 40 || got.Form {
		t.Errorf("of 40 pieces, 10 sold: %d, %d and %d shown; without script %d, unfolded %d, a form: %v", got.First, got.Cleared, got.Reset, got.Plain, got.Unfolded, got.Form)
	}
	if len(got.Searched) != 1 || got.Searched[0] != name(17) || got.Focused != name(17) || got.Told != "1 of 40 pieces" {
		t.Errorf("searched: %q, %q, on %q", got.Searched, got.Told, got.Focused)
	}
	// Every fifth piece loses money; of them 5, 25 and 1, 21 … every fourth but one is sold.
	if len(got.Loses) != 6 || got.ByMargin[0] != name(10) {
		t.Errorf("priced below cost: %q; by margin %q", got.Loses, got.ByMargin)
	}
	if len(got.Made) != 10 || got.Made[0] != name(10) {
		t.Errorf("made to order, the latest first: %q", got.Made)
	}
	if got.Second == got.Third || got.Third == "" {
		t.Errorf("arrows lead to %q, the next stop is %q", got.Second, got.Third)
	}
	if len(got.Problems) > 0 {
		t.Errorf("the page complains: %q", got.Problems)
	}
}
