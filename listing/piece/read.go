package piece

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"slabfolio/listing/piece/yamltext"

	"slabfolio/listing/ordinary"
	"slabfolio/listing/units"
)

// Defaults are what a piece takes from its workshop while it is read.
type Defaults struct {
	Units   units.System // for bare lengths; inches when empty, where nobody said
	Country string       // where the workshop is; empty when nobody said
	Today   Date         // days after it are still to come; no day is when zero
}

// Defaults returns what the workshop gives to its pieces. w may be nil.
func (w *Workshop) Defaults() Defaults {
	if w == nil {
		return Defaults{}
	}
	return Defaults{Units: w.Units.V, Country: w.Country.V}
}

// WorkshopName is the file of the maker's defaults.
const WorkshopName = "workshop.yaml"

// ReadPiece reads the spec of a piece folder, with what its workshop gives. The
// piece is returned with its findings even when there are faults among them; what
// is at fault is absent in it. The error is the context's, or one of the machine:
// a file that is there but cannot be read. A folder without a spec is an error
// that matches fs.ErrNotExist.
func ReadPiece(ctx context.Context, dir string, defaults Defaults) (*Piece, []Finding, error) {
	specs, err := readable(dir)
	if err != nil {
		return nil, nil, err
	}
	if len(specs) == 0 {
		return nil, nil, fmt.Errorf("no piece.yaml in %s: %w", dir, fs.ErrNotExist)
	}
	data, err := readFile(filepath.Join(dir, specs[0]))
	if err != nil {
		return nil, nil, fmt.Errorf("read %s: %w", specs[0], err)
	}
	p, findings, err := parsePiece(ctx, specs[0], data, defaults)
	if err != nil {
		return nil, nil, err
	}
	p.Dir = dir
	return p, append(nameFindings(specs), findings...), nil
}

// readFile reads at most one byte more than a spec may have.
func readFile(name string) ([]byte, error) {
	return ordinary.Read(name, yamltext.MaxFile+1)
}

// ParsePiece reads a spec. file is its name in messages. It never fails: what is
// wrong with the spec is among the findings, each with its place, and absent in
// the piece.
func ParsePiece(file string, data []byte, defaults Defaults) (*Piece, []Finding) {
	p, findings, _ := parsePiece(context.Background(), file, data, defaults) // the error is the context's alone
	return p, findings
}

func parsePiece(ctx context.Context, file string, data []byte, defaults Defaults) (*Piece, []Finding, error) {
	usual := defaults.usual()
	defaults.Units = cmp.Or(defaults.Units, units.Inches)
	p := &Piece{Units: Value[units.System]{V: defaults.Units}, Quantity: Value[int]{V: 1}}
	text, err := yamltext.Read(ctx, file, data)
	if err != nil {
		return nil, nil, err
	}
	s, root := newSource(file, text), text.Root
	if root == nil {
		return p, s.sorted(), nil
	}
	d := &decoder{s: s, root: pieceKeys, blanked: text.Lost, units: unitsOf(root, defaults.Units), today: defaults.Today}
	if d.top(root, reflect.ValueOf(p).Elem()) {
		checkPiece(d, p)
		w := written(text, root, pieceKeys)
		checkNamed(d, w, p)
		checkMixed(d, w, p)
		checkKindSays(d, w, p)
		readOutdoors(w, p)
		checkUnsaid(d, w, usual, p)
	}
	return p, s.sorted(), ctx.Err()
}

// unitsOf looks the bare unit up before anything else is read, since the key
// may stand anywhere.
func unitsOf(root *yamltext.Node, otherwise units.System) units.System {
	for _, p := range root.Pairs {
		if p.Key == "units" && p.Value.Shape == yamltext.Scalar {
			if u := units.SystemMeant(p.Value.Text); u != "" { // what is none of the three is a fault in any case, and one is enough
				return u
			}
		}
	}
	return otherwise
}

