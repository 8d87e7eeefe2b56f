package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
	"slabfolio/listing/stage"
)

// layingSuffix ends the name of the folder in which a new piece is built.
const layingSuffix = ".being-laid-out"

// layOut asks, copies, and puts the folder in its place: whole, or not at all.
func (n *fresh) layOut(ctx context.Context) error {
	if err := n.ask(ctx); err != nil {
		return err
	}
	abs, err := filepath.Abs(n.folder)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(abs), 0o755); err != nil {
		return err
	}
	building := filepath.Join(filepath.Dir(abs), "."+filepath.Base(abs)+layingSuffix)
	lock, err := stage.TryLock(building + stage.LockSuffix)
	if err != nil {
		return fmt.Errorf("%s: %w", filepath.ToSlash(n.folder), err)
	}
	defer lock.Release()
	if err := os.RemoveAll(building); err != nil { // of a run that was killed
		return err
	}
	defer os.RemoveAll(building) // gone already when all went well
	if err := os.Mkdir(building, 0o755); err != nil {
		return err
	}
	if err := n.build(ctx, building); err != nil {
		return err
	}
	if err := place(building, abs); err != nil {
		return err
	}
	n.report()
	if err := n.tellDoubts(ctx); err != nil {
		return err
	}
	if n.copied != nil && len(n.copied.Failed) > 0 {
		return errFault
	}
	return nil
}

// tellDoubts tells what check would say of answers that a file gave, as of figures
// that cannot both be true. Answers given on the terminal were looked at one by one.
func (n *fresh) tellDoubts(ctx context.Context) error {
	if !n.fromFile || n.c.quiet {
		return nil
	}
	p, findings, err := piece.ReadPiece(ctx, n.folder, n.workshop.Defaults())
	if err != nil || slices.ContainsFunc(findings, func(f piece.Finding) bool { return f.Rank == piece.Fault }) {
		return err // what is missing yet is told in the report
	}
	doubts, err := (&newDoubts{opts: n.opts}).all(p, n.workshop)
	for _, f := range doubts {
		n.c.setFinding(filepath.ToSlash(n.folder), f)
	}
	return err
}

// build writes everything that the folder will hold.
func (n *fresh) build(ctx context.Context, building string) error {
	if n.card != nil {
		if err := n.copyCard(ctx, building); err != nil {
			return err
		}
	}
	files, err := n.files()
	if err != nil {
		return err
	}
	for name, data := range files {
		if err := writeNew(filepath.Join(building, name), data); err != nil {
			return err
		}
	}
	return ctx.Err()
}

// copyCard copies the photos of the card and looks for frames of one photo among
// them.
func (n *fresh) copyCard(ctx context.Context, building string) (err error) {
	to := filepath.Join(building, "photos")
	if err := os.Mkdir(to, 0o755); err != nil {
		return err
	}
	total := len(n.card.Photos)
	tell := func(done int) {
		if n.c.terminal && !n.c.quiet && !n.c.json && done%20 == 0 {
			n.c.say("%d of %s copied", done, plural(total, "photo"))
		}
	}
	n.copied, err = n.card.Copy(ctx, to, []string{n.folder, filepath.Join(n.folder, "photos")}, tell)
	if err != nil {
		return err
	}
	n.bursts, err = photos.FindBursts(ctx, building, n.imagingOptions())
	return err
}

// place puts the folder that was built where it belongs. Where a folder is already,
// its files go into it one by one, the spec last; none takes another's place.
func place(building, final string) error {
	if _, err := os.Lstat(final); errors.Is(err, fs.ErrNotExist) {
		return os.Rename(building, final)
	}
	var names []string
	err := filepath.WalkDir(building, func(at string, d fs.DirEntry, err error) error {
		rel, _ := filepath.Rel(building, at)
		switch {
		case err != nil:
			return err
		case d.IsDir():
			return os.MkdirAll(filepath.Join(final, rel), 0o755)
		}
		names = append(names, rel)
		return nil
	})
	if err != nil {
		return err
	}
	slices.SortStableFunc(names, func(a, b string) int { return strings.Count(a, "piece.yaml") - strings.Count(b, "piece.yaml") })
	for _, name := range names {
		if err := placeOne(filepath.Join(building, name), filepath.Join(final, name)); err != nil {
			return err
		}
	}
	return nil
}

