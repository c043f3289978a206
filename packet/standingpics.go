package packet

import (
	"fmt"
	"math"

	"bowerwright/drawing"
	"bowerwright/job"
)

// The rose, page mm. What holds over what is wanted is drawn outwards: the ring
// is the limit, and beyond twice the limit nothing more is shown.
const (
	roseRing  = 12.5
	roseMost  = 2.0
	roseHigh  = 2*roseRing*roseMost + 12
	roseX     = 45.0
	roseWords = 98.0
)

// wayPens tell ways of dressing apart by their dash.
var wayPens = []drawing.Pen{drawing.PenOutline, drawing.PenGreenery, drawing.PenDraped, drawing.PenHidden}

// A roseLine is one way of dressing: what holds over what is wanted, by
// direction, under the worst load in each.
type roseLine struct {
	way   string
	holds []float64
}

// roseLines are of the ways with the most used, as many as there are pens.
func roseLines(r job.Result) []roseLine {
	var out []roseLine
	at := map[string]int{}
	for _, f := range r.Standing.Findings {
		i, ok := at[f.Way]
		if !ok {
			i = len(out)
			at[f.Way] = i
			out = append(out, roseLine{f.Way, make([]float64, len(f.Rose))})
			for d := range out[i].holds {
				out[i].holds[d] = math.Inf(1)
			}
		}
		for d, x := range f.Rose {
			out[i].holds[d] = min(out[i].holds[d], 1/max(x.Tip, x.Slide, 1e-9))
		}
	}
	for len(out) > len(wayPens) {
		best := 0
		for i := range out {
			if least(out[i]) > least(out[best]) {
				best = i
			}
		}
		out = append(out[:best], out[best+1:]...)
	}
	return out
}

func least(l roseLine) float64 {
	v := math.Inf(1)
	for _, h := range l.holds {
		v = min(v, h)
	}
	return v
}

// rosePicture is what holds in the 36 directions, seen from above.
func rosePicture(r job.Result) block {
	lines := roseLines(r)
	alt := fmt.Sprintf("How far from its limit it is in 36 directions, seen from above, with guests below: a ring is the limit, what is drawn inside it is over. The worst of all directions stands in the table below. Drawn: %s.", ways(lines))
	return picture(roseHigh, alt, func(s *sheet, y float64) {
		c := drawing.Pt(roseX, y+roseHigh/2)
		s.rose(r, lines, c)
		s.roseKey(r, lines, y)
	})
}

func ways(lines []roseLine) string {
	var names []string
	for _, l := range lines {
		names = append(names, l.way)
	}
	return joined(", ", names...)
}

func (s *sheet) rose(r job.Result, lines []roseLine, c drawing.Point) {
	for i := range 12 {
		a := float64(i) * math.Pi / 6
		s.add(drawing.Stroke(drawing.PenReachLine, polar(c, a, roseRing*0.5), polar(c, a, roseRing*roseMost)))
	}
	s.add(drawing.Circle(drawing.PenReachLine, drawing.Fill{}, c, roseRing*roseMost), drawing.Circle(drawing.PenRule, drawing.Fill{}, c, roseRing))
	s.plan(r, box{c.X - roseRing*0.4, c.Y - roseRing*0.4, c.X + roseRing*0.4, c.Y + roseRing*0.4})
	for i, l := range lines {
		pts := make([]drawing.Point, len(l.holds))
		for d, h := range l.holds {
			pts[d] = polar(c, 2*math.Pi*float64(d)/float64(len(l.holds)), roseRing*min(h, roseMost))
		}
		s.add(drawing.Polygon(wayPens[i], drawing.Fill{}, pts...))
	}
	up := drawing.Label(drawing.Pt(c.X, c.Y-roseRing*roseMost-1.8), drawing.Small, "goes backwards").Centred()
	down := drawing.Label(drawing.Pt(c.X, c.Y+roseRing*roseMost+4.4), drawing.Small, "goes forwards, to the guests").Centred()
	s.say(up)
	s.say(down)
}

// polar is a place off a middle: angles run as in the plan, with back upwards.
func polar(c drawing.Point, angle, far float64) drawing.Point {
	return drawing.Pt(c.X+far*math.Cos(angle), c.Y-far*math.Sin(angle))
}

// plan is what stands on the floor, small, in the middle of the rose.
func (s *sheet) plan(r job.Result, b box) {
	p := r.Standing.Plan
	v := planView(p, b)
	s.add(drawing.Polygon(drawing.PenEdge, drawing.White, v.all(p.Hull)...))
	for _, o := range p.Boards {
		s.add(drawing.Polygon(drawing.PenEdge, drawing.Black, v.all(o)...))
	}
}

// planView fits the hull into a box; back is upwards.
func planView(p job.PlanFacts, b box) view {
	in := hullBox(p)
	v := view{scale: min((b.x1-b.x0)/max(in.x1-in.x0, 1), (b.y1-b.y0)/max(in.y1-in.y0, 1))}
	v.origin = drawing.Pt((b.x0+b.x1)/2-(in.x0+in.x1)/2*v.scale, (b.y0+b.y1)/2+(in.y0+in.y1)/2*v.scale)
	return v
}

