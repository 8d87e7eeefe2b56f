package listing

import (
	"fmt"
	"path/filepath"
	"strings"

	"slabfolio/listing/page"
	"slabfolio/listing/piece"
)

// ownPlaces leaves of the prepared folders of OUT those that a run made: a piece's
// outputs are in the folder of its serial, and one serial has one folder. Another that
// holds a report, such as a copy that a program made which keeps two machines alike, may
// offer at an old price what is sold: nothing of it is published, and a doubt names it.
func (b *Batch) ownPlaces(entries []page.Entry) (own []page.Entry, doubts []piece.Finding) {
	named := map[string]bool{} // the serials of this run, as they are written
	for i := range b.jobs {
		named[b.jobs[i].serial()] = true
	}
	places := map[string]string{} // by serial in lower case
	for _, e := range entries {
		serial := e.Report.Public.Serial
		key := strings.ToLower(serial)
		if _, taken := places[key]; strings.EqualFold(e.Folder, serial) && (!taken || named[e.Folder]) {
			places[key] = e.Folder
		}
	}
	for _, e := range entries {
		serial := e.Report.Public.Serial
		place, ok := places[strings.ToLower(serial)]
		if place == e.Folder {
			own = append(own, e)
			continue
		}
		doubts = append(doubts, copyFinding(filepath.ToSlash(b.opts.Out), e.Folder, serial, place, ok))
	}
	return own, doubts
}

// copyFinding tells of a folder that holds outputs of a piece whose place is another.
func copyFinding(out, folder, serial, place string, ok bool) piece.Finding {
	f := piece.Finding{
		Rank: piece.Doubt, Code: "out.copy",
		Message: fmt.Sprintf("the folder %q in %s holds outputs of %s, which belong into %s/%s; nothing of it is in catalogue, price list and labels", folder, out, serial, out, serial),
		Remedy:  fmt.Sprintf("move it out of %s; slabfolio prepare makes the outputs of %s anew", out, serial),
	}
	if ok {
		f.Message = fmt.Sprintf("the folder %q in %s is a copy of outputs of %s, whose own are in %s/%s; nothing of the copy is in catalogue, price list and labels", folder, out, serial, out, place)
		f.Remedy = fmt.Sprintf("delete the copy, or move it out of %s; what you changed in it belongs into piece.yaml", out)
	}
	return f
}
