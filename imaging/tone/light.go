package tone

// byLight puts photos under the same light into one group, by the colour of
// their backdrop, or of the piece where there is no plain backdrop.
func byLight(views []view) []int {
	const same = 0.22 // stops of chroma
	groups := make([]int, len(views))
	type light struct {
		back, piece   [2]float64
		hasBack, dark bool
	}
	var lights []light
	place := func(i int, v view) {
		best, at := same, -1
		for k, l := range lights {
			if l.dark != (v.dark > 0.5) {
				continue
			}
			d := apart(l.piece, v.pieceTint)
			if l.hasBack && v.plain > 0.5 {
				d = apart(l.back, v.backTint)
			}
			if d < best {
				best, at = d, k
			}
		}
		if at < 0 {
			lights = append(lights, light{v.backTint, v.pieceTint, v.plain > 0.5, v.dark > 0.5})
			at = len(lights) - 1
		}
		groups[i] = at
	}
	// Photos with a backdrop open the groups; the others join them.
	for i, v := range views {
		if v.plain > 0.5 {
			place(i, v)
		}
	}
	for i, v := range views {
		if v.plain <= 0.5 {
			place(i, v)
		}
	}
	// Number the groups in order of first appearance.
	names := map[int]int{}
	for i, g := range groups {
		if _, ok := names[g]; !ok {
			names[g] = len(names)
		}
		groups[i] = names[g]
	}
	return groups
}
