package scene

import (
	"bytes"
	"flag"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// The demo's photos are drawn from the presets in demo.go. To draw them anew
// (a quarter of an hour on two cores):
//
//	go test ./imaging/internal/scene -run TestDrawDemo -draw -timeout 1h
//
// -only WORD draws those alone whose folder or name holds the word, and
// -small FOLDER draws PNGs of 900 pixels there instead, to look at.
var (
	draw  = flag.Bool("draw", false, "draw the demo's photos into testdata/demo")
	small = flag.String("small", "", "draw small PNGs into this folder instead")
	only  = flag.String("only", "", "draw those whose folder or name contains this")
)

func TestDrawDemo(t *testing.T) {
	if !*draw {
		t.Skip("draws only with -draw")
	}
	for _, p := range Demo() {
		dir := filepath.Join("..", "..", "..", "testdata", "demo", p.Folder)
		for _, s := range slices.Concat(p.Shots, p.Work) {
			if !strings.Contains(p.Folder+"/"+s.Name, *only) {
				continue
			}
			start := time.Now()
			name, file := filepath.Join(dir, s.Name), []byte(nil)
			if *small != "" {
				s.Scene.Samples = 4
				m, _ := Render(s.Scene, s.W*3/10, s.H*3/10)
				var b bytes.Buffer
				if err := png.Encode(&b, encoded(m)); err != nil {
					t.Fatal(err)
				}
				name, file = filepath.Join(*small, p.Folder+"-"+s.Name+".png"), b.Bytes()
			} else {
				if err := os.MkdirAll(dir, 0o755); err != nil {
					t.Fatal(err)
				}
				file, _ = Shoot(s)
			}
			if err := os.WriteFile(name, file, 0o644); err != nil {
				t.Fatal(err)
			}
			t.Logf("%s: %d kB in %v", name, len(file)/1000, time.Since(start).Round(time.Second))
		}
	}
}
