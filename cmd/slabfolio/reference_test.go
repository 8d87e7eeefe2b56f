package main

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// These tests run the demo and hand what it made to programs that nobody here
// wrote. They need those programs: without SLABFOLIO_REFERENCE=required a test
// skips with a word on what is missing.

// need returns the path of a program or file, or skips.
func need(t *testing.T, name string) string {
	t.Helper()
	var path string
	var err error
	if filepath.IsAbs(name) {
		path = name
		_, err = os.Stat(name)
	} else {
		path, err = exec.LookPath(name)
	}
	if err != nil {
		if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
			t.Fatalf("%s is missing", name)
		}
		t.Skipf("%s is missing", name)
	}
	return path
}

func nodeModule(t *testing.T, parts ...string) string {
	t.Helper()
	dir := os.Getenv("SLABFOLIO_NODE_MODULES")
	if dir == "" {
		dir = "/nowhere/node_modules"
	}
	return need(t, filepath.Join(append([]string{dir}, parts...)...))
}

// demo runs the demo as its help's example has it, and returns its folder.
func demo(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	t.Chdir(dir)
	var out, errs bytes.Buffer
	c := &console{out: &out, err: &errs}
	if status := run(t.Context(), append(strings.Fields(examples["demo"])[1:], "--cache", filepath.Join(t.TempDir(), "cache")), c); status != exitDone {
		t.Fatalf("demo: status %d\n%s%s", status, &out, &errs)
	}
	return filepath.Join(dir, "slabfolio-demo")
}

func files(t *testing.T, dir string, endings ...string) []string {
	t.Helper()
	var found []string
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err == nil && d.Type().IsRegular() && slices.Contains(endings, filepath.Ext(path)) {
			found = append(found, path)
		}
		return err
	})
	if err != nil || len(found) == 0 {
		t.Fatalf("no %v in %s (%v)", endings, dir, err)
	}
	return found
}

func TestDemo(t *testing.T) {
	if testing.Short() {
		t.Skip("the demo takes a while")
	}
	dir := demo(t)
	prepared := filepath.Join(dir, "prepared")
	for what, check := range map[string]func(*testing.T, string){
		"documents are clean PDF":                        checkPDF,
		"documents are PDF/A-1b":                         checkPDFA,
		"pages are clean HTML":                           checkHTML,
		"pages are accessible, narrow and alone":         checkPages,
		"photos carry what they should and nothing else": checkMetadata,
		"the bundle is the listing":                      checkZip,
	} {
		t.Run(what, func(t *testing.T) { // each waits for programs of others
			t.Parallel()
			check(t, prepared)
		})
	}
}

// qpdf reads the structure, pdftotext the words.
func checkPDF(t *testing.T, dir string) {
	qpdf, pdftotext, pdffonts := need(t, "qpdf"), need(t, "pdftotext"), need(t, "pdffonts")
	for _, f := range files(t, dir, ".pdf") {
		if out, err := exec.Command(qpdf, "--check", f).CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", f, err, out)
		}
		text, err := exec.Command(pdftotext, f, "-").Output()
		serial := filepath.Base(filepath.Dir(f))
		if filepath.Dir(f) == dir { // of all pieces: one that is in stock, and has a price
			serial = "OY-0208"
		}
		if err != nil || !bytes.Contains(text, []byte(serial)) {
			t.Errorf("%s: %v; the text does not hold %s", f, err, serial)
		}
		fonts, err := exec.Command(pdffonts, f).Output()
		if err != nil {
			t.Errorf("%s: %v", f, err)
		}
		for _, line := range strings.Split(strings.TrimSpace(string(fonts)), "\n")[2:] {
			if fields := strings.Fields(line); len(fields) < 6 || fields[len(fields)-5] != "yes" {
				t.Errorf("%s: a font is not embedded: %s", f, line)
			}
		}
	}
}

