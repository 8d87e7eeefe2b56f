package listing

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A photo whose name names the buyer is doubted where the published files bear that
// name, by check and by prepare; one whose view is known bears that.
func TestPhotosThatNameTheBuyer(t *testing.T) {
	for name, want := range map[string]bool{
		"krantz_oak.jpg": true, "WilhelminaKrantz.jpg": true, "wilhelmina-krantz-x.jpg": true, "krantz-front.jpg": false, "IMG_1.jpg": false, "wilhelmine.jpg": false,
	} {
		dir, o := layBoard(t)
		if err := os.WriteFile(filepath.Join(dir, name), boardPhoto(t, 132), 0o644); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, "piece.yaml"), []byte(boardSpec+"buyer: {name: \"Mrs Wilhelmina Krantz, Ostrel\"}\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		checked, err := Check(t.Context(), []string{dir}, o)
		if err != nil {
			t.Fatal(err)
		}
		prepared := prepareAll(t, dir, o)
		for what, sum := range map[string]*Summary{"check": checked, "prepare": prepared} {
			if got := len(codesOf(sum, "photo.named")) == 1; got != want {
				t.Errorf("%s: %s doubts it: %v, want %v", name, what, got, want)
			}
		}
		public := false
		for file, text := range allText(t, o.Out) {
			public = public || strings.HasPrefix(file, "OY-1/listing/") && strings.Contains(strings.ToLower(file+text), "krantz")
		}
		if public != want {
			t.Errorf("%s: the name is published: %v; doubted: %v", name, public, want)
		}
	}
}
