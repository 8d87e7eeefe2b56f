package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"slabfolio/listing/intake"
	"slabfolio/listing/piece"
	"slabfolio/listing/wood"
)

// ask puts the questions, where there is a person to answer them.
func (n *fresh) ask(ctx context.Context) error {
	if n.asked || !n.c.asks || n.c.quiet || n.c.json {
		return nil
	}
	table, err := wood.Load()
	if err != nil {
		return err
	}
	a := newAsker(n.c)
	if err := n.askWorkshop(ctx, a); err != nil {
		return err
	}
	woods, _ := table.WithEntries(n.workshop.Woods)
	defaults := n.workshop.Defaults()
	defaults.Today = n.opts.Today
	a.tell("", fmt.Sprintf("\nThe piece: %d questions at most. Enter takes what stands in [brackets], skip leaves a question open, ? says more, back goes back.", intake.Most()))
	iv := intake.New(n.known, n.earlier, defaults, n.workshop.Currency.V, woods)
	if err := a.interview(ctx, iv); err != nil {
		return err
	}
	n.known, n.asked = iv.Known, true
	return nil
}

// askWorkshop asks once who the maker is, and writes a workshop.yaml above the piece.
func (n *fresh) askWorkshop(ctx context.Context, a *asker) error {
	if n.workshop.Dir != "" {
		return nil
	}
	a.tell("", "No workshop.yaml stands above this folder yet, so no paper could name you. A few questions, once; Enter takes what stands in [brackets], skip leaves a question open.")
	iv := intake.NewWorkshop()
	if err := a.interview(ctx, iv); err != nil {
		return err
	}
	if iv.Known.Find("workshop") == nil && iv.Known.Find("currency") == nil {
		return nil // nothing was said; it is asked again the next time
	}
	abs, err := filepath.Abs(n.folder)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(abs), 0o755); err != nil {
		return err
	}
	if err := writeNew(filepath.Join(filepath.Dir(abs), piece.WorkshopName), piece.WorkshopShort(iv.Known)); err != nil {
		return err
	}
	n.told = append(n.told, "workshop.yaml, beside the piece, holds who you are; it counts for every piece there")
	n.workshop, _, err = piece.ReadWorkshop(ctx, filepath.Dir(abs))
	return err
}
