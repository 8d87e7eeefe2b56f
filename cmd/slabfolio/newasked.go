package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"slabfolio/listing/assembly"
	"slabfolio/listing/intake"
	"slabfolio/listing/piece"
	"slabfolio/listing/report"
	"slabfolio/listing/wood"
)

// ask puts the questions, where there is a person to answer them.
func (n *fresh) ask(ctx context.Context) error {
	if n.asked || !n.c.asks || n.c.quiet || n.c.json {
		if n.likeKind != "" && n.known.Key("kind") == nil {
			n.known.Put("kind", piece.Plain(n.likeKind))
		}
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
	iv := intake.New(n.known, n.earlier, defaults, n.workshop.Currency.V, woods.AtHome(report.Home(n.workshop)))
	if iv.Usual, err = assembly.Load(); err != nil {
		return err
	}
	before := n.known.Lines("")
	if err := a.interview(ctx, iv); err != nil {
		if iv.Known.Lines("") != before {
			n.keepAnswers(iv.Known)
		}
		return err
	}
	n.known, n.asked = iv.Known, true
	return nil
}

// keepAnswers writes what was answered before an interruption beside where the piece
// would stand, for --answers; where that cannot be it is shown.
func (n *fresh) keepAnswers(known *piece.Written) {
	answers := known.Lines("")
	name := filepath.Clean(n.folder) + "-answers.yaml"
	for i := 2; exists(name); i++ {
		name = fmt.Sprintf("%s-answers-%d.yaml", filepath.Clean(n.folder), i)
	}
	err := os.MkdirAll(filepath.Dir(name), 0o755)
	if err == nil {
		err = writeNew(name, []byte(answers))
	}
	fmt.Fprintln(n.c.err)
	if err != nil {
		n.c.say("the answers cannot be kept (%v); they were:", err)
		fmt.Fprint(n.c.err, answers)
		return
	}
	n.c.say("no piece was laid out; your answers are kept in %s, which may be deleted", filepath.ToSlash(name))
	n.c.say("slabfolio new %s --answers %s goes on from them, and piece.yaml takes the rest", word(n.folder), word(name))
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
