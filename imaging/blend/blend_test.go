package blend

import (
	"bytes"
	"errors"
	"image/jpeg"
	"math"
	"runtime"
	"slices"
	"sync"
	"testing"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/internal/scene"
	"slabfolio/imaging/pixel"
)

const lights = 8

// A set is drawn frames of a piece on black, one small light each, without noise
// and with it.
type set struct{ clean, noisy []*pixel.Image }

// drawn is rendered once, twice as large as it is used, so that a frame can be
// moved by half pixels.
var drawn = sync.OnceValue(func() (s set) {
	for i := range lights {
		shot := scene.TestShot(scene.TestOptions{Light: i + 1, Seed: uint64(i)}, 2*margined(360), 2*margined(270))
		sensor := shot.Scene.Sensor
		shot.Scene.Sensor = scene.Sensor{Blur: 1.2}
		clean, _ := scene.Render(shot.Scene, shot.W, shot.H)
		s.clean = append(s.clean, clean)
		s.noisy = append(s.noisy, noisy(clean, 2*math.Sqrt(sensor.Shot), 2*sensor.Read, uint64(i)))
	}
	return s
})

const rim = 12

func margined(n int) int { return n + 2*rim }

// noisy adds the noise of a sensor: a part that grows with the root of the light
// and a part that does not.
func noisy(m *pixel.Image, shot, read float64, seed uint64) *pixel.Image {
	out := pixel.New(m.W, m.H)
	state := seed*0x9e3779b97f4a7c15 + 1
	for i, v := range m.Pix {
		sum := 0.0
		for range 4 {
			state ^= state << 13
			state ^= state >> 7
			state ^= state << 17
			sum += float64(state>>11)/(1<<53) - 0.5
		}
		l := float64(v) / 65535
		l += sum * math.Sqrt(3) * math.Hypot(shot*math.Sqrt(l), read)
		out.Pix[i] = uint16(min(max(l, 0), 1)*65535 + 0.5)
	}
	return out
}

// cut halves a frame and takes its middle, moved by (dx, dy) half pixels.
func cut(m *pixel.Image, dx, dy int) *pixel.Image {
	w, h := m.W/2-2*rim, m.H/2-2*rim
	out := pixel.New(w, h)
	for y := range h {
		row := out.Row(y)
		for x := range w {
			for c := range 3 {
				at := func(i, k int) int {
					return int(m.Row(2*(y+rim) + dy + k)[3*(2*(x+rim)+dx+i)+c])
				}
				row[3*x+c] = uint16((at(0, 0) + at(1, 0) + at(0, 1) + at(1, 1) + 2) / 4)
			}
		}
	}
	return out
}

// throughJPEG is what a camera's JPEG keeps of a frame.
func throughJPEG(t testing.TB, m *pixel.Image) *pixel.Image {
	t.Helper()
	img, err := jpeg.Decode(bytes.NewReader(scene.EncodeJPEG(m, scene.Exif{}, 92)))
	if err != nil {
		t.Fatal(err)
	}
	return phototest.Linear(img)
}

func frames(ms []*pixel.Image) []Frame {
	var out []Frame
	for _, m := range ms {
		out = append(out, Frame{Open: func() (pixel.Rows, error) { return m.Rows(), nil }})
	}
	return out
}

// psnr compares sRGB-coded values, peak 255, where use says so.
func psnr(a *pixel.Image, want func(i int) float64, use func(i int) bool) float64 {
	sum, n := 0.0, 0
	for i, v := range a.Pix {
		if use != nil && !use(i) {
			continue
		}
		d := 255 * (colour.Encode(float64(v)/65535) - colour.Encode(min(max(want(i), 0), 1)))
		sum, n = sum+d*d, n+1
	}
	return 10 * math.Log10(255*255/(sum/float64(n)))
}

// want is the truth of a way of blending, linear, from the frames without noise.
func want(clean []*pixel.Image, how How, gain float64) func(i int) float64 {
	return func(i int) float64 {
		most, sum := 0.0, 0.0
		for _, m := range clean {
			v := float64(m.Pix[i]) / 65535
			most, sum = max(most, v), sum+v
		}
		if how == Lightest {
			return most
		}
		return sum * gain
	}
}

