package rendition

import (
	"bytes"
	"encoding/json"
	"image"
	"image/jpeg"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/image/webp"

	"slabfolio/imaging/pixel"
)

// required reports whether a missing reference is a failure.
func missing(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
		t.Fatalf("%s is missing", what)
	}
	t.Skipf("%s is missing", what)
}

// decoded is the decoding half of IEC 61966-2-1, 0 to 65535.
func decoded(v float64) uint16 {
	v /= 255
	if v <= 0.04045 {
		return uint16(math.Round(65535 * v / 12.92))
	}
	return uint16(math.Round(65535 * math.Pow((v+0.055)/1.055, 2.4)))
}

// flat returns a picture of one sRGB colour.
func flat(w, h int, r, g, b float64) *pixel.Image {
	m := pixel.New(w, h)
	for i := 0; i < len(m.Pix); i += 3 {
		m.Pix[i], m.Pix[i+1], m.Pix[i+2] = decoded(r), decoded(g), decoded(b)
	}
	return m
}

// noisy returns a picture with detail everywhere, which costs many bytes.
func noisy(w, h int) *pixel.Image {
	m, rng := pixel.New(w, h), rand.New(rand.NewPCG(7, 7))
	for y := range h {
		for x := range w {
			v := 120 + 60*math.Sin(float64(x)/7)*math.Cos(float64(y)/5)
			for c := range 3 {
				m.Pix[(y*w+x)*3+c] = decoded(min(max(v+rng.NormFloat64()*12, 0), 255))
			}
		}
	}
	return m
}

var text = Meta{
	Creator: "Ostrel Yard", Copyright: "© 2026 Ostrel Yard", Title: "Estuary console table",
	Description: "Wych elm & smoke grey resin\non two frames <welded>", Alt: "Console table seen from the left, \"river\" of resin",
	Taken: "2026-09-18T14:03:11+02:00", Credit: "Ostrel Yard — workshop",
}

// encoded makes the file of a size from m, shrunk times smaller than its photo.
func encoded(m *pixel.Image, s Size, shrunk float64) (File, error) {
	p := Develop(m, SharpenAmount(shrunk))
	defer p.Release()
	return p.Encode(s, text, nil)
}

func TestColoursComeBack(t *testing.T) {
	// Every colour through both files and back, by decoders of others; 8-bit YCbCr
	// cannot hold all sRGB triples, so two levels are allowed, three with the
	// narrower range of WebP.
	for _, c := range [][3]float64{{255, 255, 255}, {0, 0, 0}, {128, 128, 128}, {200, 120, 60}, {30, 60, 90}, {254, 254, 254}, {1, 1, 1}} {
		m := flat(33, 17, c[0], c[1], c[2])
		for format, tol := range map[string]float64{"jpeg": 2, "webp": 3} {
			f, err := encoded(m, Size{Name: "x", Width: 33, Format: format, Quality: 98}, 2.5)
			if err != nil {
				t.Fatal(err)
			}
			got := decodeFile(t, f)
			if b := got.Bounds(); b.Dx() != 33 || b.Dy() != 17 || f.Width != 33 || f.Height != 17 {
				t.Fatalf("%s is %v, file says %d × %d", format, b, f.Width, f.Height)
			}
			r, g, b, _ := got.At(16, 8).RGBA()
			for i, v := range []uint32{r, g, b} {
				if math.Abs(float64(v>>8)-c[i]) > tol {
					t.Errorf("%s: %v came back as %d %d %d", format, c, r>>8, g>>8, b>>8)
					break
				}
			}
		}
	}
}

// decodeFile decodes a file by a decoder that is not ours.
func decodeFile(t *testing.T, f File) image.Image {
	t.Helper()
	if f.Size.Format != "webp" {
		m, err := jpeg.Decode(bytes.NewReader(f.Data))
		if err != nil {
			t.Fatalf("jpeg does not decode: %v", err)
		}
		return m
	}
	m, err := webp.Decode(bytes.NewReader(f.Data))
	if err != nil {
		t.Fatalf("webp does not decode: %v", err)
	}
	// x/image/webp hands over the file's planes, whose range is limited (RFC 6386
	// section 9.2, BT.601), as if they were full: widen them.
	y := m.(*image.YCbCr)
	for i, v := range y.Y {
		y.Y[i] = uint8(math.Round(min(max((float64(v)-16)*255/219, 0), 255)))
	}
	for _, plane := range [][]uint8{y.Cb, y.Cr} {
		for i, v := range plane {
			plane[i] = uint8(math.Round(min(max((float64(v)-128)*255/224+128, 0), 255)))
		}
	}
	return y
}