// PDFBox's preflight is the independent validator of PDF/A-1b (ISO 19005-1).
func checkPDFA(t *testing.T, dir string) {
	var jars []string
	for _, name := range []string{"preflight", "pdfbox2", "xmpbox", "fontbox2", "pdfbox2-tools", "commons-logging", "commons-io", "javax.activation", "jaxb-api"} {
		jars = append(jars, need(t, "/usr/share/java/"+name+".jar"))
	}
	java, papers := need(t, "java"), files(t, dir, ".pdf")
	list := filepath.Join(t.TempDir(), "papers.txt") // one start for all of them
	if err := os.WriteFile(list, []byte(strings.Join(papers, "\n")), 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(java, "-cp", strings.Join(jars, ":"), "org.apache.pdfbox.preflight.Validator_A1b", "batch", list).CombinedOutput()
	if n := bytes.Count(out, []byte("is a valid PDF/A-1b file")); err != nil || n != len(papers) {
		t.Errorf("%d of %d are valid PDF/A-1b: %v\n%s", n, len(papers), err, out)
	}
}

func checkHTML(t *testing.T, dir string) {
	java := need(t, "java")
	jar := nodeModule(t, "vnu-jar", "build", "dist", "vnu.jar")
	out, err := exec.Command(java, append([]string{"-jar", jar, "--stdout"}, files(t, dir, ".html")...)...).CombinedOutput()
	if err != nil || bytes.Contains(out, []byte("error:")) {
		t.Errorf("%v\n%s", err, out)
	}
}

// pageScript opens each page in a headless browser, wide and at 320 pixels,
// notes every request, and runs axe-core's rules for WCAG 2.2 A and AA.
const pageScript = `
const { chromium } = require(process.argv[2] + '/playwright-core');
const fs = require('fs'), path = require('path'), url = require('url');
const axe = fs.readFileSync(process.argv[2] + '/axe-core/axe.min.js', 'utf8');
(async () => {
  const browser = await chromium.launch({ executablePath: process.argv[3], args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'] });
  const results = [];
  for (const file of process.argv.slice(4)) for (const [width, scheme] of [[1280, 'light'], [320, 'dark']]) {
    const context = await browser.newContext({ viewport: { width, height: 800 }, colorScheme: scheme });
    const page = await context.newPage();
    const requests = [], failed = [];
    page.on('request', r => requests.push(r.url()));
    page.on('requestfailed', r => failed.push(r.url()));
    await page.goto(url.pathToFileURL(file).href);
    await page.evaluate(() => document.querySelectorAll('details').forEach(d => d.open = true));
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    await page.evaluate(axe);
    const found = await page.evaluate(() => axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] }));
    const root = url.pathToFileURL(path.dirname(file)).href;
    results.push({ file, width, wide, failed, requests: requests.length, outside: requests.filter(r => !r.startsWith('file:')),
      violations: found.violations.map(v => v.id + ': ' + v.help + ' ' + v.nodes.slice(0, 3).map(n => n.html).join(' | ')) });
    await context.close();
  }
  console.log(JSON.stringify(results));
  await browser.close();
})().catch(e => { console.error(e); process.exit(1); });
`

func checkPages(t *testing.T, dir string) {
	node, chromium := need(t, "node"), need(t, "chromium")
	modules := filepath.Dir(filepath.Dir(nodeModule(t, "playwright-core", "package.json")))
	nodeModule(t, "axe-core", "axe.min.js")
	script := filepath.Join(t.TempDir(), "pages.cjs")
	if err := os.WriteFile(script, []byte(pageScript), 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(node, append([]string{script, modules, chromium}, files(t, dir, ".html")...)...)
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, &stderr)
	}
	var results []struct {
		File, Scheme                string
		Width, Wide, Requests       int
		Failed, Outside, Violations []string
	}
	if err := json.Unmarshal(out, &results); err != nil {
		t.Fatal(err)
	}
	if len(results) == 0 {
		t.Fatal("no page was looked at")
	}
	for _, r := range results {
		name, _ := filepath.Rel(dir, r.File)
		if r.Wide > 0 {
			t.Errorf("%s at %d pixels: %d pixels too wide", name, r.Width, r.Wide)
		}
		for _, v := range slices.Concat(r.Violations, r.Failed, r.Outside) {
			t.Errorf("%s at %d pixels: %s", name, r.Width, v)
		}
	}
}

// exiftool reads what the published photos carry.
func checkMetadata(t *testing.T, dir string) {
	exiftool := need(t, "exiftool")
	var photos []string
	for _, f := range files(t, dir, ".jpg", ".webp") {
		if strings.Contains(filepath.ToSlash(f), "/listing/") {
			photos = append(photos, f)
		}
	}
	out, err := exec.Command(exiftool, append([]string{"-json", "-G1", "-a"}, photos...)...).Output()
	if err != nil {
		t.Fatal(err)
	}
	var tags []map[string]any
	if err := json.Unmarshal(out, &tags); err != nil {
		t.Fatal(err)
	}
	if len(tags) != len(photos) {
		t.Errorf("%d photos, %d read", len(photos), len(tags))
	}
	for _, m := range tags {
		for tag := range m {
			group, name, _ := strings.Cut(tag, ":")
			if group == "GPS" || strings.HasPrefix(group, "IFD") || group == "ExifIFD" || strings.Contains(name, "SerialNumber") || strings.Contains(name, "Owner") {
				t.Errorf("%v carries %s", m["SourceFile"], tag)
			}
		}
		for _, tag := range []string{"XMP-iptcCore:AltTextAccessibility", "XMP-dc:Creator", "XMP-dc:Title", "XMP-dc:Rights"} {
			if s, _ := m[tag].(string); s == "" {
				t.Errorf("%v lacks %s", m["SourceFile"], tag)
			}
		}
	}
}

func checkZip(t *testing.T, dir string) {
	unzip := need(t, "unzip")
	for _, f := range files(t, dir, ".zip") {
		to := t.TempDir()
		if out, err := exec.Command(unzip, "-q", f, "-d", to).CombinedOutput(); err != nil {
			t.Fatalf("%s: %v\n%s", f, err, out)
		}
		if filepath.Dir(f) == dir { // the catalogue, its page with the addresses that it has on the web
			for _, name := range []string{"feed.xml", "sitemap.xml"} {
				if out, err := exec.Command("diff", filepath.Join(to, "catalogue", name), filepath.Join(dir, "catalogue", name)).CombinedOutput(); err != nil {
					t.Errorf("%s: %v\n%s", f, err, out)
				}
			}
			continue
		}
		serial := filepath.Base(filepath.Dir(f))
		if out, err := exec.Command("diff", "-r", filepath.Join(to, serial), filepath.Join(filepath.Dir(f), "listing")).CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", f, err, out)
		}
	}
}
