// Package subject looks for the piece in a photo of any room with a small
// convolutional net. It reads the reduced copy in linear light and gives, for
// each cell of a grid over the photo, how surely the piece is there.
//
// The net was trained on nothing but pictures drawn by the project's own ray
// caster; package subjecttrain makes its weights and says how. All arithmetic
// from the picture on is in integers (weights of 8 bits with one scale a
// channel, values of 14 bits, sums of 32 bits), so every machine and every set
// of instructions gives the same answer to the bit.
//
// What a net says is no evidence by itself: it answers something for a photo of
// a dog, too. [Find] therefore judges the answer as well and says how sure it is.
package subject

// Side is the width and the height of the grid that the net answers on. The
// grid lies over the whole photo, so its cells are as wide for their height as
// the photo is.
const Side = 144

// inputSide is the width and the height of the picture that the net sees.
const inputSide = 2 * Side

// unity is the value of a score that stands for a logit of 1.
const unity = 256

// A Score is the net's answer: row by row, Side × Side logits in units of
// 1/unity. Above 0 the net takes the cell for the piece; ±unity·ln 19 (754) is a
// probability of 95 % or 5 %.
type Score []int16

// scoreOf runs the net once over a picture of inputSide × inputSide pixels.
func scoreOf(in *grid) Score {
	out := shipped().forward(in)
	s := make(Score, Side*Side)
	for i := range s {
		s[i] = out.v[i*out.c]
	}
	return s
}
