package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"slabfolio/imaging"
	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

func blendCommand(c *console) *cli.Command {
	return &cli.Command{
		Name:      "blend",
		Usage:     "blend light-painting frames or a bracket into one photo",
		ArgsUsage: "FRAME… --to PHOTO",
		Description: "Frames from a camera on a tripod, each lit from another side, become one photo. lightest takes at\n" +
			"every place the frame that is lit best there; added is the sum of the lights, above a frame without\n" +
			"the lamp if there is one; even is the same with every light weighed alike; bracket fuses exposures.\n" +
			"A folder stands for all the photos in it. " +
			"PHOTO is a PNG or TIFF of 16 bits, or a JPEG, by its name.",
		Flags: append(commonFlags(),
			&cli.StringFlag{Name: "to", Usage: "`PHOTO` to write; never one that is there already"},
			&cli.StringFlag{Name: "how", Usage: "`WAY` of blending: lightest (default), added, even or bracket"},
			&cli.StringSliceFlag{Name: "strength", Usage: "how much of a frame counts: `FRAME=60%`; may be given again"},
			&cli.StringSliceFlag{Name: "mask", Usage: "a picture that is white where a frame counts: `FRAME=PICTURE`; may be given again"},
		),
		Action: func(ctx *cli.Context) error {
			o, err := settings(ctx, c)
			if err != nil {
				return err
			}
			names, frames, req, err := framesBy(ctx)
			if err != nil {
				return err
			}
			c.tellMasks(ctx.Args().Slice())
			format, err := formatOf(ctx.String("to"))
			if err != nil {
				return err
			}
			if _, err := os.Lstat(ctx.String("to")); err == nil {
				return usagef("choose another name, or move it away", "%s is already there, and nothing is written over", filepath.ToSlash(ctx.String("to")))
			}
			if err := checkGuarded(ctx.String("to"), "the photo", "choose another place with --to, and put it into the piece yourself when it is good"); err != nil {
				return err
			}
			// A frame at a time, and no more garbage than that: 40 frames of 24 megapixels
			// stay below a gigabyte and a little.
			if os.Getenv("GOMEMLIMIT") == "" {
				debug.SetMemoryLimit(blendMemory)
			}
			return blendTo(c, names, frames, req, ctx.String("to"), format, &imaging.Options{Pure: o.Codecs == "pure", MaxPixels: o.MaxMegapixels * 1_000_000})
		},
	}
}

// blendMemory is the soft limit of the heap, bytes.
const blendMemory = 900 << 20

// blendTo blends the files frames, which the maker calls by names.
func blendTo(c *console, names, frames []string, req imaging.BlendRequest, to, format string, opts *imaging.Options) error {
	for i, n := range names {
		names[i] = filepath.ToSlash(n)
	}
	b, findings, err := photos.Blend(frames, names, req, opts)
	if err != nil {
		return tellFindings(c, []piece.Finding{{Rank: piece.Fault, Code: "blend.refused", Message: err.Error(), Remedy: "frames are photos of one view, all of one size, taken without touching the camera"}})
	}
	if k := slices.IndexFunc(findings, func(f piece.Finding) bool { return f.Code == "blend.few" }); k >= 0 {
		findings[k].Rank = piece.Fault
		findings[k].Message += ", and no file is written"
		return tellFindings(c, findings)
	}
	data, err := b.Encode(format)
	if err != nil {
		return err
	}
	if err := writeNew(to, data); err != nil {
		return err
	}
	switch {
	case c.json:
		c.object(blendedJSON(b, names, to, req.How))
	case !c.quiet:
		c.result("%s", photos.BlendWords(b, req.How, names))
		c.result("wrote %s, %d × %d pixels", filepath.ToSlash(to), b.W, b.H)
	}
	return tellFindings(c, findings)
}

