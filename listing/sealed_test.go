package listing

import (
	"crypto/sha512"
	"encoding/hex"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"slabfolio/listing/archive"
)

// A certificate says which record was sealed of its piece and by what it is told
// again, once there is one beside the pieces; and a run after the sealing does not
// take the earlier certificate for up to date.
func TestCertificateNamesTheSealedRecord(t *testing.T) {
	dir, o := layPhotoBoard(t)
	o.Cache = t.TempDir()
	prepareAll(t, dir, o)
	certificate := filepath.Join(o.Out, "OY-1", "certificate.pdf")
	before, err := os.ReadFile(certificate)
	if err != nil {
		t.Fatal(err)
	}
	shelf := filepath.Join(filepath.Dir(dir), "shelf")
	sum := ""
	for _, name := range []string{"oy-1", "OY-1.rev2", "OY-1.owner", "OY-11"} {
		if err := os.MkdirAll(shelf, 0o755); err != nil {
			t.Fatal(err)
		}
		s, err := archive.Seal(t.Context(), shelf, &archive.Bag{Name: name, Info: []archive.Info{{Label: "Source-Organization", Value: name}}, Files: []archive.File{{Path: "note.txt", Data: []byte(name)}}})
		if err != nil {
			t.Fatal(err)
		}
		if name == "OY-1.rev2" {
			sum = s
		}
	}
	prepareAll(t, dir, o)
	after, err := os.ReadFile(certificate)
	if err != nil || string(before) == string(after) {
		t.Fatalf("the certificate is the one from before the sealing: %v", err)
	}
	manifest, err := os.ReadFile(filepath.Join(shelf, "OY-1.rev2", "manifest-sha512.txt"))
	if own := sha512.Sum512(manifest); err != nil || hex.EncodeToString(own[:]) != sum {
		t.Fatalf("the sum of the manifest is not that which Seal told: %v", err)
	}
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("no pdftotext to read the certificate with")
	}
	text, err := exec.Command(tool, certificate, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(strings.Fields(string(text)), ""); !strings.Contains(got, sum) || !strings.Contains(got, "OY-1.rev2;") {
		t.Errorf("the certificate does not hold %s: %s", sum, text)
	}
}
