package listing

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

const boardSpec = `serial: OY-1
title: Board
kind: serving board
finished: 2026-03-02
top: {outline: {diameter: 30 cm}, thickness: 2 cm, wood: [{species: european-ash}]}
`

func layBoard(t *testing.T) (dir string, o Options) {
	t.Helper()
	root := t.TempDir()
	dir = filepath.Join(root, "OY-1")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "piece.yaml"), []byte(boardSpec), 0o644); err != nil {
		t.Fatal(err)
	}
	return dir, Options{Out: filepath.Join(root, "out"), Cache: filepath.Join(root, "cache"), Build: "test"}
}

// A spec that is saved again while the run is on counts as it was read: the next
// run must not take the outputs for those of the new one.
func TestChangeWhileTheRunIsOn(t *testing.T) {
	dir, o := layBoard(t)
	b, err := NewBatch(t.Context(), []string{dir}, o)
	if err != nil {
		t.Fatal(err)
	}
	changed := strings.Replace(boardSpec, "title: Board", "title: Round board", 1)
	if err := os.WriteFile(filepath.Join(dir, "piece.yaml"), []byte(changed), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := b.OpenOut(); err != nil {
		t.Fatal(err)
	}
	if err := b.Each(context.Background(), b.prepare); err != nil {
		t.Fatal(err)
	}
	sum, err := Prepare(context.Background(), []string{dir}, o)
	if err != nil {
		t.Fatal(err)
	}
	if r := sum.Results[0]; r.Outcome != Prepared || r.Title != "Round board" {
		t.Errorf("the next run: %s, %q", r.Outcome, r.Title)
	}
	if sum, err = Prepare(context.Background(), []string{dir}, o); err != nil || sum.Results[0].Outcome != UpToDate {
		t.Errorf("the one after it: %+v, %v", sum, err)
	}
}

// An edit that leaves the size as it was counts as a change, and so does one that
// also sets the old time; the same content under a new time does not.
func TestEditOfEqualLength(t *testing.T) {
	dir, o := layBoard(t)
	run := func() Outcome {
		t.Helper()
		sum, err := Prepare(t.Context(), []string{dir}, o)
		if err != nil {
			t.Fatal(err)
		}
		return sum.Results[0].Outcome
	}
	spec := filepath.Join(dir, "piece.yaml")
	save := func(text string) {
		t.Helper()
		if err := os.WriteFile(spec, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	later := time.Date(2026, 5, 1, 12, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		what string
		do   func()
		want Outcome
	}{
		{"the first run", func() {}, Prepared},
		{"nothing changed", func() {}, UpToDate},
		{"one letter for another", func() { save(strings.Replace(boardSpec, "title: Board", "title: Beard", 1)) }, Prepared},
		{"the same text under another time", func() {
			if err := os.Chtimes(spec, later, later); err != nil {
				t.Fatal(err)
			}
		}, UpToDate},
		{"a digit for another", func() { save(strings.Replace(boardSpec, "30 cm", "31 cm", 1)) }, Prepared},
	} {
		c.do()
		if got := run(); got != c.want {
			t.Errorf("%s: %s, want %s", c.what, got, c.want)
		}
	}
}

// Every option that changes an output makes the outputs new, and so does another
// build of the program.
func TestOptionsMakeOutputsNew(t *testing.T) {
	dir, o := layBoard(t)
	o.Units, o.Paper, o.Langs, o.Codecs, o.MaxMegapixels = "in", "letter", nil, "auto", 100
	if _, err := Prepare(t.Context(), []string{dir}, o); err != nil {
		t.Fatal(err)
	}
	for what, change := range map[string]func(*Options){
		"units":        func(o *Options) { o.Units = "cm" },
		"paper":        func(o *Options) { o.Paper = "a4" },
		"codecs":       func(o *Options) { o.Codecs = "pure" },
		"languages":    func(o *Options) { o.Langs = []string{"de"} },
		"largest size": func(o *Options) { o.MaxMegapixels = 50 },
		"build":        func(o *Options) { o.Build = "another" },
	} {
		changed := o
		change(&changed)
		for _, run := range []struct {
			o    Options
			want Outcome
		}{{o, UpToDate}, {changed, Prepared}, {changed, UpToDate}, {o, Prepared}} {
			sum, err := Prepare(t.Context(), []string{dir}, run.o)
			if err != nil {
				t.Fatal(err)
			}
			if got := sum.Results[0].Outcome; got != run.want {
				t.Errorf("%s: %s, want %s", what, got, run.want)
			}
		}
	}
}
