package main

import (
	"github.com/urfave/cli/v2"
)

// commands lists what the program can do, in the order of a piece's life.
func commands(c *console) []*cli.Command {
	return withExamples([]*cli.Command{
		newCommand(c),
		setCommand(c),
		checkCommand(c),
		prepareCommand(c),
		archiveCommand(c),
		verifyCommand(c),
		traceCommand(c),
		measureCommand(c),
		blendCommand(c),
		watchCommand(c),
		demoCommand(c),
		completionCommand(c),
		manCommand(c),
	})
}

// commonFlags are those that every command takes.
func commonFlags() []cli.Flag {
	return []cli.Flag{
		&cli.IntFlag{Name: "jobs", DefaultText: "the number of cores", Usage: "do `N` things at once"},
		&cli.BoolFlag{Name: "quiet", DisableDefaultText: true, Usage: "say only what went wrong"},
		&cli.BoolFlag{Name: "json", DisableDefaultText: true, Usage: "print one JSON object a line instead of words"},
		&cli.StringFlag{Name: "paper", Usage: "`SIZE` of the documents: a4 or letter (default: letter with inches, else a4)"},
		&cli.StringFlag{Name: "units", Usage: "`UNITS` printed first: in, cm or mm; both systems always appear"},
		&cli.StringFlag{Name: "lang", Usage: "`LANGUAGE` of what the buyer reads, or several with commas: en-GB, en-US, de, fr, es, nl"},
		&cli.StringFlag{Name: "cache", Usage: "`DIR` for what speeds up a second run (default: slabfolio in your cache folder)"},
		&cli.IntFlag{Name: "max-megapixels", DefaultText: "100", Usage: "refuse photos of more than `N` million pixels"},
		&cli.StringFlag{Name: "codecs", Usage: "`WHICH` photo codecs: auto uses the machine's own where it has them, pure never does"},
	}
}

// catalogueOfCommands is made once, for looking up names and flags before the
// real run.
var catalogueOfCommands []*cli.Command

func init() { catalogueOfCommands = commands(&console{}) } // not at its declaration: completion reads it

func commandByName(name string) *cli.Command {
	for _, cmd := range catalogueOfCommands {
		if cmd.Name == name {
			return cmd
		}
	}
	return nil
}

func commandNames() []string {
	var names []string
	for _, cmd := range catalogueOfCommands {
		names = append(names, cmd.Name)
	}
	return names
}

func everyFlag() []cli.Flag {
	var flags []cli.Flag
	for _, cmd := range catalogueOfCommands {
		flags = append(flags, cmd.Flags...)
	}
	return flags
}
