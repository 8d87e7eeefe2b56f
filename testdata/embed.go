// Package testdata holds the demo workshop: Ostrel Yard, which does not exist,
// with its pieces, their specs and their photos. The photos are drawn by
// imaging/internal/scene from presets of the same sizes; to draw them anew, see
// imaging/internal/scene/draw_test.go.
package testdata

import "embed"

// Demo is the demo workshop, below the folder "demo".
//
//go:embed all:demo
var Demo embed.FS
