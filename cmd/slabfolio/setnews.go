package main

import (
	"context"
	"slices"

	"slabfolio/listing"
	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
	"slabfolio/listing/report"
	"slabfolio/templates"
)

// newDoubts tells what a change makes doubtful that was not before: a wood or a
// material that no table has, a price without its currency's sense, a base that tips.
// They are what check would say of the spec alone; photos are not looked at.
type newDoubts struct {
	opts  listing.Options
	words *templates.Words
}

// of returns the doubts of a change, the new ones alone.
func (n *newDoubts) of(ctx context.Context, p *piece.Plan) ([]piece.Finding, error) {
	if p.Will == nil || len(p.Changes) == 0 {
		return nil, nil
	}
	w, _, err := piece.ReadWorkshop(ctx, p.Dir)
	if err != nil {
		return nil, err
	}
	was, err := n.all(p.Was, w)
	if err != nil {
		return nil, err
	}
	will, err := n.all(p.Will, w)
	if err != nil {
		return nil, err
	}
	return piece.News(was, will, p.Changes), nil
}

// all returns every doubt of a piece's report.
func (n *newDoubts) all(p *piece.Piece, w *piece.Workshop) ([]piece.Finding, error) {
	if n.words == nil {
		words, err := templates.Open("en")
		if err != nil {
			return nil, err
		}
		n.words = words
	}
	r, err := report.Build(p, w, report.Options{Prefer: n.opts.Units, Paper: n.opts.Paper, Lang: "en", Words: n.words})
	if err != nil {
		return nil, err
	}
	var out []piece.Finding
	for _, f := range r.Findings {
		if f.Rank == piece.Doubt {
			out = append(out, f)
		}
	}
	return out, nil
}

// namesNoPhoto returns the faults of a change that names photos which the piece does
// not have; those that were there before are check's business.
func namesNoPhoto(p *piece.Plan) ([]piece.Finding, error) {
	if p.Will == nil || len(p.Changes) == 0 {
		return nil, nil
	}
	there, err := photos.Find(p.Dir)
	if err != nil {
		return nil, err
	}
	_, before := photos.Arrange(p.Was, slices.Clone(there))
	_, after := photos.Arrange(p.Will, slices.Clone(there))
	said := func(f piece.Finding) bool {
		return f.Rank != piece.Fault || slices.ContainsFunc(before, func(g piece.Finding) bool { return g.Message == f.Message })
	}
	return slices.DeleteFunc(after, said), nil
}
