package main

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"slabfolio/listing"
	"slabfolio/listing/intake"
	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
)

// A fresh is a piece that is being laid out.
type fresh struct {
	c       *console
	opts    listing.Options
	folder  string // where it will stand
	allKeys bool

	workshop   *piece.Workshop
	collection *intake.Collection
	card       *photos.Card   // nil without --from
	known      *piece.Written // what piece.yaml will hold
	earlier    *piece.Written // proposes answers; nil for none
	likeKind   string         // of the piece that --like names
	asked      bool           // known holds a person's answers
	fromFile   bool           // they come from a file

	copied *photos.CopyResult
	bursts []photos.Burst
	told   []string // what the person is told in the end
}

// newPiece reads the command line and what is there already. It writes nothing.
func newPiece(ctx *cli.Context, c *console, o listing.Options) (*fresh, error) {
	n := &fresh{c: c, opts: o, folder: ctx.Args().First(), allKeys: ctx.Bool("all-keys"), known: &piece.Written{}}
	if err := n.lookAround(ctx.Context); err != nil {
		return nil, err
	}
	if err := n.choosePlace(ctx.Context); err != nil {
		return nil, err
	}
	for _, take := range []func(*cli.Context) error{n.takeLike, n.takeAnswers, n.takeKind, n.takeSerial, n.takeCard} {
		if err := take(ctx); err != nil {
			return nil, err
		}
	}
	return n, nil
}

// lookAround reads the workshop and the collection that the piece will belong to.
func (n *fresh) lookAround(ctx context.Context) (err error) {
	parent := "."
	if n.folder != "" {
		abs, err := filepath.Abs(n.folder)
		if err != nil {
			return err
		}
		parent = filepath.Dir(abs)
	}
	if n.workshop, _, err = piece.ReadWorkshop(ctx, parent); err != nil {
		return err
	}
	n.collection, err = intake.ReadCollection(ctx, cmp.Or(n.workshop.Dir, parent), n.workshop.Dir != "")
	return err
}

// choosePlace finds the folder of the piece, and refuses what is taken or guarded.
func (n *fresh) choosePlace(ctx context.Context) error {
	if n.folder == "" {
		if n.folder = piece.NextSerial(n.collection.Serials()); n.folder == "" {
			return usagef("slabfolio new OY-0142 lays out a folder of that name", "new needs one FOLDER")
		}
	}
	there, _ := piece.SpecsIn(n.folder) // a folder that is not there has none
	for _, name := range append(there, "piece.yaml", "SHOTS.md") {
		if _, err := os.Lstat(filepath.Join(n.folder, name)); err == nil {
			return usagef("name another FOLDER", "%s is already there; new never overwrites anything", filepath.ToSlash(filepath.Join(n.folder, name)))
		}
	}
	if info, err := os.Stat(n.folder); err == nil && !info.IsDir() {
		return usagef("name another FOLDER", "%q is a file", filepath.ToSlash(n.folder))
	}
	if below, err := intake.ReadCollection(ctx, n.folder, false); err == nil && len(below.Serials()) > 0 {
		return usagef("name a new FOLDER in it, such as "+filepath.ToSlash(filepath.Join(n.folder, piece.NextSerial(below.Serials()))), "%q holds other pieces, and a piece holds none", filepath.ToSlash(n.folder))
	}
	return checkGuarded(n.folder, "the new piece", "name a FOLDER outside of it")
}

// takeLike takes over what an earlier piece lends. Without --like the one that was
// finished last only proposes answers.
func (n *fresh) takeLike(ctx *cli.Context) error {
	like := ctx.String("like")
	dir := n.collection.Latest()
	if like != "" {
		if dir = n.collection.Named(like); dir == "" {
			dir = like
		}
	}
	if dir == "" {
		return nil
	}
	earlier, err := intake.ReadWritten(dir)
	switch {
	case err == nil:
		n.earlier = earlier
	case like != "" && errors.Is(err, piece.ErrNotReadable):
		return usagef("slabfolio check says what is wrong with it", "--like %s: its piece.yaml cannot be read", like)
	case like != "":
		return usagef("name a serial of the collection, or a piece folder", "--like %s: there is no such piece", like)
	}
	if like != "" {
		lent := piece.Like(earlier)
		if kind, _, err := piece.ParseKind(ctx.String("kind")); err == nil && piece.NoSuchPart(kind, "base") {
			lent.Keys = slices.DeleteFunc(lent.Keys, func(k piece.WrittenKey) bool { return k.Name == "base" })
		}
		n.known.Merge(lent)
		if kind := earlier.Key("kind"); kind != nil {
			n.likeKind = kind.Text
		}
	}
	return nil
}

// takeAnswers takes the answers from a file. What is wrong with them is told, and
// nothing is laid out then.
func (n *fresh) takeAnswers(ctx *cli.Context) error {
	name := ctx.String("answers")
	if name == "" {
		return nil
	}
	data, err := readAnswers(name)
	if err != nil {
		return err
	}
	defaults := n.workshop.Defaults()
	defaults.Today = n.opts.Today
	answers, findings := piece.ParseAnswers(filepath.ToSlash(name), data, defaults)
	wrong := false
	for _, f := range findings {
		wrong = wrong || f.Rank == piece.Fault
		n.c.setFinding("", f)
	}
	if wrong {
		n.c.say("nothing was laid out; mend the answers and run it again")
		return errFault
	}
	n.known.Merge(answers)
	n.asked, n.fromFile = true, true
	return nil
}

