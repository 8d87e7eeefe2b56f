package imaging

import (
	"os"
	"path/filepath"
	"sync"
	"testing"

	"slabfolio/imaging/rendition"
)

// BenchmarkSet prepares a set of photos, two at a time, to the six default
// renditions, in memory. It reads the JPEGs of the folder that BENCH_PHOTOS
// names, so that another program can be timed on the same files.
func BenchmarkSet(b *testing.B) {
	dir := os.Getenv("BENCH_PHOTOS")
	if dir == "" {
		b.Skip("BENCH_PHOTOS names no folder of JPEGs")
	}
	names, err := filepath.Glob(filepath.Join(dir, "*.jpg"))
	if err != nil || len(names) == 0 {
		b.Fatal("no JPEGs in ", dir)
	}
	b.ReportAllocs()
	for b.Loop() {
		prepareSet(b, names, os.Getenv("BENCH_SPILL"))
	}
	b.ReportMetric(b.Elapsed().Seconds()/float64(b.N)/float64(len(names)), "s/photo")
}

// prepareSet opens, develops and renders the photos of the files.
func prepareSet(tb testing.TB, names []string, spill string) {
	photos := make([]*Photo, len(names))
	twoAtATime(len(names), func(i int) {
		data, err := os.ReadFile(names[i])
		if err != nil {
			tb.Error(err)
			return
		}
		if photos[i], err = Open(Request{Name: names[i], Data: data}, &Options{Spill: spill, Pure: os.Getenv("BENCH_PURE") != ""}); err != nil {
			tb.Error(err)
		}
	})
	Develop(photos)
	twoAtATime(len(names), func(i int) {
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
