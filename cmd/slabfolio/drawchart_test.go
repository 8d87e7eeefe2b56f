package main

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"
)

// drawChart draws the photo of a chart of 24 colours in warm light on a grey
// ground: chart NAME. The colours are those of imaging/chart, the light takes a
// fifth of the green and nearly half of the blue.
func drawChart(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 1 {
		ts.Fatalf("usage: chart NAME")
	}
	data, err := os.ReadFile(patchesFile)
	ts.Check(err)
	m := image.NewNRGBA(image.Rect(0, 0, 1500, 1000))
	for y := range 1000 {
		for x := range 1500 {
			m.SetNRGBA(x, y, warm([3]float64{0.25, 0.25, 0.25}, x, y))
		}
	}
	patch := 0
	for line := range strings.Lines(string(data)) {
		f := strings.Split(strings.TrimSpace(line), ",")
		if len(f) != 5 || f[0] == "patch" || strings.HasPrefix(line, "#") {
			continue
		}
		var lab [3]float64
		for k := range lab {
			lab[k], err = strconv.ParseFloat(f[2+k], 64)
			ts.Check(err)
		}
		ground := image.Rect(0, 0, 150, 150).Add(image.Pt(300+150*(patch%6), 200+150*(patch/6)))
		for y := ground.Min.Y; y < ground.Max.Y; y++ {
			for x := ground.Min.X; x < ground.Max.X; x++ {
				c := [3]float64{0.02, 0.02, 0.02}
				if image.Pt(x, y).In(ground.Inset(12)) {
					c = linearOf(lab)
				}
				m.SetNRGBA(x, y, warm(c, x, y))
			}
		}
		patch++
	}
	var b bytes.Buffer
	ts.Check(jpeg.Encode(&b, m, &jpeg.Options{Quality: 92}))
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), b.Bytes(), 0o644))
}

var patchesFile, _ = filepath.Abs(filepath.Join("..", "..", "imaging", "chart", "patches.csv"))

// linearOf is CIELAB (D50) in linear sRGB: CIE 15:2004, 8.2.1; the matrix is that
// of IEC 61966-2-1 adapted to D50 by Bradford (from memory).
func linearOf(lab [3]float64) [3]float64 {
	fy := (lab[0] + 16) / 116
	xyz := [3]float64{fy + lab[1]/500, fy, fy - lab[2]/200}
	for k, white := range [3]float64{0.9642, 1, 0.8251} {
		if v := xyz[k]; v > 6.0/29 {
			xyz[k] = white * v * v * v
		} else {
			xyz[k] = white * (v - 4.0/29) * 3 * 36 / 841
		}
	}
	var out [3]float64
	for k, r := range [3][3]float64{{3.1339, -1.6169, -0.4906}, {-0.9788, 1.9161, 0.0335}, {0.0719, -0.2290, 1.4052}} {
		out[k] = max(0, r[0]*xyz[0]+r[1]*xyz[1]+r[2]*xyz[2])
	}
	return out
}

// warm is a linear colour in warm light, with a little noise, as sRGB code.
func warm(c [3]float64, x, y int) color.NRGBA {
	n := float64((x*7349+y*9151)%13)/6 - 1
	var v [3]uint8
	for k, share := range [3]float64{1, 0.8, 0.55} {
		v[k] = level(255*(1.055*math.Pow(max(c[k]*share, 0.0032), 1/2.4)-0.055) + n)
	}
	return color.NRGBA{v[0], v[1], v[2], 255}
}
