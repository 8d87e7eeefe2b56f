package archive

import (
	"context"
	"crypto/sha512"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"
)

// awkward are names that have broken archives before.
var awkward = []string{
	"piece/piece.yaml",
	"piece/" + strings.Repeat("n", 251) + ".jpg", // 255 bytes, the most that file systems take
	"piece/caf\u00e9.jpg",                        // composed, and
	"piece/cafe\u0301.jpg",                       // taken apart: twins
	"piece/a name with spaces.jpg",
	"piece/-dash.jpg",
	"piece/process/100%.jpg", // encoded in a 1.0 manifest
	"piece/process/25%25.jpg",
	"piece/process/two\nlines.jpg",
	"piece/process/carriage\rreturn.jpg",
	"piece/empty.txt",
	"piece/木目.jpg",
	"piece/quote'\"`$.jpg",
	"README.txt",
}

func payload() (files []File) {
	for i, name := range awkward {
		data := []byte(fmt.Sprintf("content %d of %s", i, name))
		if strings.Contains(name, "empty") {
			data = nil
		}
		files = append(files, File{Path: name, Data: data})
	}
	return files
}

func seal(t *testing.T, zip bool) (shelf, path string) {
	t.Helper()
	shelf = t.TempDir()
	b := &Bag{Name: "OY-0142", Files: payload(), Zip: zip, Info: []Info{{"Source-Organization", "Ostrel Yard"}, {"Bagging-Date", "2026-10-01"}}}
	if _, err := Seal(t.Context(), shelf, b); err != nil {
		t.Fatal(err)
	}
	return shelf, filepath.Join(shelf, b.fileName())
}

func valid(t *testing.T, path string) *Verdict {
	t.Helper()
	v, err := Verify(t.Context(), path, &Options{Jobs: 2})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range v.Problems {
		t.Logf("%s %v %s", p.Kind, p.Warning, p.Message)
	}
	if !v.Valid() {
		t.Errorf("%s is not valid", path)
	}
	return v
}

func TestSealedBagIsValid(t *testing.T) {
	for _, zip := range []bool{false, true} {
		t.Run(fmt.Sprintf("zip=%v", zip), func(t *testing.T) {
			_, path := seal(t, zip)
			if v := valid(t, path); v.Files != len(awkward) {
				t.Errorf("%d files, want %d", v.Files, len(awkward))
			}
		})
	}
}

// required fails or skips a test that needs a program of the machine.
func required(t *testing.T, program string) string {
	t.Helper()
	path, err := exec.LookPath(program)
	if err != nil {
		if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
			t.Fatal(err)
		}
		t.Skip("no ", program, " on this machine")
	}
	return path
}

// The checksums must be right for a program that is not ours: sha512sum of GNU
// coreutils. It knows nothing of percent-encoding (RFC 8493, 2.1.3), so it must
// find every file but those whose names hold %, CR or LF. No validator of bags is
// to be had for this test: Debian packages none, and of the two programs that the
// npm registry has, one needs a Python program that it does not bring and the other
// reads single files and judges no bag.
func TestSha512sumAgrees(t *testing.T) {
	program := required(t, "sha512sum")
	for _, zip := range []bool{false, true} {
		t.Run(fmt.Sprintf("zip=%v", zip), func(t *testing.T) {
			_, path := seal(t, zip)
			if zip {
				out := t.TempDir()
				if text, err := exec.Command(required(t, "unzip"), "-q", path, "-d", out).CombinedOutput(); err != nil {
					t.Fatalf("unzip: %v: %s", err, text)
				}
				path = filepath.Join(out, "OY-0142")
			}
			for _, list := range []string{"manifest-sha512.txt", "tagmanifest-sha512.txt"} {
				want := 3 // bagit.txt, bag-info.txt, the manifest
				if !strings.HasPrefix(list, "tag") {
					want = len(awkward) - 4
				}
				cmd := exec.Command(program, "-c", list)
				cmd.Dir, cmd.Env = path, append(os.Environ(), "LC_ALL=C")
				text, _ := cmd.Output() // fails for the encoded names
				ok := strings.Count(string(text), ": OK\n")
				if ok != want || strings.Contains(string(text), "FAILED\n") {
					t.Errorf("%s: %d lines OK, want %d:\n%s", list, ok, want, text)
				}
			}
		})
	}
}

