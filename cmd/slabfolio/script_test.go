package main

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"slabfolio": main})
}

// TestScripts runs one script for each promise of the README.
func TestScripts(t *testing.T) {
	testscript.Run(t, scriptsIn(filepath.Join("testdata", "script")))
}

// scriptsIn are the scripts of a folder, with what they know.
func scriptsIn(dir string) testscript.Params {
	return testscript.Params{
		Dir: dir,
		Setup: func(e *testscript.Env) error {
			e.Setenv("TZ", "Pacific/Auckland")
			e.Setenv("SOURCE_DATE_EPOCH", "1798761600") // 2027-01-01: no day of the scripts is still to come
			e.Setenv("XDG_CACHE_HOME", filepath.Join(e.WorkDir, ".cache"))
			e.Setenv("HOME", e.WorkDir)
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"chart":  drawChart,
			"photo":  drawPhoto,
			"plan":   drawPlan,
			"light":  drawLight,
			"status": wantStatus,
			"same":   sameTrees,
			"until":  waitFor,
		},
	}
}

// waitFor waits until a file is there, and a second more for what comes after it:
// until FILE.
func waitFor(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 1 || neg {
		ts.Fatalf("usage: until FILE")
	}
	for range 1200 {
		if _, err := os.Stat(ts.MkAbs(args[0])); err == nil {
			time.Sleep(time.Second)
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	ts.Fatalf("%s did not come", args[0])
}

// drawPhoto draws a photo: photo NAME WIDTH HEIGHT [LIGHT]. A brown slab on a
// pale backdrop; the file is a JPEG whatever its name says.
func drawPhoto(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) < 3 {
		ts.Fatalf("usage: photo NAME WIDTH HEIGHT [LIGHT]")
	}
	w, err1 := strconv.Atoi(args[1])
	h, err2 := strconv.Atoi(args[2])
	light := 1.0
	var err3 error
	if len(args) > 3 {
		light, err3 = strconv.ParseFloat(args[3], 64)
	}
	if err1 != nil || err2 != nil || err3 != nil {
		ts.Fatalf("photo: not numbers: %v", args[1:])
	}
	var b bytes.Buffer
	ts.Check(jpeg.Encode(&b, slab(w, h, light), &jpeg.Options{Quality: 90}))
	ts.Check(os.MkdirAll(filepath.Dir(ts.MkAbs(args[0])), 0o755))
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), b.Bytes(), 0o644))
}

// drawPlan draws a top of 1100 × 420 mm from above, with a river and sheets of A4
// at the places given in mm from its middle: plan NAME [X,Y …].
func drawPlan(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) < 1 {
		ts.Fatalf("usage: plan NAME [X,Y …]")
	}
	var sheets [][2]float64
	for _, a := range args[1:] {
		var x, y float64
		if _, err := fmt.Sscanf(a, "%f,%f", &x, &y); err != nil {
			ts.Fatalf("plan: %q is no place", a)
		}
		sheets = append(sheets, [2]float64{x, y})
	}
	const perMM = 0.8
	m := image.NewNRGBA(image.Rect(0, 0, 1200, 800))
	for y := range 800 {
		for x := range 1200 {
			mx, my := (float64(x)+0.5-600)/perMM, (float64(y)+0.5-400)/perMM
			c := [3]float64{112, 112, 116}
			if math.Abs(mx) < 550 && math.Abs(my) < 210 {
				g := 8 * math.Sin(my/4+3*math.Sin(mx/90))
				c = [3]float64{168 + g, 122 + g, 80 + g}
				if math.Abs(my-90) < 35 {
					c = [3]float64{30, 96, 100}
				}
			}
			for _, s := range sheets {
				if math.Abs(mx-s[0]) < 148.5 && math.Abs(my-s[1]) < 105 {
					c = [3]float64{235, 236, 238}
				}
			}
			n := float64((x*7349+y*9151)%13)/3 - 2
			m.SetNRGBA(x, y, color.NRGBA{level(c[0] + n), level(c[1] + n), level(c[2] + n), 255})
		}
	}
	var b bytes.Buffer
	ts.Check(jpeg.Encode(&b, m, &jpeg.Options{Quality: 92}))
	ts.Check(os.MkdirAll(filepath.Dir(ts.MkAbs(args[0])), 0o755))
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), b.Bytes(), 0o644))
}

// drawLight draws a frame of a light painting: light NAME SIDE [SHIFT], a slab
// before black, lit from the left at SIDE 0 and from the right at 1; SHIFT pixels
// to the right. The camera's data say when it was taken: a minute into the hour
// for each tenth of SIDE.
func drawLight(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) < 2 {
		ts.Fatalf("usage: light NAME SIDE [SHIFT]")
	}
	side, err := strconv.ParseFloat(args[1], 64)
	ts.Check(err)
	shift := 0
	if len(args) > 2 {
		shift, err = strconv.Atoi(args[2])
		ts.Check(err)
	}
	ts.Check(os.MkdirAll(filepath.Dir(ts.MkAbs(args[0])), 0o755))
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), lightFrame(side, shift), 0o644))
}

