package photos

import (
	"context"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"slabfolio/imaging/decode"
	"slabfolio/listing/ordinary"
	"slabfolio/listing/piece"
)

// A Card is a camera's memory card, or any folder of photos that are to be copied.
type Card struct {
	Dir    string
	Photos []CardPhoto    // in the order of their files' paths
	Older  int            // photos of days before the one that was asked for
	Others map[string]int // files that are no photos, by how their names end
	Passed []string       // piece folders, bags and links, which are not looked into
	Shut   []string       // folders that cannot be read
}

// A CardPhoto is one photo of a card: its picture, and the raw file of the same name
// beside it.
type CardPhoto struct {
	Files []string // relative to the card, forward slashes; the picture first
	Day   string   // "2026-11-29", by the camera, else by the file
}

// ReadCard lists the photos below a folder, however deep, that were taken on a day
// or later; all of them where since is "". Hidden files, links, piece folders and
// sealed bags are passed over. The error is the context's, or one of the machine.
func ReadCard(ctx context.Context, dir, since string) (*Card, error) {
	c := &Card{Dir: dir, Others: map[string]int{}}
	var names []string
	err := filepath.WalkDir(dir, func(at string, d fs.DirEntry, err error) error {
		if ctx.Err() != nil || at == dir {
			return cmpErr(ctx.Err(), err)
		}
		rel, _ := filepath.Rel(dir, at)
		if err != nil { // one folder of a card that its system keeps to itself costs that folder alone
			c.Shut = append(c.Shut, filepath.ToSlash(rel))
			return fs.SkipDir
		}
		name, err := c.look(filepath.ToSlash(rel), d)
		if name != "" {
			names = append(names, name)
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	c.group(names, since)
	return c, nil
}

func cmpErr(first, second error) error {
	if first != nil {
		return first
	}
	return second
}

// look returns the name of what is a photo.
func (c *Card) look(rel string, d fs.DirEntry) (string, error) {
	switch {
	case strings.HasPrefix(d.Name(), "."):
		if d.IsDir() {
			return "", fs.SkipDir
		}
	case d.IsDir():
		if piece.IsGuarded(filepath.Join(c.Dir, filepath.FromSlash(rel))) {
			c.Passed = append(c.Passed, rel)
			return "", fs.SkipDir
		}
	case !d.Type().IsRegular():
		c.Passed = append(c.Passed, rel)
	default:
		if _, ok := photoFile(c.Dir, rel, d); ok {
			return rel, nil
		}
		c.Others[strings.ToLower(path.Ext(rel))]++
	}
	return "", nil
}

// group brings the files of one photo together, and leaves out those before a day.
func (c *Card) group(names []string, since string) {
	byStem := map[string][]string{}
	var order []string
	for _, name := range names {
		key := strings.ToLower(stem(name))
		if byStem[key] == nil {
			order = append(order, key)
		}
		byStem[key] = append(byStem[key], name)
	}
	for _, key := range order {
		for _, files := range apart(byStem[key]) {
			p := CardPhoto{Files: files, Day: c.day(files)}
			if p.Day < since {
				c.Older++
				continue
			}
			c.Photos = append(c.Photos, p)
		}
	}
}

// apart parts files of one stem: a picture with its raw files, and each other
// picture by itself.
func apart(files []string) [][]string {
	var pictures, raws []string
	for _, f := range files {
		if slices.Contains(rawExtensions, strings.ToLower(path.Ext(f))) {
			raws = append(raws, f)
		} else {
			pictures = append(pictures, f)
		}
	}
	if len(pictures) == 0 {
		return [][]string{raws}
	}
	out := [][]string{append([]string{pictures[0]}, raws...)}
	for _, p := range pictures[1:] {
		out = append(out, []string{p})
	}
	return out
}

// day is when a photo was taken: by what the camera wrote into one of its files,
// else by the file's own time.
func (c *Card) day(files []string) string {
	for _, f := range files {
		if t := moment(factsOf(c.Dir, f)); !t.IsZero() {
			return t.Format("2006-01-02")
		}
	}
	info, err := os.Lstat(filepath.Join(c.Dir, filepath.FromSlash(files[0])))
	if err != nil {
		return ""
	}
	return info.ModTime().Format("2006-01-02")
}

// Days lists the days on which the photos were taken, with their number, in order.
func (c *Card) Days() (days []string, count map[string]int) {
	count = map[string]int{}
	for _, p := range c.Photos {
		count[p.Day]++
	}
	for day := range count {
		days = append(days, day)
	}
	slices.Sort(days)
	return days, count
}

// mostForFacts is more of a file than has to be read for what the camera wrote; of
// the formats that keep it at their end the whole is read, up to wholeForFacts.
const (
	mostForFacts  = 512 << 10
	wholeForFacts = 32 << 20
)

// factsOf reads what the camera wrote into a file.
func factsOf(dir, rel string) decode.Facts {
	f, info, err := ordinary.Open(filepath.Join(dir, filepath.FromSlash(rel)))
	if err != nil {
		return decode.Facts{}
	}
	defer f.Close() // read only
	most := int64(mostForFacts)
	if ext := strings.ToLower(path.Ext(rel)); ext == ".heic" || ext == ".heif" || ext == ".avif" {
		most = wholeForFacts
	}
	data := make([]byte, min(info.Size(), most))
	n, _ := io.ReadFull(f, data)
	return decode.ReadFacts(data[:n])
}
