package sheet

import (
	"bytes"
	"testing"

	"golang.org/x/image/font/sfnt"
)

// What a face must be able to draw: the brief of the type in words, here as
// characters. Greek, Cyrillic and Vietnamese are their whole modern alphabets
// (Unicode 15 blocks, less unassigned code points).
func required() map[string][]rune {
	block := func(from, to rune, but ...rune) (all []rune) {
		for r := from; r <= to; r++ {
			if !bytes.ContainsRune([]byte(string(but)), r) {
				all = append(all, r)
			}
		}
		return all
	}
	return map[string][]rune{
		"signs of measure": []rune("½¼¾⅛⅜⅝⅞⁄×±″′°²³Ø%"),
		"punctuation":      []rune("–—“”‘’…·«»¡¿§†€£¥©®™"),
		"Latin":            append(block(0x20, 0x7e), block(0xa0, 0xff)...),
		"Latin Extended-A": block(0x100, 0x17f, 0x149), // U+0149 is deprecated and has a stand-in
		"Greek":            block(0x386, 0x3ce, 0x38b, 0x38d, 0x3a2),
		"Greek Extended":   []rune("ἀἁἂἐἑἙὀὁὐὑῆῶᾳῃῳ"),
		"Cyrillic":         block(0x400, 0x45f),
		"Vietnamese":       append(block(0x1ea0, 0x1ef9), []rune("ĂăĐđĨĩŨũƠơƯư")...),
	}
}

func TestFacesDrawEveryRequiredCharacter(t *testing.T) {
	faces, err := loadFaces()
	if err != nil {
		t.Fatal(err)
	}
	for f, m := range faces {
		for group, runes := range required() {
			for _, r := range runes {
				if !m.has(r) {
					t.Errorf("%s has no %q (U+%04X) of %s", faceNames[f], r, r, group)
				}
			}
		}
		if got := m.clean(string(replacement)); got != string(replacement) {
			t.Errorf("%s cannot draw the replacement sign", faceNames[f])
		}
		for r, s := range standIns {
			for _, c := range s {
				if !m.has(c) {
					t.Errorf("%s: the stand-in %q for U+%04X lacks %q", faceNames[f], s, r, c)
				}
			}
		}
	}
}

// Columns of figures stand only if all digits are of one width without asking
// for it: the PDF path has no switch for tabular figures.
func TestDigitsAreOfOneWidth(t *testing.T) {
	faces, err := loadFaces()
	if err != nil {
		t.Fatal(err)
	}
	for f, m := range faces {
		for r := '0'; r <= '9'; r++ {
			if got, want := m.glyphs[r].width, m.glyphs['0'].width; got != want {
				t.Errorf("%s: %c is %.1f wide, 0 is %.1f", faceNames[f], r, got, want)
			}
		}
		for _, pair := range []string{"10", "17", "71", "74", "47", "11", "1.", "7."} {
			if k := m.kern(-1, rune(pair[0]), rune(pair[1])); k != 0 && pair[1] != '.' {
				t.Errorf("%s kerns the digits %q by %.1f", faceNames[f], pair, k)
			}
		}
	}
}

func TestItalicIsDrawnNotSlanted(t *testing.T) {
	faces, err := loadFaces()
	if err != nil {
		t.Fatal(err)
	}
	// A slanted roman keeps the roman's widths; a true italic has its own.
	same := 0
	for r := 'a'; r <= 'z'; r++ {
		if faces[serif].glyphs[r].width == faces[italic].glyphs[r].width {
			same++
		}
	}
	if same > 5 {
		t.Errorf("%d of 26 letters are as wide in italic as in roman", same)
	}
}

func TestKerningIsRead(t *testing.T) {
	faces, err := loadFaces()
	if err != nil {
		t.Fatal(err)
	}
	for f, m := range faces {
		if k := m.kern(-1, 'T', 'o'); k >= 0 {
			t.Errorf("%s: T and o are kerned by %.1f, want closer", faceNames[f], k)
		}
	}
}

// The licence reserves or protects the originals' names (fonts/README.md), and
// three megabytes are what the tree can carry.
func TestFontFilesCarryNamesOfTheirOwn(t *testing.T) {
	faces, err := loadFaces()
	if err != nil {
		t.Fatal(err)
	}
	total := 0
	for f, m := range faces {
		total += len(m.data)
		for _, id := range []sfnt.NameID{sfnt.NameIDFamily, sfnt.NameIDFull, sfnt.NameIDPostScript} {
			s, err := m.font.Name(nil, id)
			if err != nil {
				t.Errorf("%s: name %d: %v", faceNames[f], id, err)
			}
			for _, reserved := range []string{"Gentium", "SIL", "Noto"} {
				if bytes.Contains([]byte(s), []byte(reserved)) {
					t.Errorf("%s: name %q uses %q", faceNames[f], s, reserved)
				}
			}
		}
		if !bytes.HasPrefix(m.data, []byte{0, 1, 0, 0}) {
			t.Errorf("%s has no TrueType outlines", faceNames[f])
		}
	}
	if total > 3<<20 {
		t.Errorf("fonts take %d bytes, want at most 3 MB", total)
	}
}

// A fraction stands close to its whole number, and as far from a × as a whole number does.
func TestFractionStandsApartFromTimes(t *testing.T) {
	faces, err := loadFaces()
	if err != nil {
		t.Fatal(err)
	}
	for f, m := range faces {
		if close, apart := m.kern('6', '\u00a0', '⁷'), m.kern('×', '\u00a0', '⁷'); close >= 0 || apart != 0 {
			t.Errorf("%s: %.1f after a whole number, %.1f after ×", faceNames[f], close, apart)
		}
	}
}
