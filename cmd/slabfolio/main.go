// Command slabfolio turns photos of a finished piece and one spec file into a
// spec sheet, a listing bundle and a record: flags, progress and exit status
// live here, and nothing that knows wood or light.
package main

import (
	"context"
	"os"
	"os/signal"
	"runtime"
	"runtime/debug"
	"syscall"
)

// memoryAim is where garbage is collected more eagerly, in bytes. A large photo
// leaves as much behind as it took; GOMEMLIMIT says otherwise. What lies outside Go's
// heap and on large pages comes to 45 MiB more, and 600 in all is what is promised.
const memoryAim = 536 << 20

func main() {
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(memoryAim)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP) // a terminal that is closed is Ctrl-C
	go func() {
		<-ctx.Done()
		stop() // a second Ctrl-C ends the program at once
	}()
	c := &console{
		out:      os.Stdout,
		err:      os.Stderr,
		in:       os.Stdin,
		terminal: isTerminal(os.Stderr) && os.Getenv("TERM") != "dumb", // a bar moves the cursor
		shown:    isTerminal(os.Stdout),
		asks:     isTerminal(os.Stdin) && isTerminal(os.Stderr),
		colour:   isTerminal(os.Stderr) && os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb",
	}
	args := mendQuote(os.Args[1:], runtime.GOOS)
	do := func(args []string) int { return run(ctx, args, c) }
	if ownWindow() {
		os.Exit(runDropped(args, c, do))
	}
	os.Exit(do(args))
}
