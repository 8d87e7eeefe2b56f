package photos

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"slabfolio/imaging"
)

// card writes files with their contents, all of one day.
func card(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		at := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(at, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		day := time.Date(2026, 11, 29, 12, 0, 0, 0, time.Local)
		if strings.Contains(name, "old") {
			day = day.AddDate(0, 0, -20)
		}
		if err := os.Chtimes(at, day, day); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func contents(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		all[e.Name()] = string(data)
	}
	return all
}

const magic = "\xff\xd8\xff"

// A card has folders, raw files, films, rubbish, and two files of one name.
func TestCardIsCopied(t *testing.T) {
	dir := card(t, map[string]string{
		"DCIM/100AAA/IMG_0001.JPG": magic + "one", "DCIM/100AAA/IMG_0001.CR2": "II*\x00raw", "DCIM/100AAA/IMG_0002.JPG": magic + "two",
		"DCIM/101AAA/IMG_0001.JPG": magic + "other", "DCIM/101AAA/IMG_0001.CR2": "II*\x00other raw", "DCIM/101AAA/IMG_0002.JPG": magic + "two",
		"DCIM/100AAA/MVI_0003.MOV": "film", "DCIM/100AAA/._IMG_0001.JPG": "rubbish", "DCIM/100AAA/IMG_0004.NEF": "II*\x00alone", "DCIM/old.jpg": magic + "old",
		"OY-0001/piece.yaml": "serial: OY-0001", "OY-0001/own.jpg": magic + "of a piece", ".Trashes/IMG_0009.JPG": magic + "gone",
	})
	c, err := ReadCard(t.Context(), dir, "2026-11-20")
	if err != nil {
		t.Fatal(err)
	}
	if c.Older != 1 || len(c.Photos) != 5 || c.Others[".mov"] != 1 || !slices.Equal(c.Passed, []string{"OY-0001"}) {
		t.Errorf("%+v", c)
	}
	before, to := snapshot(t, dir), t.TempDir()
	steps := 0
	got, err := c.Copy(t.Context(), to, nil, func(int) { steps++ })
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]string{
		"IMG_0001.JPG": magic + "one", "IMG_0001.CR2": "II*\x00raw", "IMG_0002.JPG": magic + "two", "IMG_0004.NEF": "II*\x00alone",
		"101AAA-IMG_0001.JPG": magic + "other", "101AAA-IMG_0001.CR2": "II*\x00other raw",
	}
	if diff := cmp.Diff(want, contents(t, to)); diff != "" {
		t.Error(diff)
	}
	if got.Photos != 4 || got.Raws != 2 || got.There != 1 || len(got.Renamed) != 2 || steps != 5 {
		t.Errorf("%+v, %d steps", got, steps)
	}
	if diff := cmp.Diff(before, snapshot(t, dir)); diff != "" {
		t.Errorf("the card changed: %s", diff)
	}
	info, _ := os.Stat(filepath.Join(to, "IMG_0002.JPG"))
	if info.ModTime().Day() != 29 {
		t.Error("the file's own day is lost")
	}
}