func TestWhiteStaysWhite(t *testing.T) {
	p := Develop(flat(9, 7, 255, 255, 255), 0.6)
	full, limited := p.full(), p.limited()
	for i, v := range full.Y {
		if v != 255 || limited.Y[i] != 235 {
			t.Fatalf("luma of white is %d, %d in WebP, want 255, 235", v, limited.Y[i])
		}
	}
	for i := range full.Cb {
		if full.Cb[i] != 128 || full.Cr[i] != 128 || limited.Cb[i] != 128 || limited.Cr[i] != 128 {
			t.Fatal("white has a colour")
		}
	}
}

func TestPlanesAgreeWithFormula(t *testing.T) {
	// JFIF 1.02, "RGB to YCbCr", in floating point on the mean of four pixels.
	m := noisy(64, 48)
	full := Develop(m, 0).full()
	code := func(v uint16) float64 { return float64(srgbTable()[v]) / 256 }
	for y := 0; y < 48; y += 2 {
		for x := 0; x < 64; x += 2 {
			var r, g, b float64
			for _, i := range []int{y*64 + x, y*64 + x + 1, (y+1)*64 + x, (y+1)*64 + x + 1} {
				pr, pg, pb := code(m.Pix[i*3]), code(m.Pix[i*3+1]), code(m.Pix[i*3+2])
				r, g, b = r+pr/4, g+pg/4, b+pb/4
				if want := 0.299*pr + 0.587*pg + 0.114*pb; math.Abs(want-float64(full.Y[i])) > 0.51 {
					t.Fatalf("luma %d, want %.2f", full.Y[i], want)
				}
			}
			cb := 128 - 0.168736*r - 0.331264*g + 0.5*b
			cr := 128 + 0.5*r - 0.418688*g - 0.081312*b
			i := y/2*32 + x/2
			if math.Abs(cb-float64(full.Cb[i])) > 0.52 || math.Abs(cr-float64(full.Cr[i])) > 0.52 {
				t.Fatalf("chroma %d %d, want %.2f %.2f", full.Cb[i], full.Cr[i], cb, cr)
			}
		}
	}
}

func TestSharpeningMakesNoHalo(t *testing.T) {
	m := pixel.New(40, 20)
	for i := range m.Pix {
		m.Pix[i] = decoded(60)
		if i/3%40 >= 20 {
			m.Pix[i] = decoded(240)
		}
	}
	for _, v := range Develop(m, 0.6).full().Y {
		if v < 58 || v > 60 && v < 240 || v > 242 {
			t.Fatalf("beside an edge 60|240 stands %d", v)
		}
	}
	if a, b := SharpenAmount(1), SharpenAmount(0.5); a != 0 || b != 0 {
		t.Errorf("a picture at its own size is sharpened by %v, %v", a, b)
	}
	if !(SharpenAmount(1.5) > 0 && SharpenAmount(2.5) > SharpenAmount(1.5) && SharpenAmount(40) <= 0.6) {
		t.Error("sharpening is not in proportion to the reduction")
	}
	// A soft edge becomes steeper.
	soft := pixel.New(40, 20)
	for i := range soft.Pix {
		soft.Pix[i] = decoded(min(max(100+float64(i/3%40-20)*20, 60), 200))
	}
	if plain, sharp := Develop(soft, 0), Develop(soft, 0.6); bytes.Equal(plain.full().Y, sharp.full().Y) {
		t.Error("sharpening does nothing to a soft edge")
	}
}

func TestBudgetLowersQuality(t *testing.T) {
	m := noisy(800, 600)
	free, err := encoded(m, Size{Name: "x", Width: 800, Format: "jpeg", Quality: 85}, 1)
	if err != nil {
		t.Fatal(err)
	}
	if free.Quality != 85 {
		t.Errorf("without a limit the quality is %d, want 85", free.Quality)
	}
	limit := len(free.Data) * 3 / 4
	f, err := encoded(m, Size{Name: "x", Width: 800, Format: "jpeg", Quality: 85, MaxBytes: limit}, 1)
	if err != nil {
		t.Fatal(err)
	}
	if len(f.Data) > limit || f.Quality >= 85 || len(f.Data) < limit*3/4 {
		t.Errorf("%d bytes at quality %d for a limit of %d", len(f.Data), f.Quality, limit)
	}
	f, err = encoded(m, Size{Name: "x", Width: 800, Format: "jpeg", Quality: 85, MaxBytes: 10}, 1)
	if err != nil || f.Quality != 75 {
		t.Errorf("an impossible limit ends at quality %d, want 75 (%v)", f.Quality, err)
	}
}

