package photos

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

func folder(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, data := range files {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(data), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

const jpegHead = "\xff\xd8\xff\xe0 and so on"

func TestFindPhotos(t *testing.T) {
	dir := folder(t, map[string]string{
		"piece.yaml": "", "SHOTS.md": "", "notes.txt": "words", "b.JPG": jpegHead, "a.jpg": "no photo, but its name promises one",
		"photos/c.heic": "", "unnamed": jpegHead, "song.mp3": "ID3", "process/p.jpg": jpegHead, "papers/q.jpg": jpegHead,
		"photos/deeper/d.jpg": jpegHead, ".hidden.jpg": jpegHead,
	})
	if err := os.Symlink(filepath.Join(dir, "b.JPG"), filepath.Join(dir, "link.jpg")); err != nil {
		t.Log("no links here: ", err)
	}
	got, err := Find(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, s := range got {
		names = append(names, s.Rel)
	}
	if want := []string{"a.jpg", "b.JPG", "photos/c.heic", "unnamed"}; !slices.Equal(names, want) {
		t.Errorf("got %v, want %v", names, want)
	}
}

func sources(names ...string) []Source {
	var out []Source
	for _, n := range names {
		out = append(out, Source{Rel: n, Name: filepath.Base(n), Role: Publish})
	}
	return out
}

func TestArrangePhotos(t *testing.T) {
	v := piece.Of[string]
	p := &piece.Piece{}
	p.Photos = piece.Photos{
		Main: v("end.jpg"), Order: []piece.Value[string]{v("IMG_2.jpg"), v("end.jpg")},
		Views:    map[string]piece.Value[string]{"IMG_2.jpg": v("detail")},
		Captions: map[string]piece.Value[string]{"img_1.JPG": v("A caption"), "gone.jpg": v("?")},
		LeaveOut: []piece.Value[string]{v("blurred.jpg")},
		Blends:   []piece.Blend{{Frames: []piece.Value[string]{v("light-1.jpg")}}},
	}
	p.Top.Outline.Photo = v("plan.jpg")
	all := sources("IMG_1.jpg", "IMG_2.jpg", "IMG_3.dng", "IMG_3.jpg", "blurred.jpg", "end.jpg", "light-1.jpg", "packed.jpg", "photos/above.jpg", "plan.jpg")
	got, findings := Arrange(p, all)
	var lines []string
	n := 0
	for _, s := range got {
		line := s.Rel + " " + string(s.Role)
		if s.Role == Publish {
			n++
			line = publishedName(n, s)
		}
		lines = append(lines, line)
	}
	want := []string{
		"01-end", "02-detail", "03-img-1", "IMG_3.dng raw", "04-img-3", "blurred.jpg left out", "light-1.jpg frame", "packed.jpg packed", "05-above", "plan.jpg plan",
	}
	if !slices.Equal(lines, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(lines, "\n"), strings.Join(want, "\n"))
	}
	if got[2].Caption != "A caption" {
		t.Errorf("a name in another case was not found: %+v", got[2])
	}
	if len(findings) != 1 || findings[0].Rank != piece.Fault || !strings.Contains(findings[0].Message, "gone.jpg") {
		t.Errorf("findings: %+v", findings)
	}
}

func TestPlanPhotoIsPublishedWhenOrdered(t *testing.T) {
	p := &piece.Piece{}
	p.Top.Outline.Photo = piece.Of("plan.jpg")
	p.Photos.Order = []piece.Value[string]{piece.Of("plan.jpg")}
	if got, _ := Arrange(p, sources("plan.jpg")); got[0].Role != Publish {
		t.Errorf("role %q", got[0].Role)
	}
}

func TestSlug(t *testing.T) {
	for in, want := range map[string]string{
		"three-quarter": "three-quarter", "maker's mark": "makers-mark", "IMG_2041": "img-2041", "  Größe (2) ": "groesse-2", "Gro\u0308sse": "groesse", "détail": "detail", "Åse": "ase",
		"日本": "", "--": "", strings.Repeat("a", 300): strings.Repeat("a", 48),
	} {
		if got := Slug(in); got != want {
			t.Errorf("Slug(%q) = %q, want %q", in, got, want)
		}
	}
	if got := publishedName(7, Source{Name: "日本.jpg"}); got != "07-photo" {
		t.Errorf("got %q", got)
	}
}

func TestMissingViews(t *testing.T) {
	got := missingViews("dining table", []string{"three-quarter", "seam", "in room", ""})
	want := []string{"end", "above", "underside", "edge", "maker's mark"}
	if !slices.Equal(got, want) {
		t.Errorf("missing %q, want %q", got, want)
	}
	if got := missingViews("other", nil); got != nil {
		t.Errorf("a piece of no known kind misses %q", got)
	}
	for _, kind := range piece.Kinds {
		for _, view := range missingViews(kind, nil) {
			if !slices.Contains(piece.Views, view) {
				t.Errorf("%s: %q is no view of the spec", kind, view)
			}
		}
	}
}

// Photos in a folder where none are looked for are told of; those of the making, and of a
// piece of its own, are not.
func TestDeeperPhotosAreTold(t *testing.T) {
	dir := folder(t, map[string]string{
		"piece.yaml": "", "a.jpg": jpegHead, "photos/b.jpg": jpegHead, "photos/sub/c.jpg": jpegHead, "Photos2/d.JPG": jpegHead, "process/e.jpg": jpegHead,
		"Papers/f.jpg": jpegHead, ".hidden/g.jpg": jpegHead, "notes/h.txt": "words", "OY-9/piece.yaml": "", "OY-9/i.jpg": jpegHead,
	})
	var told []string
	for _, f := range Deeper(dir) {
		told = append(told, f.File)
	}
	if want := []string{"Photos2", "photos/sub"}; !slices.Equal(told, want) {
		t.Errorf("told of %v, want %v", told, want)
	}
}
