package photos

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"slabfolio/imaging"
	"slabfolio/listing/piece"
)

// Exposures of a bracket are at least 1.8 times apart, and all of them known.
func TestBracketed(t *testing.T) {
	for _, c := range []struct {
		times []float64
		want  bool
	}{
		{[]float64{1. / 8, 1. / 60, 1. / 30, 1. / 15}, true},
		{[]float64{1, 1.8}, true},
		{[]float64{1, 1.79}, false},
		{[]float64{1. / 60, 1. / 60, 1. / 60}, false},
		{[]float64{0, 1. / 60}, false},
		{[]float64{1. / 60}, false},
	} {
		if got := imaging.Bracketed(c.times); got != c.want {
			t.Errorf("%v: %v", c.times, got)
		}
	}
	for seconds, want := range map[float64]string{1. / 500: "1/500 s", 0.25: "1/4 s", 0.4: "0.4 s", 8: "8 s"} {
		if got := exposureWords(seconds); got != want {
			t.Errorf("%v is %q, want %q", seconds, got, want)
		}
	}
}

// A real bracket that is blended as lights is told, by the camera's own times, or by the
// pictures alone where the files hold none (office); told to be one it is not. Frames of
// one object under lights from several sides are no bracket.
func TestBracketAsLightsIsTold(t *testing.T) {
	photos := filepath.Join("..", "..", "..", "shared", "photos")
	for _, c := range []struct {
		glob, how string
		want      bool
	}{
		{"exposure/room/*.jpg", "", true},
		{"exposure/room/*.jpg", "lightest", true},
		{"exposure/room/*.jpg", "bracket", false},
		{"lights/office/*.jpg", "", true},
		{"lights/gray/gray.?.png", "", false},
	} {
		paths, err := filepath.Glob(filepath.Join(photos, filepath.FromSlash(c.glob)))
		if err != nil || len(paths) < 3 {
			t.Skip("the reference photos are not there: ", err)
		}
		_, findings, err := Blend(paths[:3], paths[:3], imaging.BlendRequest{How: c.how}, nil)
		if err != nil {
			t.Fatal(err)
		}
		told := slices.IndexFunc(findings, func(f piece.Finding) bool { return f.Code == "blend.exposed" })
		if (told >= 0) != c.want {
			t.Errorf("%s, %q: %v, want it told: %v", c.glob, c.how, findings, c.want)
		}
		if told >= 0 && !strings.Contains(findings[told].Remedy, "--how bracket") {
			t.Errorf("%s, %q: the remedy is %q", c.glob, c.how, findings[told].Remedy)
		}
	}
}
