package templates

import (
	"io/fs"
	"strings"
	"testing"

	"go.yaml.in/yaml/v3"
)

// Every file of phrases says to our reader what it says to another reader of YAML
// (go.yaml.in/yaml/v3), text by text.
func TestPhrasesAreYAML(t *testing.T) {
	names, err := fs.Glob(files, "*/*.yaml")
	if err != nil || len(names) < 40 {
		t.Fatalf("%d files of phrases: %v", len(names), err)
	}
	for _, name := range names {
		data, err := files.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		var want map[string]yaml.Node
		if err := yaml.Unmarshal(data, &want); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		got, err := readPhrases(string(data))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if len(got) != len(want) {
			t.Errorf("%s: %d phrases, another reader has %d", name, len(got), len(want))
		}
		for id, n := range want {
			if w := strings.TrimSpace(n.Value); got[id] != w {
				t.Errorf("%s: %s is %q, to another reader %q", name, id, got[id], w)
			}
		}
	}
}

// What YAML has beyond that is refused with its line, not read wrongly.
func TestPhrasesRefuseTheRest(t *testing.T) {
	for text, want := range map[string]string{
		"a.b: 'single'":               "line 1",
		"a.b: one: two":               "line 1",
		"a.b: one # two":              "line 1",
		"a.b:":                        "line 1",
		"a.b: \"open":                 "line 1",
		"a.b: \"text\" # no":          "line 1",
		"# fine\na.b: [x]":            "line 2",
		"a.b: one\n  two":             "line 2",
		"a.b: one\na.b: two":          "line 2",
		"a.b: >-\n  one\n    two\n":   "line 1",
		"a.b: |\n    one\n  two\n":    "line 1",
		"a.b: >-\nc.d: two":           "line 1",
		"\ta.b: two":                  "line 1",
		"a.b: >\n  kept line's end\n": "line 1",
	} {
		if got, err := readPhrases(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q gives %q, %v; want an error on %s", text, got, err, want)
		}
	}
	got, err := readPhrases("a: >-\n  one\n  two\n\n  three\n\nb: |\n  x\n    y\n")
	if err != nil || got["a"] != "one two\nthree" || got["b"] != "x\n  y" {
		t.Errorf("got %q, %v", got, err)
	}
}

func BenchmarkOpen(b *testing.B) {
	for _, lang := range []string{"en", "en-US", "de"} {
		b.Run(lang, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Open(lang); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
