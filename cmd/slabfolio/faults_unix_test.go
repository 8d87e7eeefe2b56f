//go:build unix

package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"slabfolio/listing/archive"
	"slabfolio/listing/stage"
)

// build makes the program as a maker gets it: what kills it here kills it there.
func build(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	path := filepath.Join(dir, "slabfolio")
	if out, err := exec.Command("go", "build", "-o", path, ".").CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, out)
	}
	for at := dir; at != filepath.Dir(at) && at != os.TempDir(); at = filepath.Dir(at) {
		if err := os.Chmod(at, 0o755); err != nil { // others run it too
			t.Fatal(err)
		}
	}
	return path
}

// faultTests are the faults that the program itself must survive. One build is
// enough for all.
var faultTests = []struct {
	name string
	test func(t *testing.T, program string)
}{
	{"killed at any moment", killedAtAnyMoment},
	{"set killed at any moment", setKilled},
	{"Ctrl-C leaves nothing", ctrlCLeavesNothing},
	{"Ctrl-C while verifying", ctrlCWhileVerifying},
	{"two runs at once", twoRunsAtOnce},
	{"permission denied", permissionDenied},
	{"disk full", diskFull},
	{"four machines", fourMachines},
	{"eight runs into one folder", eightRuns},
	{"watching", watching},
}

func TestFaultsSurvived(t *testing.T) {
	program := build(t)
	for _, f := range faultTests {
		t.Run(f.name, func(t *testing.T) { f.test(t, program) })
	}
}

// yard writes a piece with size bytes of originals.
func yard(t *testing.T, size int) (dir string) {
	t.Helper()
	dir = t.TempDir()
	noise := make([]byte, size)
	r := rand.New(rand.NewPCG(1, 2))
	for i := range noise {
		noise[i] = byte(r.Uint32())
	}
	write(t, filepath.Join(dir, "OY-0400", "piece.yaml"), "serial: OY-0400\ntitle: Board\nkind: serving board\nfinished: 2026-03-02\ntop: {outline: {diameter: 30 cm}, thickness: 2 cm, wood: [{species: european-ash}]}\n")
	write(t, filepath.Join(dir, "OY-0400", "process", "clip.mov"), string(noise))
	return dir
}

func write(t *testing.T, path, text string) {
	t.Helper()
	if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o755), os.WriteFile(path, []byte(text), 0o644)); err != nil {
		t.Fatal(err)
	}
}

// status runs a command and returns its exit status and what it said.
func status(t *testing.T, cmd *exec.Cmd) (int, string) {
	t.Helper()
	var b bytes.Buffer
	cmd.Stdout, cmd.Stderr = &b, &b
	err := cmd.Run()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	return cmd.ProcessState.ExitCode(), b.String()
}

// onShelf lists what is on the shelf: bags, which must all be valid, and hidden
// things.
func onShelf(t *testing.T, shelf string) (bags, hidden []string) {
	t.Helper()
	entries, err := os.ReadDir(shelf)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		t.Fatal(err)
	}
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), ".") {
			hidden = append(hidden, e.Name())
			continue
		}
		bags = append(bags, e.Name())
		v, err := archive.Verify(t.Context(), filepath.Join(shelf, e.Name()), nil)
		if err != nil || !v.Valid() {
			t.Errorf("%s is not whole: %+v, %v", e.Name(), v, err)
		}
	}
	return bags, hidden
}

// killedAtAnyMoment: what stands on the shelf under a bag's name is whole, and
// the next run clears away what the killed one left. SIGKILL, at random moments,
// for some seconds.
func killedAtAnyMoment(t *testing.T, program string) {
	dir := yard(t, 24<<20)
	r := rand.New(rand.NewPCG(3, 4))
	killed, halves := 0, 0
	shelf := filepath.Join(dir, "shelf")
	took := 1500 * time.Millisecond
	for start, i := time.Now(), 0; time.Since(start) < 9*time.Second; i++ {
		write(t, filepath.Join(dir, "OY-0400", "process", "note.txt"), fmt.Sprint(i)) // always something new
		args := []string{"archive", filepath.Join(dir, "OY-0400"), "--to", shelf}
		if i%2 == 1 {
			args = append(args, "--zip")
		}
		cmd := exec.Command(program, args...)
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		timer := time.AfterFunc(time.Duration(r.Int64N(int64(took))), func() { _ = cmd.Process.Kill() })
		begun := time.Now()
		err := cmd.Wait()
		if timer.Stop() && err == nil {
			took = time.Since(begun) // the next kill falls within a run
		} else {
			killed++
		}
		_, hidden := onShelf(t, shelf)
		for _, h := range hidden {
			if strings.HasSuffix(h, "being-sealed") {
				halves++
				break
			}
		}
	}
	t.Logf("%d runs killed, %d of them while a bag was being written", killed, halves)
	if killed == 0 {
		t.Error("no run was killed: the test shows nothing")
	}
	write(t, filepath.Join(dir, "OY-0400", "process", "note.txt"), "the last")
	if code, out := status(t, exec.Command(program, "archive", filepath.Join(dir, "OY-0400"), "--to", shelf)); code != 0 {
		t.Errorf("the run after: status %d\n%s", code, out)
	}
	if bags, hidden := onShelf(t, shelf); len(bags) == 0 || len(hidden) > 0 {
		t.Errorf("at the end: %d bags, left behind %q", len(bags), hidden)
	}
	if code, out := status(t, exec.Command(program, "verify", shelf)); code != 0 {
		t.Errorf("verify: status %d\n%s", code, out)
	}
}

