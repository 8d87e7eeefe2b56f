//go:build unix

package main

import (
	"bytes"
	"fmt"
	"image/jpeg"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// collection writes n pieces, every third with a photo.
func collection(t *testing.T, n int) (dir string) {
	t.Helper()
	dir = t.TempDir()
	write(t, filepath.Join(dir, "workshop.yaml"), "workshop: {name: Ostrel Yard, address: \"4 Kiln Lane, Ostrel\", email: bench@ostrel-yard.example}\nunits: mm\ncurrency: GBP\n")
	var photo bytes.Buffer
	if err := jpeg.Encode(&photo, slab(320, 240, 1), nil); err != nil {
		t.Fatal(err)
	}
	for i := range n {
		piece := filepath.Join(dir, fmt.Sprintf("OY-%04d", 1000+i))
		write(t, filepath.Join(piece, "piece.yaml"), fmt.Sprintf("serial: %s\ntitle: Board %d\nkind: serving board\nfinished: 2026-03-02\ntop: {outline: {diameter: %d mm}, thickness: 20 mm, wood: [{species: european-ash}]}\n", filepath.Base(piece), i, 250+i))
		if i%3 == 0 {
			write(t, filepath.Join(piece, "front.jpg"), photo.String())
		}
	}
	return dir
}

// allFiles reads every file below a folder, hidden ones too.
func allFiles(t *testing.T, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(filepath.Join(dir, name))
		files[name] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func wantSameTree(t *testing.T, what string, got, want map[string]string) {
	t.Helper()
	for name, text := range want {
		if g, ok := got[name]; !ok || g != text {
			t.Errorf("%s: %s is there: %v, and not the same", what, name, ok)
		}
	}
	for name := range got {
		if _, ok := want[name]; !ok {
			t.Errorf("%s: %s is too much", what, name)
		}
	}
}

// fourMachines: four parts, each a process with a cache and an OUT of its own,
// merge by copying; a last run over all rebuilds what covers all pieces. The
// merged folder is that of a single run, byte for byte, also when one part was
// killed and run again, and when all parts share one OUT.
func fourMachines(t *testing.T, program string) {
	dir := collection(t, 8)
	work := t.TempDir()
	run := func(out string, args ...string) *exec.Cmd {
		return exec.Command(program, append([]string{"prepare", dir, "--out", filepath.Join(work, out), "--cache", filepath.Join(work, "cache-"+out), "--quiet"}, args...)...)
	}
	must := func(cmd *exec.Cmd) {
		t.Helper()
		if code, said := status(t, cmd); code != 0 {
			t.Fatalf("%v: status %d: %s", cmd.Args[1:], code, said)
		}
	}
	must(run("single"))
	want := allFiles(t, filepath.Join(work, "single"))
	if len(want) < 8*8 {
		t.Fatalf("a single run made %d files", len(want))
	}
	var wg sync.WaitGroup
	for i := range 4 {
		wg.Go(func() {
			part := fmt.Sprintf("part%d", i+1)
			if i == 2 { // killed early on, and run again
				cmd := run(part, "--part", "3/4")
				if err := cmd.Start(); err != nil {
					t.Error(err)
					return
				}
				time.AfterFunc(60*time.Millisecond, func() { _ = cmd.Process.Kill() })
				_ = cmd.Wait() // killed, or done before
			}
			if out, err := run(part, "--part", fmt.Sprintf("%d/4", i+1)).CombinedOutput(); err != nil {
				t.Errorf("%s: %v\n%s", part, err, out)
			}
		})
	}
	wg.Wait()
	merged := filepath.Join(work, "merged")
	for i := range 4 {
		from := filepath.Join(work, fmt.Sprintf("part%d", i+1))
		if out, err := exec.Command("sh", "-c", fmt.Sprintf("mkdir -p '%s' && cp -R '%s'/* '%s'/", merged, from, merged)).CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
	}
	must(run("merged"))
	wantSameTree(t, "merged by copying", allFiles(t, merged), want)

	for i := range 4 {
		wg.Go(func() {
			if out, err := run("shared", "--part", fmt.Sprintf("%d/4", i+1)).CombinedOutput(); err != nil {
				t.Errorf("shared, part %d: %v\n%s", i+1, err, out)
			}
		})
	}
	wg.Wait()
	wantSameTree(t, "one shared folder", allFiles(t, filepath.Join(work, "shared")), want)
}

// eightRuns: whole runs over the same collection into one OUT at the same time.
// Each piece is made by one of them; what another makes is told as busy, nothing
// fails for another's half-written part, and nothing is left behind.
func eightRuns(t *testing.T, program string) {
	dir := collection(t, 5)
	out := filepath.Join(t.TempDir(), "out")
	var wg sync.WaitGroup
	var mu sync.Mutex
	var wrong []string
	for i := range 8 {
		wg.Go(func() {
			cmd := exec.Command(program, "prepare", dir, "--out", out, "--cache", filepath.Join(filepath.Dir(out), fmt.Sprint("cache", i)), "--force")
			said, _ := cmd.CombinedOutput()
			mu.Lock()
			defer mu.Unlock()
			if code := cmd.ProcessState.ExitCode(); code != 0 && (code != 1 || !strings.Contains(string(said), "another run is working on it")) {
				wrong = append(wrong, fmt.Sprintf("status %d: %s", code, said))
			}
		})
	}
	wg.Wait()
	for _, w := range wrong {
		t.Error(w)
	}
	if code, said := status(t, exec.Command(program, "prepare", dir, "--out", out, "--cache", filepath.Join(filepath.Dir(out), "cache"))); code != 0 {
		t.Fatalf("status %d: %s", code, said)
	}
	got := allFiles(t, out)
	for name := range got {
		base := filepath.Base(name)
		if strings.Contains(base, ".slabfolio-") && base != ".slabfolio-written" || strings.Contains(base, ".kept") {
			t.Errorf("left behind: %s", name)
		}
	}
	single := filepath.Join(filepath.Dir(out), "single")
	if code, said := status(t, exec.Command(program, "prepare", dir, "--out", single, "--cache", filepath.Join(filepath.Dir(out), "cache-single"))); code != 0 {
		t.Fatalf("status %d: %s", code, said)
	}
	wantSameTree(t, "eight runs", got, allFiles(t, single))
}
