package blend

import (
	"slices"
	"testing"

	"slabfolio/imaging/note"
	"slabfolio/imaging/pixel"
)

// The frames of a camera that was moved do not all reach to the rim. There one light
// would be missing and the picture darker in a step: that part is cut off, told, and
// what is left is as wide as the frames have in common, by the moves that they were
// given.
func TestRimThatNotEveryFrameReachesIsCut(t *testing.T) {
	d := drawn()
	var ms []*pixel.Image
	for i, move := range [][2]int{{0, 0}, {12, 0}, {-8, 10}, {0, -12}} { // half pixels
		ms = append(ms, cut(d.clean[i], move[0], move[1]))
	}
	for _, how := range []How{Lightest, Added, Even, Bracket} {
		r := run(t, Request{Frames: frames(ms), How: how})
		// 6 + 4 pixels across and 5 + 6 down are missing, and a pixel or two of each frame's own rim.
		if w, h := ms[0].W-r.Picture.W, ms[0].H-r.Picture.H; w < 10 || w > 14 || h < 11 || h > 15 {
			t.Errorf("%s: %d pixels less wide and %d less high, want 10 to 14 and 11 to 15", how, w, h)
		}
		told := false
		for _, n := range r.Notes {
			told = told || n.Code == "blend.rim"
		}
		if !told {
			t.Errorf("%s: the cut rim is not told", how)
		}
	}
	// Half a pixel costs a rim of one or two, and no pixel goes without a word.
	half := run(t, Request{Frames: frames([]*pixel.Image{ms[0], cut(d.clean[0], 1, 0)})})
	if told := slices.ContainsFunc(half.Notes, func(n note.Note) bool { return n.Code == "blend.rim" && n.Values["most"] <= 2 }); half.Picture.W < ms[0].W && !told || half.Picture.W == ms[0].W {
		t.Errorf("moved by half a pixel the picture is %d wide of %d: %v", half.Picture.W, ms[0].W, half.Notes)
	}
	still := run(t, Request{Frames: frames([]*pixel.Image{ms[0], cut(d.noisy[0], 0, 0)})})
	if still.Picture.W != ms[0].W || still.CutLeft != 0 || still.CutTop != 0 {
		t.Errorf("nothing moved, and the picture is %d wide, not %d", still.Picture.W, ms[0].W)
	}
}

// Exposures of one light are told from the pictures alone, lights from several sides are
// not, though each is twice as strong as the last. Drawn, so that both are known.
func TestExposuresOfOneLightAreTold(t *testing.T) {
	d := drawn()
	bracket := exposures().noisy
	var lit, doubled, shots []*pixel.Image
	for i, m := range d.noisy[:5] {
		c := cut(m, 0, 0)
		lit = append(lit, c)
		k := pixel.New(c.W, c.H)
		for n, v := range c.Pix {
			k.Pix[n] = uint16(min(int(v)<<i/4, 65535))
		}
		doubled, shots = append(doubled, k), append(shots, cut(bracket[i], 0, 0))
	}
	for _, c := range []struct {
		name string
		ms   []*pixel.Image
		how  How
		want bool
	}{
		{"a bracket", shots, Lightest, true},
		{"a bracket", shots, Added, true},
		{"a bracket blended as one", shots, Bracket, false},
		{"lights", lit, Lightest, false},
		{"lights, each twice as strong", doubled, Lightest, false},
	} {
		told := false
		for _, n := range run(t, Request{Frames: frames(c.ms), How: c.how}).Notes {
			told = told || n.Code == "blend.exposed"
		}
		if told != c.want {
			t.Errorf("%s, %s: told to be exposures %v, want %v", c.name, c.how, told, c.want)
		}
	}
}
