package piece

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slabfolio/listing/piece/yamltext"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"go.yaml.in/yaml/v3"
)

// flat writes our nodes as lines: place, shape and text.
func flat(n *yamltext.Node, path string, out *[]string) {
	switch n.Shape {
	case yamltext.Mapping:
		for _, p := range n.Pairs {
			*out = append(*out, fmt.Sprintf("%s key %q at %d:%d", path, p.Key, p.At.Line, p.At.Column))
			flat(p.Value, path+"."+p.Key, out)
		}
	case yamltext.List:
		for i, item := range n.Items {
			flat(item, fmt.Sprintf("%s[%d]", path, i), out)
		}
	case yamltext.Scalar:
		*out = append(*out, fmt.Sprintf("%s = %q at %d:%d", path, strings.TrimRight(n.Text, "\n"), n.At.Line, n.At.Column))
	case yamltext.Empty:
		*out = append(*out, path+" is empty")
	}
}

// flatOther does the same for the nodes of another YAML reader, which keeps the
// text of a scalar as well.
func flatOther(n *yaml.Node, path string, out *[]string) {
	switch n.Kind {
	case yaml.DocumentNode:
		flatOther(n.Content[0], path, out)
	case yaml.MappingNode:
		for i := 0; i+1 < len(n.Content); i += 2 {
			k := n.Content[i]
			*out = append(*out, fmt.Sprintf("%s key %q at %d:%d", path, k.Value, k.Line, k.Column))
			flatOther(n.Content[i+1], path+"."+k.Value, out)
		}
	case yaml.SequenceNode:
		for i, item := range n.Content {
			flatOther(item, fmt.Sprintf("%s[%d]", path, i), out)
		}
	case yaml.ScalarNode:
		if n.Value == "" && n.Tag == "!!null" {
			*out = append(*out, path+" is empty")
			return
		}
		*out = append(*out, fmt.Sprintf("%s = %q at %d:%d", path, strings.TrimRight(n.Value, "\n"), n.Line, n.Column))
	}
}

// Our reading of a file agrees with that of an independent YAML reader
// (go.yaml.in/yaml/v3), text by text and place by place.
func TestAgreesWithAnotherReader(t *testing.T) {
	texts := map[string]string{"base": specBase, "workshop": example(workshopKeys, "", nil, "")}
	for w := range outlineWays {
		texts[fmt.Sprintf("examples %d", w)] = example(pieceKeys, "", leftOfWays(w), "")
	}
	for _, kind := range Kinds {
		data := Starter(kind, "OY-0320", words(t).Say)
		texts["starter of a "+kind] = string(data)
	}
	texts["remarks"] = remarks(texts["examples 0"])
	texts["oddities"] = oddities
	for _, name := range []string{"values", "contradictions"} {
		data, err := os.ReadFile(filepath.Join("testdata", "messages", name+".yaml"))
		if err != nil {
			t.Fatal(err)
		}
		texts[name] = string(data)
	}
	for name, text := range texts {
		t.Run(name, func(t *testing.T) {
			var doc yaml.Node
			if err := yaml.Unmarshal([]byte(text), &doc); err != nil {
				t.Fatalf("the other reader: %v", err)
			}
			read, err := yamltext.Read(t.Context(), "piece.yaml", []byte(text))
			if err != nil {
				t.Fatal(err)
			}
			for _, s := range read.Slips {
				t.Errorf("%d:%d: %s", s.At.Line, s.At.Column, s.Message)
			}
			var ours, theirs []string
			flat(read.Root, "", &ours)
			flatOther(&doc, "", &theirs)
			if diff := cmp.Diff(theirs, ours); diff != "" {
				t.Errorf("(-other +ours):\n%s", diff)
			}
		})
	}
}

