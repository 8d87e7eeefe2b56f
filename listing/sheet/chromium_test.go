package sheet

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// treeScript opens a paper in Chromium's own viewer and hands back its accessibility
// tree, as the browser gives it to a screen reader: what chrome://accessibility shows.
// (The protocol's Accessibility.getFullAXTree ends at the viewer's plug-in.)
const treeScript = `
const { chromium } = require(process.argv[2] + '/playwright-core');
(async () => {
  const context = await chromium.launchPersistentContext(process.argv[5], { executablePath: process.argv[3], headless: false, timeout: 120000,
    args: ['--headless=new', '--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking', '--force-renderer-accessibility=complete'],
    ignoreDefaultArgs: ['--disable-extensions', '--disable-component-extensions-with-background-pages'] });
  const page = context.pages()[0] || await context.newPage();
  await page.goto('file://' + process.argv[4]);
  const shown = await context.newPage();
  // The viewer reads page after page: until each has its region, and two looks agree.
  let text = '', before = -1;
  const count = word => text.split(word).length - 1;
  const whole = () => count('pdfRoot') > 0 && (text.match(/id#=-\d+ region/g) || []).length >= +process.argv[6];
  for (let tries = 0; tries < 20 && !(whole() && count('inlineTextBox') === before); tries++) {
    before = count('inlineTextBox');
    await page.waitForTimeout(1500);
    await shown.goto('chrome://accessibility');
    await shown.waitForTimeout(1500);
    await shown.evaluate(() => { for (const b of document.querySelectorAll('button, [role=button]')) if (/show/i.test(b.textContent)) b.click(); });
    await shown.waitForTimeout(2500);
    text = await shown.evaluate(() => document.body.innerText);
  }
  const nodes = [];
  for (const line of text.slice(text.indexOf('pdfRoot')).split('\n')) {
    const role = line.match(/id#=-\d+ (\w+)/), name = line.match(/ name='(.*?)'(?= \w+=| \w+ |$)/);
    if (role) nodes.push([role[1], name ? name[1] : '']);
  }
  console.log(JSON.stringify(nodes));
  await context.close();
})().catch(e => { console.error(e); process.exit(1); });
`

// Chromium's accessibility tree of an opened sheet has the photo by its words, the
// headings, each figure with its label, care whole and before the cautions, and the
// links. It is made by the viewer from places and letters, so it is a reader of its own
// beside those that follow our tags.
func TestChromiumReadsTheOpenedSheet(t *testing.T) {
	modules := os.Getenv("SLABFOLIO_NODE_MODULES")
	if _, err := os.Stat(filepath.Join(modules, "playwright-core", "package.json")); err != nil {
		missing(t, "playwright-core")
	}
	node, chromium := reference(t, "node"), reference(t, "chromium")
	dir := t.TempDir()
	paper, program := filepath.Join(dir, "sheet.pdf"), filepath.Join(dir, "tree.cjs")
	data := onePaper(t, "sheet", options(t, drawn(t, 900, 600)))
	for name, data := range map[string][]byte{paper: data, program: []byte(treeScript)} {
		if err := os.WriteFile(name, data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	profile, err := os.MkdirTemp("", "browser")
	if err != nil {
		t.Fatal(err)
	}
	defer os.RemoveAll(profile)
	var wrong bytes.Buffer
	cmd := exec.Command(node, program, modules, chromium, paper, profile, strconv.Itoa(pages(data)))
	cmd.Stderr = &wrong
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, &wrong)
	}
	var nodes [][2]string
	if err := json.Unmarshal(out, &nodes); err != nil {
		t.Fatal(err)
	}
	checkOpenedTree(t, nodes)
}

// checkOpenedTree holds what the tree of the usual piece's sheet has to have: nodes by
// role and name, in the order in which they are read.
func checkOpenedTree(t *testing.T, nodes [][2]string) {
	t.Helper()
	var all strings.Builder
	roles := map[string][]string{}
	for _, n := range nodes {
		name := strings.NewReplacer("\u00a0", " ", "<newline>", "\n").Replace(n[1])
		roles[n[0]] = append(roles[n[0]], strings.TrimSpace(name))
		if n[0] == "staticText" {
			all.WriteString(name)
		}
	}
	text := all.String()
	at := 0
	for _, want := range []string{"Estuary console table", "Length: 54 in; 137.2 cm", "Weight: 69.2 lb; 31.4 kg", "Wood: Wych elm, Ulmus glabra", "The first weeks.", "Renewing.", "Lifting.", "Tipping."} {
		i := strings.Index(text[at:], want)
		if i < 0 {
			t.Errorf("%q is not read, or not in its place:\n%s", want, text)
			continue
		}
		at += i
	}
	if got := strings.Join(roles["image"], "|"); !strings.Contains(got, "a table against a grey backdrop") {
		t.Errorf("the photo is read as %q", got)
	}
	if len(roles["heading"]) < 3 {
		t.Errorf("headings: %q", roles["heading"])
	}
	for _, want := range []string{"bench@ostrelyard.example", "https://ostrelyard.example"} {
		if !strings.Contains(strings.Join(roles["link"], "|"), want) {
			t.Errorf("no link %s among %q", want, roles["link"])
		}
	}
}
