package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/term"
)

// A console is where the program speaks. Results go to out, so that they can be
// piped; everything that is said to a person goes to err, lower case, no full
// stop.
type console struct {
	out, err io.Writer
	in       io.Reader
	terminal bool // err is a terminal
	shown    bool // out is a terminal
	asks     bool // a person can be asked: in and err are a terminal
	colour   bool
	quiet    bool
	json     bool
	mu       sync.Mutex
	failed   error // why a result could not be written
}

func isTerminal(f *os.File) bool { return term.IsTerminal(int(f.Fd())) }

// say tells the person one line.
func (c *console) say(format string, args ...any) {
	c.mu.Lock()
	defer c.mu.Unlock()
	fmt.Fprintf(c.err, "slabfolio: %s\n", printable(fmt.Sprintf(format, args...)))
}

// result prints one line of result.
func (c *console) result(format string, args ...any) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if _, err := fmt.Fprintf(c.out, format+"\n", args...); err != nil {
		c.failed = err
	}
}

// object prints one JSON object as a line of result.
func (c *console) object(v any) {
	line, err := json.Marshal(v)
	if err != nil {
		panic(err) // only our own types come here
	}
	c.result("%s", line)
}

func emphasis(word string, colour bool) string {
	if !colour {
		return word
	}
	return "\x1b[1m" + word + "\x1b[0m"
}

// printable keeps control characters of a maker's file off the terminal.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' && r != '\n' || r == 0x7f || r >= 0x80 && r < 0xa0 || unicode.Is(unicode.Bidi_Control, r) || r == '\u2028' || r == '\u2029' {
			return '�'
		}
		return r
	}, s)
}

// inLine is printable for what must not break a line: names of files may hold
// anything.
func inLine(s string) string { return strings.ReplaceAll(printable(s), "\n", "�") }

func clip(s string, n int) string {
	if r := []rune(s); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return s
}
