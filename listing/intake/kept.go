package intake

import "strings"

// remember notes what was answered to the question that is put: behind the first half
// of it, where that was taken and the rest was asked for.
func (iv *Interview) remember(text string) {
	if iv.gave == nil {
		iv.gave = map[int]string{}
	}
	if first := iv.gave[iv.at]; iv.pending && first != "" && first != text {
		text = strings.Trim(first, " ,") + ", " + text
	}
	iv.gave[iv.at] = text
}

// kept is what was answered to the question that the maker came back to, and stands
// until something else is said; "" where nothing was, or where the question is new.
func (iv *Interview) kept() string {
	if !iv.again || iv.pending {
		return ""
	}
	return iv.gave[iv.at]
}

// keep leaves an answer as it was and goes on.
func (iv *Interview) keep() Reply {
	text := iv.kept()
	return iv.next([]string{"kept: " + text})
}
