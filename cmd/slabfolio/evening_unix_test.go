//go:build unix

package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/creack/pty"

	"slabfolio/testdata/golden"
)

// An evening is a person at a terminal: what they type, and what stands there.
type evening struct {
	t      *testing.T
	dir    string
	screen strings.Builder
	typed  int // keys pressed, Enter too
	waited time.Duration
}

// run types a command line and then the answers, each as soon as the program waits
// for one.
func (e *evening) run(line string, answers ...string) {
	e.t.Helper()
	fmt.Fprintf(&e.screen, "$ %s\n", line)
	e.typed += utf8.RuneCountInString(line) + 1
	fields := strings.Fields(line)
	cmd := exec.Command(fields[0], fields[1:]...)
	cmd.Dir = e.dir
	cmd.Env = append(os.Environ(), "TERM=xterm", "NO_COLOR=1", "SOURCE_DATE_EPOCH=1796083200", "TZ=UTC", "HOME="+e.dir, "XDG_CACHE_HOME="+filepath.Join(e.dir, ".cache"))
	began := time.Now()
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: 24, Cols: 80})
	if err != nil {
		e.t.Fatal(err)
	}
	defer tty.Close()
	read := make(chan []byte)
	go func() {
		defer close(read)
		for {
			b := make([]byte, 4096)
			n, err := tty.Read(b)
			if n > 0 {
				read <- b[:n]
			}
			if err != nil {
				return // at its end a pseudo-terminal gives an error
			}
		}
	}()
	var out []byte
	deadline := time.After(5 * time.Minute)
	for open := true; open; {
		select {
		case b, ok := <-read:
			out, open = append(out, b...), ok
			if !ok || !bytes.HasSuffix(out, []byte("> ")) {
				continue
			}
			if len(answers) == 0 {
				e.t.Fatalf("it asks more than was thought of:\n%s", out)
			}
			e.typed += utf8.RuneCountInString(answers[0]) + 1
			if _, err := tty.WriteString(answers[0] + "\n"); err != nil {
				e.t.Fatal(err)
			}
			answers = answers[1:]
		case <-deadline:
			_ = cmd.Process.Kill()
			e.t.Fatalf("it does not end:\n%s", out)
		}
	}
	if err := cmd.Wait(); err != nil || len(answers) > 0 {
		e.t.Errorf("%s: %v; not asked: %q\n%s", line, err, answers, out)
	}
	e.waited += time.Since(began)
	e.screen.WriteString(asSeen(string(out)) + "\n")
}

var (
	escapes = regexp.MustCompile("\x1b\\[[0-9;?]*[A-Za-z]")
	bars    = regexp.MustCompile(`(?m)^\d+ of \d+ pieces? [━─]*.*%[ ]*\n?`)
	struck  = regexp.MustCompile(`.\x08 \x08`)
)

// asSeen is what stands on a terminal in the end: letters that were struck out are
// gone, and so is the progress bar.
func asSeen(text string) string {
	text = strings.ReplaceAll(escapes.ReplaceAllString(text, ""), "\r\n", "\n")
	for struck.MatchString(text) {
		text = struck.ReplaceAllString(text, "")
	}
	text = strings.ReplaceAll(text, "\r", "\n")
	return bars.ReplaceAllString(text, "")
}

