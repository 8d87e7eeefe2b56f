package page

import (
	"testing"

	"slabfolio/listing/units"
	"slabfolio/templates"
)

// brokenScript counts, at each width, the words of the table of figures that stand on two
// lines.
const brokenScript = `
const { chromium } = require(process.argv[2] + '/playwright-core');
const url = require('url');
(async () => {
  const browser = await chromium.launch({ executablePath: process.argv[3], args: ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking'] });
  const p = await browser.newPage();
  await p.goto(url.pathToFileURL(process.argv[4]).href);
  const out = { broken: {}, wide: {} };
  for (const width of [320, 360, 900, 1200]) {
    await p.setViewportSize({ width, height: 900 });
    [out.broken[width], out.wide[width]] = await p.evaluate(() => {
      const broken = [];
      for (const td of document.querySelectorAll('td')) {
        const text = td.firstChild;
        for (const m of (text.data || '').matchAll(/[^\s]+/g)) {
          const r = document.createRange();
          r.setStart(text, m.index); r.setEnd(text, m.index + m[0].length);
          if (new Set([...r.getClientRects()].map(c => Math.round(c.top))).size > 1) broken.push(m[0]);
        }
      }
      return [broken, document.documentElement.scrollWidth - window.innerWidth];
    });
  }
  console.log(JSON.stringify(out));
  await browser.close();
})().catch(e => { console.error(e); process.exit(1); });
`

// No figure of the table is broken within a word, "in" least of all, with sixteenths and
// the longest names beside them.
func TestFiguresAreNotBroken(t *testing.T) {
	for _, lang := range templates.Langs() {
		w, err := templates.Open(lang)
		if err != nil {
			t.Fatal(err)
		}
		r := fullest()
		d := r.Public.Dimensions
		d.Length, d.Width, d.Height, d.TopThickness, d.Knee = mm(449.3), mm(361.9), mm(760.4), mm(49.2), mm(709.6)
		page, err := Listing(r, &Options{Words: w, Prefer: units.Centimetres})
		if err != nil {
			t.Fatal(err)
		}
		var got struct {
			Broken map[string][]string
			Wide   map[string]float64
		}
		inBrowser(t, brokenScript, page, &got)
		for width, words := range got.Broken {
			if len(words) > 0 || got.Wide[width] > 0 {
				t.Errorf("%s at %s pixels: broken %q, %.0f too wide", lang, width, words, got.Wide[width])
			}
		}
	}
}
