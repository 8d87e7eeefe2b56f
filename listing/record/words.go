package record

import (
	"bytes"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"
	"unicode/utf8"

	"slabfolio/listing"
	"slabfolio/listing/archive"
	"slabfolio/listing/ordinary"
	"slabfolio/listing/piece"
)

// describe writes the page for a reader without any tool and the elements of
// bag-info.txt.
func (s *sealing) describe(bag *archive.Bag, made *listing.Made) {
	p, w := &made.Report.Public, s.j.Workshop
	has := func(prefix string) bool {
		return slices.ContainsFunc(bag.Files, func(f archive.File) bool { return strings.HasPrefix(f.Path, prefix) })
	}
	data := map[string]any{
		"Title": p.Title, "Serial": p.Serial, "Kind": p.KindIn(made.Words), "Finished": p.Finished, "Sealed": s.o.Today, "Owner": s.o.Owner,
		"Maker": "", "By": p.WorkBy(made.Words), "Workshop": !s.o.Owner && w != nil && w.Dir != "", "Readable": has("readable/"), "Process": has("piece/process/"), "Papers": has("piece/papers/"),
		"Revision": s.revision, "Predecessor": "", "PredecessorSum": s.prevSum, "Woods": "", "Spec": s.specName(),
		"Encoded": slices.ContainsFunc(bag.Files, func(f archive.File) bool { return archive.Encoded(f.Path) }),
	}
	var woods []string
	for _, m := range p.Materials {
		if (m.Role == "wood" || m.Role == "resin") && !slices.Contains(woods, m.Name) {
			woods = append(woods, m.Name)
		}
	}
	data["Woods"] = strings.Join(woods, ", ")
	if p.Maker != nil {
		data["Maker"] = p.Maker.Name
	}
	if s.previous != nil {
		data["Predecessor"] = s.previous.Name
	}
	bag.Files = append(bag.Files, archive.File{Path: "README.txt", Data: []byte(made.Words.Say("archive.readme", data) + "\n")})
	add := func(label, value string) { bag.Info = append(bag.Info, archive.Info{Label: label, Value: value}) }
	if p.Maker != nil {
		add("Source-Organization", p.Maker.Name)
		add("Organization-Address", strings.Join(strings.FieldsFunc(p.Maker.Address, func(r rune) bool { return r == '\n' }), ", "))
		add("Contact-Name", p.Maker.Name)
		add("Contact-Phone", p.Maker.Phone)
		add("Contact-Email", p.Maker.Email)
		add("Bag-Group-Identifier", p.Maker.Name)
	}
	add("External-Description", made.Words.Say("archive.description", data))
	add("Bagging-Date", s.o.Today)
	add("External-Identifier", p.Serial)
	add("Internal-Sender-Identifier", bag.Name)
	add("Internal-Sender-Description", made.Words.Say("archive.sender", data))
	add("Revision", fmt.Sprint(s.revision))
	if s.previous != nil {
		add("Predecessor", s.previous.Name)
		add("Predecessor-Manifest-SHA512", s.prevSum)
	}
	add("Bag-Software-Agent", s.o.Software)
}

// searched is how much of a file is looked through for secrets: text as a whole,
// of a photo the head, where its captions are.
const searched = 1 << 20

// lookForSecrets looks whether the buyer or a supplier is named in the owner's
// copy outside the keys that were taken out: in the story, a caption, the log, a
// file's name. What a maker wrote there for others to read stays, so that the
// record is not bent; the maker is told.
func (s *sealing) lookForSecrets(bag *archive.Bag) error {
	secrets := s.j.Piece.Secrets()
	if len(secrets) == 0 {
		return nil
	}
	found := make([][]string, len(secrets))
	for _, f := range bag.Files {
		text, err := headOf(f)
		if err != nil {
			return err
		}
		for i, x := range secrets {
			if x.Person.InFileName(strings.TrimSuffix(f.Path, path.Ext(f.Path))) != "" || namedIn(text, x) {
				found[i] = append(found[i], f.Path)
			}
		}
	}
	for i, files := range found {
		if len(files) == 0 {
			continue
		}
		where := strings.Join(files[:min(3, len(files))], ", ")
		if len(files) > 3 {
			where += fmt.Sprintf(" and %d more", len(files)-3)
		}
		s.find(piece.Doubt, "archive.private", s.specName(), fmt.Sprintf("the owner's copy names %s, %q, in %s", secrets[i].Who, secrets[i].Said, where),
			"take the name out of the story, the log, the caption or the file's name that has it, unless it only is a word like the name, and seal the owner's copy again")
	}
	return nil
}

// namedIn reports whether the beginning of a file names somebody. In what is no text, such
// as a photo with its captions, a single name may stand by chance, and only whole ones count.
func namedIn(data []byte, s piece.Secret) bool {
	text := data
	for i := 0; i < utf8.UTFMax-1 && len(text) > 0 && !utf8.Valid(text); i++ {
		text = text[:len(text)-1] // a letter that the beginning of the file ends in
	}
	if utf8.Valid(text) && !bytes.Contains(text, []byte{0}) {
		return s.Person.In(string(text)) != ""
	}
	small := bytes.ToLower(data)
	return slices.ContainsFunc(append(s.Person.Whole(), strings.ToLower(strings.TrimSpace(s.Said))), func(name string) bool {
		return utf8.RuneCountInString(name) > 4 && bytes.Contains(small, []byte(name))
	})
}

// headOf reads the beginning of a file that is to be sealed.
func headOf(f archive.File) ([]byte, error) {
	if f.Source == "" {
		return f.Data[:min(len(f.Data), searched)], nil
	}
	in, _, err := ordinary.Open(f.Source)
	if err != nil {
		return nil, err
	}
	defer in.Close() // read only
	return io.ReadAll(io.LimitReader(in, searched))
}
