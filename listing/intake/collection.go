package intake

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"slabfolio/listing/ordinary"
	"slabfolio/listing/piece"
	"slabfolio/listing/piece/yamltext"
)

// A Collection is the pieces that stand in a folder and below.
type Collection struct {
	pieces []member
}

// A member is one piece of a collection.
type member struct {
	dir, serial string
	finished    piece.Date
}

// ReadCollection reads the serials and days of the pieces in a folder: in all that
// is below it where deep says so, else in its own folders alone. What is wrong with
// one of them is no matter here. The error is the context's, or one of the machine.
func ReadCollection(ctx context.Context, dir string, deep bool) (*Collection, error) {
	c := &Collection{}
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return c, nil
	}
	dirs, err := pieceFolders(dir, deep)
	if err != nil {
		return nil, err
	}
	for _, d := range dirs {
		p, _, err := piece.ReadPiece(ctx, d, piece.Defaults{})
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		if err == nil && p.Serial.Set() {
			c.pieces = append(c.pieces, member{d, p.Serial.V, p.Finished.V})
		}
	}
	return c, nil
}

// pieceFolders lists the piece folders in a folder.
func pieceFolders(dir string, deep bool) ([]string, error) {
	if deep {
		dirs, _, err := piece.Find([]string{dir}, nil)
		return dirs, err
	}
	entries, err := os.ReadDir(dir)
	var dirs []string
	for _, e := range entries {
		at := filepath.Join(dir, e.Name())
		if !e.IsDir() {
			continue
		}
		if specs, _ := piece.SpecsIn(at); len(specs) > 0 {
			dirs = append(dirs, at)
		}
	}
	return dirs, err
}

// Serials lists the serials of the collection.
func (c *Collection) Serials() []string {
	var all []string
	for _, m := range c.pieces {
		all = append(all, m.serial)
	}
	return all
}

// Serial chooses the serial of a new piece whose folder has a name: the name where
// it is like the others', reads like a serial or there are none, else the next of the
// collection. why says what is worth knowing of the choice; empty where nothing is.
func (c *Collection) Serial(folder string) (serial, why string) {
	own, all := piece.SerialFrom(folder), c.Serials()
	next := piece.NextSerial(all)
	switch taken := slices.ContainsFunc(all, func(s string) bool { return strings.EqualFold(s, own) }); {
	case taken && next != "":
		return next, fmt.Sprintf("%s is taken by another piece; %s is the next", own, next)
	case next == "" || piece.LikeSerials(own, all):
		return own, ""
	case piece.ReadsAsSerial(own):
		return own, fmt.Sprintf("%s, as the folder is called; after the others of the collection it would be %s", own, next)
	}
	return next, fmt.Sprintf("%s is the next serial of the collection", next)
}

// Latest is the folder of the piece that was finished last; "" where there is none.
func (c *Collection) Latest() string {
	best := member{}
	for _, m := range c.pieces {
		if best.dir == "" || best.finished.Before(m.finished) || best.finished == m.finished && best.serial < m.serial {
			best = m
		}
	}
	return best.dir
}

// Named returns the folder of the piece that has a serial, regardless of case.
func (c *Collection) Named(serial string) string {
	for _, m := range c.pieces {
		if strings.EqualFold(m.serial, serial) {
			return m.dir
		}
	}
	return ""
}

// ReadWritten reads the spec of a piece folder as it is written.
func ReadWritten(dir string) (*piece.Written, error) {
	specs, err := piece.SpecsIn(dir)
	if err != nil {
		return nil, err
	}
	if len(specs) == 0 {
		return nil, fmt.Errorf("no piece.yaml in %s", filepath.ToSlash(dir))
	}
	data, err := ordinary.Read(filepath.Join(dir, specs[0]), yamltext.MaxFile+1)
	if err != nil {
		return nil, err
	}
	return piece.ParseWritten(specs[0], data)
}
