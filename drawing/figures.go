package drawing

import "math"

// This file holds the figures that mean something by their shape. Sizes are mm
// on the page; a figure is never scaled by being put into a Group, so place it
// with the view's Apply.

// UpMark is a solid triangle over a bar, w mm wide, with its foot at a place:
// this way up, the marked face to the guests.
func UpMark(foot Point, w float64) []Item {
	top := foot.Y - 1.09*w
	return []Item{
		Polygon(Pen{}, Black, Pt(foot.X, top), Pt(foot.X+w/2, top+0.84*w), Pt(foot.X-w/2, top+0.84*w)),
		Rect(Pen{}, Black, foot.X-w/2, foot.Y-0.13*w, w, 0.13*w),
	}
}

// A Person is somebody for scale.
type Person uint8

// The three people, by their height.
const (
	Adult Person = iota // 5 ft 6 in
	Skirt               // 5 ft 3 in, in a long skirt
	Child               // 3 ft 6 in
)

// Height is the person's height in mm (the house's choice of figures, no
// source: they are there for scale, not as a finding about people).
func (p Person) Height() float64 { return [...]float64{66 * 25.4, 63 * 25.4, 42 * 25.4}[p] }

// Says is the height as it is written over the figure.
func (p Person) Says() string { return [...]string{"5 ft 6", "5 ft 3", "3 ft 6"}[p] }

// Figure is the person as a turned peg, in outline, feet at a place, at a scale
// in page mm to a real mm. The head is 1/7.5 of the height.
func (p Person) Figure(feet Point, scale float64) []Item {
	h := p.Height() * scale
	at := func(x, up float64) Point { return Pt(feet.X+x*h/1000, feet.Y-up*h/1000) }
	const head = 1000 / 7.5
	items := []Item{Path(PenPerson, White, trousers(at))}
	if p == Skirt {
		items = []Item{Path(PenPerson, White, skirt(at)), Stroke(PenPerson, at(-72, 600), at(72, 600))}
	}
	return append(items, Path(PenPerson, White, EllipseAt(at(0, 1000-head/2), 56*h/1000, head/2*h/1000)))
}

// Named is Figure with the height written over its head.
func (p Person) Named(feet Point, scale float64) []Item {
	over := Pt(feet.X, feet.Y-p.Height()*scale-1.2)
	return append(p.Figure(feet, scale), Label(over, Small, p.Says()).Centred())
}

// trousers and skirt run from the left of the neck to its right, in thousandths
// of the height; the head covers the gap.
func trousers(at func(x, up float64) Point) Outline {
	return Lines(at(-28, 872)).
		CurveTo(at(-33, 832), at(-118, 837), at(-118, 756)).
		LineTo(at(-98, 480)).LineTo(at(-76, 0)).LineTo(at(-13, 0)).LineTo(at(0, 400)).
		LineTo(at(13, 0)).LineTo(at(76, 0)).LineTo(at(98, 480)).LineTo(at(118, 756)).
		CurveTo(at(118, 837), at(33, 832), at(28, 872))
}

func skirt(at func(x, up float64) Point) Outline {
	return Lines(at(-28, 873)).
		CurveTo(at(-34, 831), at(-106, 836), at(-106, 762)).
		LineTo(at(-72, 600)).CurveTo(at(-108, 450), at(-124, 200), at(-155, 0)).
		LineTo(at(155, 0)).CurveTo(at(124, 200), at(108, 450), at(72, 600)).
		LineTo(at(106, 762)).CurveTo(at(106, 836), at(34, 831), at(28, 873))
}

// Arrow is a line with one solid head at its end: a push, a wind, a move, never
// a dimension. The head is 3.2 mm long, shorter on a short arrow.
func Arrow(from, to Point) []Item {
	u := to.Sub(from).Unit()
	head := math.Min(3.2, 0.6*to.Dist(from))
	n := Pt(-u.Y, u.X).Mul(head / 2)
	back := to.Sub(u.Mul(head))
	return []Item{
		Stroke(PenEdge.At(1.5), from, back.Add(u.Mul(head/4))),
		Polygon(Pen{}, Black, to, back.Add(n), back.Sub(n)),
	}
}

// A Use is how much of a limit is used, as one of three words.
type Use uint8

// The three words. There is no word for "no risk".
const (
	WellInside Use = iota // to 0.5
	Near                  // to 1
	Over
)

// UseOf gives the word for a share of the limit. A share that is no number
// counts as over.
func UseOf(share float64) Use {
	switch {
	case share <= 0.5:
		return WellInside
	case share <= 1:
		return Near
	}
	return Over
}

// String is the word that stands beside the vial, every time.
func (u Use) String() string { return [...]string{"well inside", "near the limit", "over"}[u] }

