package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// exampleYard is what stands around a maker who types an example.
const exampleYard = `
photo OY-0142/front.jpg 900 600
photo DCIM/IMG_0001.JPG 900 600
plan plan.jpg 300,0
light light-1.jpg 0.1
light light-2.jpg 0.3
light light-3.jpg 0.6
cp OY-0142/piece.yaml workshop/OY-0142/piece.yaml
`

const examplePiece = `
-- OY-0142/piece.yaml --
serial: OY-0142
title: Estuary console table
kind: console table
finished: 2026-09-18
top: {outline: {length: 54 in, width: 16 in}, thickness: 1 5/8 in, wood: {species: wych-elm}}
-- workshop/OY-0142/.keep --
`

// inQuotes is a value in double quotes as the person's shell would take it apart;
// these scripts know single ones alone, around the whole word.
var inQuotes = regexp.MustCompile(`(\S+)="([^"]*)"`)

// Every command has an example in its help, and every example does what it says.
func TestExamplesRun(t *testing.T) {
	dir := t.TempDir()
	for _, cmd := range catalogueOfCommands {
		example := examples[cmd.Name]
		if !strings.HasPrefix(example, "slabfolio "+cmd.Name) || !strings.HasSuffix(cmd.Description, "Example: "+example) {
			t.Errorf("%s: its help ends with no example of it: %q", cmd.Name, cmd.Description)
			continue
		}
		run := "exec " + inQuotes.ReplaceAllString(example, "'$1=$2'")
		switch cmd.Name {
		case "demo":
			continue // TestDemo runs it
		case "verify":
			run = "exec slabfolio archive OY-0142 --to shelf\n" + run
		case "watch":
			run = "! " + run + " &watch&\nuntil prepared/index.html\nkill -INT watch\nwait watch"
		}
		script := fmt.Sprintf("%s%s\n%s", exampleYard, run, examplePiece)
		if err := os.WriteFile(filepath.Join(dir, cmd.Name+".txtar"), []byte(script), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	testscript.Run(t, scriptsIn(dir))
}