// The two lines of bagit.txt are fixed by RFC 8493, 2.1.1; the conformance suite
// gives their SHA-512 in v1.0/valid/basicBag.
func TestDeclarationIsTheStandards(t *testing.T) {
	_, path := seal(t, false)
	data, err := os.ReadFile(filepath.Join(path, "bagit.txt"))
	if err != nil {
		t.Fatal(err)
	}
	sum := sha512.Sum512(data)
	got := hex.EncodeToString(sum[:])
	if !strings.HasPrefix(got, "1d73ae10") || !strings.HasSuffix(got, "26f2fbd8") {
		t.Errorf("SHA-512 of bagit.txt is %s, want 1d73ae10…26f2fbd8", got)
	}
}

func TestSameBagSameBytes(t *testing.T) {
	_, a := seal(t, true)
	_, b := seal(t, true)
	x, err1 := os.ReadFile(a)
	y, err2 := os.ReadFile(b)
	if err := errors.Join(err1, err2); err != nil {
		t.Fatal(err)
	}
	if string(x) != string(y) {
		t.Error("two zips of the same bag differ")
	}
}

func TestBagIsNeverOverwritten(t *testing.T) {
	shelf, path := seal(t, false)
	before, _ := os.ReadFile(filepath.Join(path, "manifest-sha512.txt"))
	_, err := Seal(t.Context(), shelf, &Bag{Name: "OY-0142", Files: []File{{Path: "other", Data: []byte("x")}}})
	if !errors.Is(err, fs.ErrExist) {
		t.Errorf("error %v, want one that matches fs.ErrExist", err)
	}
	if after, _ := os.ReadFile(filepath.Join(path, "manifest-sha512.txt")); string(after) != string(before) {
		t.Error("the bag was changed")
	}
}

func TestBadNamesAreRefused(t *testing.T) {
	for _, name := range []string{"../out", "a/../../out", "/abs", "", ".", "a//b", "a/./b", `a\b`, "bad\xffutf"} {
		shelf := t.TempDir()
		if _, err := Seal(t.Context(), shelf, &Bag{Name: "b", Files: []File{{Path: name, Data: []byte("x")}}}); err == nil {
			t.Errorf("%q was sealed", name)
		}
		empty(t, shelf)
	}
	twice := []File{{Path: "a", Data: []byte("x")}, {Path: "a", Data: []byte("y")}}
	if _, err := Seal(t.Context(), t.TempDir(), &Bag{Name: "b", Files: twice}); err == nil {
		t.Error("a name was sealed twice")
	}
}

// empty wants nothing on the shelf, hidden or not.
func empty(t *testing.T, shelf string) {
	t.Helper()
	entries, err := os.ReadDir(shelf)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		t.Errorf("left on the shelf: %s", e.Name())
	}
}

