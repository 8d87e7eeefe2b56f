package main

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/urfave/cli/v2"

	"slabfolio/listing"
	"slabfolio/listing/piece"
	"slabfolio/listing/units"
	"slabfolio/templates"
)

// settings reads the flags that every run shares.
func settings(ctx *cli.Context, c *console) (listing.Options, error) {
	c.quiet, c.json = ctx.Bool("quiet"), ctx.Bool("json")
	if err := noneEmpty(ctx); err != nil {
		return listing.Options{}, err
	}
	sayUnreadDay(c)
	o := listing.Options{
		Jobs:          ctx.Int("jobs"),
		Units:         units.System(ctx.String("units")),
		Paper:         strings.ToLower(ctx.String("paper")),
		Codecs:        ctx.String("codecs"),
		MaxMegapixels: ctx.Int("max-megapixels"),
		Cache:         cacheDir(ctx.String("cache")),
		Version:       version(),
		Today:         today(),
		Build:         buildKey(),
	}
	if ctx.IsSet("cache") {
		if err := checkGuarded(o.Cache, "the cache", "choose another folder with --cache"); err != nil {
			return o, err
		}
	}
	if ctx.IsSet("jobs") && (o.Jobs < 1 || o.Jobs > mostJobs) {
		return o, usagef("each job needs a few hundred megabytes of memory", "--jobs %d: from 1 to %d", o.Jobs, mostJobs)
	}
	if ctx.IsSet("max-megapixels") && (o.MaxMegapixels < 1 || o.MaxMegapixels > 2000) {
		return o, usagef("", "--max-megapixels %d: from 1 to 2000", o.MaxMegapixels)
	}
	if o.Jobs == 0 {
		o.Jobs = runtime.GOMAXPROCS(0)
	}
	for _, f := range []struct {
		name, value string
		words       []string
	}{
		{"units", string(o.Units), []string{"in", "cm", "mm"}},
		{"paper", o.Paper, []string{"a4", "letter"}},
		{"codecs", o.Codecs, []string{"auto", "pure"}},
	} {
		if f.value != "" && !slices.Contains(f.words, f.value) {
			return o, usagef("", "--%s %q: one of %s", f.name, f.value, strings.Join(f.words, ", "))
		}
	}
	for tag := range strings.SplitSeq(ctx.String("lang"), ",") {
		if tag = strings.TrimSpace(tag); tag == "" {
			continue
		}
		lang, ok := templates.Match(tag)
		if !ok {
			return o, usagef("", "--lang %q: one or several of %s", tag, strings.Join(templates.Langs(), ", "))
		}
		o.Langs = append(o.Langs, lang)
	}
	return o, nil
}

// noneEmpty refuses a flag that was given without a value, as by a script whose
// variable is not set: passed over, it would mean something else than was meant.
func noneEmpty(ctx *cli.Context) error {
	for _, f := range ctx.Command.Flags {
		text, ok := f.(*cli.StringFlag)
		if ok && ctx.IsSet(text.Name) && strings.TrimSpace(ctx.String(text.Name)) == "" {
			return usagef("leave it out, or give it a value", "--%s is empty", text.Name)
		}
	}
	return nil
}

// today is the day where the person is; SOURCE_DATE_EPOCH says which day it is for
// runs that are compared (reproducible-builds.org, seconds since 1970, UTC).
func today() piece.Date {
	now := time.Now()
	if said, ok := saidDay(); ok {
		now = said
	}
	return piece.Date{Year: now.Year(), Month: int(now.Month()), Day: now.Day()}
}

// saidDay is the day that SOURCE_DATE_EPOCH says, where it says one of a year of four
// figures, as dates are written.
func saidDay() (time.Time, bool) {
	s, err := strconv.ParseInt(os.Getenv("SOURCE_DATE_EPOCH"), 10, 64)
	day := time.Unix(s, 0).UTC()
	return day, err == nil && day.Year() >= 1 && day.Year() <= 9999
}

// sayUnreadDay says that SOURCE_DATE_EPOCH is set to what is no day, and passed over.
func sayUnreadDay(c *console) {
	if said := os.Getenv("SOURCE_DATE_EPOCH"); said != "" {
		if _, ok := saidDay(); !ok {
			c.say("note: SOURCE_DATE_EPOCH is %q, which is no number of seconds since 1970 before the year 10000; the day of the machine counts", said)
		}
	}
}

// mostJobs is more than a workshop's machine has cores.
const mostJobs = 256

// cacheDir is where the cache lives; "" where the machine has no place for one.
func cacheDir(given string) string {
	if given != "" {
		return given
	}
	dir, err := os.UserCacheDir()
	if err != nil {
		return ""
	}
	return filepath.Join(dir, "slabfolio")
}

// buildKey names this very program, so that a new one trusts no old cache.
func buildKey() string {
	key := version() + " " + runtime.Version()
	path, err := os.Executable()
	if err != nil {
		return key
	}
	info, err := os.Stat(path)
	if err != nil {
		return key
	}
	return fmt.Sprintf("%s %d %d", key, info.Size(), info.ModTime().UnixNano())
}

// paths returns the PATHs of the command line; at least one is needed. Where only
// folders make sense, a spec file stands for its folder and other files are
// refused.
func paths(ctx *cli.Context, folders bool) ([]string, error) {
	p := ctx.Args().Slice()
	if len(p) == 0 && folders && inPiece() { // standing in a piece folder, that one is meant
		p = []string{"."}
	}
	if len(p) == 0 {
		return nil, usagef("name a piece folder, or a folder above pieces", "%s what?", ctx.Command.Name)
	}
	for _, path := range p {
		info, err := os.Stat(path)
		if err != nil {
			if here, _ := os.Getwd(); inPiece() && filepath.Base(here) == filepath.Clean(path) {
				return nil, usagef("leave its name out: the command takes the piece that you stand in", "no folder or file %q here, for you stand in %s already", path, path)
			}
			return nil, usagef("check the spelling, or look with ls or dir", "no folder or file %q", path)
		}
		if folders && !info.IsDir() && !piece.IsSpec(filepath.Base(path)) {
			return nil, usagef("name the piece's folder, or a folder above pieces", "%q is a file", path)
		}
	}
	return p, nil
}

// fill takes from the nearest workshop.yaml what the command line leaves open and
// concerns the whole run. Its findings come with the pieces.
func fill(ctx *cli.Context, c *console, o *listing.Options, dirs []string) (*piece.Workshop, error) {
	w, _, err := piece.ReadWorkshop(ctx.Context, dirs[0])
	if err != nil {
		return nil, err
	}
	if o.Out == "" && w.Out.Set() {
		o.Out = beside(w, w.Out.V)
	}
	if !ctx.IsSet("cache") && w.Cache.Set() {
		o.Cache = beside(w, w.Cache.V)
	}
	if !ctx.IsSet("jobs") && w.Jobs.V > 0 {
		o.Jobs = w.Jobs.V
	}
	if o.Only == "" && ctx.Command.Name == "prepare" {
		o.Only = w.Only.V
	}
	c.quiet = c.quiet || w.Quiet.V && !ctx.IsSet("quiet")
	c.json = c.json || w.JSON.V && !ctx.IsSet("json")
	o.Force = o.Force || w.Force.V && !ctx.IsSet("force")
	return w, nil
}

// beside reads a path of workshop.yaml from the folder that it stands in.
func beside(w *piece.Workshop, path string) string {
	if filepath.IsAbs(path) {
		return path
	}
	return filepath.Join(w.Dir, path)
}
