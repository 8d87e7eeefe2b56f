package record

import (
	"context"
	"fmt"
	"strings"

	"slabfolio/listing/archive"
	"slabfolio/listing/piece"
)

// compare looks for an earlier bag of the piece and whether the maker's own
// files are still those in it. What this version of the tool makes from them may
// differ; that alone is no reason for a revision.
func (s *sealing) compare(ctx context.Context) (unchanged bool, err error) {
	s.base = s.result.Serial
	if s.o.Owner {
		s.base += ".owner"
	}
	s.revision = 1
	revs, err := archive.Revisions(s.o.To, s.base)
	if err != nil || len(revs) == 0 {
		return false, err
	}
	last := revs[len(revs)-1]
	s.previous, s.revision = &last, last.Number+1
	sums, info, err := s.earlier(ctx, last)
	if err != nil {
		return false, err
	}
	for _, i := range info {
		if i.Label == "Bagging-Date" && i.Value > s.o.Today {
			s.find(piece.Doubt, "archive.clock", "", fmt.Sprintf("the earlier bag %s was sealed on %s, and by this machine's clock today is %s", last.Name, i.Value, s.o.Today), "set the clock right; the order of the revisions does not hang on it")
		}
	}
	own := 0
	for name := range sums {
		if strings.HasPrefix(name, "piece/") || name == piece.WorkshopName {
			own++
		}
	}
	if own != len(s.own) {
		return false, nil
	}
	for _, f := range s.own {
		if err := ctx.Err(); err != nil {
			return false, err
		}
		sum, err := archive.Sum(ctx, f)
		if err != nil {
			return false, err
		}
		if sums[f.Path] != sum {
			return false, nil
		}
	}
	return true, nil
}

// earlier reads the manifest of an earlier bag. One that is not whole is no
// record to rely on: that is a doubt, and the piece is sealed anew.
func (s *sealing) earlier(ctx context.Context, last archive.Revision) (map[string]string, []archive.Info, error) {
	v, err := archive.Complete(ctx, last.Path)
	if ctx.Err() != nil {
		return nil, nil, ctx.Err()
	}
	if err == nil && v.Valid() {
		fsys, closer, err := archive.Open(last.Path)
		if err == nil {
			defer closer()
			sums, sum, err1 := archive.Payload(fsys)
			info, err2 := archive.ReadInfo(fsys)
			if err1 == nil && err2 == nil {
				s.prevSum = sum
				return sums, info, nil
			}
		}
	}
	s.find(piece.Doubt, "archive.earlier", "", fmt.Sprintf("the earlier bag %s is not whole; it was left as it is, and the piece was sealed anew", last.Name), "slabfolio verify says what is wrong with it; put it back from a copy if there is one")
	return nil, nil, nil
}
