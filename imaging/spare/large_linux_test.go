package spare

import (
	"bufio"
	"fmt"
	"os"
	"strings"
	"testing"
	"unsafe"
)

// The system's own list of mappings (proc(5), VmFlags) says where large pages were
// asked for: under all of a fresh picture, also where it begins and ends.
func TestFreshMemoryOnLargePages(t *testing.T) {
	if _, err := os.Stat("/sys/kernel/mm/transparent_hugepage/enabled"); err != nil {
		t.Skip("the system has no large pages: ", err)
	}
	const n = 48 << 20 // larger than what lies on the shelf
	v := Take[byte](n)
	first := uintptr(unsafe.Pointer(&v[0]))
	for _, at := range []uintptr{first, first + n/2, first + n - 1} {
		if flags := flagsAt(t, at); !strings.Contains(flags+" ", " hg ") {
			t.Errorf("byte %d of %d lies in a mapping with the flags %q, without hg (large pages advised)", at-first, n, flags)
		}
	}
	v[n-1] = 1 // it is there and may be written to
}

// flagsAt returns the flags of the mapping that holds an address.
func flagsAt(t *testing.T, at uintptr) string {
	t.Helper()
	f, err := os.Open("/proc/self/smaps")
	if err != nil {
		t.Skip(err)
	}
	defer f.Close()
	var from, to uintptr
	for lines := bufio.NewScanner(f); lines.Scan(); {
		var a, b uintptr
		if n, _ := fmt.Sscanf(lines.Text(), "%x-%x ", &a, &b); n == 2 {
			from, to = a, b
		}
		if flags, ok := strings.CutPrefix(lines.Text(), "VmFlags:"); ok && from <= at && at < to {
			return flags
		}
	}
	t.Fatalf("no mapping holds %#x", at)
	return ""
}