func TestNeverEnlarges(t *testing.T) {
	for _, c := range []struct{ s, w, h, ow, oh int }{{0, 6000, 4000, 2400, 1600}, {0, 1000, 700, 1000, 700}, {4, 800, 800, 600, 600}, {6, 800, 800, 800, 800}, {7, 4000, 5000, 960, 1200}, {7, 500, 625, 500, 625}, {2, 100, 32000, 50, 16000}, {0, 9, 1, 9, 1}} {
		if ow, oh := DefaultSizes()[c.s].Fit(c.w, c.h); ow != c.ow || oh != c.oh {
			t.Errorf("%s of %d × %d is %d × %d, want %d × %d", DefaultSizes()[c.s].Name, c.w, c.h, ow, oh, c.ow, c.oh)
		}
	}
}

func TestBadSizes(t *testing.T) {
	for _, s := range []Size{
		{}, {Width: 100, Format: "gif", Quality: 80}, {Width: 100, Format: "jpeg"}, {Width: 100, Format: "jpeg", Quality: 101},
		{Width: 100, Format: "jpeg", Quality: 80, RatioW: 1}, {Width: 100000, Format: "jpeg", Quality: 80}, {Width: 100, Format: "webp", Quality: 80, RatioW: 99, RatioH: 1},
	} {
		if s.Check() == nil {
			t.Errorf("%+v passes", s)
		}
	}
	for _, s := range DefaultSizes() {
		if err := s.Check(); err != nil {
			t.Error(err)
		}
	}
}

func TestMetadataByExiftool(t *testing.T) {
	tool, err := exec.LookPath("exiftool")
	if err != nil {
		missing(t, "exiftool")
	}
	for _, format := range []string{"jpeg", "webp"} {
		f, err := encoded(noisy(64, 48), Size{Name: "x", Width: 64, Format: format, Quality: 85}, 1)
		if err != nil {
			t.Fatal(err)
		}
		name := filepath.Join(t.TempDir(), "photo."+format)
		if err := os.WriteFile(name, f.Data, 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(tool, "-j", "-G1", "-struct", "-charset", "utf8", name).Output()
		if err != nil {
			t.Fatal(err)
		}
		var all []map[string]any
		if err := json.Unmarshal(out, &all); err != nil || len(all) != 1 {
			t.Fatal(err, string(out))
		}
		got := all[0]
		for tag, want := range map[string]any{
			"XMP-dc:Title": text.Title, "XMP-dc:Description": text.Description, "XMP-dc:Rights": text.Copyright,
			"XMP-photoshop:Credit": text.Credit, "XMP-xmpRights:Marked": true,
			"XMP-iptcCore:AltTextAccessibility": text.Alt, "XMP-xmp:CreateDate": "2026:09:18 14:03:11+02:00",
			"XMP-photoshop:DateCreated": "2026:09:18 14:03:11+02:00", "ICC_Profile:ProfileDescription": "sRGB",
		} {
			if got[tag] != want {
				t.Errorf("%s: %s is %#v, want %#v", format, tag, got[tag], want)
			}
		}
		if c, ok := got["XMP-dc:Creator"].([]any); !ok || len(c) != 1 || c[0] != text.Creator {
			t.Errorf("%s: creator is %#v", format, got["XMP-dc:Creator"])
		}
		for tag := range got {
			if strings.HasPrefix(tag, "IFD") || strings.HasPrefix(tag, "ExifIFD") || strings.Contains(tag, "GPS") || tag == "ExifTool:Warning" || tag == "ExifTool:Error" {
				t.Errorf("%s: holds %s = %v", format, tag, got[tag])
			}
		}
	}
}

func TestPacketHoldsAnything(t *testing.T) {
	m := Meta{Creator: "a\x00b\x1fc\xff\xfe", Alt: strings.Repeat("&\"<é", 100000), Title: "]]>", Copyright: "  "}
	p := xmpPacket(m)
	if len(p) > 65000 {
		t.Errorf("the packet has %d bytes; a JPEG holds 65504", len(p))
	}
	if !bytes.Contains(p, []byte("<rdf:li>abc</rdf:li>")) || !bytes.Contains(p, []byte("]]&gt;")) {
		t.Errorf("control characters or markup went through: %s", p[:800])
	}
	if bytes.Contains(p, []byte("Marked")) || bytes.Contains(p, []byte("CreateDate")) {
		t.Error("an empty field was written")
	}
	if !bytes.Equal(p, xmpPacket(m)) {
		t.Error("two packets differ")
	}
}
