package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"runtime/debug"
	"strings"

	"github.com/urfave/cli/v2"

	"slabfolio/listing/spelling"
)

// The exit statuses; README.md has them as a table.
const (
	exitDone        = 0
	exitFault       = 1 // a piece or a photo was left out, everything else is finished
	exitUsage       = 2
	exitFailed      = 3 // the tool or the machine failed
	exitInterrupted = 130
)

// A usageError is a command line that says something impossible.
type usageError struct{ msg, hint string }

func (e *usageError) Error() string { return e.msg }

func usagef(hint, format string, args ...any) error {
	return &usageError{fmt.Sprintf(format, args...), hint}
}

// errFault means that the run is finished and something was left out; the
// findings have said what.
var errFault = errors.New("something was left out")

// run runs one command line and returns the exit status. It never exits itself.
func run(ctx context.Context, args []string, c *console) (status int) {
	args, err := arrange(args)
	if err == nil {
		err = newApp(c).RunContext(ctx, append([]string{"slabfolio"}, args...))
	}
	var usage *usageError
	switch {
	case c.failed != nil && (err == nil || errors.Is(err, errFault)):
		c.say("the results could not be written to the standard output: %v", c.failed)
		return exitFailed
	case err == nil:
		return exitDone
	case errors.Is(err, context.Canceled) || ctx.Err() != nil:
		c.say("interrupted; what was finished stays, nothing is half written")
		return exitInterrupted
	case errors.Is(err, errFault):
		return exitFault
	case errors.As(err, &usage):
		c.say("%s", usage.msg)
		if usage.hint != "" {
			c.say("%s", usage.hint)
		}
		return exitUsage
	default:
		c.say("%s", plain(firstOf(err)))
		return exitFailed
	}
}

// firstOf returns the first of joined errors: a full disk stops every piece in
// the same way, and each has had its finding.
func firstOf(err error) error {
	for {
		joined, ok := err.(interface{ Unwrap() []error })
		if !ok || len(joined.Unwrap()) == 0 {
			return err
		}
		err = joined.Unwrap()[0]
	}
}

// plain turns the commonest failures of a machine into a maker's words.
func plain(err error) string {
	switch {
	case isDiskFull(err):
		return fmt.Sprintf("the disk is full; free some space and run again, nothing is half written (%v)", err)
	case errors.Is(err, os.ErrPermission):
		return fmt.Sprintf("not allowed to write or read there; choose another folder or change its permissions (%v)", err)
	}
	return err.Error()
}

// appHelp is the first help: it fits 24 lines of 80.
const appHelp = `{{.Name}}: {{.Usage}}

  {{.UsageText}}

{{range .VisibleCommands}}  {{printf "%-11s" .Name}}{{.Usage}}
{{end}}
Begin with slabfolio demo. For a piece of your own: slabfolio new FOLDER,
fill in piece.yaml, put the photos beside it, slabfolio prepare FOLDER.
slabfolio COMMAND --help has the flags and an example; --version the version.
`

func newApp(c *console) *cli.App {
	app := &cli.App{
		Name:                      "slabfolio",
		CustomAppHelpTemplate:     appHelp,
		Usage:                     "photos and a spec file in; spec sheet, listing and record out",
		UsageText:                 "slabfolio COMMAND [flags] [PATH…]",
		Version:                   version(),
		Description:               "Start with: slabfolio demo\nThen, for a piece of your own: slabfolio new FOLDER, fill in piece.yaml, put the photos beside it,\nand slabfolio prepare FOLDER.",
		HideHelpCommand:           true, // a folder may be called help; arrange knows the word
		DisableSliceFlagSeparator: true,
		Writer:                    c.out,
		ErrWriter:                 c.err,
		ExitErrHandler:            func(*cli.Context, error) {},
		OnUsageError:              onUsageError,
		Commands:                  commands(c),
		Action: func(ctx *cli.Context) error {
			if ctx.Args().Len() == 0 {
				return cli.ShowAppHelp(ctx)
			}
			return unknownCommand(ctx.Args().First())
		},
	}
	for _, cmd := range app.Commands {
		cmd.OnUsageError = onUsageError
		cmd.HideHelpCommand = true // a folder may be called help
	}
	return app
}

// badValue is how the flag library says that a value is none: the value, then the
// flag.
var badValue = spelling.Pattern(`^invalid (boolean )?value "(.*)" for (?:flag )?-(\S+): `)

func onUsageError(_ *cli.Context, err error, _ bool) error {
	hint := "slabfolio COMMAND --help lists the flags"
	m := badValue().FindStringSubmatch(err.Error())
	switch {
	case m == nil:
		return usagef(hint, "%v", err)
	case m[1] != "":
		return usagef(hint, "--%s=%s: it takes no value; it is there or it is not", m[3], m[2])
	}
	return usagef(hint, "--%s %q: a whole number is wanted, such as 2", m[3], m[2])
}

func unknownCommand(name string) error {
	hint := "slabfolio --help lists the commands"
	if near := nearest(name, commandNames()); near != "" {
		hint = fmt.Sprintf("did you mean %q? %s", near, hint)
	} else if strings.ContainsAny(name, `/\.`) {
		hint = "there is no such folder; " + hint
	}
	return usagef(hint, "no command %q", name)
}

// version is the module's version, or the revision that it was built from.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	if v := info.Main.Version; v != "" && v != "(devel)" {
		return v
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" && len(s.Value) >= 12 {
			return "devel-" + s.Value[:12]
		}
	}
	return "devel"
}
