package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
)

// shells are those that a completion script is made for.
var shells = map[string]func() string{"bash": bashCompletion, "zsh": zshCompletion, "fish": fishCompletion, "powershell": powershellCompletion}

func completionCommand(c *console) *cli.Command {
	return &cli.Command{
		Name: "completion", Usage: "print the completion script for a shell", ArgsUsage: "bash|zsh|fish|powershell",
		Description: "For bash it goes into ~/.local/share/bash-completion/completions/slabfolio.",
		Action: func(ctx *cli.Context) error {
			shell := ctx.Args().First()
			script, ok := shells[strings.ToLower(shell)]
			if !ok || ctx.Args().Len() != 1 {
				return usagef("slabfolio completion bash", "completion %q: one of bash, zsh, fish, powershell", shell)
			}
			c.result("%s", strings.TrimSuffix(script(), "\n"))
			return nil
		},
	}
}

func manCommand(c *console) *cli.Command {
	return &cli.Command{
		Name: "man", Usage: "print the manual page", ArgsUsage: " ",
		Description: "It goes into ~/.local/share/man/man1/slabfolio.1.",
		Action: func(ctx *cli.Context) error {
			page, err := ctx.App.ToManWithSection(1)
			if err != nil {
				return err
			}
			c.result("%s", strings.TrimSuffix(page, "\n"))
			return nil
		},
	}
}

// flagWords are a command's flags as they are typed.
func flagWords(cmd *cli.Command) (words []string) {
	for _, f := range cmd.Flags {
		words = append(words, "--"+f.Names()[0])
	}
	return words
}

// valueWords are what the flags take that take one of a few words.
var valueWords = map[string]string{"only": "photos documents listing", "units": "in cm mm", "paper": "a4 letter", "codecs": "auto pure", "for": "owner", "paper-sheet": "a4 letter", "how": "lightest added even bracket"}

func bashCompletion() string {
	var b strings.Builder
	b.WriteString("# bash completion for slabfolio\n_slabfolio() {\n  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} command=${COMP_WORDS[1]}\n")
	fmt.Fprintf(&b, "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n    COMPREPLY=($(compgen -W '%s' -- \"$word\") $(compgen -d -- \"$word\"))\n    return\n  fi\n", strings.Join(commandNames(), " "))
	b.WriteString("  case $before in\n")
	for _, name := range slices.Sorted(maps.Keys(valueWords)) {
		fmt.Fprintf(&b, "    --%s) COMPREPLY=($(compgen -W '%s' -- \"$word\")); return ;;\n", name, valueWords[name])
	}
	b.WriteString("  esac\n  case $command in\n")
	for _, cmd := range catalogueOfCommands {
		fmt.Fprintf(&b, "    %s) [[ $word == -* ]] && COMPREPLY=($(compgen -W '%s --help' -- \"$word\")) && return ;;\n", cmd.Name, strings.Join(flagWords(cmd), " "))
	}
	b.WriteString("  esac\n  COMPREPLY=($(compgen -f -- \"$word\"))\n}\ncomplete -o filenames -F _slabfolio slabfolio\n")
	return b.String()
}

func zshCompletion() string {
	var b strings.Builder
	b.WriteString("#compdef slabfolio\n_slabfolio() {\n  local -a commands\n  commands=(\n")
	for _, cmd := range catalogueOfCommands {
		fmt.Fprintf(&b, "    %s\n", quoteSingle(cmd.Name+":"+cmd.Usage))
	}
	b.WriteString("  )\n  if (( CURRENT == 2 )); then\n    _describe command commands\n    _files -/\n    return\n  fi\n  case $words[2] in\n")
	for _, cmd := range catalogueOfCommands {
		fmt.Fprintf(&b, "    %s) _arguments", cmd.Name)
		for _, f := range cmd.Flags {
			name, usage := f.Names()[0], strings.NewReplacer("`", "", "[", "(", "]", ")", ":", " ").Replace(usageOf(f))
			switch {
			case isSwitch(f):
				fmt.Fprintf(&b, " %s", quoteSingle("--"+name+"["+usage+"]"))
			case valueWords[name] != "":
				fmt.Fprintf(&b, " %s", quoteSingle("--"+name+"["+usage+"]:"+name+":("+valueWords[name]+")"))
			default:
				fmt.Fprintf(&b, " %s", quoteSingle("--"+name+"["+usage+"]:"+name+":_files"))
			}
		}
		b.WriteString(" '*:path:_files' ;;\n")
	}
	b.WriteString("  esac\n}\n_slabfolio \"$@\"\n")
	return b.String()
}

func fishCompletion() string {
	var b strings.Builder
	b.WriteString("# fish completion for slabfolio\n")
	for _, cmd := range catalogueOfCommands {
		fmt.Fprintf(&b, "complete -c slabfolio -n __fish_use_subcommand -a %s -d %s\n", cmd.Name, quoteSingle(cmd.Usage))
		for _, f := range cmd.Flags {
			name := f.Names()[0]
			fmt.Fprintf(&b, "complete -c slabfolio -n '__fish_seen_subcommand_from %s' -l %s -d %s", cmd.Name, name, quoteSingle(strings.ReplaceAll(usageOf(f), "`", "")))
			switch {
			case isSwitch(f):
			case valueWords[name] != "":
				fmt.Fprintf(&b, " -x -a '%s'", valueWords[name])
			default:
				b.WriteString(" -r")
			}
			b.WriteByte('\n')
		}
	}
	return b.String()
}

func powershellCompletion() string {
	var b strings.Builder
	b.WriteString("# PowerShell completion for slabfolio\nRegister-ArgumentCompleter -Native -CommandName slabfolio -ScriptBlock {\n  param($word, $line, $at)\n  $flags = @{\n")
	for _, cmd := range catalogueOfCommands {
		fmt.Fprintf(&b, "    '%s' = '%s'\n", cmd.Name, strings.Join(append(flagWords(cmd), "--help"), " "))
	}
	fmt.Fprintf(&b, "  }\n  $parts = $line.CommandElements | ForEach-Object { $_.ToString() }\n  if ($parts.Count -le 1 -or ($parts.Count -eq 2 -and $word)) { $words = '%s' } else { $words = $flags[$parts[1]] }\n", strings.Join(commandNames(), " "))
	b.WriteString("  $words -split ' ' | Where-Object { $_ -like \"$word*\" } | ForEach-Object { [System.Management.Automation.CompletionResult]::new($_) }\n}\n")
	return b.String()
}

func usageOf(f cli.Flag) string {
	if d, ok := f.(cli.DocGenerationFlag); ok {
		return d.GetUsage()
	}
	return ""
}

// quoteSingle puts a text between single quotes as shells read it.
func quoteSingle(s string) string { return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'" }
