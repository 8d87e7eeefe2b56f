package archive

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// Whatever stands in a manifest: no panic, and no name that leads out of the bag
// or out of data/ is followed.
func FuzzManifest(f *testing.F) {
	sum := strings.Repeat("a", 128)
	for _, seed := range []string{
		sum + "  data/a.txt\n", sum + " *data/a.txt\r\n", sum + "\tdata/%0Aa%25.txt\r", sum + "  data/../x\n", sum + "  /etc/x\n",
		"  \n\n", "\xef\xbb\xbf" + sum + " data/a", sum[:4] + " data/a\n", sum + "  data/a\n" + sum + "  ./data/a\n", sum + " data/caf\u00e9\n",
	} {
		f.Add(seed, "1.0", "UTF-8")
		f.Add(seed, "0.97", "ISO-8859-1")
		f.Add(seed, "0.93", "UTF-16")
	}
	f.Fuzz(func(t *testing.T, text, version, encoding string) {
		fsys := fstest.MapFS{
			"bagit.txt":           {Data: []byte(fmt.Sprintf("BagIt-Version: %s\nTag-File-Character-Encoding: %s\n", version, encoding))},
			"manifest-sha512.txt": {Data: []byte(text)},
			"fetch.txt":           {Data: []byte(text)},
			"bag-info.txt":        {Data: []byte(text)},
			"data/a.txt":          {Data: []byte("x")},
		}
		v := &Verdict{}
		d := readDeclaration(fsys, v)
		m := readManifest(fsys, d, "manifest-sha512.txt", "sha512", false, v)
		for _, e := range m.entries {
			if !fs.ValidPath(e.path) || !strings.HasPrefix(e.path, "data/") || strings.Contains(e.path, "..\\") {
				t.Errorf("follows %q", e.path)
			}
		}
		if _, err := verifyFS(t.Context(), fsys, "b"); err != nil {
			t.Error(err)
		}
	})
}

// A name that is written into a manifest must read back as it is.
func FuzzNames(f *testing.F) {
	for _, name := range awkward {
		f.Add(name)
	}
	f.Fuzz(func(t *testing.T, name string) {
		if NameProblem(name) != "" {
			return
		}
		line := strings.Repeat("0", 128) + "  " + encodeName("data/"+name)
		if lines := splitLines(line); len(lines) != 1 {
			t.Fatalf("%q takes %d lines", name, len(lines))
		}
		m := entryLine().FindStringSubmatch(line)
		if m == nil {
			t.Fatalf("%q makes no line of a manifest", name)
		}
		if got := decodeName(m[3], declaration{1, 0, "UTF-8"}); got != "data/"+name {
			t.Errorf("%q reads back as %q", name, got)
		}
	})
}

// What is written into bag-info.txt must read back, but for its white space.
func FuzzInfo(f *testing.F) {
	f.Add("Contact-Name", "Ostrel Yard", "External-Description", strings.Repeat("long words ", 30))
	f.Add("A", ": colon", "B", "line\nbreak\r\n here")
	f.Add("A", strings.Repeat("x", 200), "B", "\u00a0 \u2028 odd spaces")
	f.Fuzz(func(t *testing.T, labelA, a, labelB, b string) {
		var want []Info
		for _, i := range []Info{{labelA, a}, {labelB, b}} {
			i.Value = strings.Join(strings.Fields(i.Value), " ")
			if i.Label == "" || strings.ContainsFunc(i.Label, func(r rune) bool { return r <= ' ' || r == ':' || r >= 0x7f }) || i.Value == "" {
				return
			}
			want = append(want, i)
		}
		got, err := parseInfo(formatInfo(want))
		if err != nil || !slices.Equal(got, want) {
			t.Errorf("got %q, %v, want %q", got, err, want)
		}
		for _, line := range strings.Split(formatInfo(want), "\n") {
			if n := len([]rune(line)); n > 79 && strings.Count(strings.TrimSpace(line), " ") > 1 {
				t.Errorf("a line of %d letters that could be broken: %q", n, line)
			}
		}
	})
}

// Whatever bytes a zip has: no panic, and no name that leads out is taken for a
// file of the bag.
func FuzzZip(f *testing.F) {
	dir := f.TempDir()
	b := &Bag{Name: "b", Zip: true, Files: []File{{Path: "a.txt", Data: []byte("x")}}}
	if _, err := Seal(f.Context(), dir, b); err != nil {
		f.Fatal(err)
	}
	data, err := os.ReadFile(filepath.Join(dir, "b.zip"))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(data)
	f.Add(bytes.ReplaceAll(data, []byte("b/data/a.txt"), []byte("b/../../evil")))
	f.Add(bytes.ReplaceAll(data, []byte("b/data/a.txt"), []byte("b/bagit.txtx")))
	f.Fuzz(func(t *testing.T, data []byte) {
		z, err := readZip(bytes.NewReader(data), int64(len(data)))
		if err != nil {
			return
		}
		v := &Verdict{Problems: []Problem{}}
		if err := z.verify(t.Context(), v, Options{sums: true}); err != nil {
			return
		}
		for _, file := range z.File {
			if strings.Contains("/"+file.Name+"/", "/../") && v.Valid() {
				t.Errorf("valid with %q in it", file.Name)
			}
		}
	})
}