// oddities are right YAML that readers are known to stumble over.
const oddities = `# a remark first

a:   spaced    # remark
"b c": "x: y"
'd': 'it''s'
e: "tab\tand \u00e9 and \"quotes\""
f: |
  # no remark
  text: not a key

    deeper
  - not a list

g: >-
  folded
  lines

  new paragraph
h: |+
  kept

i: plain
  on two lines
j:
  - one
  -   two
  - - nested
    - list
  - k: v
    l: w
  -
    m: n
k: {a: 1, b: [x, y, {c: d}], "e f": g}
l: [
  one,
  two   # remark
]
m: {
  a: b,
  c: d
}
n: http://ostrel-yard.example/x?y=1#z
o: 4' 6 1/2"
p: 1-3/4"
r: "multi
  line"
s: ~
t:
u: [a b, c d]
v: a#b
w: x:y
x: '# no remark'
ü: ß 漢字 x
y: 漢字 # remark
z: {ü: 漢, b: é}
`

// remarks puts a remark behind every line, at depths of its own.
func remarks(text string) string {
	var out []string
	block := false
	for i, line := range strings.Split(strings.TrimSuffix(text, "\n"), "\n") {
		out = append(out, line)
		if strings.HasSuffix(line, "|") {
			block = true
		} else if !strings.HasPrefix(line, "  ") {
			block = false
		}
		if !block {
			out = append(out, strings.Repeat(" ", i%5)+"# remark: with a colon, [brackets] and \"quotes\"")
		}
	}
	return strings.Join(out, "\n") + "\n"
}

// Thousands of files that are drawn by chance out of right ones, with signs of YAML
// put in and letters taken out: what both readers read without a word, they read
// alike. Left out is what this reader reads otherwise on purpose: curly quotes, a
// key in brackets with a comma or a bracket right behind its colon (YAML 1.2, 7.3.3, has ours), files
// that are no keys at all.
func TestDrawnFilesAgreeWithAnotherReader(t *testing.T) {
	bases := []string{example(pieceKeys, "", leftOfWays(0), ""), oddities, specBase,
		"a: {b: c, d: [e, f]}\ng:\n  - h\n  - i: j\n    k: l\nm: |\n  text\n   more\n\n  end\nn: \"q\\n\"\no: 'it''s'\np: x\n  y\nq:\n- r\n- s\n"}
	signs := strings.Split(" |  |\n|: |:|- |-|#| #|[|]|{|}|,|, |\"|'|>|a|é|\\|\t|? |&a|*a|!t|@|%|---\n|...\n|>+|\n\n|\"\"|''|<<: |~|null|0012", "|")
	signs = append(signs, "|", "|-")
	r := rand.New(rand.NewPCG(7, 7))
	both := 0
	for range 8000 {
		s := bases[r.IntN(len(bases))]
		if r.IntN(2) == 0 {
			lines := strings.SplitAfter(s, "\n")
			i := r.IntN(len(lines))
			s = strings.Join(lines[i:min(len(lines), i+1+r.IntN(8))], "")
		}
		for range 1 + r.IntN(3) {
			i := r.IntN(len(s) + 1)
			for i < len(s) && !utf8.RuneStart(s[i]) {
				i++
			}
			if r.IntN(3) == 0 && i < len(s) && s[i] < utf8.RuneSelf {
				s = s[:i] + s[i+1:]
			} else {
				s = s[:i] + signs[r.IntN(len(signs))] + s[i:]
			}
		}
		var doc yaml.Node
		err := yaml.Unmarshal([]byte(s), &doc)
		read, _ := yamltext.Read(t.Context(), "piece.yaml", []byte(s))
		if err != nil || doc.Kind == 0 || len(read.Slips) > 0 || read.Root.Shape != yamltext.Mapping || strings.ContainsAny(s, "“”") || besideColon.MatchString(s) {
			continue
		}
		both++
		var ours, theirs []string
		flat(read.Root, "", &ours)
		flatOther(&doc, "", &theirs)
		for _, all := range [][]string{ours, theirs} {
			for i, line := range all {
				if at := strings.LastIndex(line, " at "); at > 0 {
					all[i] = line[:at] // other signs than letters are counted otherwise
				}
			}
		}
		if diff := cmp.Diff(theirs, ours); diff != "" {
			t.Errorf("%q (-other +ours):\n%s", s, diff)
		}
	}
	if both < 2000 {
		t.Errorf("only %d files were read by both", both)
	}
}

// besideColon is a colon in brackets with a comma or a bracket right behind it.
var besideColon = regexp.MustCompile(`:[,\]\[{}]`)
