package page

import (
	"fmt"
	"testing"

	"slabfolio/listing/report"
)

// Every width of a photo's own shape is offered once in each format, the narrowest
// first, and a middling JPEG is what stands there for whoever chooses nothing. Only
// where a JPEG is wider than every WebP do screens of many pixels get the JPEGs.
func TestWhichFilesOfAPhotoAreOffered(t *testing.T) {
	files := func(names ...string) (all []report.Rendition) {
		for _, n := range names {
			var r report.Rendition
			if _, err := fmt.Sscanf(n, "%dx%d.%s", &r.Width, &r.Height, &r.Format); err != nil {
				t.Fatal(err)
			}
			r.File = n
			all = append(all, r)
		}
		return all
	}
	photo := report.Photo{File: "3000x2000.jpeg", Width: 3000, Height: 2000}
	for _, c := range []struct {
		files           []report.Rendition
		src, jpeg, webp string
		dense           bool
	}{
		{files("3000x2000.jpeg", "1500x1000.jpeg", "600x400.jpeg", "800x800.jpeg"), "1500x1000.jpeg", "600x400.jpeg 600w, 1500x1000.jpeg 1500w, 3000x2000.jpeg 3000w", "", false},
		{files("3000x2000.jpeg", "1500x1000.jpeg", "1500x1000.webp"), "1500x1000.jpeg", "1500x1000.jpeg 1500w, 3000x2000.jpeg 3000w", "1500x1000.webp 1500w", true},
		{files("3000x2000.jpeg", "3000x2000.webp", "600x400.webp"), "3000x2000.jpeg", "3000x2000.jpeg 3000w", "600x400.webp 600w, 3000x2000.webp 3000w", false},
		{files("3000x2000.jpeg", "999x666.jpeg", "999x666.jpeg"), "3000x2000.jpeg", "999x666.jpeg 999w, 3000x2000.jpeg 3000w", "", false},
	} {
		photo.Renditions = c.files
		if p := pictureOf(&photo); p.Src != c.src || p.JPEG != c.jpeg || p.WebP != c.webp || p.Dense != c.dense || p.ratio != 1.5 {
			t.Errorf("%+v", p)
		}
	}
}

// Photos stand in pairs, in their order; a panorama stands alone.
func TestRowsOfPhotos(t *testing.T) {
	of := func(ratios ...float64) (pics []picture) {
		for i, r := range ratios {
			pics = append(pics, picture{Src: fmt.Sprint(i), ratio: r, own: 1000})
		}
		return pics
	}
	for _, c := range []struct {
		ratios []float64
		want   []int
	}{
		{nil, nil}, {[]float64{1.5}, []int{1}}, {[]float64{1.5, 0.7, 1}, []int{2, 1}}, {[]float64{1.5, 3, 1, 1.5}, []int{1, 1, 2}}, {[]float64{3, 3, 3}, []int{1, 1, 1}},
	} {
		n := 0
		rows := rowsOf(of(c.ratios...))
		if len(rows) != len(c.want) {
			t.Fatalf("%v: %d rows, want %v", c.ratios, len(rows), c.want)
		}
		for i, r := range rows {
			if len(r.Pictures) != c.want[i] {
				t.Errorf("%v: row %d holds %d", c.ratios, i+1, len(r.Pictures))
			}
			for _, p := range r.Pictures {
				if p.Src != fmt.Sprint(n) {
					t.Errorf("%v: photo %s stands where %d belongs", c.ratios, p.Src, n)
				}
				n++
			}
		}
	}
}
