package archive

import (
	"archive/zip"
	"bytes"
	"context"
	"crypto/sha512"
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// verifyFS checks the bag at the root of a file system, as Verify does that of a
// folder.
func verifyFS(ctx context.Context, fsys fs.FS, name string) (*Verdict, error) {
	v := &Verdict{Bag: name, Problems: []Problem{}}
	return v, check(ctx, fsys, v, Options{sums: true})
}

// kinds lists what was found, faults alone.
func kinds(v *Verdict) (found []string) {
	for _, p := range v.Problems {
		if !p.Warning && !slices.Contains(found, p.Kind) {
			found = append(found, p.Kind)
		}
	}
	return found
}

func write(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// edit rewrites a tag file and puts its new checksum into the tag manifest, so
// that the one fault is the one that was made.
func edit(t *testing.T, bag, name string, change func(string) string) {
	t.Helper()
	path := filepath.Join(bag, name)
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	text := change(string(data))
	write(t, path, text)
	tags := filepath.Join(bag, "tagmanifest-sha512.txt")
	list, err := os.ReadFile(tags)
	if err != nil {
		t.Fatal(err)
	}
	sum := func(s string) string { return fmt.Sprintf("%x", sha512.Sum512([]byte(s))) }
	write(t, tags, strings.ReplaceAll(string(list), sum(string(data)), sum(text)))
}

// Every fault must be found, named by its kind, and be the only one.
func TestFaultsAreNamed(t *testing.T) {
	sum := strings.Repeat("0", 128)
	line := func(name string) func(string) string {
		return func(s string) string { return s + sum + "  " + name + "\n" }
	}
	for _, c := range []struct {
		name string
		do   func(t *testing.T, bag string)
		want []string
		file string
	}{
		{"missing", func(t *testing.T, bag string) { os.Remove(filepath.Join(bag, "data/piece/empty.txt")) }, []string{Missing, Oxum}, "data/piece/empty.txt"},
		{"extra", func(t *testing.T, bag string) { write(t, filepath.Join(bag, "data/piece/new.txt"), "x") }, []string{Extra, Oxum}, "data/piece/new.txt"},
		{"changed", func(t *testing.T, bag string) {
			data, _ := os.ReadFile(filepath.Join(bag, "data/piece/piece.yaml"))
			data[0] ^= 1
			write(t, filepath.Join(bag, "data/piece/piece.yaml"), string(data))
		}, []string{Changed}, "data/piece/piece.yaml"},
		{"tag file changed", func(t *testing.T, bag string) { write(t, filepath.Join(bag, "bag-info.txt"), "Contact-Name: other\n") }, []string{Changed}, "bag-info.txt"},
		{"twice", func(t *testing.T, bag string) { edit(t, bag, "manifest-sha512.txt", line("data/piece/empty.txt")) }, []string{Twice}, "data/piece/empty.txt"},
		{"outside by dots", func(t *testing.T, bag string) { edit(t, bag, "manifest-sha512.txt", line("data/../../secret")) }, []string{Outside}, "data/../../secret"},
		{"outside by root", func(t *testing.T, bag string) { edit(t, bag, "manifest-sha512.txt", line("/etc/hosts")) }, []string{Outside}, "/etc/hosts"},
		{"outside by home", func(t *testing.T, bag string) { edit(t, bag, "manifest-sha512.txt", line("~/secret")) }, []string{Outside}, "~/secret"},
		{"outside by drive", func(t *testing.T, bag string) { edit(t, bag, "manifest-sha512.txt", line(`C:\secret`)) }, []string{Outside}, `C:\secret`},
		{"outside by encoding is none", func(t *testing.T, bag string) { edit(t, bag, "manifest-sha512.txt", line("data/%2e%2e/x")) }, []string{Missing}, "data/%2e%2e/x"},
		{"not in data", func(t *testing.T, bag string) { edit(t, bag, "manifest-sha512.txt", line("bagit.txt")) }, []string{Outside}, "bagit.txt"},
		{"no sum", func(t *testing.T, bag string) {
			edit(t, bag, "manifest-sha512.txt", func(s string) string { return s + "what is this\n" })
		}, []string{Manifest}, "manifest-sha512.txt"},
		{"wrong length of sum", func(t *testing.T, bag string) {
			edit(t, bag, "manifest-sha512.txt", func(s string) string { return s + "abcd  data/x\n" })
		}, []string{Manifest}, "manifest-sha512.txt"},
		{"oxum", func(t *testing.T, bag string) {
			edit(t, bag, "bag-info.txt", func(s string) string { return strings.Replace(s, "Payload-Oxum: ", "Payload-Oxum: 9", 1) })
		}, []string{Oxum}, "bag-info.txt"},
		{"version", func(t *testing.T, bag string) {
			edit(t, bag, "bagit.txt", func(s string) string { return strings.Replace(s, "1.0", "9.9", 1) })
		}, []string{Declaration}, "bagit.txt"},
		{"no declaration", func(t *testing.T, bag string) { os.Remove(filepath.Join(bag, "bagit.txt")) }, []string{Declaration, Missing}, "bagit.txt"},
		{"tag manifest without the manifest", func(t *testing.T, bag string) {
			path := filepath.Join(bag, "tagmanifest-sha512.txt")
			data, _ := os.ReadFile(path)
			write(t, path, strings.Join(slices.DeleteFunc(strings.SplitAfter(string(data), "\n"), func(l string) bool { return strings.Contains(l, "  manifest-") }), ""))
		}, []string{Manifest}, "tagmanifest-sha512.txt"},
		{"two lists of one kind that differ", func(t *testing.T, bag string) {
			data, _ := os.ReadFile(filepath.Join(bag, "manifest-sha512.txt"))
			text := strings.ReplaceAll(string(data), string(data[:128]), sum)
			write(t, filepath.Join(bag, "manifest-SHA512.txt"), text)
		}, []string{Manifest, Changed}, ""},
		{"fetch without a list", func(t *testing.T, bag string) {
			write(t, filepath.Join(bag, "fetch.txt"), "http://x.example/a - data/a\n")
		}, []string{Manifest}, "data/a"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, bag := seal(t, false)
			c.do(t, bag)
			v, err := Verify(t.Context(), bag, nil)
			if err != nil {
				t.Fatal(err)
			}
			if got := kinds(v); !slices.Equal(got, c.want) {
				t.Errorf("found %q, want %q: %+v", got, c.want, v.Problems)
			}
			if c.file != "" && !slices.ContainsFunc(v.Problems, func(p Problem) bool { return p.File == c.file }) {
				t.Errorf("no problem names %q: %+v", c.file, v.Problems)
			}
		})
	}
}

// A bag with a link in it is bad, and what the link points to is never read.
func TestLinksAreNotFollowed(t *testing.T) {
	_, bag := seal(t, false)
	path := filepath.Join(bag, "data", "piece", "piece.yaml")
	data, _ := os.ReadFile(path)
	secret := filepath.Join(t.TempDir(), "secret")
	write(t, secret, string(data)) // even with the right content
	if err := errors.Join(os.Remove(path), os.Symlink(secret, path)); err != nil {
		t.Skip("no links here: ", err)
	}
	v, err := Verify(t.Context(), bag, nil)
	if err != nil {
		t.Fatal(err)
	}
	if got := kinds(v); !slices.Contains(got, Outside) {
		t.Errorf("found %q, want %q", got, Outside)
	}
}

// failing is a file system with one file that the disk does not give.
type failing struct {
	fs.FS
	name string
}

func (f failing) Open(name string) (fs.File, error) {
	file, err := f.FS.Open(name)
	if err == nil && name == f.name {
		return failingFile{file}, nil
	}
	return file, err
}

type failingFile struct{ fs.File }

func (failingFile) Read([]byte) (int, error) { return 0, errors.New("input/output error") }

func TestUnreadableIsNotChanged(t *testing.T) {
	_, bag := seal(t, false)
	v, err := verifyFS(t.Context(), failing{os.DirFS(bag), "data/piece/piece.yaml"}, bag)
	if err != nil {
		t.Fatal(err)
	}
	if got := kinds(v); !slices.Equal(got, []string{Unreadable}) {
		t.Errorf("found %q, want %q alone", got, Unreadable)
	}
}

// RFC 8493, 6.1.3: a system may compose accents or take them apart on its own.
func TestAccentsSpeltAnew(t *testing.T) {
	shelf := t.TempDir()
	b := &Bag{Name: "b", Files: []File{{Path: "caf\u00e9.jpg", Data: []byte("x")}}}
	if _, err := Seal(t.Context(), shelf, b); err != nil {
		t.Fatal(err)
	}
	data := filepath.Join(shelf, "b", "data")
	if err := os.Rename(filepath.Join(data, "caf\u00e9.jpg"), filepath.Join(data, "cafe\u0301.jpg")); err != nil {
		t.Fatal(err)
	}
	if v := valid(t, filepath.Join(shelf, "b")); len(v.Problems) == 0 {
		t.Error("no warning")
	}
	write(t, filepath.Join(data, "cafe\u0301.jpg"), "y")
	v, err := Verify(t.Context(), filepath.Join(shelf, "b"), nil)
	if err != nil || !slices.Equal(kinds(v), []string{Changed}) {
		t.Errorf("a changed one: %q, %v, want %q", kinds(v), err, Changed)
	}
}

// Nothing is fetched, even when it could be.
func TestNothingIsFetched(t *testing.T) {
	asked := false
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { asked = true; fmt.Fprint(w, "x") }))
	defer server.Close()
	_, bag := seal(t, false)
	os.Remove(filepath.Join(bag, "data", "piece", "empty.txt"))
	write(t, filepath.Join(bag, "fetch.txt"), server.URL+"/empty.txt 0 data/piece/empty.txt\n")
	v, err := Verify(t.Context(), bag, nil)
	if err != nil {
		t.Fatal(err)
	}
	if got := kinds(v); asked || !slices.Contains(got, Holey) {
		t.Errorf("asked the server: %v; found %q, want %q", asked, got, Holey)
	}
}

