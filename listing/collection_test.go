package listing

import (
	"context"
	"os"
	"path/filepath"
	"slabfolio/listing/stage"
	"strings"
	"testing"
	"time"
)

// A piece that another run is preparing is said to be busy, and is not written
// down as left out: the other run's outputs will be there.
func TestPieceThatAnotherRunPrepares(t *testing.T) {
	dir, o := layBoard(t)
	if err := os.MkdirAll(o.Out, 0o755); err != nil {
		t.Fatal(err)
	}
	other, err := stage.New(o.Out, "OY-1")
	if err != nil {
		t.Fatal(err)
	}
	defer other.Abandon()
	sum, err := Prepare(context.Background(), []string{dir}, o)
	if err != nil {
		t.Fatal(err)
	}
	if r := sum.Results[0]; r.Outcome != LeftOut || len(r.Findings) != 1 || r.Findings[0].Code != codeBusy {
		t.Errorf("%+v", r)
	}
	if page := content(t, filepath.Join(o.Out, "index.html")); strings.Contains(page, "OY-1") {
		t.Errorf("the overview tells of the other run:\n%s", page)
	}
}

// The overview is written by one run at a time.
func TestCollectionWaits(t *testing.T) {
	dir, o := layBoard(t)
	if err := os.MkdirAll(o.Out, 0o755); err != nil {
		t.Fatal(err)
	}
	lock, err := stage.TryLock(filepath.Join(o.Out, collectionLock))
	if err != nil {
		t.Fatal(err)
	}
	prepared, done := make(chan struct{}), make(chan error, 1)
	o.Report = func(e Event) {
		if e.Kind == PieceDone {
			close(prepared)
		}
	}
	go func() {
		_, err := Prepare(context.Background(), []string{dir}, o)
		done <- err
	}()
	select { // the piece is whole before the lock is free, and the run goes no further
	case <-prepared:
	case err := <-done:
		t.Fatalf("did not wait: %v", err)
	}
	select {
	case err := <-done:
		t.Errorf("did not wait: %v", err)
	case <-time.After(200 * time.Millisecond): // a slow machine may miss a run that does not wait, but never blames one that does
	}
	if _, err := os.Stat(filepath.Join(o.Out, "index.html")); err == nil {
		t.Error("the overview was written while another run held the lock")
	}
	lock.Release()
	if err := <-done; err != nil {
		t.Error(err)
	}
	if _, err := os.Stat(filepath.Join(o.Out, "index.html")); err != nil {
		t.Error(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if lock, err = stage.TryLock(filepath.Join(o.Out, collectionLock)); err != nil {
		t.Fatal(err)
	}
	defer lock.Release()
	if _, err := stage.WaitLock(ctx, filepath.Join(o.Out, collectionLock)); err == nil {
		t.Error("an interrupted run waits on")
	}
}

func content(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}
