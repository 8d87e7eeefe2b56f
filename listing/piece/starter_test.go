package piece

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"slabfolio/templates"
)

// A fresh piece.yaml parses without a fault for every kind, and doubts what the
// maker still has to fill in.
func TestStarterParses(t *testing.T) {
	for _, kind := range append(slices.Clone(Kinds), "") {
		data := Starter(kind, "OY-0320", words(t).Say)
		p, findings := ParsePiece("piece.yaml", data, Defaults{})
		doubts := 0
		for _, f := range findings {
			if f.Rank == Fault && f.Code != "spec.starter" { // the name and the day, which the maker has to write
				t.Errorf("%s: %d:%d: %s; %s", kind, f.Line, f.Column, f.Message, f.Remedy)
			}
			if f.Code == "spec.starter" {
				doubts++
				if named := strings.Contains(f.Message, "title") || strings.Contains(f.Message, "finished"); named != (f.Rank == Fault) {
					t.Errorf("%s: a %s: %s", kind, f.Rank, f.Message)
				}
			}
		}
		if doubts != 3 {
			t.Errorf("%s: %d doubts about title, finished and what was not measured yet, want 3", kind, doubts)
		}
		if p.Serial.V != "OY-0320" || kind != "" && p.Kind.V != kind {
			t.Errorf("%s: serial %q, kind %q", kind, p.Serial.V, p.Kind.V)
		}
	}
}

// A folder name that is no serial is made one with hyphens, or gives way to an
// example.
func TestStarterSerial(t *testing.T) {
	for serial, want := range map[string]string{"": "OY-0201", "a b": "a-b", "../x": "x", "CON": "OY-0201", "-x": "OY-0201", "x\ny: z": "x-y-z", "üü": "OY-0201"} {
		data := Starter("bench", serial, words(t).Say)
		if p, _ := ParsePiece("piece.yaml", data, Defaults{}); p.Serial.V != want {
			t.Errorf("%q became the serial %q, want %q", serial, p.Serial.V, want)
		}
	}
}

// Every key of the table stands in the starter file of a piece of every sort
// taken together, with its help; and taking the # and the space away from the
// commented lines leaves a spec that is right but for what is said in two ways.
func TestStarterExplainsEveryKey(t *testing.T) {
	data := Starter("console table", "OY-0320", words(t).Say)
	for _, k := range allKeys(pieceKeys, "") {
		re := regexp.MustCompile(`(?m)^(# )? *(- )?` + regexp.QuoteMeta(k.key.Name) + `:.*# .*` + regexp.QuoteMeta(k.key.Help))
		if !re.Match(data) {
			t.Errorf("%s is not explained", k.path)
		}
	}
	_, findings := ParsePiece("piece.yaml", []byte(uncomment(string(data))), Defaults{})
	for _, f := range findings {
		if f.Rank == Fault && f.Code != "spec.ways" && f.Code != "spec.starter" {
			t.Errorf("uncommented: %d:%d: %s; %s\n%s", f.Line, f.Column, f.Message, f.Remedy, f.Snippet)
		}
	}
}

