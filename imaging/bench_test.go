package imaging

import (
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"slabfolio/imaging/rendition"
)

// BenchmarkSet prepares a set of eight photos of 24 megapixels, two at a time,
// to the default renditions, in memory. The photo is drawn; with BENCH_PHOTOS
// the JPEGs of that folder are taken instead, so that another program can be
// timed on the same files. BENCH_SPILL names a folder for the masters.
func BenchmarkSet(b *testing.B) {
	photos := benchPhotos(b)
	for _, pure := range []bool{false, true} {
		b.Run(fmt.Sprintf("photos=%d/pure=%v", len(photos), pure), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				prepareSet(b, photos, &Options{Pure: pure, MasterDir: os.Getenv("BENCH_SPILL")})
			}
			b.ReportMetric(b.Elapsed().Seconds()/float64(b.N)/float64(len(photos)), "s/photo")
		})
	}
}

func benchPhotos(b *testing.B) [][]byte {
	var photos [][]byte
	if dir := os.Getenv("BENCH_PHOTOS"); dir != "" {
		names, err := filepath.Glob(filepath.Join(dir, "*.jpg"))
		if err != nil || len(names) == 0 {
			b.Fatal("no JPEGs in ", dir)
		}
		for _, n := range names {
			data, err := os.ReadFile(n)
			if err != nil {
				b.Fatal(err)
			}
			photos = append(photos, data)
		}
		return photos
	}
	one := table(b, 6000, 4000, 0)
	for range 8 {
		photos = append(photos, one)
	}
	return photos
}

// prepareSet opens, develops and renders the photos.
func prepareSet(tb testing.TB, data [][]byte, opts *Options) {
	photos := make([]*Photo, len(data))
	twoAtATime(len(data), func(i int) {
		var err error
		if photos[i], err = Open(Request{Data: data[i]}, opts); err != nil {
			tb.Error(err)
		}
	})
	Develop(photos)
	twoAtATime(len(data), func(i int) {
		if photos[i] == nil {
			return
		}
		if _, err := photos[i].Render(rendition.DefaultSizes(), rendition.Meta{Creator: "Ostrel Yard"}); err != nil {
			tb.Error(err)
		}
		photos[i].Close()
	})
}

func twoAtATime(n int, do func(int)) {
	next := make(chan int)
	var wg sync.WaitGroup
	for range 2 {
		wg.Go(func() {
			for i := range next {
				do(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wg.Wait()
}
