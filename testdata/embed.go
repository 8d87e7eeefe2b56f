// Package testdata holds the demo workshop.
package testdata

import "embed"

// Demo is the demo workshop, in the folder demo.
var Demo embed.FS