// lightFrame is the file of a frame that drawLight draws.
func lightFrame(side float64, shift int) []byte {
	const w, h = 900, 600
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			fx, fy := float64(x-shift)/w, float64(y)/h
			c := [3]float64{6, 6, 7}
			if fx > 0.15 && fx < 0.85 && fy > 0.3 && fy < 0.75 {
				g := 18*math.Sin(fy*190+4*math.Sin(fx*11)) + 9*math.Sin(fx*260+fy*33)
				lit := math.Exp(-6 * (fx - side) * (fx - side))
				c = [3]float64{(152 + g) * lit, (108 + g) * lit, (70 + g) * lit}
			}
			k := uint32(x+int(side*1000))*2654435761 ^ uint32(y)*2246822519 // noise that no two frames share
			k ^= k >> 15
			k *= 2654435761
			n := float64(k>>16&15)/5 - 1.5
			m.SetNRGBA(x, y, color.NRGBA{level(c[0] + n), level(c[1] + n), level(c[2] + n), 255})
		}
	}
	return withCamera(asJPEG(m), fmt.Sprintf("2026:05:04 10:%02d:00", int(10*side+0.5)))
}

// asJPEG is a picture as a camera's file holds it.
func asJPEG(m image.Image) []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 92}); err != nil {
		panic(err) // our own pictures, into memory
	}
	return b.Bytes()
}

// withCamera puts an Exif segment behind a JPEG's start: the moment, 1/8 s, f/8,
// ISO 100 and a camera's name (Exif 2.32, 4.6).
func withCamera(file []byte, taken string) []byte {
	be := binary.BigEndian
	entry := func(b []byte, tag, kind uint16, count, value uint32) []byte {
		return be.AppendUint32(be.AppendUint32(be.AppendUint16(be.AppendUint16(b, tag), kind), count), value)
	}
	const maker, dir2 = 8 + 2 + 3*12 + 4, 8 + 2 + 3*12 + 4 + 8
	const date = dir2 + 2 + 4*12 + 4
	tiff := []byte("MM\x00\x2a\x00\x00\x00\x08\x00\x03")
	tiff = entry(tiff, 0x010f, 2, 7, maker)
	tiff = entry(tiff, 0x0110, 2, 7, maker)
	tiff = entry(tiff, 0x8769, 4, 1, dir2)
	tiff = append(append(tiff, 0, 0, 0, 0), "Ostrel\x00\x00"...)
	tiff = append(tiff, 0, 4)
	tiff = entry(tiff, 0x829a, 5, 1, date+20)
	tiff = entry(tiff, 0x829d, 5, 1, date+28)
	tiff = entry(tiff, 0x8827, 3, 1, 100<<16)
	tiff = entry(tiff, 0x9003, 2, 20, date)
	tiff = append(append(tiff, 0, 0, 0, 0), taken+"\x00"...)
	for _, v := range []uint32{1, 8, 8, 1} {
		tiff = be.AppendUint32(tiff, v)
	}
	seg := append([]byte{0xff, 0xd8, 0xff, 0xe1}, be.AppendUint16(nil, uint16(2+6+len(tiff)))...)
	return append(append(append(seg, "Exif\x00\x00"...), tiff...), file[2:]...)
}

func slab(w, h int, light float64) image.Image {
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := [3]float64{205, 206, 205}
			fx, fy := float64(x)/float64(w), float64(y)/float64(h)
			if fx > 0.2 && fx < 0.8 && fy > 0.4 && fy < 0.62 {
				g := 14 * math.Sin(fy*260+3*math.Sin(fx*9))
				c = [3]float64{132 + g, 92 + g, 58 + g}
			}
			n := float64((x*7349+y*9151)%13) - 6
			m.SetNRGBA(x, y, color.NRGBA{level(c[0]*light + n), level(c[1]*light + n), level(c[2]*light + n), 255})
		}
	}
	return m
}

func level(v float64) uint8 { return uint8(max(0, min(255, v))) }

// wantStatus runs a command and wants its exit status: status N COMMAND….
func wantStatus(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) < 2 || neg {
		ts.Fatalf("usage: status N COMMAND…")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	err = ts.Exec(args[1], args[2:]...)
	got := 0
	if err != nil {
		exit, ok := err.(*exec.ExitError)
		if !ok {
			ts.Fatalf("%v: %v", args[1:], err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
}

// sameTrees wants two folders to hold the same bytes: same DIR DIR.
func sameTrees(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 2 {
		ts.Fatalf("usage: same DIR DIR")
	}
	a, b := tree(ts, args[0]), tree(ts, args[1])
	var differ []string
	for name, data := range a {
		if other, ok := b[name]; !ok || !bytes.Equal(data, other) {
			differ = append(differ, name)
		}
	}
	for name := range b {
		if _, ok := a[name]; !ok {
			differ = append(differ, name)
		}
	}
	slices.Sort(differ)
	if (len(differ) > 0) != neg {
		ts.Fatalf("%d and %d files, different: %s", len(a), len(b), fmt.Sprint(differ))
	}
}

func tree(ts *testscript.TestScript, dir string) map[string][]byte {
	files := map[string][]byte{}
	root := ts.MkAbs(dir)
	ts.Check(filepath.WalkDir(root, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		rel, _ := filepath.Rel(root, path)
		files[rel] = data
		return err
	}))
	return files
}