// report tells what was laid out and what comes next.
func (n *fresh) report() {
	folder, serial := filepath.ToSlash(n.folder), n.known.Key("serial").Text
	if n.c.json {
		n.c.object(struct {
			Type   string         `json:"type"`
			Folder string         `json:"folder"`
			Serial string         `json:"serial"`
			Photos int            `json:"photos"`
			Blends []photos.Burst `json:"blends,omitempty"`
			Told   []string       `json:"told,omitempty"`
		}{"new", folder, serial, n.photoCount(), n.bursts, n.told})
		return
	}
	if n.copied != nil {
		for _, f := range n.copied.Failed {
			n.c.setFinding("", piece.Finding{Rank: piece.Fault, Code: "card.unread", File: f, Message: "the card does not give it whole, so it is not copied",
				Remedy: "try another reader or slot; the others are copied, and the card is as it was"})
		}
	}
	if n.c.quiet {
		return
	}
	n.c.result("laid out %s", folder)
	for _, line := range append(n.cardLines(), n.told...) {
		if n.c.asks { // a person is at the terminal
			line = strings.TrimSpace(wrap(line, "  ", 80))
		}
		n.c.result("  %s", printable(line))
	}
	step := 1
	next := func(format string, args ...any) {
		n.c.result("%d. %s", step, fmt.Sprintf(format, args...))
		step++
	}
	if n.photoCount() == 0 {
		next("take the photos; SHOTS.md in it says which")
	}
	switch open := piece.Missing(n.known); {
	case !n.asked:
		next("fill in piece.yaml; only a few lines are needed, the rest is explained in it")
	case len(open) > 0:
		next("write into piece.yaml what is still open: %s", strings.ReplaceAll(strings.Join(open, ", "), "top.", ""))
	}
	if later := piece.Unsaid(n.known); n.asked && len(later) > 0 {
		next("write into piece.yaml, as soon as you know: %s", strings.Join(later, ", "))
	}
	next("slabfolio check %s", word(folder))
	next("slabfolio prepare %s", word(folder))
}

func (n *fresh) photoCount() int {
	if n.copied == nil {
		return 0
	}
	return n.copied.Photos
}

// cardLines say what was copied from the card, and what was not.
func (n *fresh) cardLines() []string {
	if n.copied == nil {
		return nil
	}
	text := fmt.Sprintf("%s copied into photos/ and compared with the card", plural(n.copied.Photos, "photo"))
	if n.copied.Raws > 0 {
		text += fmt.Sprintf(", %s beside them", plural(n.copied.Raws, "raw file"))
	}
	lines := []string{text}
	if n.copied.There > 0 {
		lines = append(lines, fmt.Sprintf("%s there already, or twice on the card", plural(n.copied.There, "photo")))
	}
	if len(n.copied.Renamed) > 0 {
		lines = append(lines, "renamed, since another photo has the name: "+strings.Join(n.copied.Renamed, ", "))
	}
	if days, count := n.card.Days(); len(days) > 1 {
		last := days[len(days)-1]
		lines = append(lines, fmt.Sprintf("they are of %d days, %s to %s (%d on the last); --since %s would take those alone", len(days), days[0], last, count[last], last))
	}
	if n.card.Older > 0 {
		lines = append(lines, fmt.Sprintf("%s left on the card, older than --since", plural(n.card.Older, "photo")))
	}
	if len(n.card.Others) > 0 {
		var kinds []string
		for ext, k := range n.card.Others {
			kinds = append(kinds, fmt.Sprintf("%d %s", k, strings.TrimSpace(ext+" ")))
		}
		slices.Sort(kinds)
		lines = append(lines, "no photos, and left on the card: "+strings.Join(kinds, ", "))
	}
	for _, p := range n.card.Passed {
		lines = append(lines, "not looked into, since it is a piece, a bag or a link: "+p)
	}
	for _, p := range n.card.Shut {
		lines = append(lines, "not looked into, since it cannot be read: "+p)
	}
	return lines
}
