package report

import "testing"

// The workshop's guarantee stands on what has one of the things that it names; a piece's
// own stands as it is written.
func TestGuaranteeOnlyWhereThePieceHasWhatItNames(t *testing.T) {
	const board = "serial: B-1\ntitle: Board\nkind: serving board\nfinished: 2026-06-01\ntop: {outline: {length: 42 cm, width: 18 cm}, thickness: 2 cm, wood: {species: sycamore-maple}}\n"
	const promise = "Ten years on joints, welds and castings"
	for _, c := range []struct{ name, spec, guarantee, want string }{
		{"a board of one plank", board, promise, ""},
		{"with resin", board[:len(board)-2] + ", resin: {area: 10 %}}\n", promise, promise},
		{"glued", board + "glue: [pva-d3]\n", promise, promise},
		{"a console", packed, promise, promise},
		{"a general promise", board, "Two years", "Two years"},
		{"in German", board, "Zehn Jahre auf Verbindungen und Schweißnähte", ""},
		{"its own", board + "guarantee: Ten years on joints\n", promise, "Ten years on joints"},
	} {
		r := build(t, spec(t, c.spec), workshop(t, "workshop: {name: Yard, country: GB}\nguarantee: "+c.guarantee+"\n"))
		if _, told := said(r, "guarantee.left-out"); r.Public.Guarantee != c.want || told != (c.want == "") {
			t.Errorf("%s: %q, told %v; want %q", c.name, r.Public.Guarantee, told, c.want)
		}
	}
}
