package listing

import (
	"path/filepath"

	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
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
		if sh.Photo == nil { // a published one has its own pair
			sh.Record.Before, sh.Record.After = before, after
			sh.Record.Done = []string{w.plan.Words(w.report.Prefer)}
			if err := w.folder.Write(before, w.plan.Measured.Original); err != nil {
				return err
			}
		} else {
			sh.Record.Done = append(sh.Record.Done, w.plan.Words(w.report.Prefer))
		}
		return w.folder.Write(after, w.plan.Measured.Picture)
	}
	return nil
}