// hullBox is round the hull, real mm; y grows backwards.
func hullBox(p job.PlanFacts) box {
	pts := make([]drawing.Point, len(p.Hull))
	for i, q := range p.Hull {
		pts[i] = drawing.Pt(q[0], q[1])
	}
	return extent(pts)
}

func (s *sheet) roseKey(r job.Result, lines []roseLine, y float64) {
	at := y + 9
	for i, l := range lines {
		s.line(wayPens[i], roseWords, at-1.2, roseWords+12, at-1.2)
		s.say(fitted(drawing.Label(drawing.Pt(roseWords+15, at), drawing.Body, l.way).Bold(), fieldW-roseWords-15, drawing.Small))
		at += 6
	}
	at += 2
	s.prose(roseWords, at, fieldW-roseWords, drawing.Label(drawing.Point{}, drawing.Body,
		"Seen from above. Outwards is better; the heavy ring is the limit, and a line inside it is over. The outermost ring is twice the limit, and nothing is drawn beyond it. Each line is the worst load in that direction."))
}

// planMost is how high the plan is drawn at the most, page mm.
const planMost = 62.0

// planPicture is the base to scale with its ballast.
func planPicture(r job.Result) block {
	p := r.Standing.Plan
	in := hullBox(p)
	high := min(planMost, (fieldW-50)/max(in.x1-in.x0, 1)*(in.y1-in.y0)) + 4
	high = max(high, 14)
	alt := "The plan of what stands on the floor, back upwards: " + both(r.Job, p.Width) + " wide and " + both(r.Job, p.Depth) + " deep; frames black, the edge that it can tip over dashed" + stacksSay(r)
	return picture(high+18, alt, func(s *sheet, y float64) {
		b := box{30, y + 5, fieldW - 20, y + 1 + high}
		v := planView(p, b)
		s.base(p, v)
		s.stacks(r, v)
		lo, hi := v.at(job.XY{in.x0, in.y0}), v.at(job.XY{in.x1, in.y1})
		s.add(sized(drawing.Level(lo, drawing.Pt(hi.X, lo.Y), lo.Y+8, ""), r.Job, p.Width))
		s.say(drawing.Label(drawing.Pt(fieldW/2+5, y+3), drawing.Small, "back").Centred().Quiet())
		s.say(drawing.Label(drawing.Pt(fieldW/2+5, lo.Y+16), drawing.Small, "front: the guests").Centred().Quiet())
		deep := drawing.Label(drawing.Pt(0, (lo.Y+hi.Y)/2), drawing.Body, first(r.Job, p.Depth)).Bold()
		s.say(deep)
		s.say(drawing.Label(drawing.Pt(0, (lo.Y+hi.Y)/2+4.6), drawing.Small, "deep").Quiet())
	})
}

func stacksSay(r job.Result) string {
	if n := len(r.Standing.Ballast.Stacks); n > 0 {
		return "; " + plural(n, "place") + " of ballast, numbered as in the table"
	}
	return ""
}

// base draws the pieces on the floor, the frames on them and the stakes.
func (s *sheet) base(p job.PlanFacts, v view) {
	for _, q := range p.Pieces {
		for _, o := range q.On {
			if len(q.Hole) > 0 {
				s.add(drawing.Holed(drawing.PenEdge, drawing.White, drawing.Ring(v.all(o)...), drawing.Ring(v.all(q.Hole)...)))
				continue
			}
			s.add(drawing.Polygon(drawing.PenEdge, drawing.White, v.all(o)...))
		}
	}
	s.add(drawing.Polygon(drawing.PenHidden, drawing.Fill{}, v.all(p.Hull)...))
	for _, o := range p.Boards {
		s.add(drawing.Polygon(drawing.PenEdge, drawing.Black, v.all(o)...))
	}
	for _, k := range p.Stakes {
		s.cross(v.at(k))
	}
}

// stacks draws units to scale, with the number of their place where it fits.
func (s *sheet) stacks(r job.Result, v view) {
	pl := newPlacer(box{0, 0, fieldW, bodyFoot})
	for i, k := range r.Standing.Ballast.Stacks {
		pts := v.all(k.Outline)
		s.add(drawing.Polygon(drawing.PenOutline, drawing.White, pts...))
		b := extent(pts)
		label := fmt.Sprintf("%d: %d", i+1, k.Count)
		if drawing.Width(label, drawing.Bold, drawing.Small) > b.x1-b.x0-0.6 {
			label = itoa(i + 1)
		}
		t := drawing.Label(drawing.Pt((b.x0+b.x1)/2, (b.y0+b.y1)/2+1.1), drawing.Small, label).Bold().Centred()
		room := around(drawing.Pt((b.x0+b.x1)/2, (b.y0+b.y1)/2), t.Width()+0.5, 3.9)
		if pl.clear(room) && t.Width() < b.x1-b.x0 && b.y1-b.y0 > 2.8 {
			s.say(t)
			pl.take(room)
		}
	}
}
