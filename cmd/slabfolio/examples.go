package main

import "github.com/urfave/cli/v2"

// examples are a real command line for each command, which ends its help. A test runs
// every one of them.
var examples = map[string]string{
	"new":        "slabfolio new OY-0302 --from DCIM --since 2026-05-04",
	"set":        `slabfolio set OY-0142 availability=sold buyer.name="A. Lindqvist" price.amount=1650`,
	"check":      "slabfolio check OY-0142",
	"prepare":    "slabfolio prepare OY-0142 --out prepared",
	"archive":    "slabfolio archive OY-0142 --to shelf",
	"verify":     "slabfolio verify shelf",
	"trace":      "slabfolio trace --species elm --from 2025-01 --in workshop",
	"measure":    "slabfolio measure plan.jpg --paper-sheet a4",
	"blend":      "slabfolio blend light-1.jpg light-2.jpg light-3.jpg --to front.png",
	"watch":      "slabfolio watch OY-0142",
	"demo":       "slabfolio demo",
	"completion": "slabfolio completion bash",
	"man":        "slabfolio man",
}

// withExamples puts the examples behind the commands' descriptions.
func withExamples(commands []*cli.Command) []*cli.Command {
	for _, cmd := range commands {
		if e := examples[cmd.Name]; e != "" {
			cmd.Description += "\n\nExample: " + e
		}
	}
	return commands
}