// hostile writes a zip by hand.
func hostile(t *testing.T, fill func(z *zip.Writer)) string {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	fill(z)
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "b.zip")
	write(t, path, b.String())
	return path
}

func put(t *testing.T, z *zip.Writer, h *zip.FileHeader, text string) {
	t.Helper()
	w, err := z.CreateHeader(h)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := w.Write([]byte(text)); err != nil {
		t.Fatal(err)
	}
}

func TestHostileZips(t *testing.T) {
	_, good := seal(t, true)
	data, err := os.ReadFile(good)
	if err != nil {
		t.Fatal(err)
	}
	damaged := func(at int, to byte) string {
		d := slices.Clone(data)
		d[at] ^= to
		path := filepath.Join(t.TempDir(), "d.zip")
		write(t, path, string(d))
		return path
	}
	content := bytes.Index(data, []byte("content 0 of"))
	bagit := "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"
	with := func(name string, change func(*zip.FileHeader)) string {
		return hostile(t, func(z *zip.Writer) {
			put(t, z, &zip.FileHeader{Name: "b/bagit.txt"}, bagit)
			h := &zip.FileHeader{Name: name}
			if change != nil {
				change(h)
			}
			put(t, z, h, "x")
		})
	}
	cut := filepath.Join(t.TempDir(), "cut.zip")
	write(t, cut, string(data[:len(data)/2]))
	for _, c := range []struct {
		name, path string
		want       string
	}{
		{"leads out", with("b/../../evil", nil), Outside},
		{"leads out by the root", with("/b/evil", nil), Outside},
		{"leads out by backslashes", with(`b\..\..\evil`, nil), Outside},
		{"twice", with("b/bagit.txt", nil), Twice},
		{"a link", with("b/data/link", func(h *zip.FileHeader) { h.SetMode(fs.ModeSymlink | 0o777) }), Outside},
		{"encrypted", with("b/data/x", func(h *zip.FileHeader) { h.Flags |= 1 }), Unreadable},
		{"a flipped bit", damaged(content, 1), Changed},
		{"cut off", cut, Unreadable},
	} {
		t.Run(c.name, func(t *testing.T) {
			v, err := Verify(t.Context(), c.path, nil)
			if err != nil {
				t.Fatal(err)
			}
			if got := kinds(v); !slices.Contains(got, c.want) {
				t.Errorf("found %q, want %q: %+v", got, c.want, v.Problems)
			}
		})
	}
}