func snapshot(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := filepath.WalkDir(dir, func(at string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(at)
		info, _ := d.Info()
		all[at] = fmt.Sprint(info.ModTime(), info.Mode(), string(data))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// What stands in the folder already is never overwritten, and not copied twice.
func TestCopyOverwritesNothing(t *testing.T) {
	dir := card(t, map[string]string{"a.jpg": magic + "new", "b.jpg": magic + "same", "C.JPG": magic + "case"})
	standing := card(t, map[string]string{"a.jpg": magic + "the maker's own", "b.jpg": magic + "same", "c.jpg": magic + "lower"})
	c, err := ReadCard(t.Context(), dir, "")
	if err != nil {
		t.Fatal(err)
	}
	to := t.TempDir()
	got, err := c.Copy(t.Context(), to, []string{standing}, func(int) {})
	if err != nil || got.There != 1 {
		t.Fatalf("%+v, %v", got, err)
	}
	if diff := cmp.Diff(map[string]string{"2-a.jpg": magic + "new", "2-C.JPG": magic + "case"}, contents(t, to)); diff != "" {
		t.Error(diff)
	}
}

// A file that the card does not give costs that file alone, and is named.
func TestUnreadableFileCostsItselfAlone(t *testing.T) {
	dir := card(t, map[string]string{"a.jpg": magic + "a", "b.jpg": magic + "b", "b.nef": "II*\x00raw", "c.jpg": magic + "c"})
	c, err := ReadCard(t.Context(), dir, "")
	if err != nil {
		t.Fatal(err)
	}
	for _, gone := range []string{"a.jpg", "b.jpg"} { // went away, as from a card that fails
		if err := os.Remove(filepath.Join(dir, gone)); err != nil {
			t.Fatal(err)
		}
	}
	to := t.TempDir()
	got, err := c.Copy(t.Context(), to, nil, func(int) {})
	if err != nil || !slices.Equal(got.Failed, []string{"a.jpg", "b.jpg"}) || got.Photos != 2 {
		t.Errorf("%+v, %v", got, err)
	}
	if diff := cmp.Diff(map[string]string{"b.nef": "II*\x00raw", "c.jpg": magic + "c"}, contents(t, to)); diff != "" {
		t.Error(diff)
	}
}

// A copy that is stopped in the middle leaves no half file.
func TestStoppedCopyLeavesNothingHalf(t *testing.T) {
	big := magic + strings.Repeat("0123456789abcdef", 1<<18)
	dir := card(t, map[string]string{"a.jpg": big, "b.jpg": big + "b", "c.jpg": big + "c"})
	c, err := ReadCard(t.Context(), dir, "")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	to := t.TempDir()
	_, err = c.Copy(ctx, to, nil, func(done int) {
		if done == 1 {
			cancel()
		}
	})
	if !errors.Is(err, context.Canceled) {
		t.Fatalf("%v", err)
	}
	if got := contents(t, to); len(got) != 1 || got["a.jpg"] != big {
		t.Errorf("%d files are there", len(got))
	}
}

// Frames of one view in changing light are found by what the camera says and by
// looking; photos of other views at the same settings are no frames.
func TestBurstsOfAFolder(t *testing.T) {
	dir := t.TempDir()
	for i, side := range []float64{0.1, 0.5, 0.9} {
		frame(t, filepath.Join(dir, fmt.Sprintf("light-%d.jpg", i+1)), fmt.Sprintf("2026:11:29 20:%02d:00", i), side, 0)
	}
	for i, shift := range []int{0, 60, 130} { // three views, minutes apart
		frame(t, filepath.Join(dir, fmt.Sprintf("view-%d.jpg", i+1)), fmt.Sprintf("2026:11:29 21:%02d:00", i), 0.5, shift)
	}
	got, err := FindBursts(t.Context(), dir, &imaging.Options{Pure: true})
	if err != nil {
		t.Fatal(err)
	}
	want := []Burst{{How: "lightest", Frames: []string{"light-1.jpg", "light-2.jpg", "light-3.jpg"}}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if name := want[0].Name(); name != "light-blended" {
		t.Errorf("it would be called %q", name)
	}
}

// frame draws a slab before black, lit from a side at 0 to 1, from a place that is
// shifted by pixels, as a camera's JPEG of a moment.
func frame(t *testing.T, path, taken string, side float64, shift int) {
	t.Helper()
	const w, h = 900, 600
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			fx, fy := float64(x-shift)/w, float64(y)/h
			c := [3]float64{6, 6, 7}
			low := 0.3 + float64(shift)/400 // another view shows it lower and less deep
			if fx > 0.15 && fx < 0.75 && fy > low && fy < 0.75 {
				g := 18*math.Sin((fy-low)*float64(190+shift)+4*math.Sin(fx*11)) + 9*math.Sin(fx*260+fy*33)
				lit := math.Exp(-6 * (fx - side) * (fx - side))
				c = [3]float64{(152 + g) * lit, (108 + g) * lit, (70 + g) * lit}
			}
			n := float64((x*7349+y*9151+int(side*1000))%13) / 4
			m.SetNRGBA(x, y, color.NRGBA{uint8(max(0, c[0]+n)), uint8(max(0, c[1]+n)), uint8(max(0, c[2]+n)), 255})
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 92}); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, withDate(b.Bytes(), taken), 0o644); err != nil {
		t.Fatal(err)
	}
}

// withDate puts an Exif segment behind a JPEG's start that says when it was taken and
// for how long (Exif 2.32, 4.6).
func withDate(file []byte, taken string) []byte {
	be := binary.BigEndian
	entry := func(b []byte, tag, kind uint16, count, value uint32) []byte {
		return be.AppendUint32(be.AppendUint32(be.AppendUint16(be.AppendUint16(b, tag), kind), count), value)
	}
	const sub, date = 8 + 2 + 12 + 4, 8 + 2 + 12 + 4 + 2 + 2*12 + 4
	tiff := entry([]byte("MM\x00\x2a\x00\x00\x00\x08\x00\x01"), 0x8769, 4, 1, sub)
	tiff = append(tiff, 0, 0, 0, 0, 0, 2)
	tiff = entry(tiff, 0x829a, 5, 1, date+20)
	tiff = entry(tiff, 0x9003, 2, 20, date)
	tiff = append(append(tiff, 0, 0, 0, 0), taken+"\x00"...)
	tiff = be.AppendUint32(be.AppendUint32(tiff, 1), 8)
	seg := append([]byte{0xff, 0xd8, 0xff, 0xe1}, be.AppendUint16(nil, uint16(2+6+len(tiff)))...)
	return append(append(append(seg, "Exif\x00\x00"...), tiff...), file[2:]...)
}