// uncomment takes the # and the space away from the lines of keys.
func uncomment(text string) string {
	var out []string
	for line := range strings.SplitSeq(text, "\n") {
		line = strings.TrimPrefix(line, "# ")
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}

// Each block of a starter file can be taken alone.
func TestStarterBlocksStandAlone(t *testing.T) {
	for _, kind := range Kinds {
		data := Starter(kind, "OY-0320", words(t).Say)
		lines := strings.Split(string(data), "\n")
		for i, line := range lines {
			if !regexp.MustCompile(`^# [a-z]`).MatchString(line) || !strings.Contains(line, ":") {
				continue
			}
			mine := slices.Clone(lines)
			mine[i] = strings.TrimPrefix(mine[i], "# ")
			for j := i + 1; j < len(mine) && strings.HasPrefix(mine[j], "#  "); j++ {
				mine[j] = strings.TrimPrefix(mine[j], "# ")
			}
			_, findings := ParsePiece("piece.yaml", []byte(strings.Join(mine, "\n")), Defaults{})
			for _, f := range findings {
				if f.Rank == Fault && f.Code != "spec.ways" && f.Code != "spec.starter" {
					t.Errorf("%s, %s: %d:%d: %s", kind, line, f.Line, f.Column, f.Message)
				}
			}
		}
	}
}

// What makes no sense for a kind is not in its starter file.
func TestStarterFitsItsKind(t *testing.T) {
	for kind, without := range map[string][]string{
		"bench":         {"drawer", "below_top"},
		"serving board": {"base:", "parts:", "legs:"},
		"wall panel":    {"base:", "overhang"},
	} {
		data := Starter(kind, "OY-0320", words(t).Say)
		for _, word := range without {
			for line := range strings.Lines(string(data)) {
				if body, _, _ := strings.Cut(strings.TrimPrefix(line, "# "), " #"); strings.Contains(body, word) && !strings.Contains(line, "drawer, fixing") && !strings.Contains(line, "one of:") {
					t.Errorf("the starter file of a %s has %q", kind, strings.TrimSpace(line))
				}
			}
		}
	}
}

// Every view of every shot list is a view, has its why and its how, and a file
// name that tells the view again.
func TestShots(t *testing.T) {
	for _, kind := range append(slices.Clone(Kinds), "") {
		data := Shots(kind, words(t).Say) // panics when a phrase is missing
		views := shotViews(kind)
		if len(views) < 8 || views[0] != "three-quarter" || views[len(views)-1] != PackedView {
			t.Errorf("%s: %v", kind, views)
		}
		for _, view := range views {
			if !slices.Contains(Views, view) {
				t.Errorf("%s: %q is no view", kind, view)
			}
			if !strings.Contains(string(data), "**"+view+"**") {
				t.Errorf("%s: %q is not in the list", kind, view)
			}
		}
		for _, m := range regexp.MustCompile(`\((\d\d-[a-z-]+\.jpg)\)`).FindAllStringSubmatch(string(data), -1) {
			view := ViewInFileName(m[1])
			if viewID(view) != strings.TrimSuffix(m[1][3:], ".jpg") {
				t.Errorf("%s: %s tells the view %q", kind, m[1], view)
			}
		}
		for _, alike := range LookedFor(kind) { // what check asks for, this list tells how to take
			for i, view := range alike {
				if i > 0 && !slices.Contains(views, view) {
					continue // serves, and nobody is told to take it
				}
				if !strings.Contains(string(data), "**"+view+"** * (") {
					t.Errorf("%s: check asks for %q, and the list has no star at it", kind, view)
				}
			}
		}
		if stars := strings.Count(string(data), "** * ("); (stars == 0) != (kind == "other") || stars > len(views) {
			t.Errorf("%s: %d stars", kind, stars)
		}
		if text := string(data); strings.Contains(text, "{{") || strings.Contains(text, "<no value>") {
			t.Errorf("%s: a phrase was not filled in", kind)
		}
	}
	for kind := range shotLists {
		if !slices.Contains(Kinds, kind) {
			t.Errorf("there is a shot list for %q, which is no kind", kind)
		}
	}
}

// A fresh workshop.yaml says nothing, explains every key, and each block of it can
// be taken alone or all together.
func TestWorkshopStarter(t *testing.T) {
	data := WorkshopStarter()
	w, findings := ParseWorkshop(WorkshopName, data)
	if len(findings) != 0 || w.Name.Set() || w.Currency.Set() {
		t.Errorf("a fresh file says something: %+v, %+v", w.Name, findings)
	}
	for _, k := range allKeys(workshopKeys, "") {
		re := regexp.MustCompile(`(?m)^# *(- )?` + regexp.QuoteMeta(k.key.Name) + `:.*# .*` + regexp.QuoteMeta(k.key.Help))
		if !re.Match(data) {
			t.Errorf("%s is not explained", k.path)
		}
	}
	w, findings = ParseWorkshop(WorkshopName, []byte(uncomment(string(data))))
	for _, f := range findings {
		if f.Code != "spec.starter" {
			t.Errorf("uncommented: %d:%d: %s; %s", f.Line, f.Column, f.Message, f.Remedy)
		}
	}
	if w.Name.V == "" || len(w.Woods) != 1 {
		t.Errorf("uncommented, it is not read: %+v", w)
	}
}

func words(t *testing.T) *templates.Words {
	t.Helper()
	w, err := templates.Open("en")
	if err != nil {
		t.Fatal(err)
	}
	return w
}
