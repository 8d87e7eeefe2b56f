package photos

import (
	"fmt"
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// What three photos or more have in common is said once, with the number and the
// names of up to six; what two have is said of each.
func TestFindingsAreGatheredFromThree(t *testing.T) {
	for code, text := range together {
		for _, n := range []int{1, 2, 3, 6, 7, 9} {
			var all []piece.Finding
			for i := range n {
				all = append(all, piece.Finding{Code: code, File: fmt.Sprintf("p%d.jpg", i), Message: "said alone", Remedy: "do this"})
			}
			all = append(all, piece.Finding{Code: "photo.soft", File: "p0.jpg", Message: "soft"})
			got := gather(all)
			want := n + 1
			if n >= 3 {
				want = 2
			}
			if len(got) != want {
				t.Errorf("%s in %d photos: %d findings, want %d", code, n, len(got), want)
				continue
			}
			if n < 3 {
				continue
			}
			f := got[0]
			if !strings.HasPrefix(f.Message, fmt.Sprintf(text, n)+": p0.jpg, p1.jpg, p2.jpg") || f.File != "" || f.Remedy != "do this" {
				t.Errorf("%s in %d photos: %+v", code, n, f)
			}
			if more := fmt.Sprintf(" and %d more", n-6); strings.HasSuffix(f.Message, more) != (n > 6) {
				t.Errorf("%s in %d photos: %q", code, n, f.Message)
			}
			if got[1].Code != "photo.soft" {
				t.Errorf("%s: the other finding went away: %+v", code, got)
			}
		}
	}
}
