package drawing

// This file draws the page that says what lines, hatchings and figures mean. It
// is one of the packet's papers and the specimen the makers are tested with.

// FieldW is the width of the field a page is laid out in, in mm: what Letter
// and A4 both hold with room for a binder's hole.
const FieldW = 187.4

// Legend fills a field FieldW wide and LegendH high, from the top left corner
// of the page; put it in a Group to move it.
func Legend() []Item {
	var items []Item
	items = append(items, legendLines(Pt(0, 0))...)
	items = append(items, legendPeople(Pt(126, 0))...)
	items = append(items, legendSections(Pt(0, 78))...)
	items = append(items, legendVials(Pt(0, 121))...)
	items = append(items, legendSizes(Pt(116, 121))...)
	items = append(items, legendTimber(Pt(0, 174))...)
	return items
}

// LegendH is the height of the field Legend fills, in mm.
const LegendH = 225.0

// legendHead is a rule with the words of a heading under it.
func legendHead(at Point, w float64, s string) []Item {
	return []Item{
		Stroke(PenRule, at, Pt(at.X+w, at.Y)),
		Label(Pt(at.X, at.Y+6.4), Lead+0.5, s).Bold(),
	}
}

func legendLines(at Point) []Item {
	items := legendHead(at, 118, "Lines")
	rows := []struct {
		pen        Pen
		name, says string
	}{
		{PenOutline, "outline", "a board seen"},
		{PenSeam, "seam", "sides fixed in the shop"},
		{PenSiteSeam, "site seam", "closed only at the venue"},
		{PenCut, "cut", "where the blade goes"},
		{PenHidden, "hidden", "behind something"},
		{PenInHand, "in hand", "not set down yet"},
		{PenDimension, "dimension", "with saw-tick ends"},
		{PenReach, "reach", "carries a height or width across"},
	}
	for i, r := range rows {
		y := at.Y + 15.5 + 7.2*float64(i)
		items = append(items,
			Stroke(r.pen, Pt(at.X, y), Pt(at.X+34, y)),
			Label(Pt(at.X+38.5, y+1.3), Body, r.name).Bold(),
			Label(Pt(at.X+62, y+1.3), Body, r.says).Quiet())
	}
	return items
}

func legendPeople(at Point) []Item {
	items := legendHead(at, FieldW-at.X, "People for scale")
	scale := 46 / Adult.Height()
	for i, p := range []Person{Adult, Skirt, Child} {
		items = append(items, p.Named(Pt(at.X+9+18*float64(i), at.Y+68), scale)...)
	}
	return append(items, Stroke(PenGround, Pt(at.X, at.Y+68), Pt(FieldW, at.Y+68)))
}

// hexagon is a flat-topped hexagon, r from its middle to a corner.
func hexagon(c Point, r float64) Outline {
	const half = 0.8660254037844386 // sin 60
	return Ring(Pt(c.X+r, c.Y), Pt(c.X+r/2, c.Y+half*r), Pt(c.X-r/2, c.Y+half*r), Pt(c.X-r, c.Y), Pt(c.X-r/2, c.Y-half*r), Pt(c.X+r/2, c.Y-half*r))
}

func legendSections(at Point) []Item {
	items := legendHead(at, FieldW, "Sections, always letter and hatching together")
	for i := range 8 {
		letter, h, pen := Section(i)
		c := Pt(at.X+10.2+23.85*float64(i), at.Y+20)
		items = append(items, Path(pen, Hatched(h), hexagon(c, 10)))
		items = append(items, Disc(c, 3.5, letter, Handled)...)
		items = append(items, Label(Pt(c.X, c.Y+13.6), Small, h.String()).Centred())
	}
	return items
}

func legendVials(at Point) []Item {
	items := legendHead(at, 106, "The vial: how much of the limit is used")
	says := []string{"open bubble, before the dashed line", "full bubble, between the two lines", "past the heavy line, end filled black"}
	for i, share := range []float64{0.3, 0.72, 1.15} {
		y := at.Y + 15 + 12*float64(i)
		items = append(items, Vial(Pt(at.X, y), 40, share)...)
		items = append(items,
			Label(Pt(at.X+44.5, y-0.6), Body+0.5, UseOf(share).String()).Bold(),
			Label(Pt(at.X+44.5, y+4), Small+0.5, says[i]).Quiet())
	}
	return items
}

func legendSizes(at Point) []Item {
	items := legendHead(at, FieldW-at.X, "Sizes")
	a, b := Pt(at.X+4, at.Y+24), Pt(at.X+65, at.Y+24)
	items = append(items,
		Rect(PenEdge, White, a.X, a.Y, b.X-a.X, 3.7),
		Level(a, b, a.Y-6, "10 3/8 in"))
	note := Paragraph(Pt(a.X, a.Y+12), FieldW-a.X, Body, TextLeading, Q("10 3/8 in is 264 mm to look at, 263.5 mm to saw"))
	return append(items, note.Items...)
}

func legendTimber(at Point) []Item {
	items := legendHead(at, FieldW, "On the timber")
	say := func(y float64, s string) Item { return Label(Pt(at.X+50, y+1.4), Body, s) }
	y := at.Y + 16
	items = append(items, Polygon(PenOutline, Solid(Slip), Pt(at.X+1, y-3.5), Pt(at.X+45, y-3.5), Pt(at.X+41.6, y+2.9), Pt(at.X+4.4, y+2.9)))
	items = append(items, UpMark(Pt(at.X+23, y+2.2), 4.2)...)
	items = append(items, say(y, "up-mark: this way up, the marked face to the guests"))

	y += 14
	items = append(items, Stroke(PenOutline, Pt(at.X+22.5, y-5.2), Pt(at.X+22.5, y+5.2)), Stroke(PenOutline, Pt(at.X+23.5, y-5.2), Pt(at.X+23.5, y+5.2)))
	items = append(items, Bolt(Pt(at.X+23, y-2.4)), Bolt(Pt(at.X+23, y+2.4)))
	items = append(items, Label(Pt(at.X+17, y+1.4), Body, "7").Bold().Centred(), Label(Pt(at.X+29, y+1.4), Body, "7").Bold().Centred())
	items = append(items, say(y, "seam 7: the same figure on both sides, rings are bolts"))

	y += 14
	items = append(items, Arrow(Pt(at.X+23, y-5), Pt(at.X+23, y+5))...)
	return append(items, say(y, "a push or a move: one solid head, never two"))
}
