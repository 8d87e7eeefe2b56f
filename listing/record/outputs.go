package record

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
	"unicode/utf8"

	"slabfolio/imaging"
	"slabfolio/imaging/decode"
	"slabfolio/listing"
	"slabfolio/listing/archive"
	"slabfolio/listing/ordinary"
	"slabfolio/listing/photos"
	"slabfolio/listing/piece"
	"slabfolio/listing/stage"
)

// addPrepared takes the outputs in. The bundle and the overview's pictures only
// repeat what is there; the owner's copy leaves private documents out.
func (s *sealing) addPrepared(bag *archive.Bag) error {
	out := s.out()
	return fs.WalkDir(os.DirFS(out), ".", func(rel string, d fs.DirEntry, err error) error {
		if err != nil || !d.Type().IsRegular() {
			return err
		}
		if rel == "listing.zip" || rel == stage.WrittenName || strings.HasPrefix(rel, "overview/") || s.o.Owner && !listing.Public(rel) {
			return nil
		}
		bag.Files = append(bag.Files, archive.File{Path: "prepared/" + rel, Source: filepath.Join(out, filepath.FromSlash(rel))})
		return nil
	})
}

// out is where the outputs of the piece wait to be sealed.
func (s *sealing) out() string { return filepath.Join(s.o.To, preparedHere, s.result.Serial) }

// addReadable puts a plain PNG beside every photo whose format may be hard to
// open one day, wherever in the piece folder it is.
func (s *sealing) addReadable(ctx context.Context, bag *archive.Bag, o *imaging.Options) error {
	for _, f := range s.own {
		if f.Source == "" || f.Path == piece.WorkshopName {
			continue
		}
		if err := ctx.Err(); err != nil {
			return err
		}
		format, err := photoFormat(f.Source)
		if err != nil || !imaging.NeedsPNG(format) {
			continue // a file that cannot be opened is told of when it is sealed
		}
		png, err := s.readable(f, o)
		if err != nil {
			return err
		}
		if png == "" {
			continue // its finding stands already, or it is not published
		}
		bag.Files = append(bag.Files, archive.File{Path: path.Join("readable", readableName(strings.TrimPrefix(f.Path, "piece/"))), Source: png})
	}
	return nil
}

// readable draws the plain copy of one photo and returns where it is; "" for a
// file that is no photo after all.
func (s *sealing) readable(f archive.File, o *imaging.Options) (string, error) {
	data, err := ordinary.Read(f.Source, photos.MaxFile)
	if err != nil {
		return "", err
	}
	png, _, err := imaging.PNG(data, o)
	var refusal *decode.Refusal
	if errors.As(err, &refusal) {
		return "", nil
	}
	if err != nil {
		return "", fmt.Errorf("%s: %w", f.Path, err)
	}
	temp := filepath.Join(s.out(), ".readable", readableName(f.Path))
	if err := os.MkdirAll(filepath.Dir(temp), 0o755); err != nil {
		return "", err
	}
	return temp, stage.WriteFile(temp, png)
}

// readableName adds .png to a name; one that gets too long for a file system is
// cut, and told apart by a hash.
func readableName(rel string) string {
	const most = 255
	dir, name := path.Split(rel)
	if len(name)+len(".png") > most {
		sum := sha256.Sum256([]byte(name))
		head := name[:most-len(".png")-9]
		for !utf8.ValidString(head) {
			head = head[:len(head)-1]
		}
		name = head + "-" + hex.EncodeToString(sum[:4])
	}
	return dir + name + ".png"
}

// photoFormat tells the format of a photo from its first bytes.
func photoFormat(name string) (string, error) {
	f, _, err := ordinary.Open(name)
	if err != nil {
		return "", err
	}
	defer f.Close() // read only
	head := make([]byte, 256<<10)
	n, err := io.ReadFull(f, head)
	if err != nil && n == 0 {
		return "", err
	}
	format, _, _, err := decode.Header(head[:n])
	if format != "" {
		err = nil
	}
	return format, err
}