// mostAnswers is how many bytes a file of answers may have, as any spec.
const mostAnswers = 1 << 20

// readAnswers reads a file of answers: a plain text of a spec's size, since a pipe
// or a device may never end.
func readAnswers(name string) ([]byte, error) {
	const remedy = "name a file of piece.yaml's own keys, such as title: River table"
	info, err := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, usagef(remedy, "--answers %s: there is no such file", name)
	case err == nil && !info.Mode().IsRegular():
		return nil, usagef(remedy, "--answers %s is no plain file", name)
	case err == nil && info.Size() > mostAnswers:
		return nil, usagef(remedy, "--answers %s is larger than a megabyte", name)
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, usagef(remedy, "--answers %s cannot be read", name)
	}
	if bytes.IndexByte(data, 0) >= 0 && !bytes.HasPrefix(data, []byte{0xff, 0xfe}) && !bytes.HasPrefix(data, []byte{0xfe, 0xff}) {
		return nil, usagef(remedy, "--answers %s is no text", name)
	}
	return data, nil
}

func (n *fresh) takeKind(ctx *cli.Context) error {
	said := ctx.String("kind")
	if said == "" {
		return nil
	}
	read, note, err := piece.ParseKind(said)
	var wrong *piece.SetError
	if errors.As(err, &wrong) {
		return usagef(wrong.Remedy, "%s", wrong.Message)
	}
	if note != "" {
		n.c.say("note: %s", note)
	}
	if own := n.known.Key("kind"); own != nil && n.asked {
		if answered, _, err := piece.ParseKind(own.Text); err != nil || answered != read {
			n.c.say("note: kind: %s, as --kind says; the answers say %s", read, own.Text)
		}
	}
	n.known.Put("kind", piece.Plain(read))
	return nil
}

// takeSerial proposes the serial, unless the answers hold one.
func (n *fresh) takeSerial(*cli.Context) error {
	if own := n.known.Key("serial"); own != nil && own.Single {
		if dir := n.collection.Named(own.Text); dir != "" {
			return usagef("give the new piece another serial", "serial %s is taken by %s", own.Text, filepath.ToSlash(dir))
		}
		return nil
	}
	abs, err := filepath.Abs(n.folder)
	if err != nil {
		return err
	}
	serial, why := n.collection.Serial(filepath.Base(abs))
	if why != "" {
		n.told = append(n.told, "serial: "+why+"; piece.yaml holds it")
	}
	n.known.Put("serial", piece.Plain(serial))
	return nil
}

// takeCard lists the photos of --from.
func (n *fresh) takeCard(ctx *cli.Context) error {
	from, since := ctx.String("from"), strings.TrimSpace(ctx.String("since"))
	if from == "" {
		if since != "" {
			return usagef("slabfolio new OY-0142 --from CARD --since 2026-11-29", "--since goes with --from")
		}
		return nil
	}
	day, err := n.sinceDay(since)
	if err != nil {
		return err
	}
	if info, err := os.Stat(from); err != nil || !info.IsDir() {
		return usagef("name the folder that the card shows as, such as /media/card or E:\\", "--from %q is no folder", from)
	}
	if inside(n.folder, from) {
		return usagef("name the card, or a folder that does not hold the new piece", "--from %q: the new piece would stand in it", from)
	}
	if n.card, err = photos.ReadCard(ctx.Context, from, day); err != nil {
		return err
	}
	if len(n.card.Photos) == 0 {
		hint := "look at the card with ls or dir; a card's photos usually stand in DCIM"
		if n.card.Older > 0 {
			hint = fmt.Sprintf("%s from before %s; leave --since out, or give an earlier day", areOrIs(n.card.Older), day)
		}
		return usagef(hint, "no photo to copy in %q", from)
	}
	return nil
}

func areOrIs(n int) string {
	if n == 1 {
		return "the 1 photo there is"
	}
	return fmt.Sprintf("all %d photos there are", n)
}

// sinceDay reads --since: a day, today or yesterday.
func (n *fresh) sinceDay(text string) (string, error) {
	switch strings.ToLower(text) {
	case "":
		return "", nil
	case "today":
		return n.opts.Today.String(), nil
	case "yesterday":
		return n.opts.Today.DayBefore().String(), nil
	}
	day, problem, remedy := piece.ParseDate(text)
	if problem != "" {
		return "", usagef(remedy, "--since: %s", problem)
	}
	return day.String(), nil
}

// inside reports whether a path is a folder, or lies in it.
func inside(path, folder string) bool {
	p, errP := filepath.Abs(path)
	f, errF := filepath.Abs(folder)
	if errP != nil || errF != nil {
		return false
	}
	if real, err := filepath.EvalSymlinks(f); err == nil {
		f = real
	}
	if real, err := filepath.EvalSymlinks(filepath.Dir(p)); err == nil {
		p = filepath.Join(real, filepath.Base(p))
	}
	rel, err := filepath.Rel(f, p)
	return err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator))
}
