package sheet

import (
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// reference skips where an outside program is missing, or fails where the
// environment asks for every reference check.
func reference(t *testing.T, program string) string {
	t.Helper()
	path, err := exec.LookPath(program)
	if err != nil {
		missing(t, program)
	}
	return path
}

func missing(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
		t.Fatalf("%s is missing", what)
	}
	t.Skipf("%s is missing", what)
}

// The colorants of sRGB under D50, Bradford-adapted, as the ICC publishes them
// with its sRGB profiles: rXYZ 0.4360 0.2225 0.0139, gXYZ 0.3851 0.7169 0.0971,
// bXYZ 0.1431 0.0606 0.7141 (from memory).
func TestColorantsAreThePublishedOnes(t *testing.T) {
	want := [3][3]float64{{0.4360, 0.3851, 0.1431}, {0.2225, 0.7169, 0.0606}, {0.0139, 0.0971, 0.7141}}
	got := srgbToPCS()
	for i := range want {
		for j := range want[i] {
			if math.Abs(got[i][j]-want[i][j]) > 0.0003 {
				t.Errorf("row %d column %d: %.4f, want %.4f", i, j, got[i][j], want[i][j])
			}
		}
		if sum := got[i][0] + got[i][1] + got[i][2]; math.Abs(sum-d50[i]) > 1e-9 {
			t.Errorf("white: row %d sums to %.6f, want %.4f", i, sum, d50[i])
		}
	}
}

func TestProfileIsWellFormed(t *testing.T) {
	p := srgbProfile()
	be := binary.BigEndian
	if int(be.Uint32(p)) != len(p) || string(p[36:40]) != "acsp" || string(p[12:24]) != "mntrRGB XYZ " {
		t.Fatalf("header: size %d of %d, %q, %q", be.Uint32(p), len(p), p[36:40], p[12:24])
	}
	for i := range int(be.Uint32(p[128:])) {
		e := p[132+12*i:]
		off, size := int(be.Uint32(e[4:])), int(be.Uint32(e[8:]))
		if off%4 != 0 || off+size > len(p) {
			t.Errorf("tag %s at %d, %d bytes, in %d", e[:4], off, size, len(p))
		}
	}
}

// LittleCMS reads the profile and finds it to be its own built-in sRGB, to a
// fifth of one of 255 levels.
func TestLittleCMSAgrees(t *testing.T) {
	transicc := reference(t, "transicc")
	name := filepath.Join(t.TempDir(), "p.icc")
	if err := os.WriteFile(name, srgbProfile(), 0o644); err != nil {
		t.Fatal(err)
	}
	var in strings.Builder
	var want [][3]float64
	for _, c := range [][3]int{{0, 0, 0}, {255, 255, 255}, {255, 0, 0}, {0, 255, 0}, {0, 0, 255}, {128, 64, 32}, {12, 200, 99}, {3, 4, 5}, {190, 150, 101}} {
		fmt.Fprintf(&in, "%d\n%d\n%d\n", c[0], c[1], c[2])
		want = append(want, [3]float64{float64(c[0]), float64(c[1]), float64(c[2])})
	}
	cmd := exec.Command(transicc, "-n", "-t1", "-i", name, "-o", "*sRGB")
	cmd.Stdin = strings.NewReader(in.String())
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("transicc: %v", err)
	}
	var values []float64
	for _, f := range strings.Fields(string(out)) {
		if v, err := strconv.ParseFloat(f, 64); err == nil {
			values = append(values, v)
		}
	}
	if len(values) != 3*len(want) {
		t.Fatalf("transicc answered %q", out)
	}
	for i, w := range want {
		for j := range 3 {
			if got := values[3*i+j]; math.Abs(got-w[j]) > 0.2 {
				t.Errorf("%v: channel %d came out as %.3f", w, j, got)
			}
		}
	}
}
