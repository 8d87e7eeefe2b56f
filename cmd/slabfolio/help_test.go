package main

import (
	"bytes"
	"context"
	"os/exec"
	"strings"
	"testing"
	"unicode/utf8"
)

// The first help fits a terminal of 24 lines of 80 signs and names every command.
func TestHelpFitsATerminal(t *testing.T) {
	var out bytes.Buffer
	if status := run(context.Background(), []string{"--help"}, &console{out: &out, err: &out}); status != exitDone {
		t.Fatalf("status %d", status)
	}
	lines := strings.Split(strings.TrimRight(out.String(), "\n"), "\n")
	if len(lines) > 24 {
		t.Errorf("%d lines", len(lines))
	}
	for _, l := range lines {
		if n := utf8.RuneCountInString(l); n > 80 {
			t.Errorf("%d signs: %s", n, l)
		}
	}
	for _, name := range commandNames() {
		if !strings.Contains(out.String(), "\n  "+name+" ") {
			t.Errorf("%s is not in the help", name)
		}
	}
}

// The scripts are read by the shells that they are for, where those are there.
func TestCompletionIsReadByItsShell(t *testing.T) {
	for shell, script := range shells {
		path, err := exec.LookPath(shell)
		if err != nil || shell == "powershell" {
			continue
		}
		cmd := exec.Command(path, "-n")
		cmd.Stdin = strings.NewReader(script())
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", shell, err, out)
		}
		for _, name := range commandNames() {
			if !strings.Contains(script(), name) {
				t.Errorf("%s does not complete %s", shell, name)
			}
		}
	}
}

// No help shows a placeholder of the library's for what a flag takes, nor the default of
// a flag that takes nothing.
func TestHelpNamesWhatFlagsTake(t *testing.T) {
	for _, name := range commandNames() {
		var out bytes.Buffer
		run(context.Background(), []string{name, "--help"}, &console{out: &out, err: &out})
		for line := range strings.Lines(out.String()) {
			if strings.Contains(line, " value ") || strings.Contains(line, "(default: false)") {
				t.Errorf("%s: %s", name, line)
			}
		}
	}
}