// top fills the outermost struct.
func (d *decoder) top(root *yamltext.Node, v reflect.Value) bool {
	at := Place{File: d.s.file, Line: 1, Column: 1}
	switch root.Shape {
	case yamltext.Mapping:
		d.group(root, &Key{Keys: d.root}, v, "", at)
		return true
	case yamltext.Empty:
		if len(d.blanked) == 0 {
			d.group(&yamltext.Node{Shape: yamltext.Mapping, At: at}, &Key{Keys: d.root}, v, "", at)
		}
	default:
		d.fault("spec.type", root.At, "the file does not begin with a key", "write keys and values, one a line, like this: "+d.root[0].line())
	}
	return false
}

// ReadWorkshop reads the nearest workshop.yaml at or above dir, up to the root
// of the file system. Without one it returns an empty Workshop. The error is one
// of the machine.
func ReadWorkshop(ctx context.Context, dir string) (*Workshop, []Finding, error) {
	abs, err := filepath.Abs(dir)
	if err != nil {
		return nil, nil, fmt.Errorf("look for %s: %w", WorkshopName, err)
	}
	var alike []Finding
	for at := abs; ; {
		name := filepath.Join(at, WorkshopName)
		if _, err := os.Lstat(name); err == nil {
			data, why := readWorkshop(name)
			if why != "" {
				return &Workshop{Dir: at}, append(alike, Finding{Rank: Fault, Code: "workshop.unreadable", File: WorkshopName, Line: 1, Column: 1,
					Message: fmt.Sprintf("%s in the folder %q %s, so nobody knows which units and prices are meant", WorkshopName, filepath.Base(at), why),
					Remedy:  "put the file itself there, or take that away"}), nil
			}
			w, findings, err := parseWorkshop(ctx, WorkshopName, data)
			if err != nil {
				return nil, nil, err
			}
			w.Dir = at
			return w, append(alike, findings...), nil
		}
		alike = append(alike, misnamedWorkshop(at)...)
		up := filepath.Dir(at)
		if up == at {
			return &Workshop{}, alike, nil
		}
		at = up
	}
}

// readWorkshop reads the file, or says why it cannot be. A link to a file is followed:
// several collections may have one.
func readWorkshop(name string) (data []byte, why string) {
	to, err := filepath.EvalSymlinks(name)
	if err != nil {
		return nil, "is a link that leads nowhere"
	}
	switch data, err = readFile(to); {
	case errors.Is(err, ordinary.Err):
		return nil, "is no file"
	case err != nil:
		return nil, "cannot be read"
	}
	return data, ""
}

// ParseWorkshop reads a workshop.yaml, as ParsePiece does a spec. An empty file
// is an empty workshop.
func ParseWorkshop(file string, data []byte) (*Workshop, []Finding) {
	w, findings, _ := parseWorkshop(context.Background(), file, data) // the error is the context's alone
	return w, findings
}

func parseWorkshop(ctx context.Context, file string, data []byte) (*Workshop, []Finding, error) {
	w := &Workshop{Text: data}
	text, err := yamltext.Read(ctx, file, data)
	if err != nil {
		return nil, nil, err
	}
	s, root := newSource(file, text), text.Root
	if root == nil || root.Shape == yamltext.Empty {
		return w, s.sorted(), nil
	}
	d := &decoder{s: s, root: workshopKeys, blanked: text.Lost, units: unitsOf(root, units.Inches)}
	if d.top(root, reflect.ValueOf(w).Elem()) {
		checkWorkshop(d, w)
	}
	return w, s.sorted(), ctx.Err()
}

// misnamedWorkshop doubts a file that somebody meant for a workshop.yaml and that is
// not read, since it has another name.
func misnamedWorkshop(dir string) []Finding {
	for _, name := range []string{"workshop.yml", "Workshop.yaml", "Workshop.yml", "workshop.yaml.txt", "Workshop.yaml.txt", "workshop.yml.txt", "WORKSHOP.YAML"} {
		if info, err := os.Stat(filepath.Join(dir, name)); err == nil && info.Mode().IsRegular() {
			return []Finding{{Rank: Doubt, Code: "workshop.name", File: name, Line: 1, Column: 1,
				Message: fmt.Sprintf("%s in the folder %q is not read, so none of your defaults count", name, filepath.Base(dir)), Remedy: "call it " + WorkshopName}}
		}
	}
	return nil
}
