package imaging

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"slabfolio/imaging/rendition"
)

// reference returns the folder of reference photos; without it the test is
// skipped, or fails where references are required.
func reference(t *testing.T, sub string) string {
	t.Helper()
	dir := filepath.Join("..", "..", "shared", sub)
	if _, err := os.Stat(dir); err != nil {
		missing(t, "the folder of reference photos, "+sub)
	}
	return dir
}

func missing(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
		t.Fatalf("%s is missing", what)
	}
	t.Skipf("%s is missing", what)
}

func TestNothingOfTheOriginalGoesThrough(t *testing.T) {
	tool, err := exec.LookPath("exiftool")
	if err != nil {
		missing(t, "exiftool")
	}
	dir := reference(t, "photos/cameras")
	// Photos that hold positions, serial numbers, maker notes and thumbnails.
	for _, name := range []string{"mei_HTCDesire_gps.jpg", "mei_SonyHX5V_gps.jpg", "jsk_iPhone5s_gps_notes.jpg", "mei_LeicaT_16MP_rot270.jpg", "mei_PentaxIstD.jpg"} {
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(filepath.Join(dir, name))
			if err != nil {
				missing(t, name)
			}
			p, err := Open(Request{Name: name, Data: data}, nil)
			if err != nil {
				t.Fatal(err)
			}
			defer p.Close()
			Develop([]*Photo{p})
			files, err := p.Render([]rendition.Size{
				{Name: "a", Width: 600, Format: "jpeg", Quality: 80}, {Name: "b", Width: 600, Format: "webp", Quality: 80},
			}, rendition.Meta{Creator: "Ostrel Yard", Taken: p.Taken})
			if err != nil {
				t.Fatal(err)
			}
			forPDF, err := p.PDFPicture(500)
			if err != nil {
				t.Fatal(err)
			}
			for i, out := range [][]byte{files[0].Data, files[1].Data, forPDF.Data, p.Before, p.After} {
				for tag := range tags(t, tool, out) {
					group, _, _ := strings.Cut(tag, ":")
					switch group {
					case "SourceFile", "ExifTool", "System", "File", "Composite", "JFIF", "RIFF", "ICC_Profile", "ICC-header",
						"XMP-dc", "XMP-xmp", "XMP-photoshop", "XMP-iptcExt", "XMP-x":
					default:
						t.Errorf("output %d holds %s", i, tag)
					}
				}
			}
			for _, word := range []string{p.Facts.Make, p.Facts.Model} {
				if len(word) > 3 && bytes.Contains(files[0].Data, []byte(word)) {
					t.Errorf("the output names the camera, %q", word)
				}
			}
		})
	}
}

// tags lists what exiftool finds in a file.
func tags(t *testing.T, tool string, data []byte) map[string]any {
	t.Helper()
	name := filepath.Join(t.TempDir(), "out")
	if err := os.WriteFile(name, data, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, "-j", "-G1", "-a", "-u", name).Output()
	if err != nil {
		t.Fatal(err)
	}
	var all []map[string]any
	if err := json.Unmarshal(out, &all); err != nil || len(all) != 1 {
		t.Fatal(err)
	}
	return all[0]
}