// Vial shows a share of a limit as the bubble in a level's vial, w mm wide, its
// left end's middle at a place. The dashed line is half the limit, the heavy
// one all of it. The bubble never lies on a line, so the picture says the same
// as the word; within its stretch it goes with the share.
func Vial(left Point, w, share float64) []Item {
	const wide, high, bubble = 150.0, 22.0, 6.6 // the vial is drawn 150 by 22 and scaled
	const dashed, heavy = 63.0, 114.0
	k := w / wide
	x := func(v float64) float64 { return left.X + v*k }
	top, h := left.Y-high/2*k, high*k
	use := UseOf(share)
	pen := PenEdge
	if use == Over {
		pen = PenEdge.At(1.5)
	}
	items := []Item{
		Path(pen, White, SlotAt(left.X, top, w, h, h/2)),
		Stroke(Pen{Weight: 0.6, Dash: [4]float64{1.2, 1.2}, Tone: Ink}, Pt(x(dashed), top), Pt(x(dashed), top+h)),
		Stroke(PenEdge.At(1.5), Pt(x(heavy), top), Pt(x(heavy), top+h)),
	}
	zone := [][2]float64{{bubble + 3, dashed - bubble - 2}, {dashed + bubble + 2, heavy - bubble - 3}, {heavy + bubble + 3, wide - bubble - 4}}[use]
	at := 12 + 102*share
	at = math.Max(zone[0], math.Min(zone[1], at))
	if !(share <= 1e6) { // not a number, or beyond all measure
		at = zone[1]
	}
	c := Pt(x(at), left.Y)
	switch use {
	case WellInside:
		items = append(items, Circle(PenEdge.At(1.05), White, c, bubble*k))
	case Near:
		items = append(items, Circle(Pen{}, Black, c, bubble*k))
	case Over:
		end := ArcAt(Pt(x(wide)-h/2, left.Y), h/2, 90, -90)
		end.Closed = true
		end = Lines(Pt(x(heavy), top), end.Start).join(end).LineTo(Pt(x(heavy), top+h))
		end.Closed = true
		items = append(items, Path(Pen{}, Black, end), Circle(Pen{}, White, c, bubble*k))
	}
	return items
}

// join runs an outline on with another that starts at its end.
func (o Outline) join(p Outline) Outline {
	for _, s := range p.Steps {
		o = o.step(s)
	}
	return o
}

// A Standing says whether a section is in hand or stands already.
type Standing bool

// The two states of a disc.
const (
	Handled Standing = false // black disc
	Stands  Standing = true  // outlined disc
)

// Disc is a section's letter in a disc of radius r mm about a place. What is
// being handled is black; what already stands is white with an outline.
func Disc(c Point, r float64, letter string, st Standing) []Item {
	size := 1.3 * r / MMPerPt
	t := Label(Pt(c.X, c.Y+CapHeight/2*size*MMPerPt), size, letter).Bold().Centred()
	for t.Width() > 1.6*r {
		t.Size *= 0.9
		t.At.Y = c.Y + CapHeight/2*t.Size*MMPerPt
	}
	if st == Stands {
		return []Item{Circle(PenDimension.In(Line), White, c, r), t.Quiet()}
	}
	return []Item{Circle(Pen{}, Black, c, r), t.In(OnChalk)}
}

// BoxMM is the side of a box to tick on paper: 1/5 in.
const BoxMM = 25.4 / 5

// TickBox is an empty box to tick, its top left corner at a place.
func TickBox(at Point) Item { return Rect(PenEdge, White, at.X, at.Y, BoxMM, BoxMM) }

// Tick is a tick of the height h, its foot on the left of a place. The fonts
// have none.
func Tick(foot Point, h float64) Item {
	return Stroke(Pen{Weight: math.Max(ThinnestPt, 0.14*h/MMPerPt), Tone: Ink}, Pt(foot.X, foot.Y-0.45*h), Pt(foot.X+0.33*h, foot.Y-0.08*h), Pt(foot.X+0.95*h, foot.Y-h))
}

// Angle is the sign for an angle, h mm high. The fonts have none.
func Angle(foot Point, h float64) Item {
	return Stroke(Pen{Weight: math.Max(ThinnestPt, 0.1*h/MMPerPt), Tone: Ink}, Pt(foot.X+0.8*h, foot.Y-0.9*h), foot, Pt(foot.X+h, foot.Y))
}

// Bolt is an open ring: a bolt through a seam.
func Bolt(c Point) Item { return Circle(PenOutline, White, c, 1.3) }

// CheckBars are a 100 mm bar over a 4 in bar, their left end at a place between
// them, to see by a rule whether the page was printed at full size.
func CheckBars(left Point) []Item {
	pen := PenDimension.At(0.7)
	items := []Item{
		Stroke(pen, Pt(left.X, left.Y-0.5), Pt(left.X+100, left.Y-0.5)),
		Stroke(pen, Pt(left.X, left.Y+0.5), Pt(left.X+4*25.4, left.Y+0.5)),
	}
	for i := range 11 {
		x, h := left.X+10*float64(i), 1.3
		if i%5 == 0 {
			h = 2.1
		}
		items = append(items, Stroke(pen, Pt(x, left.Y-0.5), Pt(x, left.Y-0.5-h)))
	}
	for i := range 9 {
		x, h := left.X+12.7*float64(i), 1.3
		if i%2 == 0 {
			h = 2.1
		}
		items = append(items, Stroke(pen, Pt(x, left.Y+0.5), Pt(x, left.Y+0.5+h)))
	}
	label := Pt(left.X+4*25.4+2, left.Y)
	return append(items, Label(Pt(label.X, label.Y-0.7), Small, "100 mm"), Label(Pt(label.X, label.Y+3.2), Small, "4 in"))
}

// FoldMarks are short lines at half the height on both edges of a sheet.
func FoldMarks(w, h float64) []Item {
	return []Item{Stroke(PenEdge, Pt(0, h/2), Pt(4.2, h/2)), Stroke(PenEdge, Pt(w-4.2, h/2), Pt(w, h/2))}
}

// ThumbTab is the black tab at the right edge with the paper's number, one step
// lower for each paper, counted from 0; steps start again at the foot.
func ThumbTab(w float64, step int, s string) []Item {
	const wide, high, first, places = 9.0, 19.6, 31.7, 10
	y := first + float64(step%places)*(high+1)
	size := 16.5
	return []Item{
		Rect(Pen{}, Black, w-wide, y, wide, high),
		Label(Pt(w-wide/2, y+high/2+CapHeight/2*size*MMPerPt), size, s).Bold().Centred().In(OnChalk),
	}
}