// setKilled: a spec is the old one or the new one, whole, whenever set is killed; the
// next takes away what it left, but not what one that is alive is writing.
func setKilled(t *testing.T, program string) {
	dir := filepath.Join(yard(t, 1<<10), "OY-0400")
	spec := filepath.Join(dir, "piece.yaml")
	r := rand.New(rand.NewPCG(5, 6))
	killed, was, took := 0, "", 30*time.Millisecond
	for i := range 60 {
		cmd := exec.Command(program, "set", dir, fmt.Sprintf("mark=number %d", i))
		begun := time.Now()
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		timer := time.AfterFunc(time.Duration(r.Int64N(int64(took))), func() { _ = cmd.Process.Kill() })
		if err := cmd.Wait(); timer.Stop() && err == nil {
			took = time.Since(begun)
		} else {
			killed++
		}
		data, err := os.ReadFile(spec)
		now := fmt.Sprintf("\nmark: number %d\n", i)
		if err != nil || i > 0 && string(data) != was && !strings.HasSuffix(string(data), now) {
			t.Fatalf("after kill %d: %v\n%s", killed, err, data)
		}
		was = string(data)
	}
	if killed == 0 {
		t.Error("no run was killed: the test shows nothing")
	}
	write(t, filepath.Join(dir, ".piece.yaml.1.being-set"), "half")
	lock, err := stage.TryLock(filepath.Join(dir, ".piece.yaml"+stage.LockSuffix))
	if err != nil {
		t.Fatalf("a lock whose program was killed: %v", err)
	}
	cmd := exec.Command(program, "set", dir, "mark=the last")
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	time.Sleep(time.Second)
	if _, err := os.Stat(filepath.Join(dir, ".piece.yaml.1.being-set")); err != nil {
		t.Errorf("what another was writing: %v", err)
	}
	if err := errors.Join(lock.Release(), cmd.Wait()); err != nil {
		t.Fatal(err)
	}
	if left, _ := filepath.Glob(filepath.Join(dir, ".piece*")); len(left) > 0 {
		t.Errorf("left behind: %q", left)
	}
	if data, _ := os.ReadFile(spec); !strings.HasSuffix(string(data), "\nmark: the last\n") {
		t.Errorf("at the end:\n%s", data)
	}
}

// whileSealing starts the program and waits until it is writing a bag.
func whileSealing(t *testing.T, program, dir string) *exec.Cmd {
	t.Helper()
	cmd := exec.Command(program, "archive", filepath.Join(dir, "OY-0400"), "--to", filepath.Join(dir, "shelf"))
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	for range 20000 {
		if found, _ := filepath.Glob(filepath.Join(dir, "shelf", ".OY-0400.*being-sealed")); len(found) > 0 {
			return cmd
		}
		time.Sleep(time.Millisecond)
	}
	_ = cmd.Process.Kill()
	t.Fatal("the program never began to seal")
	return nil
}

func ctrlCLeavesNothing(t *testing.T, program string) {
	dir := yard(t, 96<<20)
	cmd := whileSealing(t, program, dir)
	if err := cmd.Process.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	_ = cmd.Wait()
	if code := cmd.ProcessState.ExitCode(); code != exitInterrupted {
		t.Errorf("status %d, want %d", code, exitInterrupted)
	}
	if bags, hidden := onShelf(t, filepath.Join(dir, "shelf")); len(bags)+len(hidden) > 0 {
		t.Errorf("left on the shelf: %q, %q", bags, hidden)
	}
}

