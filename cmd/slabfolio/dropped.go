package main

import (
	"bufio"
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// runDropped runs a command line that came without a terminal of its own: somebody
// dropped folders on the program, or opened it with a click. What is prepared goes
// beside the first folder, the overview is shown, and the window stays until it has
// been read.
func runDropped(args []string, c *console, do func(args []string) int) int {
	dir, args := dropped(args)
	if dir != "" {
		if err := os.Chdir(dir); err != nil {
			c.say("%s", plain(err))
		}
	}
	status := do(args)
	fmt.Fprint(c.err, "\nPress Enter to close this window. ")
	_, _ = bufio.NewReader(c.in).ReadString('\n')
	return status
}

// dropped turns paths alone into the command that prepares them; dir is the folder
// to do that in, empty where no paths were dropped.
func dropped(args []string) (dir string, command []string) {
	var paths []string
	for _, a := range args {
		abs, err := filepath.Abs(a)
		if err != nil || strings.HasPrefix(a, "-") || !exists(a) {
			return "", args
		}
		paths = append(paths, abs)
	}
	if len(paths) == 0 {
		return "", args
	}
	return filepath.Dir(paths[0]), append([]string{"prepare", "--open", "--"}, paths...)
}

// mendQuote takes the quotation mark off the end of a path that Windows left there: a
// backslash before it, as in "C:\yard\", makes it a part of the path.
func mendQuote(args []string, system string) []string {
	if system != "windows" {
		return args
	}
	out := make([]string, len(args))
	for i, a := range args {
		out[i] = a
		if path, ok := strings.CutSuffix(a, `"`); ok && strings.Contains(path, `\`) && !strings.Contains(path, `"`) {
			out[i] = path
		}
	}
	return out
}
