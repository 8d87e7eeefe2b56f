package spelling

import (
	"regexp"
	"sync"
)

// Pattern returns a regular expression that is compiled when it is first asked for:
// a hundred of them, compiled as the program starts, would be a third of what the
// shortest command takes. It panics then where the expression is none.
func Pattern(expr string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expr) })
}
