package subject

// largest is the largest patch of cells that hang together, corners counted.
func largest(set []bool) []bool {
	var best []int
	seen := make([]bool, len(set))
	for i := range set {
		if !set[i] || seen[i] {
			continue
		}
		if p := patch(set, seen, []int{i}); len(p) > len(best) {
			best = p
		}
	}
	return cells(best)
}

// touching is the cells of set that hang together with those of from.
func touching(set, from []bool) []bool {
	var start []int
	for i, is := range from {
		if is {
			start = append(start, i)
		}
	}
	return cells(patch(set, make([]bool, len(set)), start))
}

// patch is all cells of set that can be reached from some; it marks them seen.
func patch(set, seen []bool, from []int) []int {
	for _, i := range from {
		seen[i] = true
	}
	for k := 0; k < len(from); k++ {
		x, y := from[k]%Side, from[k]/Side
		for j := max(0, y-1); j <= min(Side-1, y+1); j++ {
			for i := max(0, x-1); i <= min(Side-1, x+1); i++ {
				if c := j*Side + i; set[c] && !seen[c] {
					seen[c] = true
					from = append(from, c)
				}
			}
		}
	}
	return from
}

func cells(list []int) []bool {
	out := make([]bool, Side*Side)
	for _, i := range list {
		out[i] = true
	}
	return out
}
