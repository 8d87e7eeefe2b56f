// Opens a page in a headless browser at many widths and densities, with photos that
// arrive late, and measures: how far the layout shifts, how many pixels each chosen
// file has for those it is shown in, and whether anything reaches out of the window.
// Pictures are drawn here: a file named …-600x400.webp is answered with one of that size.
const [, , modules, chromium, folder, cases] = process.argv;
const { chromium: browserType } = require(modules + '/playwright-core');
const fs = require('fs'), path = require('path');

const observe = () => {
  window.shift = 0;
  window.shifted = [];
  new PerformanceObserver(list => {
    for (const e of list.getEntries()) {
      window.shift += e.value;
      for (const s of e.sources || []) window.shifted.push(s.node ? (s.node.className || s.node.nodeName) + '' : '?');
    }
  }).observe({ type: 'layout-shift', buffered: true });
};

const look = () => {
  const clip = document.documentElement.clientWidth;
  const out = [...document.querySelectorAll('main *, header *, footer *')].filter(e => {
    const r = e.getBoundingClientRect();
    return r.width > 0 && r.right > clip + 1 && !e.closest('svg');
  }).slice(0, 3).map(e => e.outerHTML.slice(0, 80));
  const cut = [];
  for (const e of document.querySelectorAll('dt, th')) {
    const style = getComputedStyle(e), room = e.clientWidth - parseFloat(style.paddingRight);
    for (const word of e.textContent.split(' ')) {
      const alone = document.createElement('span');
      alone.style.cssText = 'position:absolute;white-space:nowrap;visibility:hidden;font:' + style.font;
      alone.textContent = word;
      document.body.append(alone);
      if (alone.getBoundingClientRect().width > room) cut.push(word);
      alone.remove();
    }
  }
  return {
    cut, shift: window.shift, shifted: window.shifted.slice(0, 5), out,
    wide: document.documentElement.scrollWidth - clip,
    images: [...document.images].map(i => ({ src: i.currentSrc, width: i.getBoundingClientRect().width, height: i.getBoundingClientRect().height, ratio: i.getAttribute('width') / i.getAttribute('height'),
      types: [...i.parentElement.querySelectorAll('source, img')].map(s => s.srcset) })),
  };
};

(async () => {
  const browser = await browserType.launch({ executablePath: chromium, args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--hide-scrollbars'] });
  const work = JSON.parse(cases), results = [];
  // A window is a page of a browser that is there already, at an address of its own,
  // so that nothing is known of it: starting one costs more than all that is looked at.
  const open = async density => {
    const context = await browser.newContext({ deviceScaleFactor: density });
    const page = await context.newPage();
    page.late = 0;
    await page.addInitScript(observe);
    await page.route('**/*', async route => {
      const name = decodeURIComponent(new URL(route.request().url()).pathname).slice(1);
      const m = name.match(/-(\d+)x(\d+)\.(jpg|webp)$/);
      if (!m) return route.fulfill({ contentType: 'text/html; charset=utf-8', body: fs.readFileSync(path.join(folder, name)) });
      await new Promise(r => setTimeout(r, page.late));
      route.fulfill({ contentType: 'image/svg+xml', body: `<svg xmlns="http://www.w3.org/2000/svg" width="${m[1]}" height="${m[2]}"><rect width="100%" height="100%" fill="#876"/></svg>` });
    });
    return page;
  };
  const one = async (c, at, pages) => {
    const page = pages[c.density || 1] ||= await open(c.density || 1);
    page.late = c.late || 0;
    await page.setViewportSize({ width: c.width, height: c.height || 800 });
    await page.goto(`http://w${at}.page.test/${c.page}`, { waitUntil: 'domcontentloaded' });
    if (c.text) await page.addStyleTag({ content: `html{font-size:${c.text}%}` });
    await page.waitForTimeout(50);
    const height = await page.evaluate(() => document.documentElement.scrollHeight);
    for (let y = 0; y <= height; y += 600) { await page.evaluate(y => window.scrollTo(0, y), y); await page.waitForTimeout(20); }
    await page.waitForFunction(() => [...document.images].every(i => i.complete), null, { timeout: 20000 });
    await page.waitForTimeout(100);
    results[at] = { ...c, ...await page.evaluate(look), sheets: {} };
    for (const format of c.papers || []) {
      const pdf = await page.pdf({ format });
      results[at].sheets[format] = (pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g) || []).length;
    }
  };
  // A few at once: most of the time is waiting for late photos.
  let next = 0;
  await Promise.all([...Array(4)].map(async () => { for (const pages = {}; next < work.length;) { const at = next++; await one(work[at], at, pages); } }));
  console.log(JSON.stringify(results));
  await browser.close();
})().catch(e => { console.error(e); process.exit(1); });