// framesBy reads frames, way, strengths and masks off the command line: the frames as
// they are named there, and their files.
func framesBy(ctx *cli.Context) (names, files []string, req imaging.BlendRequest, err error) {
	if names, err = framesIn(ctx.Args().Slice()); err != nil {
		return nil, nil, req, err
	}
	if len(names) < 2 {
		return nil, nil, req, usagef("slabfolio blend light-1.jpg light-2.jpg --to front.png, or a folder that holds nothing but the frames", "blend takes two FRAMEs or more, and %s named", map[int]string{0: "none is", 1: "only one is"}[len(names)])
	}
	for _, n := range names {
		file, err := givenPhoto("frame", n)
		if err != nil {
			return nil, nil, req, err
		}
		if k := slices.IndexFunc(files, func(f string) bool { return sameFile(f, file) }); k >= 0 {
			return nil, nil, req, usagef("name every frame once", "%q and %q are one file", names[k], n)
		}
		files = append(files, file)
	}
	req.How = ctx.String("how")
	if req.How != "" && !slices.Contains(piece.BlendWays, req.How) {
		return nil, nil, req, usagef("", "--how %q: one of %s", req.How, strings.Join(piece.BlendWays, ", "))
	}
	req.Strength, req.Masks = make([]float64, len(names)), make([][]byte, len(names))
	err = forFrames(ctx.StringSlice("strength"), "strength", names, func(i int, value string) error {
		p, err := units.ParsePercent(value)
		if err != nil || p <= 0 || p > 100 || math.IsNaN(float64(p)) {
			return usagef("such as light-2.jpg=60%", "--strength %q: more than 0 %% and at most 100 %%", value)
		}
		req.Strength[i] = float64(p) / 100
		return nil
	})
	if err != nil {
		return nil, nil, req, err
	}
	err = forFrames(ctx.StringSlice("mask"), "mask", names, func(i int, value string) error {
		if req.Masks[i], err = os.ReadFile(value); err != nil {
			return usagef("check the spelling", "no mask %q", value)
		}
		return nil
	})
	return names, files, req, err
}

// framesIn puts the photos of a folder, by name, in the place of the folder.
func framesIn(args []string) (names []string, err error) {
	for _, a := range args {
		if info, err := os.Stat(a); err != nil || !info.IsDir() {
			names = append(names, a)
			continue
		}
		found, err := photos.Find(a)
		if err != nil {
			return nil, fmt.Errorf("read the folder %s: %w", filepath.ToSlash(a), err)
		}
		if len(found) == 0 {
			return nil, usagef("name the folder that holds the frames, or the frames", "the folder %q holds no photo", a)
		}
		for _, s := range found {
			if photos.IsMask(s.Name) { // named so, and in a folder of frames
				continue
			}
			names = append(names, filepath.Join(a, filepath.FromSlash(s.Rel)))
		}
	}
	return names, nil
}

// tellMasks names the pictures of folders that are left out, since they are called masks.
func (c *console) tellMasks(args []string) {
	if c.quiet {
		return
	}
	for _, a := range args {
		found, err := photos.Find(a)
		if err != nil {
			continue // a file, or what is told elsewhere
		}
		for _, s := range found {
			if photos.IsMask(s.Name) {
				c.say("%s is called a mask, so it is no frame and is left out; --mask FRAME=%s says whose it is", s.Name, s.Name)
			}
		}
	}
}

// forFrames calls do for every FRAME=VALUE of a flag.
func forFrames(given []string, flag string, frames []string, do func(i int, value string) error) error {
	for _, g := range given {
		name, value, ok := strings.Cut(g, "=")
		i := slices.IndexFunc(frames, func(f string) bool { return f == name || filepath.Base(f) == name })
		if !ok || i < 0 {
			return usagef("such as --"+flag+" "+filepath.Base(frames[0])+"=…", "--%s %q names no frame", flag, g)
		}
		if err := do(i, strings.TrimSpace(value)); err != nil {
			return err
		}
	}
	return nil
}

func formatOf(to string) (string, error) {
	switch strings.ToLower(filepath.Ext(to)) {
	case ".png":
		return "png", nil
	case ".tif", ".tiff":
		return "tiff", nil
	case ".jpg", ".jpeg":
		return "jpeg", nil
	}
	if to == "" {
		return "", usagef("slabfolio blend light-1.jpg light-2.jpg --to front.png", "where to? --to PHOTO is missing")
	}
	return "", usagef("", "--to %q: end its name in .png, .tif or .jpg", to)
}

// blended is the JSON of a blend.
type blended struct {
	Type   string         `json:"type"`
	Photo  string         `json:"photo"`
	How    string         `json:"how"`
	Width  int            `json:"width"`
	Height int            `json:"height"`
	Gain   float64        `json:"gain"`
	Frames []blendedFrame `json:"frames"`
}

type blendedFrame struct {
	File    string  `json:"file"`
	Share   float64 `json:"share"`
	ShiftX  float64 `json:"shift_x_px"`
	ShiftY  float64 `json:"shift_y_px"`
	Turn    float64 `json:"turn_deg"`
	Moved   bool    `json:"moved"`
	LeftOut bool    `json:"left_out"`
	Lamp    bool    `json:"lamp_masked"`
	Ambient bool    `json:"ambient"`
}

func blendedJSON(b *imaging.Blended, names []string, to, how string) blended {
	if how == "" {
		how = "lightest"
	}
	out := blended{Type: "blend", Photo: filepath.ToSlash(to), How: how, Width: b.W, Height: b.H, Gain: b.Gain}
	for i, f := range b.Frames {
		out.Frames = append(out.Frames, blendedFrame{names[i], f.Share, f.ShiftX, f.ShiftY, f.Turn, f.Moved, f.LeftOut, f.Lamp, f.Ambient})
	}
	return out
}
