package photos

import (
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"slabfolio/imaging/decode"
)

// Each kind that decode names has its words here, and no words are for a kind that
// it does not name.
func TestEveryKindHasItsWords(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "..", "imaging", "decode", "*.go"))
	if err != nil || len(files) < 10 {
		t.Fatalf("%d files: %v", len(files), err)
	}
	named := map[string]bool{}
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range regexp.MustCompile(`unsupported\("([a-z0-9-]+)"\)|"decode.unsupported", Variant: "([a-z0-9-]+)"`).FindAllStringSubmatch(string(text), -1) {
			named[m[1]+m[2]] = true
		}
	}
	for kind := range named {
		if _, ok := unsupportedKinds[kind]; !ok {
			t.Errorf("%s has no words", kind)
		}
	}
	for kind := range unsupportedKinds {
		if !named[kind] {
			t.Errorf("%s has words and does not happen", kind)
		}
	}
}

func TestRefusalsSpeakToMakers(t *testing.T) {
	for name, data := range map[string][]byte{
		"nothing": nil, "text": []byte("hello, this is a text"), "PDF": []byte("%PDF-1.4 ..."),
		"zeros": make([]byte, 64), "half a header": []byte("\xff\xd8\xff\xe0\x00"),
	} {
		_, err := decode.Decode(data, nil)
		var r *decode.Refusal
		if !errors.As(err, &r) {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if m := refusalWords(r); m == "" || strings.HasSuffix(m, ".") || !strings.ContainsAny(m, ";") {
			t.Errorf("%s: message %q lacks what to do", name, m)
		}
	}
}
