package main

import (
	"os"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"slabfolio/listing/spelling"
)

// arrange puts a command line into the order that the flag library wants: the
// command, its flags, "--", then the paths. Flags may stand anywhere before a
// "--"; the library itself would take a flag after the first path for a path. An
// existing path without a command, or several, mean prepare: folders dropped on the
// program.
func arrange(args []string) ([]string, error) {
	if len(args) == 0 || slices.Contains([]string{"-h", "--help", "-v", "--version"}, args[0]) {
		return args[:min(1, len(args))], nil
	}
	if args[0] == "help" {
		if len(args) > 1 && commandByName(args[1]) == nil {
			return nil, unknownCommand(args[1])
		}
		return append(slices.Clone(args[1:min(2, len(args))]), "--help"), nil
	}
	name, cmd := findCommand(args)
	if cmd == nil {
		paths := positionals(args, commandByName("prepare"))
		if len(paths) > 0 && !slices.ContainsFunc(paths, func(p string) bool { return !exists(p) }) {
			return arrange(append([]string{"prepare"}, args...))
		}
		if len(paths) == 0 {
			return nil, usagef("slabfolio --help lists the commands", "which command?")
		}
		return nil, unknownCommand(paths[0])
	}
	flags, paths, err := split(without(args, name), cmd)
	if slices.ContainsFunc(flags, isHelp) {
		return []string{name, "--help"}, nil
	}
	if err != nil {
		return nil, err
	}
	return slices.Concat([]string{name}, flags, []string{"--"}, paths), nil
}

// findCommand returns the first argument that is neither a flag nor a flag's
// value, if it names a command.
func findCommand(args []string) (string, *cli.Command) {
	all := &cli.Command{Flags: everyFlag()}
	if p := positionals(args, all); len(p) > 0 {
		return p[0], commandByName(p[0])
	}
	return "", nil
}

func positionals(args []string, cmd *cli.Command) []string {
	_, paths, _ := split(args, cmd)
	return paths
}

// split parts a command's arguments into flags, with their values, and paths.
func split(args []string, cmd *cli.Command) (flags, paths []string, err error) {
	for i := 0; i < len(args); i++ {
		a := args[i]
		if a == "--" {
			return flags, append(paths, args[i+1:]...), err
		}
		if len(a) < 2 || a[0] != '-' {
			paths = append(paths, a)
			continue
		}
		name, _, hasValue := strings.Cut(strings.TrimPrefix(a[1:], "-"), "=")
		flag := flagByName(cmd, name)
		switch {
		case name == "help" || name == "h":
			flags = append(flags, a)
		case flag == nil:
			if err == nil {
				err = unknownFlag(a, name, cmd)
			}
		case hasValue || isSwitch(flag):
			flags = append(flags, a)
		case i+1 == len(args):
			if err == nil {
				err = usagef("", "--%s needs a value", name)
			}
		default:
			i++
			flags = append(flags, "--"+name+"="+args[i])
		}
	}
	return flags, paths, err
}

func unknownFlag(written, name string, cmd *cli.Command) error {
	hint := "slabfolio " + cmd.Name + " --help lists its flags"
	var names []string
	for _, f := range cmd.Flags {
		names = append(names, f.Names()...)
	}
	if near := nearest(name, names); near != "" {
		hint = "did you mean --" + near + "? " + hint
	}
	if elsewhere := flagByName(&cli.Command{Flags: everyFlag()}, name); elsewhere != nil {
		hint = "other commands have it, this one does not; " + hint
	}
	return usagef(hint, "no flag %s for %s", written, cmd.Name)
}

func flagByName(cmd *cli.Command, name string) cli.Flag {
	for _, f := range cmd.Flags {
		if slices.Contains(f.Names(), name) {
			return f
		}
	}
	return nil
}

func isHelp(flag string) bool {
	return strings.Trim(flag, "-") == "help" || strings.Trim(flag, "-") == "h"
}

func isSwitch(f cli.Flag) bool { _, ok := f.(*cli.BoolFlag); return ok }

func without(args []string, name string) []string {
	i := slices.Index(args, name)
	return slices.Concat(args[:i], args[i+1:])
}

func exists(path string) bool { _, err := os.Stat(path); return err == nil }

// nearest returns the candidate that is a slip of the finger away from name,
// or "".
func nearest(name string, candidates []string) string {
	best, at := "", 3
	for _, c := range candidates {
		if d := spelling.Distance(name, c, at); d < at && d < len(c) {
			best, at = c, d
		}
	}
	return best
}
