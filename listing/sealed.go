package listing

import (
	"os"
	"path/filepath"
	"strings"

	"slabfolio/listing/archive"
	"slabfolio/listing/report"
)

// sealedBags are the latest sealed bags of the pieces, by serial in small letters:
// those in the folders that hold the pieces, and in the folders right below them
// that are no pieces, as a shelf beside the pieces is.
func (b *Batch) sealedBags() map[string]archive.Revision {
	b.sealing.Do(func() {
		b.sealed = map[string]archive.Revision{}
		pieces, parents := map[string]bool{}, map[string]bool{}
		for i := range b.jobs {
			if dir, err := filepath.Abs(b.jobs[i].Dir); err == nil {
				pieces[dir], parents[filepath.Dir(dir)] = true, true
			}
		}
		for parent := range parents {
			b.lookForBags(parent)
			entries, err := os.ReadDir(parent)
			if err != nil {
				continue // what cannot be read tells of no bag
			}
			for _, e := range entries {
				at := filepath.Join(parent, e.Name())
				if e.IsDir() && !strings.HasPrefix(e.Name(), ".") && !pieces[at] {
					b.lookForBags(at)
				}
			}
		}
	})
	return b.sealed
}

// lookForBags notes the latest bags in a folder. Of two shelves with a bag of one
// revision, the one whose path comes first bytewise is taken.
func (b *Batch) lookForBags(shelf string) {
	for serial, r := range archive.Latest(shelf) {
		if was, ok := b.sealed[serial]; !ok || r.Number > was.Number || r.Number == was.Number && r.Path < was.Path {
			b.sealed[serial] = r
		}
	}
}

// sealedRecord is the sealed record of a piece, nil where there is none that can be
// read.
func (b *Batch) sealedRecord(serial string) *report.Sealed {
	bag, ok := b.sealedBags()[strings.ToLower(serial)]
	if !ok {
		return nil
	}
	fsys, closer, err := archive.Open(bag.Path)
	if err != nil {
		return nil
	}
	defer closer()
	_, sum, err := archive.Payload(fsys)
	if err != nil {
		return nil
	}
	return &report.Sealed{Name: bag.Name, Sum: sum}
}

// sealKey changes when another bag of the piece is the latest.
func (b *Batch) sealKey(j *Job) string {
	if j.Piece == nil {
		return ""
	}
	if r := b.sealedRecord(j.Piece.Serial.V); r != nil {
		return " " + r.Sum
	}
	return ""
}
