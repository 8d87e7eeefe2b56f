package decode

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/jpeg"
	"os"
	"testing"
	"time"
)

// An entry is one Exif field for block to write; long values go behind.
type entry struct {
	tag, typ uint16
	count    uint32
	value    []byte // as long as it is
}

func short(tag uint16, v uint16) entry {
	return entry{tag, 3, 1, binary.LittleEndian.AppendUint16(nil, v)}
}
func long(tag uint16, v uint32) entry {
	return entry{tag, 4, 1, binary.LittleEndian.AppendUint32(nil, v)}
}
func ascii(tag uint16, s string) entry {
	return entry{tag, 2, uint32(len(s) + 1), append([]byte(s), 0)}
}
func rational(tag uint16, n, d uint32) entry {
	le := binary.LittleEndian
	return entry{tag, 5, 1, le.AppendUint32(le.AppendUint32(nil, n), d)}
}

// ifd appends a directory and its long values, and returns where the pointer to
// the next one is.
func ifd(out []byte, entries ...entry) ([]byte, int) {
	le := binary.LittleEndian
	start := len(out)
	out = append(out, make([]byte, 2+12*len(entries)+4)...)
	le.PutUint16(out[start:], uint16(len(entries)))
	for i, e := range entries {
		at := start + 2 + 12*i
		le.PutUint16(out[at:], e.tag)
		le.PutUint16(out[at+2:], e.typ)
		le.PutUint32(out[at+4:], e.count)
		if len(e.value) <= 4 {
			copy(out[at+8:at+12], e.value)
			continue
		}
		le.PutUint32(out[at+8:], uint32(len(out)))
		out = append(out, e.value...)
	}
	return out, start + 2 + 12*len(entries)
}

func block(entries ...entry) []byte {
	b, _ := ifd([]byte("II*\x00\x08\x00\x00\x00"), entries...)
	return b
}

// withSub is a block whose Exif directory holds sub.
func withSub(main []entry, sub ...entry) []byte {
	size := 8 + 2 + 12*(len(main)+1) + 4
	for _, e := range main {
		if len(e.value) > 4 {
			size += len(e.value)
		}
	}
	b := block(append(main, long(tagExifIFD, uint32(size)))...)
	b, _ = ifd(b, sub...)
	return b
}

// photo is a small JPEG with the given segments (marker, body) after its start.
func photo(t testing.TB, segments ...[]byte) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 24, 16)), nil); err != nil {
		t.Fatal(err)
	}
	out := []byte{0xff, 0xd8}
	for _, s := range segments {
		out = append(out, 0xff, s[0], byte((len(s)+1)>>8), byte(len(s)+1))
		out = append(out, s[1:]...)
	}
	return append(out, b.Bytes()[2:]...)
}

func app1(block []byte) []byte { return append([]byte("\xe1Exif\x00\x00"), block...) }

func TestExifBehindXMP(t *testing.T) {
	xmp := []byte("\xe1http://ns.adobe.com/xap/1.0/\x00<x:xmpmeta/>")
	s, err := Decode(photo(t, xmp, app1(block(short(tagOrientation, 6)))), nil)
	if err != nil {
		t.Fatal(err)
	}
	if s.Orientation != 6 || len(s.Notes) != 0 {
		t.Errorf("orientation %d, notes %v; want 6 and none", s.Orientation, s.Notes)
	}
}

func TestExifFirstBlockCounts(t *testing.T) {
	s, err := Decode(photo(t, app1(block(short(tagOrientation, 3))), app1(block(short(tagOrientation, 8)))), nil)
	if err != nil || s.Orientation != 3 {
		t.Errorf("orientation %v, %v; want 3", s.Orientation, err)
	}
}

