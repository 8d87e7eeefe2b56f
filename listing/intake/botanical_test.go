package intake

import (
	"strings"
	"testing"
)

// A botanical name answered to the question on the resin is no colour, and its maker is
// told; a wood's everyday name may be one. Names after the Wood Handbook's tables.
func TestATreeIsNoColourOfResin(t *testing.T) {
	for said, tree := range map[string]bool{"Quercus robur": true, "Juglans nigra, 18 %": true, "juglans regia": true, "Ulmus spp.": true, "smoke grey, 18 %": false, "walnut brown, 10 %": false, "ebony black": false, "Prussian blue": false} {
		iv := upTo(t, nil, "Any resin, and how much of the face?")
		s := resin(iv, said)
		if got := s.problem != nil && strings.Contains(s.problem.Message, "asks about the resin"); got != tree {
			t.Errorf("%s: a tree: %v, want %v: %+v", said, got, tree, s)
		}
		if colour := iv.text("top.resin.colour"); tree && colour != "" {
			t.Errorf("%s: the colour is %q", said, colour)
		}
	}
}
