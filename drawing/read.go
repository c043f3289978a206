package drawing

import (
	"fmt"
	"slices"
)

// A tap is a Surface that only listens, for reading a drawing back.
type tap struct {
	words func(Words)
	shape func([]Outline, Tone, Pen)
}

func (t tap) Words(w Words) { t.words(w) }
func (t tap) Shape(os []Outline, fill Tone, pen Pen) {
	if t.shape != nil {
		t.shape(os, fill, pen)
	}
}
func (tap) Picture(Image)  {}
func (tap) Clip([]Outline) {}
func (tap) Unclip()        {}
func (tap) Link(Link)      {}

// Texts is every line of text on a list, in the order drawn and in plain words
// ("10 3/8 in"), the figures of dimensions among them.
func Texts(l List) []string {
	var out []string
	Play(l, tap{words: func(w Words) { out = append(out, w.Plain) }})
	return out
}

// Dimensions is every dimension on a list, its points on the page, so that a
// test can hold its figure against the distance it was drawn over.
func Dimensions(l List) []Dimension {
	var out []Dimension
	var walk func(items []Item, a Affine)
	walk = func(items []Item, a Affine) {
		for _, it := range items {
			switch v := it.(type) {
			case Dimension:
				out = append(out, v.moved(a))
			case Group:
				walk(v.Items, a.after(v.Move))
			}
		}
	}
	walk(l.Items, Affine{})
	return out
}

// Check is the runes on a list that its fonts do not have, each once, sorted.
// They would print as empty boxes.
func Check(l List) []rune {
	missing := map[rune]bool{}
	Play(l, tap{words: func(w Words) {
		for _, run := range w.Runs {
			for _, r := range run.S {
				if !run.Font.Has(r) {
					missing[r] = true
				}
			}
		}
	}})
	var out []rune
	for r := range missing {
		out = append(out, r)
	}
	slices.Sort(out)
	return out
}

// Thin is the pens used that are under ThinnestPt, each once.
func Thin(l List) []Pen {
	var out []Pen
	Play(l, tap{words: func(Words) {}, shape: func(_ []Outline, _ Tone, p Pen) {
		if p.Draws() && p.Weight < ThinnestPt && !slices.Contains(out, p) {
			out = append(out, p)
		}
	}})
	return out
}

// box is the four corners of a line of text: from its foot to the height of a
// capital, as tails and accents may touch a neighbour without harm.
func (w Words) box() [4]Point {
	top := 0.0
	for _, r := range w.Runs {
		top = max(top, r.Rise+CapHeight*r.Size*MMPerPt)
	}
	at := func(x, up float64) Point { return w.At.Add(Pt(x, -up).Rot(-w.Turn * degree)) }
	return [4]Point{at(0, 0), at(w.Width, 0), at(w.Width, top), at(0, top)}
}

// Outside is the lines of text that reach past the edge of the sheet.
func Outside(l List) []string {
	var out []string
	Play(l, tap{words: func(w Words) {
		for _, p := range w.box() {
			if p.X < 0 || p.Y < 0 || p.X > l.W || p.Y > l.H {
				out = append(out, w.Plain)
				return
			}
		}
	}})
	return out
}

// touchMM is how far two lines of text may reach into each other before they
// count as crowded, in mm: side bearings of letters leave that much air.
const touchMM = 0.2

// Crowded is the pairs of lines of text that lie over each other, as
// "one | other".
func Crowded(l List) []string {
	var all []Words
	Play(l, tap{words: func(w Words) {
		if w.Plain != "" {
			all = append(all, w)
		}
	}})
	var out []string
	for i, a := range all {
		for _, b := range all[i+1:] {
			if overlap(a.box(), b.box()) {
				out = append(out, fmt.Sprintf("%s | %s", a.Plain, b.Plain))
			}
		}
	}
	return out
}

// overlap tells by separating axes: two convex boxes are apart when a side of
// one has the other wholly beyond it.
func overlap(a, b [4]Point) bool {
	for _, q := range [][4]Point{a, b} {
		for _, axis := range []Point{q[1].Sub(q[0]).Unit(), q[3].Sub(q[0]).Unit()} {
			alo, ahi := shadow(a, axis)
			blo, bhi := shadow(b, axis)
			if ahi-touchMM <= blo || bhi-touchMM <= alo {
				return false
			}
		}
	}
	return true
}

func shadow(q [4]Point, axis Point) (lo, hi float64) {
	lo, hi = q[0].Dot(axis), q[0].Dot(axis)
	for _, p := range q[1:] {
		lo, hi = min(lo, p.Dot(axis)), max(hi, p.Dot(axis))
	}
	return lo, hi
}
