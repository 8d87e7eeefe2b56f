package linear_test

import (
	"encoding/binary"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"golang.org/x/image/tiff"

	"slabfolio/testdata/beside"
)

// lcms runs LittleCMS over device values of one, three or four channels, 8 or 16
// bits each: relative colorimetric, no black-point compensation, to its built-in
// sRGB at 16 bits. It returns the RGB values, three a pixel.
func lcms(t testing.TB, icc []byte, w, h, channels, bits int, pix []byte) []uint16 {
	t.Helper()
	tool, err := exec.LookPath("tificc")
	if err != nil {
		beside.Missing(t, "tificc (LittleCMS)")
	}
	dir := t.TempDir()
	in, out, profile := filepath.Join(dir, "in.tif"), filepath.Join(dir, "out.tif"), filepath.Join(dir, "in.icc")
	for name, data := range map[string][]byte{in: plainTIFF(w, h, channels, bits, pix), profile: icc} {
		if err := os.WriteFile(name, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	// -c0 asks for no precalculated tables where it can be had.
	if msg, err := exec.Command(tool, "-t1", "-c0", "-w16", "-i"+profile, "-o*sRGB", in, out).CombinedOutput(); err != nil {
		t.Fatalf("tificc: %v: %s", err, msg)
	}
	f, err := os.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	m, err := tiff.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	rgb := make([]uint16, 0, 3*w*h)
	for y := range h {
		for x := range w {
			switch m := m.(type) {
			case *image.RGBA64:
				c := m.RGBA64At(x, y)
				rgb = append(rgb, c.R, c.G, c.B)
			default:
				t.Fatalf("tificc wrote %T", m)
			}
		}
	}
	return rgb
}

// plainTIFF writes an uncompressed TIFF of one strip (TIFF 6.0).
func plainTIFF(w, h, channels, bits int, pix []byte) []byte {
	photometric := map[int]uint32{1: 1, 3: 2, 4: 5}[channels]
	le := binary.LittleEndian
	out := append([]byte("II*\x00"), 0, 0, 0, 0)
	out = append(out, pix...)
	if len(out)%2 == 1 {
		out = append(out, 0)
	}
	bitsAt := len(out)
	for range channels {
		out = le.AppendUint16(out, uint16(bits))
	}
	le.PutUint32(out[4:], uint32(len(out)))
	entries := [][4]uint32{
		{256, 4, 1, uint32(w)}, {257, 4, 1, uint32(h)}, {258, 3, uint32(channels), uint32(bitsAt)},
		{259, 3, 1, 1}, {262, 3, 1, photometric}, {273, 4, 1, 8}, {277, 3, 1, uint32(channels)},
		{278, 4, 1, uint32(h)}, {279, 4, 1, uint32(len(pix))}, {284, 3, 1, 1},
	}
	if channels == 1 {
		entries[2][3] = uint32(bits)
	}
	out = le.AppendUint16(out, uint16(len(entries)))
	for _, e := range entries {
		out = le.AppendUint16(out, uint16(e[0]))
		out = le.AppendUint16(out, uint16(e[1]))
		out = le.AppendUint32(out, e[2])
		out = le.AppendUint32(out, e[3])
	}
	return le.AppendUint32(out, 0)
}
