package listing

import (
	"errors"
	"path/filepath"

	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
	"slabfolio/listing/report"
)

// measurePlan measures the top where the spec says that its outline is in a
// photo. It returns what cannot be measured as findings that do not keep the
// piece from being prepared with what is known.
func (w *work) measurePlan() []piece.Finding {
	p := w.job.Piece
	o := p.Top.Outline
	if !o.Photo.Set() {
		return nil
	}
	i := photos.ByName(w.sources, o.Photo.V)
	if i < 0 {
		return nil // said already
	}
	w.b.measuring.Lock() // one at a time: each holds the whole photo in linear light
	defer w.b.measuring.Unlock()
	var findings []piece.Finding
	o.Photo.V = w.sources[i].Rel
	w.plan, findings = photos.MeasurePlan(filepath.Join(w.job.Dir, filepath.FromSlash(w.sources[i].Rel)), o, p.Top.Thickness.V, w.imagingOptions())
	return findings
}

// writePlan puts the photo with what was measured drawn over it among the
// pictures of the maker's overview, as the plan photo's before and after.
func (w *work) writePlan() error {
	if w.plan == nil {
		return nil
	}
	for _, sh := range w.shots {
		if sh.Source.Rel != w.plan.Source {
			continue
		}
		before, after := "overview/plan-before.jpg", "overview/plan-measured.jpg"
		record := sh.Record
		if sh.Photo != nil { // published as well: it has a pair of its own
			record = &report.PhotoRecord{Source: sh.Source.Rel}
			w.planRecord = record
		}
		record.Before, record.After = before, after
		record.Done = []string{w.plan.Words(w.report.Prefer)}
		return errors.Join(w.folder.Write(before, w.plan.Measured.Original), w.folder.Write(after, w.plan.Measured.Picture))
	}
	return nil
}