// ctrlCWhileVerifying: a bag with a hole of 8 GB in it takes long enough to read.
// The verdict on the small bag before it tells that the program is at work.
func ctrlCWhileVerifying(t *testing.T, program string) {
	dir := t.TempDir()
	write(t, filepath.Join(dir, "a", "bagit.txt"), "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n")
	write(t, filepath.Join(dir, "b", "bagit.txt"), "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n")
	write(t, filepath.Join(dir, "b", "manifest-sha512.txt"), strings.Repeat("0", 128)+"  data/large.raw\n")
	write(t, filepath.Join(dir, "b", "data", "large.raw"), "x")
	if err := os.Truncate(filepath.Join(dir, "b", "data", "large.raw"), 8<<30); err != nil {
		t.Skip("no room for a hole here: ", err)
	}
	cmd := exec.Command(program, "verify", dir)
	said, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	if _, err := said.Read(make([]byte, 1)); err != nil {
		t.Errorf("nothing is said of the small bag: %v", err)
	}
	if err := cmd.Process.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	_ = cmd.Wait()
	if code := cmd.ProcessState.ExitCode(); code != exitInterrupted {
		t.Errorf("status %d, want %d", code, exitInterrupted)
	}
}

func twoRunsAtOnce(t *testing.T, program string) {
	dir := yard(t, 96<<20)
	first := whileSealing(t, program, dir)
	code, out := status(t, exec.Command(program, "archive", filepath.Join(dir, "OY-0400"), "--to", filepath.Join(dir, "shelf")))
	if code != exitFailed || !strings.Contains(out, "another run is working on it") {
		t.Errorf("the second run: status %d, want %d and a word about the first\n%s", code, exitFailed, out)
	}
	if err := first.Wait(); err != nil {
		t.Errorf("the first run: %v", err)
	}
	if bags, hidden := onShelf(t, filepath.Join(dir, "shelf")); len(bags) != 1 || len(hidden) > 0 {
		t.Errorf("on the shelf: %q, %q, want one bag", bags, hidden)
	}
}

// asNobody makes a command run without the rights of root.
func asNobody(cmd *exec.Cmd) *exec.Cmd {
	if os.Geteuid() == 0 {
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534}}
	}
	cmd.Env = append(os.Environ(), "HOME=/nonexistent", "XDG_CACHE_HOME=/nonexistent")
	return cmd
}

func permissionDenied(t *testing.T, program string) {
	dir := yard(t, 1000)
	shelf, clip := filepath.Join(dir, "shelf"), filepath.Join(dir, "OY-0400", "process", "clip.mov")
	for at := dir; at != filepath.Dir(at) && at != os.TempDir(); at = filepath.Dir(at) {
		if err := os.Chmod(at, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	archiveIt := func() (int, string) {
		return status(t, asNobody(exec.Command(program, "archive", filepath.Join(dir, "OY-0400"), "--to", shelf)))
	}
	chmod := func(path string, mode fs.FileMode) {
		if err := os.Chmod(path, mode); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir(shelf, 0o555); err != nil {
		t.Fatal(err)
	}
	if code, out := archiveIt(); code != exitFailed || !strings.Contains(out, "not allowed") {
		t.Errorf("a shelf that cannot be written to: status %d, want %d\n%s", code, exitFailed, out)
	}
	chmod(shelf, 0o777)
	chmod(clip, 0)
	if code, out := archiveIt(); code != exitFailed || !strings.Contains(out, "not allowed") {
		t.Errorf("a file that cannot be read: status %d, want %d\n%s", code, exitFailed, out)
	}
	if bags, hidden := onShelf(t, shelf); len(bags)+len(hidden) > 0 {
		t.Errorf("left on the shelf: %q, %q", bags, hidden)
	}
	chmod(clip, 0o644)
	if code, out := archiveIt(); code != 0 {
		t.Errorf("with leave to: status %d\n%s", code, out)
	}
	chmod(filepath.Join(shelf, "OY-0400", "data", "piece", "process", "clip.mov"), 0)
	code, out := status(t, asNobody(exec.Command(program, "verify", shelf)))
	if code != exitFault || !strings.Contains(out, "cannot be read") || !strings.Contains(out, "1 file unreadable") || strings.Contains(out, "not what it was") {
		t.Errorf("verify of an unreadable file: status %d, want %d and that it cannot be read\n%s", code, exitFault, out)
	}
}
