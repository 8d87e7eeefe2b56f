package piece

import "testing"

// BenchmarkParsePiece reads a spec with every key in it.
func BenchmarkParsePiece(b *testing.B) {
	text := []byte(example(pieceKeys, "", leftOfWays(0), ""))
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		ParsePiece("piece.yaml", text, Defaults{})
	}
}