// Every fault leaves what is sound readable, and is said.
func TestExifFaults(t *testing.T) {
	good := short(tagOrientation, 6)
	loop, next := ifd([]byte("II*\x00\x08\x00\x00\x00"), good)
	binary.LittleEndian.PutUint32(loop[next:], 8)
	sub := block(good, long(tagExifIFD, 8))
	chain, next2 := ifd([]byte("II*\x00\x08\x00\x00\x00"), good)
	binary.LittleEndian.PutUint32(chain[next2:], 0xfffffff0)
	for _, c := range []struct {
		name  string
		block []byte
		want  int
	}{
		{"a count of 2^30 longs", block(good, entry{0x9999, 4, 0x40000001, nil}), 6},
		{"a count of 2^32−1 bytes", block(good, entry{0x9999, 7, 0xffffffff, nil}), 6},
		{"a directory that follows itself", loop, 6},
		{"a sub-directory that is its parent", sub, 6},
		{"a next directory outside", chain, 6},
		{"a type that is none", block(good, entry{0x9999, 77, 1, nil}), 6},
		{"orientation 9", block(short(tagOrientation, 9)), 1},
		{"no directory", []byte("II*\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00"), 1},
		{"a directory longer than the block", []byte("MM\x00*\x00\x00\x00\x08\xff\xff\x01\x12\x00\x03\x00\x00"), 1},
		{"text", []byte("this is no Exif block at all"), 1},
	} {
		s, err := Decode(photo(t, app1(c.block)), nil)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if s.Orientation != c.want {
			t.Errorf("%s: orientation %d, want %d", c.name, s.Orientation, c.want)
		}
		want := "decode.exif-partly"
		if c.want == 1 {
			want = "decode.bad-exif"
		}
		if len(s.Notes) != 1 || s.Notes[0].Code != want {
			t.Errorf("%s: notes %v, want %s", c.name, s.Notes, want)
		}
	}
}

func TestExifFacts(t *testing.T) {
	zone := time.Local
	defer func() { time.Local = zone }()
	time.Local = time.FixedZone("far", 9*3600) // must not show
	b := withSub([]entry{ascii(0x010f, "Ostrel "), ascii(0x0110, "Box 1")},
		rational(0x829a, 1, 125), rational(0x829d, 0, 0), short(0x8827, 400),
		ascii(0x9003, "2026:09:18 14:03:11"), ascii(tagOffsetTimeOrig, "+02:00"),
		rational(0x920a, 50, 1), short(0xa001, 1), short(0xa405, 75),
		entry{tagMakerNote, 7, 0xffffff, nil}) // maker notes are cut out unread
	info := readExif(b)
	want := Facts{Taken: "2026-09-18T14:03:11+02:00", ExposureTime: 0.008, ISO: 400, FocalLength: 50, FocalLength35: 75, Make: "Ostrel", Model: "Box 1"}
	if info.facts != want || info.damaged || info.space != "srgb" {
		t.Errorf("got %+v, want %+v", info, want)
	}
}

func TestTaken(t *testing.T) {
	for in, want := range map[string]string{
		"2026:09:18 14:03:11": "2026-09-18T14:03:11",
		"2026-09-18 14:03:11": "2026-09-18T14:03:11",
		"0000:00:00 00:00:00": "",
		"    :  :     :  :  ": "",
		"2026:13:18 14:03:11": "",
		"2026:09:18":          "",
		"":                    "",
	} {
		if got := taken(in); got != want {
			t.Errorf("taken(%q) = %q, want %q", in, got, want)
		}
	}
}

// FuzzExif: no block makes the reader panic, run long or ask for much memory; and
// the guard's copy of a block passes the guard again unmended.
func FuzzExif(f *testing.F) {
	f.Add(block(short(tagOrientation, 6)))
	f.Add(withSub([]entry{ascii(0x010f, "x")}, rational(0x829a, 1, 125)))
	f.Add([]byte("MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x06\x00\x00\x00\x00\x00\x00"))
	f.Fuzz(func(t *testing.T, b []byte) {
		if len(b) > 1<<16 {
			return
		}
		info := readExif(b)
		if info.orientation < 0 || info.orientation > 8 {
			t.Errorf("orientation %d", info.orientation)
		}
		if g, ok := guardExif(b); ok {
			if again, ok := guardExif(g.block); !ok || again.damaged {
				t.Errorf("a mended block needs mending again")
			}
		}
	})
}

// FuzzDecode: nothing makes Decode panic, and every error is a Refusal.
func FuzzDecode(f *testing.F) {
	f.Add(photo(f, app1(block(short(tagOrientation, 6)))))
	for _, name := range []string{"testdata/tiny.png", "testdata/tiny.tif", "testdata/tiny.webp", "testdata/tiny.gif", "testdata/tiny.bmp"} {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if k := Sniff(data); k == "heic" || k == "avif" {
			return // half a second each
		}
		s, err := Decode(data, &Options{MaxPixels: 1 << 20})
		if err != nil {
			if _, ok := err.(*Refusal); !ok {
				t.Errorf("%T is no refusal", err)
			}
			return
		}
		if b := s.Image.Bounds(); b.Empty() || b.Min != (image.Point{}) {
			t.Errorf("bounds %v", b)
		}
	})
}
