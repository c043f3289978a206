package packet

import (
	"bowerwright/drawing"
	"bowerwright/job"
)

// Tick-offs: twelve to a row, and four and twenty when there are many.
const (
	tickRow   = 12
	tickMany  = 36
	tickHigh  = 5.6
	tickGap   = 1.2
	tickEvery = 6
)

// A slot is one place in the rows of tick-offs: a part to strike through, or
// the mark of the parts that follow.
type slot struct {
	part job.PartFacts
	n    int // 1..; 0 is the mark, blank nothing
}

// blank is the number of an empty slot.
const blank = -1

// slotsFor lays parts and marks in one row of slots; a mark is never the last of
// a line, away from its parts.
func slotsFor(ts []task, per int) []slot {
	var slots []slot
	for _, t := range ts {
		if len(ts) > 1 {
			if len(slots)%per == per-1 {
				slots = append(slots, slot{n: blank})
			}
			slots = append(slots, slot{t.part, 0})
		}
		for i := range t.part.Count {
			slots = append(slots, slot{t.part, i + 1})
		}
	}
	return slots
}

// Side by side, mm: the frames glued take this much at the right.
const (
	doneWide   = 66.0
	doneGap    = 6.0
	besideMost = 8    // frames, at most
	besideHigh = 60.0 // mm, at most: what is higher may have to run over pages
)

// done are the parts to strike through and the frames to tick off: below each
// other, or side by side where both are few.
func done(r job.Result, k job.KindFacts, ts []task, wide float64, f form) []block {
	labels := frameLabels(r, k)
	if f.beside && len(labels) > 0 && len(labels) <= besideMost {
		w := wide - doneWide - doneGap
		left := tickOffs(ts, int(float64(f.per)*w/fieldW), w)
		right := glued(labels, wide-doneWide, doneWide)
		if h := max(height(left), height(right)) - gapOver; h <= besideHigh {
			return []block{{h: h, gap: gapOver, twins: twinsOf(append(left, right...)...), draw: func(s *sheet, y float64) {
				stack(s, y-gapOver, left)
				stack(s, y-gapOver, right)
			}}}
		}
	}
	return append(tickOffs(ts, int(float64(f.per)*wide/fieldW), wide), glued(labels, 0, wide)...)
}

// gapOver is the white above the tick-offs, mm.
const gapOver = 3.0

// tickOffs are the parts as shapes to strike through, every sixth numbered, in
// a width.
func tickOffs(ts []task, per int, wide float64) []block {
	slots := slotsFor(ts, per)
	out := []block{{h: 6, gap: gapOver, keep: true, twins: sawnTwins(ts), draw: func(s *sheet, y float64) {
		s.say(drawing.Label(drawing.Pt(0, y+4), drawing.Lead, "Sawn").Bold())
		s.say(drawing.Label(drawing.Pt(wide, y+4), drawing.Small, "strike through as you go").RightAligned().Quiet())
	}}}
	for len(slots) > 0 {
		row := slots[:min(per, len(slots))]
		slots = slots[len(row):]
		out = append(out, block{h: tickHigh + tickGap, twins: []twin{}, draw: func(s *sheet, y float64) {
			for i, sl := range row {
				w := wide / float64(per)
				sl.draw(s, float64(i)*w, y, w)
			}
		}})
	}
	return out
}

// sawnTwins are the tick-offs on a screen: a box for each part, by number.
func sawnTwins(ts []task) []twin {
	out := []twin{webHead("Sawn", "tick off as you go")}
	for _, t := range ts {
		var labels []string
		for i := range t.part.Count {
			labels = append(labels, itoa(i+1))
		}
		out = append(out, webTicks("Part "+t.part.Mark, labels...))
	}
	return out
}

// draw puts a slot at a place; parts are turned one by one, as they lie in the
// board.
func (sl slot) draw(s *sheet, x, y, w float64) {
	switch sl.n {
	case blank:
		return
	case 0:
		s.say(fitted(drawing.Label(drawing.Pt(x+w-1.6, y+tickHigh-1.4), drawing.Body, sl.part.Mark).Bold().RightAligned(), w-2, drawing.Small))
		return
	}
	lean := min(w*0.16, 2.2)
	l, r := lean*sign(sl.part.First.Setting.Degrees), lean*sign(sl.part.Second.Setting.Degrees)
	if sl.part.Rough != nil {
		l, r = 0, 0
	}
	q := trapezoid(x+0.3-lean/2, x+w-0.6+lean/2, y, y+tickHigh, l, r, sl.n%2 == 1)
	q = clipped(q, 0, fieldW)
	s.add(drawing.Polygon(drawing.PenEdge, drawing.White, q...))
	if sl.n%tickEvery == 0 {
		s.say(drawing.Label(drawing.Pt(x+w/2, y+tickHigh/2+1.15), drawing.Small, itoa(sl.n)).Centred())
	}
}

// sign is -1, 0 or 1.
func sign(x float64) float64 {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}

// clipped keeps corners between two uprights.
func clipped(q []drawing.Point, x0, x1 float64) []drawing.Point {
	for i := range q {
		q[i].X = min(max(q[i].X, x0), x1)
	}
	return q
}

// frameLabels are the frames of a kind, spare ones last.
func frameLabels(r job.Result, k job.KindFacts) []string {
	var labels []string
	for _, f := range r.Frames {
		if f.Kind == k.Name {
			labels = append(labels, f.Label)
		}
	}
	for i := len(labels); i < k.Make; i++ {
		labels = append(labels, "spare")
	}
	return labels
}

// glued are frames to tick off, each with its label; what to look at stands
// beside the heading, or below it where the width is short.
func glued(labels []string, x, wide float64) []block {
	if len(labels) == 0 {
		return nil
	}
	const h, least = 9.0, 15.5
	per := int(wide / least)
	w := wide / float64(per)
	look := drawing.Label(drawing.Pt(x+wide, 4), drawing.Small, "corner to corner alike before the glue grabs").RightAligned().Quiet()
	head := 6.0
	if wide < fieldW {
		look = fitted(drawing.Label(drawing.Pt(x, 8.6), drawing.Small, plain(look)).Quiet(), wide, drawing.Small)
		head = 10
	}
	twins := []twin{webHead("Glued, and square", plain(look)), webTicks("Frames", labels...)}
	out := []block{{h: head, gap: gapOver, keep: true, twins: twins, draw: func(s *sheet, y float64) {
		s.say(drawing.Label(drawing.Pt(x, y+4), drawing.Lead, "Glued, and square").Bold())
		l := look
		l.At.Y += y
		s.say(l)
	}}}
	for from := 0; from < len(labels); from += per {
		row := labels[from:min(from+per, len(labels))]
		out = append(out, block{h: h, twins: []twin{}, draw: func(s *sheet, y float64) {
			for i, l := range row {
				at := x + float64(i)*w
				s.add(drawing.TickBox(drawing.Pt(at, y+1.4)))
				s.say(fitted(drawing.Label(drawing.Pt(at+6.1, y+5.3), drawing.Body, l).Bold(), w-6.6, drawing.Small))
			}
		}})
	}
	return out
}
