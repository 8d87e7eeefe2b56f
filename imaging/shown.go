package imaging

// What tells how much of its piece a photo shows.
const (
	runsOut   = 0.10 // share of a side of the photo that the piece takes up where it runs out of it
	nearRim   = 0.01 // room beside a piece that is whole, as a share of the photo
	leastOfIt = 0.03 // share of the photo that a piece has to take up to be seen
)

// Shown tells how much of its subject the photo itself shows: all of it where a
// sure outline lies within the photo, a part where it runs out of it or where
// there is grain from edge to edge; else nobody knows.
func (p *Photo) Shown() Extent {
	f := p.Frame
	switch {
	case f.Grain:
		return PartOfIt
	case !f.Sure || f.Mask == nil:
		return Unsaid
	}
	most, near, share := p.atRim()
	switch {
	case most >= runsOut:
		return PartOfIt
	case !near && share >= leastOfIt:
		return AllOfIt
	}
	return Unsaid
}

// atRim tells the largest share of a side of the photo that the piece takes up,
// whether it comes near any side, and which share of the photo it is.
func (p *Photo) atRim() (most float64, near bool, share float64) {
	const n = 200
	in, k := p.Frame.Inside, p.Frame.Mask
	through := p.Frame.Source(p.W, p.H)
	on := func(u, v float64) bool { // in shares of what is photo
		x, y := through.Apply((in[0]+u*(in[2]-in[0]))*float64(p.W), (in[1]+v*(in[3]-in[1]))*float64(p.H))
		return k.At(x/float64(p.W), y/float64(p.H)) != 0
	}
	var side [4]int
	count := 0
	for i := range n {
		at := (float64(i) + 0.5) / n
		const e = nearRim / 2
		for s, hit := range [4]bool{on(e, at), on(at, e), on(1-e, at), on(at, 1-e)} {
			if hit {
				side[s]++
			}
		}
		for j := range n {
			u, v := at, (float64(j)+0.5)/n
			if !on(u, v) {
				continue
			}
			count++
			near = near || u < nearRim || v < nearRim || u > 1-nearRim || v > 1-nearRim
		}
	}
	for _, s := range side {
		most = max(most, float64(s)/n)
	}
	return most, near, float64(count) / (n * n)
}
