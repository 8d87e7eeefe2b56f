//go:build unix

package main

import (
	"bufio"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// watched is a running watch whose lines can be waited for.
type watched struct {
	t     *testing.T
	cmd   *exec.Cmd
	lines chan string
	seen  []string
}

func startWatch(t *testing.T, program, dir, out string, args ...string) *watched {
	t.Helper()
	w := &watched{t: t, lines: make(chan string, 1000)}
	w.cmd = exec.Command(program, append([]string{"watch", dir, "--out", out, "--cache", out + "-cache"}, args...)...)
	pipe, err := w.cmd.StderrPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := w.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = w.cmd.Process.Kill() })
	go func() {
		for s := bufio.NewScanner(pipe); s.Scan(); {
			w.lines <- s.Text()
		}
		close(w.lines)
	}()
	w.until("waiting for changes")
	return w
}

// until reads lines up to one that holds the words.
func (w *watched) until(words string) {
	w.t.Helper()
	for deadline := time.After(60 * time.Second); ; {
		select {
		case line, ok := <-w.lines:
			if w.seen = append(w.seen, line); ok && strings.Contains(line, words) {
				return
			} else if !ok {
				w.t.Fatalf("it ended before %q:\n%s", words, strings.Join(w.seen, "\n"))
			}
		case <-deadline:
			w.t.Fatalf("no line with %q:\n%s", words, strings.Join(w.seen, "\n"))
		}
	}
}

// watching: what changes is prepared again, several saves as one; a spec broken in
// mid-edit keeps the last good outputs; Ctrl-C ends it well. With and without the
// system's help.
func watching(t *testing.T, program string) {
	for _, args := range [][]string{nil, {"--poll"}} {
		dir := collection(t, 2)
		out := filepath.Join(t.TempDir(), "out")
		w := startWatch(t, program, dir, out, args...)
		spec := filepath.Join(dir, "OY-1001", "piece.yaml")
		text, err := os.ReadFile(spec)
		if err != nil {
			t.Fatal(err)
		}
		page := func() string {
			data, _ := os.ReadFile(filepath.Join(out, "OY-1001", "listing", "listing.txt"))
			return string(data)
		}
		for _, title := range []string{"Oak board", "Elm board"} { // two saves, one after the other
			write(t, spec, strings.Replace(string(text), "Board 1", title, 1))
		}
		w.until("OY-1001/piece.yaml changed")
		w.until("OY-1001: prepared")
		if !strings.Contains(page(), "Elm board") {
			t.Errorf("%v: the page:\n%s", args, page())
		}
		write(t, spec, "serial: [half a line\n")
		w.until("OY-1001/piece.yaml changed")
		w.until("left out")
		if !strings.Contains(page(), "Elm board") {
			t.Errorf("%v: a broken spec took the page with it", args)
		}
		write(t, spec, string(text))
		w.until("OY-1001: prepared")
		write(t, filepath.Join(dir, "OY-1001", ".piece.yaml.swp"), "x") // an editor's own
		write(t, filepath.Join(dir, "OY-1002", "piece.yaml"), strings.NewReplacer("OY-1001", "OY-1002", "Board 1", "Board 2").Replace(string(text)))
		w.until("OY-1002: prepared")
		for _, line := range w.seen {
			if strings.Contains(line, ".swp") || strings.Contains(line, "OY-1000") && strings.Contains(line, "changed") {
				t.Errorf("%v: told of what did not matter: %s", args, line)
			}
		}
		if args != nil { // a network drive goes away and comes back
			if err := os.Rename(dir, dir+"-away"); err != nil {
				t.Fatal(err)
			}
			w.until("it may come back")
			if err := os.Rename(dir+"-away", dir); err != nil {
				t.Fatal(err)
			}
			w.until("OY-1002: up to date")
		}
		if err := w.cmd.Process.Signal(syscall.SIGINT); err != nil {
			t.Fatal(err)
		}
		var exit *exec.ExitError
		if err := w.cmd.Wait(); !errors.As(err, &exit) || exit.ExitCode() != exitInterrupted {
			t.Errorf("%v: Ctrl-C ended it with %v", args, err)
		}
	}
}
