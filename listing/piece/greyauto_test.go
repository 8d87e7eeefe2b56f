package piece

import "testing"

// grey_card takes auto, or boxes by file name, and nothing else.
func TestGreyCardAuto(t *testing.T) {
	const head = "serial: A-1\ntitle: T\nkind: bench\nfinished: 2026-05-04\ntop: {outline: {length: 1 m, width: 30 cm}, thickness: 40 mm, wood: {species: european-ash}}\nphotos: {grey_card: "
	for text, want := range map[string]string{"auto": "auto", "{a.jpg: [0.1, 0.1, 0.2, 0.2]}": "", "yes": "fault", "[0.1, 0.1, 0.2, 0.2]": "fault"} {
		p, findings := ParsePiece("piece.yaml", []byte(head+text+"}\n"), Defaults{})
		faults := 0
		for _, f := range findings {
			if f.Rank == Fault {
				faults++
			}
		}
		if (want == "fault") != (faults > 0) {
			t.Errorf("%s: %v", text, findings)
		}
		if want != "fault" && (p.Photos.GreyFind.V != want || len(p.Photos.GreyCard) != 1-len(want)/4) {
			t.Errorf("%s: read as %+v", text, p.Photos)
		}
	}
}
