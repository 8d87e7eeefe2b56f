// Subjecttrain draws the pictures that the net of package subject is trained
// on: random pieces of furniture, alone on paper or in whole rooms, each with
// its mask. Usage:
//
//	subjecttrain OUT SECONDS WORKERS CUTSHARE SEED [PICTURES…]
//
// It draws until the time is up and appends to OUT/rSEED-K.bin, one file a
// worker: for each picture 16 bytes (width and height, 16 bits each, little
// endian; 0 for a piece alone or 1 for a room; 0; the kind's name), the sRGB
// codes, 3 bytes a pixel, and the mask, a byte a pixel. PICTURES are folders of
// photos for walls and things; those of the tests, furniture/ and subject/, are
// left out of it.
package main

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"image"
	"image/draw"
	_ "image/jpeg"
	_ "image/png"
	"io/fs"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"slabfolio/imaging/internal/scene"
)

func main() {
	if len(os.Args) < 6 {
		fmt.Fprintln(os.Stderr, "usage: subjecttrain OUT SECONDS WORKERS CUTSHARE SEED [PICTURES…]")
		os.Exit(2)
	}
	secs, _ := strconv.ParseFloat(os.Args[2], 64)
	workers, _ := strconv.Atoi(os.Args[3])
	share, _ := strconv.ParseFloat(os.Args[4], 64)
	seed, _ := strconv.ParseUint(os.Args[5], 10, 64)
	tex := textures(os.Args[6:])
	end := time.Now().Add(time.Duration(secs * float64(time.Second)))
	var wg sync.WaitGroup
	var drawn atomic.Int64
	for k := range workers {
		wg.Go(func() {
			r := scene.Random{Rand: rand.New(rand.NewPCG(seed, uint64(k))), Tex: tex}
			n, err := work(filepath.Join(os.Args[1], fmt.Sprintf("r%d-%d.bin", seed, k)), r, share, end)
			if err != nil {
				fmt.Fprintln(os.Stderr, err)
			}
			drawn.Add(int64(n))
		})
	}
	wg.Wait()
	fmt.Println(len(tex), "textures,", drawn.Load(), "pictures")
}

// textures reads the pictures below folders, halved until they are small.
func textures(folders []string) (tex []*image.RGBA) {
	for _, d := range folders {
		filepath.WalkDir(d, func(p string, e fs.DirEntry, err error) error {
			if err != nil || e.IsDir() || strings.Contains(p, "broken") || strings.Contains(p, "/subject/") || strings.Contains(p, "/furniture/") || strings.Contains(p, "_mask") {
				return nil
			}
			f, err := os.Open(p)
			if err != nil {
				return nil
			}
			defer f.Close()
			m, _, err := image.Decode(f)
			if err == nil && m.Bounds().Dx() >= 100 && m.Bounds().Dy() >= 100 {
				tex = append(tex, shrunk(m))
			}
			return nil
		})
	}
	return tex
}

func shrunk(m image.Image) *image.RGBA {
	b := m.Bounds()
	k := max(1, b.Dx()/600)
	g := image.NewRGBA(image.Rect(0, 0, b.Dx()/k, b.Dy()/k))
	if k == 1 {
		draw.Draw(g, g.Bounds(), m, b.Min, draw.Src)
		return g
	}
	for y := range b.Dy() / k {
		for x := range b.Dx() / k {
			g.Set(x, y, m.At(b.Min.X+k*x, b.Min.Y+k*y))
		}
	}
	return g
}

// work draws until end and says how many pictures came of it.
func work(path string, r scene.Random, share float64, end time.Time) (n int, err error) {
	f, err := os.Create(path)
	if err != nil {
		return 0, err
	}
	defer f.Close()
	out := bufio.NewWriterSize(f, 1<<20)
	for time.Now().Before(end) {
		if one(r, share, out) {
			n++
		}
		if err := out.Flush(); err != nil {
			return n, err
		}
	}
	return n, nil
}

// one draws a picture; false where a piece is hardly to be seen in it.
func one(r scene.Random, share float64, out *bufio.Writer) bool {
	cut := r.Float64() < share
	w, h := 320, 320
	if !cut {
		a := min(max(math.Exp(r.NormFloat64()*0.3+0.12), 0.56), 1.9)
		if a > 1 {
			w, h = 320, int(320/a)
		} else {
			w, h = int(320*a), 320
		}
	}
	s, kind := r.Shot(cut, w, h)
	img, truth := scene.Render(s, w, h)
	n := 0
	for _, v := range truth.Mask {
		if v > 127 {
			n++
		}
	}
	if n < w*h/50 && kind != scene.None { // thin legs alone, or hidden behind another
		return false
	}
	head := make([]byte, 16)
	binary.LittleEndian.PutUint16(head, uint16(w))
	binary.LittleEndian.PutUint16(head[2:], uint16(h))
	if !cut {
		head[4] = 1
	}
	copy(head[6:], kind)
	out.Write(head)
	out.Write(scene.Codes(img))
	out.Write(truth.Mask)
	return true
}
