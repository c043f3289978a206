package job

import (
	"fmt"
	"math"
	"strings"

	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/making"
)

// layFacts are the dry lay, as it lies before somebody who looks at the back.
func (p *planner) layFacts(l making.Lay, r making.Rates, back layout.Layout) LayFacts {
	if len(l.Order) == 0 {
		return LayFacts{}
	}
	margin := 2 * r.Laying.Margin
	out := LayFacts{
		Width: p.w.whole(l.Width), Height: p.w.whole(l.Height), Floor: [2]Size{p.w.whole(l.Width + margin), p.w.whole(l.Height + margin)},
		Straight: p.straightFacts(l, r), Equal: l.EqualDiagonals(), Steps: p.w.steps(l.Steps), Shims: p.shimFacts(l.Shims),
	}
	for i, s := range l.Order {
		out.Order = append(out.Order, p.laidFacts(s))
		out.Chalk = append(out.Chalk, p.chalkFacts(l, back, i))
	}
	for _, d := range l.Diagonals {
		out.Diagonals = append(out.Diagonals, DiagonalFacts{From: p.spot(l, back, d.From), To: p.spot(l, back, d.To), Size: p.w.whole(d.MM)})
	}
	for _, a := range l.Alike {
		out.Alike = append(out.Alike, p.alikeFacts(a))
	}
	for _, s := range back.Seams {
		out.Gaps = append(out.Gaps, GapFacts{Seam: s.Number, Frames: p.pair([2]int{s.Sides[0].Frame, s.Sides[1].Frame}), Planned: p.w.fine(max(0, s.Gap))})
	}
	return out
}

func (p *planner) straightFacts(l making.Lay, r making.Rates) *StraightFacts {
	s := l.Straight
	if len(s.Frames) == 0 {
		return nil
	}
	out := &StraightFacts{Length: p.w.whole(s.Length()), From: p.fromCentre(s.From - l.Centre), To: p.fromCentre(s.To - l.Centre),
		Most: p.w.whole(r.Laying.Straight), Short: s.Length() > r.Laying.Straight+geom.Eps}
	for _, f := range s.Frames {
		out.Frames = append(out.Frames, p.labels[f])
	}
	return out
}

// fromCentre is a distance to the right of the centre line, or to its left.
func (p *planner) fromCentre(x float64) SideFrom {
	out := SideFrom{Size: p.w.cut(math.Abs(x))}
	switch {
	case x < -closedGap:
		out.Side = "left"
	case x > closedGap:
		out.Side = "right"
	}
	return out
}

func (p *planner) laidFacts(s making.Laid) LaidFacts {
	out := LaidFacts{Frame: p.labels[s.Frame], Against: s.Against}
	var seams []string
	for _, n := range s.Against {
		seams = append(seams, fmt.Sprint(n))
	}
	at := "against seam " + strings.Join(seams, ", ")
	if len(seams) > 1 {
		at = "against seams " + strings.Join(seams, ", ")
	}
	switch {
	case s.OnFloor && seams != nil:
		out.How = "on the base line, " + at
	case s.OnFloor:
		out.How = "on the base line"
	case s.ByChalk || seams == nil:
		out.How = "by its marks"
	default:
		out.How = at
	}
	return out
}

// spot is a corner of a placed frame. A ring that is sawn round has no corners:
// a spot of it has the number 0.
func (p *planner) spot(l making.Lay, back layout.Layout, s making.Spot) SpotFacts {
	number := s.Corner
	if p.kinds[p.kindAt[back.Frames[s.Frame].Kind]].round != nil {
		number = 0
	}
	return SpotFacts{Frame: p.labels[s.Frame], Corner: number, Across: p.fromCentre(s.At.X - l.Centre), Up: p.w.cut(s.At.Y),
		At: p.w.xy(geom.Point{X: back.Width - s.At.X, Y: s.At.Y})}
}

// chalkFacts lists the corners of the frame of a step: all of them, or the
// lowest and the highest point of a circle. The two that are chalked are the
// lowest corner, of two the one nearer to the centre line, and the one that is
// farthest from it: so a slip of the chalk turns the frame least.
func (p *planner) chalkFacts(l making.Lay, back layout.Layout, step int) ChalkFacts {
	c := l.Chalk[step]
	var corners []making.Spot
	for i, q := range c.Corners {
		corners = append(corners, making.Spot{Frame: c.Frame, Corner: i + 1, At: geom.Point{X: q.X + l.Centre, Y: q.Y}})
	}
	low := best(corners, func(s making.Spot) float64 { return -s.At.Y - tieBreak*math.Abs(s.At.X-l.Centre) })
	far := best(corners, func(s making.Spot) float64 { return s.At.Dist(corners[low].At) })
	out := ChalkFacts{Frame: p.labels[c.Frame], Step: step + 1, UpSide: c.Up, UpCorner: c.Top, Marks: [2]int{low, far}}
	if p.kinds[p.kindAt[back.Frames[c.Frame].Kind]].round != nil {
		corners, out.Marks, out.UpSide, out.UpCorner = []making.Spot{corners[low], corners[far]}, [2]int{0, 1}, 0, 0
	}
	for _, s := range corners {
		out.Corners = append(out.Corners, p.spot(l, back, s))
	}
	return out
}

// tieBreak is small enough that a corner is never taken for lower by a tenth of
// a millimetre because it lies ten metres nearer to the centre line.
const tieBreak = 1e-5

// best is the place of the first spot that is highest by a measure, to a
// thousandth of a millimetre, so that the last bits of floats do not choose.
func best(spots []making.Spot, by func(making.Spot) float64) int {
	at := 0
	for i, s := range spots {
		if by(s) > by(spots[at])+1e-3 {
			at = i
		}
	}
	return at
}

func (p *planner) alikeFacts(a making.Alike) AlikeFacts {
	s := p.kinds[p.kindAt[a.Kind]]
	out := AlikeFacts{Kind: a.Kind, Title: s.title(), Ways: a.Ways}
	for _, k := range p.making.Kinds {
		if k.Name == a.Kind {
			out.Turns = p.turnsText(k.Alike)
		}
	}
	for _, f := range a.Frames {
		out.Frames = append(out.Frames, p.labels[f])
	}
	return out
}

// shimRows is how many gaps the table of shims has: up to a few shims, beyond
// which the fault is another one.
const shimRows = 6

// shimFacts says how many shims go into a gap that is so much wider than its seam
// is planned with, whichever seam it is.
func (p *planner) shimFacts(s making.Shims) ShimFacts {
	out := ShimFacts{Planned: p.w.fine(s.Planned), Over: p.w.fine(s.Over), Each: p.w.fine(s.Each)}
	if s.Each <= 0 {
		return out
	}
	first := int(math.Floor(s.Over/s.Each + 1))
	for n := first; n < first+shimRows; n++ {
		beyond := float64(n) * s.Each
		out.Counts = append(out.Counts, ShimRow{Beyond: p.w.fine(beyond), Count: s.Count(beyond)})
	}
	return out
}