// exposures are five of the scene with all its lights on, from two stops under to
// two over, as a bracket is taken.
func exposures() (s set) {
	all := drawn().clean
	base := pixel.New(all[0].W, all[0].H)
	for k := range base.Pix {
		sum := 0
		for _, m := range all {
			sum += int(m.Pix[k])
		}
		base.Pix[k] = uint16(min(sum/2, 65535))
	}
	sensor := scene.TestShot(scene.TestOptions{Light: 1}, 64, 48).Scene.Sensor
	for i, ev := range []float64{-2, -1, 0, 1, 2} {
		m, _ := phototest.Push(base, ev)
		s.clean, s.noisy = append(s.clean, m), append(s.noisy, noisy(m, 2*math.Sqrt(sensor.Shot), 2*sensor.Read, uint64(i)))
	}
	return s
}

// kept is what is left of a picture where a result was cut at its rim.
func (r *Result) kept(m *pixel.Image) *pixel.Image {
	out := pixel.New(r.Picture.W, r.Picture.H)
	for y := range out.H {
		copy(out.Row(y), m.Row(y + r.CutTop)[3*r.CutLeft:])
	}
	return out
}

// evened are frames brought to the geometric mean of their light, which is what
// even means, worked out here from the whole frames.
func evened(clean []*pixel.Image) (out []*pixel.Image) {
	light := make([]float64, len(clean))
	logs := 0.0
	for i, m := range clean {
		for k := 0; k < len(m.Pix); k += 3 {
			light[i] += float64(luminance(m.Pix[k], m.Pix[k+1], m.Pix[k+2]))
		}
		logs += math.Log(light[i]) / float64(len(clean))
	}
	for i, m := range clean {
		c := pixel.New(m.W, m.H)
		for k, v := range m.Pix {
			c.Pix[k] = uint16(min(float64(v)*min(math.Exp(logs)/light[i], 8)+0.5, 65535))
		}
		out = append(out, c)
	}
	return out
}