// Ctrl-C at a question leaves nothing behind, not even a folder.
func TestEveningInterrupted(t *testing.T) {
	dir := t.TempDir()
	card := filepath.Join(dir, "card")
	if err := os.Mkdir(card, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(card, "a.jpg"), asJPEG(slab(300, 200, 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("slabfolio", "new", "yard/OY-1", "--from", "card")
	cmd.Dir = dir
	tty, err := pty.Start(cmd)
	if err != nil {
		t.Fatal(err)
	}
	defer tty.Close()
	var out bytes.Buffer
	for b := make([]byte, 4096); !bytes.HasSuffix(out.Bytes(), []byte("> ")); {
		n, err := tty.Read(b)
		if out.Write(b[:n]); err != nil {
			t.Fatalf("%v: %s", err, out.Bytes())
		}
	}
	if _, err := tty.WriteString("Ostrel\x03"); err != nil {
		t.Fatal(err)
	}
	rest, _ := io.ReadAll(tty) // at its end a pseudo-terminal gives an error
	var exit *exec.ExitError
	if err := cmd.Wait(); !errors.As(err, &exit) || exit.ExitCode() != exitInterrupted {
		t.Errorf("%v: %s", err, rest)
	}
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) != 1 {
		t.Errorf("%v is left, %v", entries, err)
	}
}

// Ctrl-C in the middle of the questions on a piece lays no piece out, and keeps what
// was answered; new takes it up.
func TestEveningInterruptedKeepsAnswers(t *testing.T) {
	dir := t.TempDir()
	for range 2 { // the second time the first answers stay as they are
		cmd := exec.Command("slabfolio", "new", "yard/OY-1")
		cmd.Dir = dir
		tty, err := pty.Start(cmd)
		if err != nil {
			t.Fatal(err)
		}
		defer tty.Close()
		answers := []string{"Ostrel Yard\n", "skip\n", "skip\n", "skip\n", "skip\n", "skip\n", "bench\n", "Long bench\n", "56 in\n", "\x03"}
		if _, err := os.Stat(filepath.Join(dir, "yard", "workshop.yaml")); err == nil {
			answers = answers[6:]
		}
		var out bytes.Buffer
		for b := make([]byte, 4096); len(answers) > 0; {
			n, err := tty.Read(b)
			if out.Write(b[:n]); err != nil {
				t.Fatalf("%v: %s", err, out.Bytes())
			}
			if bytes.HasSuffix(out.Bytes(), []byte("> ")) {
				if _, err := tty.WriteString(answers[0]); err != nil {
					t.Fatal(err)
				}
				answers = answers[1:]
			}
		}
		rest, _ := io.ReadAll(tty) // at its end a pseudo-terminal gives an error
		var exit *exec.ExitError
		if err := cmd.Wait(); !errors.As(err, &exit) || exit.ExitCode() != exitInterrupted || len(rest) > 2 && !bytes.Contains(rest, []byte("--answers")) { // a terminal that closes may swallow the last lines
			t.Errorf("%v: %s", err, rest)
		}
	}
	first, _ := os.ReadFile(filepath.Join(dir, "yard", "OY-1-answers.yaml"))
	second, _ := os.ReadFile(filepath.Join(dir, "yard", "OY-1-answers-2.yaml"))
	if !bytes.Contains(first, []byte("title: Long bench")) || !bytes.Contains(first, []byte("length: 56 in")) || !bytes.Equal(first, second) {
		t.Errorf("kept: %s and %s", first, second)
	}
	if _, err := os.Stat(filepath.Join(dir, "yard", "OY-1")); err == nil {
		t.Error("a piece is laid out")
	}
	cmd := exec.Command("slabfolio", "new", "yard/OY-1", "--answers", filepath.Join("yard", "OY-1-answers.yaml"))
	cmd.Dir = dir
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Errorf("%v: %s", err, out)
	}
	spec, _ := os.ReadFile(filepath.Join(dir, "yard", "OY-1", "piece.yaml"))
	if !bytes.Contains(spec, []byte("title: Long bench")) || !bytes.Contains(spec, []byte("length: 56 in")) {
		t.Errorf("the answers are not taken up: %s", spec)
	}
}

// The evening a piece is finished, from an empty folder and a card to a bundle that
// can be published, with the slips that tired hands make. The golden file is what
// stands on the terminal; it is there to be read.
func TestEvening(t *testing.T) {
	if _, err := exec.LookPath("slabfolio"); err != nil {
		t.Fatal(err)
	}
	e := &evening{t: t, dir: t.TempDir()}
	card := map[string][]byte{"IMG_2041.JPG": asJPEG(slab(2000, 1400, 1)), "IMG_2042.JPG": asJPEG(slab(1500, 2000, 0.9)), "MVI_2046.MOV": []byte("film")}
	for i, side := range []float64{0.1, 0.3, 0.6} {
		card[fmt.Sprintf("IMG_204%d.JPG", 3+i)] = lightFrame(side, 0)
	}
	if err := os.MkdirAll(filepath.Join(e.dir, "DCIM", "100OSTR"), 0o755); err != nil {
		t.Fatal(err)
	}
	day := time.Date(2026, 11, 30, 12, 0, 0, 0, time.UTC)
	for name, data := range card {
		at := filepath.Join(e.dir, "DCIM", "100OSTR", name)
		if err := os.WriteFile(at, data, 0o644); err != nil {
			t.Fatal(err)
		}
		if err := os.Chtimes(at, day, day); err != nil {
			t.Fatal(err)
		}
	}
	const strike = "\x7f"
	e.run("slabfolio new yard/OY-0301 --from DCIM",
		"Ostrel Yard", "1 Yard Lane, Ostrel", "uk", "hello at ostrel", "hello@ostrel-yard.example", "pounds", "inches",
		"river tabel", "coffee table", "Estuary table", "about 44", "yes", "24 1/2, 25, 24 in", "?", "1 3/4",
		"walnut and blue resin", "blakc"+strike+strike+"ck walnut and blue resin", "18", "yes",
		"two welded steel frames, 15 1/2 in high", "hard wax", "hardwax oil, 2 coats", "£950")
	e.run("slabfolio check yard/OY-0301")
	e.run("slabfolio prepare yard")
	for _, name := range []string{"index.html", "OY-0301/sheet.pdf", "OY-0301/listing.zip", "OY-0301/listing/index.html", "OY-0301/certificate.pdf"} {
		if _, err := os.Stat(filepath.Join(e.dir, "prepared", filepath.FromSlash(name))); err != nil {
			t.Errorf("the evening does not end with %s", name)
		}
	}
	spec, err := os.ReadFile(filepath.Join(e.dir, "yard", "OY-0301", "piece.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	const slow = 120.0 // keys a minute, of somebody who does not type much (common practice, no source)
	fmt.Fprintf(&e.screen, "(%d keys pressed)\n\npiece.yaml:\n%s", e.typed, spec)
	t.Logf("%d keys, %.1f minutes at %.0f a minute; the program took %.1f s", e.typed, float64(e.typed)/slow, slow, e.waited.Seconds())
	if minutes := float64(e.typed)/slow + e.waited.Minutes(); minutes > 10 {
		t.Errorf("the evening took %.1f minutes", minutes)
	}
	golden.Check(t, "testdata/evening.txt", e.screen.String())
}
