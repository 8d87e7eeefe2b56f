package subject

import (
	"encoding/binary"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/pixel"
)

// The photos of these tests: rooms, plain grounds, a wood surface, an animal, a car.
var referencePhotos = []string{
	"furniture/mei_cafe_wood_tables.jpg", "furniture/mei_workshop_bench.jpg", "furniture/mei_round_table_dim.jpg",
	"furniture/caltech_chair_0052.jpg", "furniture/caltech_windsor_chair_0049.jpg", "furniture/jsk_wooden_table_top.jpg",
	"furniture/mei_redwood_object_dark_backdrop.jpg", "subject/davis_camel_00000.jpg", "subject/davis_car-shadow_00000.jpg",
}

// python is a Python that has numpy, Debian's package python3-numpy.
func python(t *testing.T) string {
	t.Helper()
	for _, p := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(p, "-c", "import numpy").Run() == nil {
			return p
		}
	}
	if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
		t.Fatal("no Python with numpy")
	}
	t.Skip("no Python with numpy")
	return ""
}

// wholeCodes is what the net sees, rounded to whole sRGB codes.
func wholeCodes(m *pixel.Image) (codes []byte, g *grid) {
	g = inputOf(m, false, 0)
	for i, v := range g.v[:inputSide*inputSide*4] {
		if i%4 == 3 {
			continue
		}
		c := (int(v) + middle + 8) / 16
		g.v[i] = int16(16*c - middle)
		codes = append(codes, byte(c))
	}
	return codes, g
}

// Against the same net in floating point, with the weights before they were
// rounded to 8 bits, run by numpy.
func TestAgreesWithFloatingPoint(t *testing.T) {
	dir, py := phototest.Dir(t), python(t)
	in, out := filepath.Join(t.TempDir(), "in.raw"), filepath.Join(t.TempDir(), "out.raw")
	var all []byte
	var scores []Score
	for _, name := range referencePhotos {
		b, g := wholeCodes(phototest.Read(t, filepath.Join(dir, name), 768))
		all, scores = append(all, b...), append(scores, scoreOf(g))
	}
	if err := os.WriteFile(in, all, 0o600); err != nil {
		t.Fatal(err)
	}
	if b, err := exec.Command(py, "../internal/subjecttrain/net.py", "forward", floatWeights(), in, out).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, b)
	}
	b, err := os.ReadFile(out)
	if err != nil || len(b) != 4*Side*Side*len(scores) {
		t.Fatal(err, len(b))
	}
	both, either, far := 0, 0, 0.0
	for i, name := range referencePhotos {
		and, or := 0, 0
		for k, v := range scores[i] {
			z := float64(math.Float32frombits(binary.LittleEndian.Uint32(b[4*(i*Side*Side+k):])))
			if v > 0 && z > 0 {
				and++
			}
			if v > 0 || z > 0 {
				or++
			}
			far = max(far, math.Abs(z-float64(v)/unity))
		}
		t.Logf("%-50s IoU %.4f of %d cells", name, float64(and)/float64(max(1, or)), or)
		if or > 1000 && float64(and) < 0.97*float64(or) { // where it takes less, it is of two minds all over
			t.Errorf("%s: masks agree to IoU %.3f", name, float64(and)/float64(or))
		}
		both, either = both+and, either+or
	}
	iou := float64(both) / float64(either)
	t.Logf("all: IoU %.4f, logits at most %.2f apart", iou, far)
	if iou < 0.99 {
		t.Errorf("masks agree to IoU %.4f, want 0.99", iou)
	}
}

// floatWeights is the file of the weights before they were rounded.
func floatWeights() string {
	return filepath.Join("..", "internal", "subjecttrain", "weights.bin")
}
