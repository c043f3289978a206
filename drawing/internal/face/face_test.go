package face

import (
	"math"
	"sync"
	"testing"
)

// TestAllFontsOpen, once each, and no other.
func TestAllFontsOpen(t *testing.T) {
	for _, n := range Names {
		a, err := Open(n)
		if err != nil {
			t.Fatal(err)
		}
		if b, _ := Open(n); a != b {
			t.Errorf("%s is opened twice", n)
		}
		if len(TTF(n)) == 0 {
			t.Errorf("%s has no file", n)
		}
	}
	if _, err := Open("Go Smallcaps"); err == nil || TTF("Go Smallcaps") != nil {
		t.Error("there is a font that is not among the names")
	}
}

// TestFontsCarryWhatPapersNeed, and lack what has to be drawn instead.
func TestFontsCarryWhatPapersNeed(t *testing.T) {
	for _, n := range Names {
		f, _ := Open(n)
		for _, r := range "0123456789°×–⁄·→↑■□●○½éÄ" {
			if _, ok := f.Advance(r); !ok {
				t.Errorf("%s lacks %c", n, r)
			}
		}
		for _, r := range "✓⅓⅔☐∠" {
			if _, ok := f.Advance(r); ok {
				t.Errorf("%s has %c after all: it need not be drawn", n, r)
			}
		}
	}
}

// TestOutlines: contours begin with a move, letters stand on the baseline and
// an H is as high as the capitals are said to be, 0.72 em.
func TestOutlines(t *testing.T) {
	for _, n := range Names {
		f, _ := Open(n)
		steps, err := f.Outline('H')
		if err != nil || len(steps) < 12 || steps[0].Op != 'M' {
			t.Fatalf("%s: %v, %v", n, steps, err)
		}
		top, foot := math.Inf(1), math.Inf(-1)
		for _, s := range steps {
			top, foot = math.Min(top, s.P[0][1]), math.Max(foot, s.P[0][1])
		}
		if math.Abs(foot) > 0.001 || math.Abs(top+0.72) > 0.01 {
			t.Errorf("%s: an H stands from %g to %g em", n, -foot, -top)
		}
	}
}

func TestBlankHasNoOutline(t *testing.T) {
	f, _ := Open(Names[0])
	if s, err := f.Outline(' '); err != nil || len(s) != 0 {
		t.Errorf("a blank is %v, %v", s, err)
	}
	if s, err := f.Outline('✓'); err != nil || len(s) == 0 {
		t.Errorf("a missing rune shows no sign: %v, %v", s, err)
	}
}

// TestManyAtOnce shares a face between goroutines, as pages are made at once.
func TestManyAtOnce(t *testing.T) {
	var wg sync.WaitGroup
	counts := make([]int, 8)
	for i := range counts {
		wg.Go(func() {
			f, _ := Open("Go Bold")
			for r := 'A'; r <= 'Z'; r++ {
				s, _ := f.Outline(r)
				counts[i] += len(s)
			}
		})
	}
	wg.Wait()
	for _, c := range counts[1:] {
		if c != counts[0] || c == 0 {
			t.Fatalf("the same letters have %v steps", counts)
		}
	}
}