// Two entries of a zip that share their bytes make it swell: such a zip is not
// read.
func TestEntriesOverOneAnother(t *testing.T) {
	_, good := seal(t, true)
	z, err := openZip(good)
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	z.size = 100
	v := &Verdict{}
	z.check(v)
	if got := kinds(v); !slices.Equal(got, []string{Unreadable}) {
		t.Errorf("found %q, want %q", got, Unreadable)
	}
}

// A shelf is walked for bags. What is damaged beyond recognition must not pass
// for something else.
func TestFindOnAShelf(t *testing.T) {
	shelf, _ := seal(t, false)
	if _, err := Seal(t.Context(), shelf, &Bag{Name: "OY-0143", Zip: true, Files: payload()}); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(shelf, "broken.zip"), "PK\x03\x04 and no more")
	write(t, filepath.Join(shelf, ".hidden.zip"), "no zip")
	write(t, filepath.Join(shelf, ".hidden", "bagit.txt"), "x")
	write(t, filepath.Join(shelf, "notes", "a.txt"), "x")
	other := hostile(t, func(z *zip.Writer) { put(t, z, &zip.FileHeader{Name: "photos/a.jpg"}, "x") })
	if err := os.Rename(other, filepath.Join(shelf, "listing.zip")); err != nil {
		t.Fatal(err)
	}
	found, err := Find(shelf)
	if err != nil {
		t.Fatal(err)
	}
	for i := range found {
		found[i] = filepath.Base(found[i])
	}
	if want := []string{"OY-0142", "OY-0143.zip", "broken.zip"}; !slices.Equal(found, want) {
		t.Errorf("found %q, want %q", found, want)
	}
	if v, err := Verify(t.Context(), filepath.Join(shelf, "broken.zip"), nil); err != nil || !slices.Equal(kinds(v), []string{Unreadable}) {
		t.Errorf("broken.zip: %+v, %v", v, err)
	}
	for _, path := range []string{filepath.Join(shelf, "notes"), filepath.Join(shelf, "listing.zip"), filepath.Join(shelf, "notes", "a.txt")} {
		if _, err := Verify(t.Context(), path, nil); !errors.Is(err, ErrNoBag) {
			t.Errorf("%s: error %v, want ErrNoBag", path, err)
		}
	}
}