func run(t *testing.T, req Request) *Result {
	t.Helper()
	r, err := Blend(req)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Truth: the scene's own lights without noise. The lightest is judged against the
// maximum of the clean frames, the sum against their sum (the picture with all
// lights on), where neither is rolled off.
func TestQualityLights(t *testing.T) {
	d := drawn()
	var clean []*pixel.Image
	for _, m := range d.clean {
		clean = append(clean, cut(m, 0, 0))
	}
	moves := [][2]int{{0, 0}, {2, 0}, {-2, 1}, {0, 2}, {1, -1}, {2, 2}, {-1, -2}, {0, -1}} // half pixels
	for _, c := range []struct {
		how   How
		jpeg  bool
		move  int // times the moves
		least float64
	}{
		{Lightest, false, 0, 38}, {Lightest, true, 0, 36}, {Lightest, false, 1, 36}, {Lightest, false, 5, 36}, {Lightest, true, 5, 34},
		{Lightest, true, 1, 34},
		{Added, false, 0, 38}, {Added, true, 0, 34}, {Added, false, 1, 36}, {Added, false, 5, 36}, {Added, true, 1, 34}, {Added, true, 5, 34},
		{Even, false, 0, 38}, {Even, false, 1, 36}, {Even, false, 5, 36}, {Even, true, 0, 34}, {Even, true, 1, 34}, {Even, true, 5, 34},
		{Bracket, false, 0, 36}, {Bracket, false, 1, 36}, {Bracket, false, 5, 36}, {Bracket, true, 0, 36}, {Bracket, true, 1, 36}, {Bracket, true, 5, 36},
	} {
		d, clean := d, clean
		if c.how == Bracket {
			d = exposures()
			clean = nil
		}
		var ms []*pixel.Image
		for i, m := range d.noisy {
			f := cut(m, c.move*moves[i][0], c.move*moves[i][1])
			if c.jpeg {
				f = throughJPEG(t, f)
			}
			ms = append(ms, f)
		}
		fs := frames(ms)
		r := run(t, Request{Frames: fs, How: c.how})
		// The reference may be any frame; the truth is moved as it was.
		truth := clean
		for _, m := range d.clean[len(clean):] {
			truth = append(truth, cut(m, 0, 0))
		}
		ref := slices.IndexFunc(r.Frames, func(f Report) bool { return f.Like == 1 })
		if c.move > 0 {
			truth = nil
			for _, m := range d.clean {
				truth = append(truth, cut(m, c.move*moves[ref][0], c.move*moves[ref][1]))
			}
		}
		whole := truth
		truth = nil
		for _, m := range whole {
			truth = append(truth, r.kept(m))
		}
		wanted := want(truth, c.how, r.Gain)
		use := func(i int) bool { return c.how != Added || wanted(i) < shoulder }
		switch c.how {
		case Even:
			truth = nil
			for _, m := range evened(whole) {
				truth = append(truth, r.kept(m))
			}
			wanted = want(truth, Added, r.Gain)
			use = func(i int) bool { return wanted(i) < shoulder }
		case Bracket: // no picture is true: what noise, JPEG and moving change is judged
			still := r.kept(run(t, Request{Frames: frames(whole), How: Bracket}).Picture)
			wanted = func(i int) float64 { return float64(still.Pix[i]) / 65535 }
		}
		got := psnr(r.Picture, wanted, use)
		worst := 0.0
		for i, f := range r.Frames {
			if i == ref {
				continue
			}
			ex := float64(c.move*(moves[ref][0]-moves[i][0])) / 2
			ey := float64(c.move*(moves[ref][1]-moves[i][1])) / 2
			worst = max(worst, math.Hypot(f.ShiftX-ex, f.ShiftY-ey))
			if f.LeftOut {
				t.Errorf("%s: frame %d is left out, like %.2f", c.how, i, f.Like)
			}
		}
		t.Logf("%-8s jpeg %-5v moved up to %.1f px: %.1f dB; shift off by %.2f px at most; gain %.2f", c.how, c.jpeg, 1.4*float64(c.move), got, worst, r.Gain)
		if got < c.least {
			t.Errorf("%s, jpeg %v, move %d: %.1f dB, want %.0f", c.how, c.jpeg, c.move, got, c.least)
		}
	}
	r := run(t, Request{Frames: frames(clean), How: Lightest})
	t.Logf("lightest against the picture with all lights on, scaled: %.1f dB", psnr(r.Picture, want(clean, Added, 0.5), nil))
}

// In 3 of 12 frames (the 8 lights, and 4 pairs of them at half strength) a lamp
// stands in the view. What of it remains is measured
// where it stood, against the lightest of the frames without it.
func TestLampIsMasked(t *testing.T) {
	d := drawn()
	var clean, ms []*pixel.Image
	at := map[int][2]float64{1: {60, 60}, 3: {320, 50}, 6: {200, 40}}
	for i, m := range d.noisy {
		c := cut(m, 0, 0)
		clean = append(clean, cut(d.clean[i], 0, 0))
		if p, ok := at[i]; ok {
			c = withLamp(c, p[0], p[1], 7)
		}
		ms = append(ms, c)
	}
	for i := range 4 {
		a, b := cut(d.noisy[2*i], 0, 0), cut(d.noisy[2*i+1], 0, 0)
		ca, cb := cut(d.clean[2*i], 0, 0), cut(d.clean[2*i+1], 0, 0)
		for k := range a.Pix {
			a.Pix[k], ca.Pix[k] = a.Pix[k]/2+b.Pix[k]/2, ca.Pix[k]/2+cb.Pix[k]/2
		}
		ms, clean = append(ms, a), append(clean, ca)
	}
	r := run(t, Request{Frames: frames(ms)})
	for i, f := range r.Frames {
		if _, ok := at[i]; ok != f.Lamp {
			t.Errorf("frame %d: lamp %v", i, f.Lamp)
		}
	}
	for n, m := range clean {
		clean[n] = r.kept(m)
	}
	truth := want(clean, Lightest, 1)
	for i, p := range at {
		most, mean, n := 0.0, 0.0, 0.0
		for y := int(p[1]) - 30 - r.CutTop; y < int(p[1])+30-r.CutTop; y++ {
			for x := int(p[0]) - 30 - r.CutLeft; x < int(p[0])+30-r.CutLeft; x++ {
				k := 3 * (y*r.Picture.W + x)
				over := 255 * (colour.Encode(float64(r.Picture.Pix[k])/65535) - colour.Encode(truth(k)))
				most, mean, n = max(most, over), mean+max(over, 0), n+1
			}
		}
		t.Logf("lamp in frame %d: at most %.0f of 255 too bright, %.1f on average (unmasked: 255)", i+1, most, mean/n)
		if most > 60 || mean/n > 12 {
			t.Errorf("lamp in frame %d: up to %.0f of 255 remain, %.1f on average", i+1, most, mean/n)
		}
	}
}

// withLamp paints a blown-out disc with its glow.
func withLamp(m *pixel.Image, cx, cy, r float64) *pixel.Image {
	out := &pixel.Image{W: m.W, H: m.H, Pix: slices.Clone(m.Pix)}
	for y := range m.H {
		for x := range m.W {
			d := math.Hypot(float64(x)-cx, float64(y)-cy) / r
			add := 2.0
			if d > 1 {
				add = 0.5 * math.Pow(d, -3)
			}
			for c := range 3 {
				k := 3*(y*m.W+x) + c
				out.Pix[k] = uint16(min(float64(out.Pix[k])/65535+add, 1) * 65535)
			}
		}
	}
	return out
}

func TestWhatDoesNotBelongIsLeftOut(t *testing.T) {
	d := drawn()
	var ms []*pixel.Image
	for _, m := range d.noisy {
		ms = append(ms, cut(m, 0, 0))
	}
	other, _ := scene.Render(scene.TestShot(scene.TestOptions{Above: true, Round: true}, ms[0].W, ms[0].H).Scene, ms[0].W, ms[0].H)
	ms[2] = other
	r := run(t, Request{Frames: frames(ms)})
	for i, f := range r.Frames {
		t.Logf("frame %d: like %.2f", i+1, f.Like)
		if f.LeftOut != (i == 2) {
			t.Errorf("frame %d: left out %v, like %.2f", i+1, f.LeftOut, f.Like)
		}
	}
}

func TestHotPixelsNeverWin(t *testing.T) {
	d := drawn()
	var ms, clean []*pixel.Image
	for i, m := range d.noisy {
		ms, clean = append(ms, cut(m, 0, 0)), append(clean, cut(d.clean[i], 0, 0))
	}
	var spots []int
	for k := range 60 { // red, green or blue ones, at places that are dark everywhere
		x, y := 20+7*k, 20+3*(k%9)
		i := 3*(y*ms[0].W+x) + k%3
		ms[k%lights].Pix[i] = 65535
		spots = append(spots, i)
	}
	for k := range 12 { // and at the outermost rows and columns
		w, h := ms[0].W, ms[0].H
		i := [4]int{3 * (20 + 25*k), 3 * ((h-1)*w + 20 + 25*k), 3 * (15 + 20*k) * w, 3 * ((15+20*k)*w + w - 1)}[k%4] + k%3
		ms[0].Pix[i] = 65535
		spots = append(spots, i)
	}
	r := run(t, Request{Frames: frames(ms)})
	truth, whole := want(clean, Lightest, 1), ms[0].W
	for n, i := range spots {
		spots[n] = -1 // cut off with the rim
		if x, y := i/3%whole-r.CutLeft, i/3/whole-r.CutTop; x >= 0 && y >= 0 && x < r.Picture.W && y < r.Picture.H {
			spots[n] = 3*(y*r.Picture.W+x) + i%3
		}
	}
	for n, m := range clean {
		clean[n] = r.kept(m)
	}
	for _, i := range spots {
		if i < 0 {
			continue
		}
		if over := 255 * (colour.Encode(float64(r.Picture.Pix[i])/65535) - colour.Encode(truth(i))); over > 12 {
			t.Errorf("a hot pixel at %d is %.0f of 255 too bright", i/3, over)
		}
	}
}

func TestEvenLetsNoLightDominate(t *testing.T) {
	d := drawn()
	var ms []*pixel.Image
	for i, m := range d.clean {
		c := cut(m, 0, 0)
		if i == 0 { // four times as strong as the others
			for k, v := range c.Pix {
				c.Pix[k] = uint16(min(4*int(v), 65535))
			}
		}
		ms = append(ms, c)
	}
	even, added := run(t, Request{Frames: frames(ms), How: Even}), run(t, Request{Frames: frames(ms), How: Added})
	t.Logf("share of the strong light: added %.2f, even %.2f", added.Frames[0].Share, even.Frames[0].Share)
	if even.Frames[0].Share > 1.35/lights || added.Frames[0].Share < 1.5/lights {
		t.Errorf("share of the strong light: added %.2f, even %.2f", added.Frames[0].Share, even.Frames[0].Share)
	}
}

// The ambient light is in every frame; the sum must hold it once.
func TestAddedAboveTheAmbient(t *testing.T) {
	d := drawn()
	ambient := cut(d.clean[0], 0, 0)
	for k, v := range ambient.Pix {
		ambient.Pix[k] = v/16 + 300
	}
	ms := []*pixel.Image{ambient}
	for _, m := range d.clean[1:4] {
		c := cut(m, 0, 0)
		for k, v := range c.Pix {
			c.Pix[k] = uint16(min(int(v)/3+int(ambient.Pix[k]), 65535))
		}
		ms = append(ms, c)
	}
	r := run(t, Request{Frames: frames(ms), How: Added})
	if !r.Frames[0].Ambient {
		t.Fatalf("the ambient frame was not seen: %v", r.Notes)
	}
	truth := func(i int) float64 {
		v := float64(ambient.Pix[i])
		for _, m := range ms[1:] {
			v += float64(m.Pix[i]) - float64(ambient.Pix[i])
		}
		return r.Gain * v / 65535
	}
	if got := psnr(r.Picture, truth, func(i int) bool { return truth(i) < 0.7 }); got < 45 {
		t.Errorf("%.1f dB against ambient + lights", got)
	}
}

// Exposure fusion of equal frames is the frame (Mertens et al. 2007: the weights
// add up to 1 at every pixel, and a Laplacian pyramid collapses to its picture).
func TestBracketOfEqualFramesIsTheFrame(t *testing.T) {
	m := cut(drawn().clean[2], 0, 0)
	r := run(t, Request{Frames: frames([]*pixel.Image{m, m, m}), How: Bracket})
	if got := psnr(r.Picture, func(i int) float64 { return float64(m.Pix[i]) / 65535 }, nil); got < 50 {
		t.Errorf("%.1f dB", got)
	}
}

// A bracket holds detail where one exposure has none: the share of pixels that
// are nearly black or white falls below that of every frame.
func TestBracketHoldsBothEnds(t *testing.T) {
	shot := scene.TestShot(scene.TestOptions{GreyCard: true}, 480, 360)
	base, _ := scene.Render(shot.Scene, 480, 360)
	var ms []*pixel.Image
	for _, ev := range []float64{-3, 0, 3} {
		m, _ := phototest.Push(base, ev)
		ms = append(ms, m)
	}
	r := run(t, Request{Frames: frames(ms), How: Bracket})
	extreme := func(m *pixel.Image) float64 {
		n := 0
		for _, v := range m.Pix {
			if c := colour.Encode(float64(v) / 65535); c < 0.04 || c > 0.985 {
				n++
			}
		}
		return float64(n) / float64(len(m.Pix))
	}
	fused := extreme(r.Picture)
	for i, m := range ms {
		t.Logf("frame %d: %.3f at the ends, fused %.3f", i, extreme(m), fused)
		if fused > extreme(m)+0.01 {
			t.Errorf("frame %d has %.3f of its pixels at the ends, the fused picture %.3f", i, extreme(m), fused)
		}
	}
}

// Only frames that differ in nothing but exposure tell what a place is beside the others:
// a lamp that moved tells nothing, and a middle grey is looked for as in the paper.
func TestBracketOfOtherLightsIsAsPublished(t *testing.T) {
	table := func(ms []*pixel.Image) []*exposedTable {
		j := &job{req: Request{Frames: frames(ms), How: Bracket}, moves: map[int]move{}, r: &Result{Frames: make([]Report, len(ms))}}
		if err := j.openAll(); err != nil {
			t.Fatal(err)
		}
		j.choose()
		return j.exposedTables(j.used())
	}
	published := func(e *exposedTable) bool { // highest where light is coded as 0.5, 0.214 of it
		best := 0
		for k, v := range e {
			if v > e[best] {
				best = k
			}
		}
		return math.Abs(float64(best)/4096-0.214) < 0.001
	}
	d := drawn()
	for i, e := range table([]*pixel.Image{cut(d.clean[0], 0, 0), cut(d.clean[4], 0, 0)}) {
		if !published(e) {
			t.Errorf("light %d is judged as an exposure", i)
		}
	}
	var ms []*pixel.Image
	for _, m := range exposures().clean {
		ms = append(ms, cut(m, 0, 0))
	}
	if published(table(ms)[0]) {
		t.Error("an exposure is judged as a light")
	}
}

func TestSameBytesWhateverTheCores(t *testing.T) {
	d := drawn()
	var ms []*pixel.Image
	for i, m := range d.noisy[:4] {
		ms = append(ms, cut(m, i, -i))
	}
	for _, how := range []How{Lightest, Added, Even, Bracket} {
		var first []uint16
		for _, cores := range []int{1, 4} {
			before := runtime.GOMAXPROCS(cores)
			r := run(t, Request{Frames: frames(ms), How: how})
			runtime.GOMAXPROCS(before)
			if first == nil {
				first = r.Picture.Pix
			} else if !slices.Equal(first, r.Picture.Pix) {
				t.Errorf("%s: other pixels with %d cores", how, cores)
			}
		}
	}
}

func TestStrengthAndMask(t *testing.T) {
	a, b := cut(drawn().clean[0], 0, 0), cut(drawn().clean[1], 0, 0)
	fs := frames([]*pixel.Image{a, b})
	fs[1].Strength = 0.5
	mask := &pixel.Mask{W: 2, H: 1, Pix: []uint8{0, 255}}
	fs[0].Mask = mask
	r := run(t, Request{Frames: fs, How: Added})
	a, b = r.kept(a), r.kept(b)
	left, right := brightest(a, 5, a.W/4-2), brightest(a, a.W*3/4+2, a.W-5)
	sum := func(k int, first float64) float64 {
		v := r.Gain * (first*float64(a.Pix[k]) + 0.5*float64(b.Pix[k])) / 65535
		if v > shoulder {
			v = shoulder + (1-shoulder)*(1-math.Exp(-(v-shoulder)/(1-shoulder)))
		}
		return 65535 * v
	}
	// Without noise, and green: another channel may be the brightest and bend more.
	if got := float64(r.Picture.Pix[left]); math.Abs(got-sum(left, 0)) > 0.05*sum(left, 0) {
		t.Errorf("where the first frame is masked: %.0f, want %.0f", got, sum(left, 0))
	}
	if got := float64(r.Picture.Pix[right]); math.Abs(got-sum(right, 1)) > 0.05*sum(right, 1) {
		t.Errorf("where both count: %.0f, want %.0f", got, sum(right, 1))
	}
}

// brightest is the brightest green between two columns.
func brightest(m *pixel.Image, x0, x1 int) int {
	best := 0
	for y := range m.H {
		for x := x0; x < x1; x++ {
			if k := 3*(y*m.W+x) + 1; best == 0 || m.Pix[k] > m.Pix[best] {
				best = k
			}
		}
	}
	return best
}

func TestRefusals(t *testing.T) {
	one, two := pixel.New(40, 30), pixel.New(30, 40)
	for name, c := range map[string]struct {
		req  Request
		code string
	}{
		"one frame":   {Request{Frames: frames([]*pixel.Image{one})}, "blend.count"},
		"other sizes": {Request{Frames: frames([]*pixel.Image{one, two})}, "blend.size"},
		"no such way": {Request{Frames: frames([]*pixel.Image{one, one}), How: "darkest"}, "blend.how"},
	} {
		_, err := Blend(c.req)
		var r *Refusal
		if !errors.As(err, &r) || r.Code != c.code {
			t.Errorf("%s: %v", name, err)
		}
	}
	gone := errors.New("gone")
	fs := append(frames([]*pixel.Image{one}), Frame{Open: func() (pixel.Rows, error) { return nil, gone }})
	if _, err := Blend(Request{Frames: fs}); !errors.Is(err, gone) {
		t.Errorf("a frame that cannot be opened: %v", err)
	}
}

// A lamp so near that one face is blown out is no lamp in the view: nothing of
// such a frame may be masked. Each frame in turn is as the camera would take it
// with the lamp two and three stops nearer.
func TestABlownOutFaceIsNoLamp(t *testing.T) {
	d := drawn()
	for i := range lights {
		for _, ev := range []float64{2, 3} {
			var ms []*pixel.Image
			for k, m := range d.noisy {
				f := cut(m, 0, 0)
				if k == i {
					f, _ = phototest.Push(f, ev)
				}
				ms = append(ms, f)
			}
			for k, f := range run(t, Request{Frames: frames(ms)}).Frames {
				if f.Lamp {
					t.Errorf("frame %d pushed by %.0f stops: frame %d is said to have a lamp", i+1, ev, k+1)
				}
			}
		}
	}
}
