package listing

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
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
	b, err := NewBatch([]string{dir}, o)
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
