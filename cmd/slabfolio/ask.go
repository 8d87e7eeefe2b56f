package main

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"slabfolio/listing/intake"
)

// An asker puts questions to the person at the terminal and reads answers, a line
// each. Questions go to where everything else is said to a person.
type asker struct {
	c     *console
	lines chan string // closed at the end of the input
}

func newAsker(c *console) *asker {
	a := &asker{c: c, lines: make(chan string)}
	go func() {
		defer close(a.lines)
		in := bufio.NewReader(c.in)
		for {
			line, err := in.ReadString('\n')
			if line != "" || err == nil {
				a.lines <- line
			}
			if err != nil {
				return
			}
		}
	}()
	return a
}

// tell prints text in lines of at most 80 signs.
func (a *asker) tell(indent, text string) {
	for line := range strings.SplitSeq(text, "\n") {
		io.WriteString(a.c.err, wrap(printable(line), indent, 80))
	}
}

// interview puts every question until none is left. The end of the input leaves the
// rest open; the error is the context's.
func (a *asker) interview(ctx context.Context, iv *intake.Interview) error {
	for {
		q, ok := iv.Next()
		if !ok {
			return nil
		}
		fmt.Fprintf(a.c.err, "\n%d. %s\n", q.Number, q.Ask)
		a.tell("   ", "such as "+q.Example)
		for again := true; again; {
			prompt := "   > "
			if q.Enter != "" {
				prompt = fmt.Sprintf("   [%s] > ", q.Enter)
			}
			io.WriteString(a.c.err, prompt)
			answer, ok, err := a.read(ctx)
			if err != nil {
				return err
			}
			if !ok {
				io.WriteString(a.c.err, "\n")
				return nil
			}
			again = a.reply(iv, &q, answer)
		}
	}
}

// reply tells what became of an answer, and returns whether the same question is to
// be answered again.
func (a *asker) reply(iv *intake.Interview, q *intake.Question, answer string) bool {
	r := iv.Answer(strings.ToValidUTF8(answer, "?"))
	for _, note := range r.Notes {
		a.tell("   ", note)
	}
	switch {
	case r.Help != "":
		a.tell("   ", r.Help)
		return true
	case r.Wrong != "":
		a.tell("   ", r.Wrong)
		a.tell("   ", r.Remedy)
		if next, ok := iv.Next(); ok {
			q.Enter = next.Enter
		}
		return true
	case r.Open && q.Needed:
		a.tell("   ", "left open; nothing can be made of the piece until piece.yaml says it")
	}
	return false
}

// read waits for a line. ok is false at the end of the input.
func (a *asker) read(ctx context.Context) (line string, ok bool, err error) {
	select {
	case line, ok = <-a.lines:
		return line, ok, ctx.Err()
	case <-ctx.Done():
		return "", false, ctx.Err()
	}
}

// wrap breaks a line at its blanks so that none is longer than most.
func wrap(line, indent string, most int) string {
	var b strings.Builder
	at := 0
	for i, w := range strings.Fields(line) {
		n := utf8.RuneCountInString(w)
		switch {
		case i == 0:
			b.WriteString(indent)
			at = len(indent)
		case at+1+n > most:
			b.WriteString("\n" + indent)
			at = len(indent)
		default:
			b.WriteByte(' ')
			at++
		}
		b.WriteString(w)
		at += n
	}
	return b.String() + "\n"
}
