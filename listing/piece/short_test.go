package piece

import (
	"strings"
	"testing"

	"slabfolio/listing/units"
)

func echo(id string, _ map[string]any) string { return id }

// uncommented takes the # and the one space behind it away from every line that is
// not an explanation, as the head of the file tells a maker to.
func uncommented(text string) string {
	var b strings.Builder
	for line := range strings.Lines(text) {
		if !strings.HasPrefix(line, "##") {
			line = strings.TrimPrefix(line, "# ")
		}
		b.WriteString(line)
	}
	return b.String()
}

func faults(t *testing.T, text string) (out []Finding) {
	t.Helper()
	_, findings := ParsePiece("piece.yaml", []byte(text), Defaults{Units: units.Inches})
	for _, f := range findings {
		if f.Rank == Fault {
			out = append(out, f)
		}
	}
	return out
}

// Whatever was answered and whatever was not: the short file and the long one are
// read without a fault but for what is needed and missing, and taking the # away
// from what they propose makes them whole.
func TestShortAndLongHoldWhatIsKnown(t *testing.T) {
	all := map[string]*Written{
		"title": Plain("Table: the first"), "kind": Plain("coffee table"), "finished": Plain("2026-11-29"), "top.outline.length": Plain("84 in"),
		"top.outline.width": Plain(`38"`), "top.thickness": Plain("2"), "top.wood.species": Plain("black-walnut"), "story": Plain("One line.\nAnother # line."),
		"photos.blends": {Items: []*Written{{Keys: []WrittenKey{{"name", Plain("light")}, {"frames", &Written{Items: []*Written{Plain("a b.jpg"), Plain("c.jpg")}}}}}}},
		"base.style":    Plain("two frames, black"), "top.resin.area": Plain("18 %"),
	}
	for missing := range all {
		known := &Written{}
		known.Put("serial", Plain("OY-0001"))
		for path, v := range all {
			if path != missing {
				known.Put(path, v)
			}
		}
		for name, text := range map[string]string{"short": string(Short(known, echo)), "long": string(AllKeys(known, echo))} {
			for _, f := range faults(t, text) {
				if f.Code != "spec.missing" && !strings.Contains(f.Message, "outline") {
					t.Errorf("%s without %s: %s\n%s", name, missing, f.Message, text)
				}
			}
			spec, err := ParseWritten("piece.yaml", []byte(text))
			if err != nil {
				t.Fatalf("%s without %s: %v\n%s", name, missing, err, text)
			}
			for path, v := range all {
				if got := spec.Find(path); path != missing && (got == nil || got.String() != v.String()) {
					t.Errorf("%s without %s: %s is %q, want %q", name, missing, path, got, v)
				}
			}
			if name == "short" {
				if lines := strings.Count(text, "\n"); lines > 55 {
					t.Errorf("the short file has %d lines", lines)
				}
				for _, f := range faults(t, uncommented(text)) {
					t.Errorf("short without %s, all taken: line %d: %s\n%s", missing, f.Line, f.Message, uncommented(text))
				}
			}
		}
	}
}

// Where nobody was asked, the short file is read without a fault, for every kind.
func TestFreshShortFileIsSound(t *testing.T) {
	for _, kind := range Kinds {
		text := string(Short(FreshAnswers(kind, "OY-0001"), echo))
		for _, f := range append(faults(t, text), faults(t, uncommented(text))...) {
			if f.Code != "spec.starter" { // the name and the day, which the maker has to write
				t.Errorf("%s: %s\n%s", kind, f.Message, text)
			}
		}
	}
}
