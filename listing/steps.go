package listing

import (
	"context"

	"golang.org/x/sync/errgroup"
)

// A step is one thing that is done for a piece.
type step func(context.Context) error

// oneAfterAnother does the steps one after the other, until one fails or the run is
// interrupted.
func oneAfterAnother(steps ...step) step {
	return func(ctx context.Context) error {
		for _, s := range steps {
			if err := ctx.Err(); err != nil {
				return err
			}
			if err := s(ctx); err != nil {
				return err
			}
		}
		return nil
	}
}

// atTheSameTime does the steps at the same time and waits for all.
func atTheSameTime(steps ...step) step {
	return func(ctx context.Context) error {
		var g errgroup.Group
		for _, s := range steps {
			g.Go(func() error { return s(ctx) })
		}
		return g.Wait()
	}
}
