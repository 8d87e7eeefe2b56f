package pixel

import "testing"

// Means are rounded to the nearest, a half up: two pixels side by side, by hand.
func TestReducedValuesAreRounded(t *testing.T) {
	for _, c := range [][3]uint16{{0, 1, 1}, {1, 2, 2}, {10, 10, 10}, {65534, 65535, 65535}, {0, 3, 2}, {7, 8, 8}} {
		m := New(2, 1)
		for k := range 3 {
			m.Pix[k], m.Pix[3+k] = c[0], c[1]
		}
		got, err := Reduce(m.Rows(), 1, 1)
		if err != nil {
			t.Fatal(err)
		}
		if got.W != 1 || got.H != 1 || got.Pix[0] != c[2] {
			t.Errorf("the mean of %d and %d is %d, want %d", c[0], c[1], got.Pix[0], c[2])
		}
	}
}

// Each place of a smoothed line is the mean of a twelfth of the line around it, of
// three places where the line is short; beyond its ends it repeats them. Against
// the sum written out.
func TestLinesAreSmoothedByTheirMean(t *testing.T) {
	for _, n := range []int{1, 2, 10, 23, 48, 100, 240} {
		l := make(Line, n)
		for i := range l {
			l[i] = [3]uint16{uint16(i * 37 % 1000 * 65), 65535, uint16(i * i)}
		}
		reach := max(n/24, 1)
		got := l.blurred()
		for i := range got {
			for k := range 3 {
				sum := 0
				for j := i - reach; j <= i+reach; j++ {
					sum += int(l[min(max(j, 0), n-1)][k])
				}
				if want := sum / (2*reach + 1); max(int(got[i][k])-want, want-int(got[i][k])) > 1 {
					t.Fatalf("%d places: %d of colour %d is %d, want %d", n, i, k, got[i][k], want)
				}
			}
		}
	}
}