// large makes a file with a hole in it: it takes time to read and no room.
func large(t *testing.T, size int64) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "large.raw")
	if err := os.WriteFile(path, []byte("head"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(path, size); err != nil {
		t.Fatal(err)
	}
	return path
}

// whileSealing seals a large file and does something to it once its copy has
// begun.
func whileSealing(t *testing.T, ctx context.Context, source string, do func()) (shelf string, err error) {
	t.Helper()
	shelf = t.TempDir()
	copied := filepath.Join(shelf, ".b"+beingSealed, "data", "large.raw")
	done := make(chan error, 1)
	go func() {
		_, err := Seal(ctx, shelf, &Bag{Name: "b", Files: []File{{Path: "large.raw", Source: source}}})
		done <- err
	}()
	for {
		if info, err := os.Stat(copied); err == nil && info.Size() > 1<<20 {
			break
		}
		time.Sleep(100 * time.Microsecond)
	}
	do()
	return shelf, <-done
}

// largeSize takes a few tenths of a second to seal.
const largeSize = 64 << 20

func TestFileChangedWhileItIsSealed(t *testing.T) {
	for name, change := range map[string]func(path string) error{
		"grown": func(path string) error {
			f, err := os.OpenFile(path, os.O_WRONLY|os.O_APPEND, 0)
			if err != nil {
				return err
			}
			_, err = f.WriteString("more")
			return errors.Join(err, f.Close())
		},
		"cut": func(path string) error { return os.Truncate(path, 100) },
		"replaced": func(path string) error {
			return errors.Join(os.WriteFile(path+"2", []byte("new"), 0o644), os.Rename(path+"2", path))
		},
		"removed": os.Remove,
		"written into": func(path string) error {
			f, err := os.OpenFile(path, os.O_WRONLY, 0)
			if err != nil {
				return err
			}
			_, err = f.WriteAt([]byte("X"), 0)
			return errors.Join(err, f.Close())
		},
	} {
		t.Run(name, func(t *testing.T) {
			source := large(t, largeSize)
			shelf, err := whileSealing(t, t.Context(), source, func() {
				if err := change(source); err != nil {
					t.Error(err)
				}
			})
			var changed *ChangedError
			if !errors.As(err, &changed) {
				t.Errorf("error %v, want a ChangedError", err)
			}
			empty(t, shelf)
		})
	}
}

func TestFileGoneOrOtherThanItWas(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.jpg")
	if err := os.WriteFile(path, []byte("now"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, f := range []File{{Path: "a", Source: filepath.Join(dir, "gone.jpg")}, {Path: "a", Source: path, SHA256: strings.Repeat("0", 64)}} {
		shelf := t.TempDir()
		_, err := Seal(t.Context(), shelf, &Bag{Name: "b", Files: []File{f}})
		var changed *ChangedError
		if !errors.As(err, &changed) || changed.Path != "a" {
			t.Errorf("%s: error %v, want a ChangedError of a", f.Source, err)
		}
		empty(t, shelf)
	}
}

func TestInterruptedLeavesNothing(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	shelf, err := whileSealing(t, ctx, large(t, largeSize), cancel)
	if !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want context.Canceled", err)
	}
	empty(t, shelf)
}

func TestSweepTakesOnlyOurs(t *testing.T) {
	shelf, _ := seal(t, false)
	for _, name := range []string{".OY-1" + beingSealed, ".OY-2.zip" + beingSealed, ".hidden", "OY-3.txt"} {
		if err := os.MkdirAll(filepath.Join(shelf, name, "data"), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	if err := Sweep(shelf); err != nil {
		t.Fatal(err)
	}
	entries, _ := os.ReadDir(shelf)
	var left []string
	for _, e := range entries {
		left = append(left, e.Name())
	}
	if want := []string{".hidden", "OY-0142", "OY-3.txt"}; !slices.Equal(left, want) {
		t.Errorf("left %q, want %q", left, want)
	}
}

// A piece of 5 GB must be sealed in 200 MiB. What sealing and verifying allocate
// in all must not grow with the files: 64 MiB here.
func TestMemoryDoesNotGrowWithFiles(t *testing.T) {
	shelf := t.TempDir()
	used := allocated(func() {
		if _, err := Seal(t.Context(), shelf, &Bag{Name: "b", Files: []File{{Path: "large.raw", Source: large(t, largeSize)}}, Zip: true}); err != nil {
			t.Fatal(err)
		}
	})
	if used > 8<<20 {
		t.Errorf("sealing allocated %d MiB", used>>20)
	}
	used = allocated(func() { valid(t, filepath.Join(shelf, "b.zip")) })
	if used > 8<<20 {
		t.Errorf("verifying allocated %d MiB", used>>20)
	}
}

func allocated(do func()) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	do()
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}
