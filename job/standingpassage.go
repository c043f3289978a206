package job

import (
	"fmt"
	"slices"

	"bowerwright/geom"
	"bowerwright/stand"
)

// leastPassage is how high an arch is at the least that somebody walks through,
// mm: 4 ft, a child of seven (common practice, no source). What is lower fills a
// gap at the floor.
const leastPassage = 4 * 304.8

// passages are the ways through arches, as stretches along the piece: as wide as
// they are at any height that people pass, from left to right. Without an arch
// there is none: nobody is taken to walk through the frames.
func (p *planner) passages() (out []geom.Interval) {
	for _, f := range p.built.Frames {
		if !f.Open || f.Box.Max.Y < leastPassage {
			continue
		}
		var way geom.Interval
		middle := (f.Box.Min.X + f.Box.Max.X) / 2
		for _, c := range p.built.Clear {
			for _, i := range c.All {
				if c.Height < f.Box.Max.Y && i.From < middle && middle < i.To {
					if way.From == way.To {
						way = i
					}
					way.From, way.To = min(way.From, i.From), max(way.To, i.To)
				}
			}
		}
		if way.From < way.To {
			out = append(out, way)
		}
	}
	slices.SortFunc(out, func(a, b geom.Interval) int { return int(max(-1, min(1, a.From-b.From))) })
	return out
}

// spreadBeside spreads n things so wide evenly over what is left of the piece beside
// its passages; over all of it where nothing is left.
func spreadBeside(ways []geom.Interval, w, wide float64, n int) []float64 {
	var free []geom.Interval
	from, room := 0.0, 0.0
	for _, way := range append(slices.Clone(ways), geom.Interval{From: w + wide/2, To: w + wide}) {
		if to := way.From - wide/2; to > from {
			free, room = append(free, geom.Interval{From: from, To: to}), room+to-from
		}
		from = max(from, way.To+wide/2)
	}
	if len(free) == 0 {
		free, room = []geom.Interval{{To: w}}, w
	}
	xs := make([]float64, n)
	for i := range xs {
		far := room * (float64(i) + 1.0/2) / float64(n)
		k := 0
		for k < len(free)-1 && far > free[k].To-free[k].From {
			far -= free[k].To - free[k].From
			k++
		}
		xs[i] = free[k].From + far
	}
	return xs
}

// inTheWay says whether a foot so wide at x stands where people walk through.
func (p *planner) inTheWay(x, wide float64) bool {
	return slices.ContainsFunc(p.passages(), func(i geom.Interval) bool {
		return x+wide/2 > i.From+geom.Eps && x-wide/2 < i.To-geom.Eps
	})
}

// wayNotes tell of braces that the job itself puts into the way through an arch.
func (s *stander) wayNotes(t trial) {
	for _, i := range t.inWay {
		name := t.asked.base[i].Name
		s.p.note("brace-in-the-way", "base."+name, fmt.Sprintf("%s: a brace stands where people walk through the arch", name),
			"Leave out left, so that braces are spread beside the way through, or make their feet narrower.")
	}
}

// cannot says of a proposal that it is none: braces in the way through an arch
// that are not there yet, and bolts up into the ends of an open frame's legs,
// which hold nothing there.
func (s *stander) cannot(p proposal, got, before trial) bool {
	if len(got.inWay) > len(before.inWay) {
		return true
	}
	return heldWords[p.asked.at.Held] == stand.BoltedDown && p.asked.at.Held != before.asked.at.Held &&
		slices.ContainsFunc(before.input.Held(), func(i int) bool { return s.piece.Layout.Frames[i].Open })
}