func TestVerifyStopsWhenInterrupted(t *testing.T) {
	_, bag := seal(t, false)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := Verify(ctx, bag, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want context.Canceled", err)
	}
}

// A tag file that is absurdly large is refused before it is read.
func TestHugeTagFile(t *testing.T) {
	_, bag := seal(t, false)
	if err := os.Truncate(filepath.Join(bag, "manifest-sha512.txt"), maxTagFile+1); err != nil {
		t.Skip("no room for a hole here: ", err)
	}
	used := allocated(func() {
		v, err := verifyFS(t.Context(), os.DirFS(bag), bag)
		if err != nil || v.Valid() || !slices.Contains(kinds(v), Manifest) {
			t.Errorf("%v, %v", kinds(v), err)
		}
	})
	if used > 64<<20 {
		t.Errorf("allocated %d MiB", used>>20)
	}
}

// Of two files whose names differ only in case, one that is missing is missing,
// in anybody's bag; it is excused only where the bag counts one file itself, since
// it was made where both are one (the public suite has such a bag).
func TestMissingTwinIsMissing(t *testing.T) {
	sum := fmt.Sprintf("%x", sha512.Sum512([]byte("same\n")))
	manifest := sum + "  data/a.txt\n" + sum + "  data/A.TXT\n"
	for _, c := range []struct {
		name, info string
		both       bool
		want       []string
	}{
		{"both are there", "Payload-Oxum: 10.2\n", true, nil},
		{"one is missing, counted", "Payload-Oxum: 10.2\n", false, []string{Missing, Oxum}},
		{"one is missing, nothing is counted", "Contact-Name: other\n", false, []string{Missing}},
		{"one is missing, no bag-info.txt", "", false, []string{Missing}},
		{"the bag counts one", "Payload-Oxum: 5.1\n", false, nil},
	} {
		dir := t.TempDir()
		write(t, filepath.Join(dir, "bagit.txt"), "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n")
		write(t, filepath.Join(dir, "manifest-sha512.txt"), manifest)
		write(t, filepath.Join(dir, "data", "a.txt"), "same\n")
		if c.both {
			write(t, filepath.Join(dir, "data", "A.TXT"), "same\n")
		}
		if c.info != "" {
			write(t, filepath.Join(dir, "bag-info.txt"), c.info)
		}
		v, err := verifyFS(t.Context(), os.DirFS(dir), "bag")
		if err != nil {
			t.Fatal(err)
		}
		if got := kinds(v); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}
