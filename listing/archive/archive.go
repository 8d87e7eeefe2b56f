// Package archive seals a folder in a BagIt bag and rechecks sealed bags, after
// RFC 8493. It knows nothing of wood: what goes into a bag is the caller's
// matter.
package archive

import (
	"crypto/md5"  // old bags have it; new ones get SHA-512
	"crypto/sha1" // likewise
	"crypto/sha256"
	"crypto/sha512"
	"hash"
	"strings"
)

// algorithms are the checksums that a manifest may name.
var algorithms = map[string]func() hash.Hash{
	"md5": md5.New, "sha1": sha1.New, "sha224": sha256.New224, "sha256": sha256.New, "sha384": sha512.New384, "sha512": sha512.New,
}

// The kinds of problem that Verify tells apart.
const (
	Missing     = "missing"     // listed, and not there
	Extra       = "extra"       // there, and not listed
	Changed     = "changed"     // there, and not what it was
	Unreadable  = "unreadable"  // there, and the disk or its permissions do not give it
	Twice       = "twice"       // listed twice in one manifest
	Outside     = "outside"     // a name that leads out of the bag, or not into data/
	Declaration = "declaration" // bagit.txt or bag-info.txt is not as the standard wants it
	Manifest    = "manifest"    // a manifest cannot be understood
	Oxum        = "oxum"        // the counts in bag-info.txt are not those of the payload
	Holey       = "holey"       // to be fetched from elsewhere; never fetched here
	Name        = "name"        // a name that some systems change
)

// A Problem is one thing that is wrong with a bag.
type Problem struct {
	Kind    string `json:"kind"`
	File    string `json:"file,omitempty"` // as the bag names it
	Message string `json:"message"`        // lower case, no full stop
	Warning bool   `json:"warning"`        // the bag is valid all the same
}

// A Verdict is what Verify found.
type Verdict struct {
	Bag      string    `json:"bag"`
	Version  string    `json:"version,omitempty"` // of BagIt
	Files    int       `json:"files"`             // in the payload
	Bytes    int64     `json:"bytes"`             // of the payload
	Problems []Problem `json:"problems"`
}

// Valid reports whether the bag is complete and every checksum is right.
func (v *Verdict) Valid() bool {
	for _, p := range v.Problems {
		if !p.Warning {
			return false
		}
	}
	return true
}

func (v *Verdict) fault(kind, file, message string) {
	v.Problems = append(v.Problems, Problem{kind, file, message, false})
}

func (v *Verdict) warn(kind, file, message string) {
	v.Problems = append(v.Problems, Problem{kind, file, message, true})
}

// algorithmOf returns the algorithm of a manifest's file name, such as sha512
// for manifest-sha512.txt, and whether it is the name of a manifest.
func algorithmOf(name, prefix string) (string, bool) {
	rest, ok := strings.CutPrefix(name, prefix)
	if !ok {
		return "", false
	}
	alg, ok := strings.CutSuffix(rest, ".txt")
	return strings.ToLower(alg), ok && alg != ""
}
