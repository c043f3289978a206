package fixing

import (
	"math"

	"bowerwright/geom"
	"bowerwright/unit"
)

// A spot is where the axis of a fastener crosses the seam: s along it, z behind
// the front edges.
type spot struct{ s, z float64 }

// A need is the room that one kind of fastener wants about it.
type need struct {
	diameter           unit.Length
	edge, ends         []Diameters // to edge and end, best first; the last is the least
	pitch, pitchAcross Diameters
	h                  [2]float64     // how deep it lies in each side's wood
	within             *geom.Interval // of the seam, nil for all of it
}

// A count is how many fasteners are wanted and how they lie.
type count int

const (
	along  count = iota // two or more along the seam
	across              // two across the depth
	single
	grid // along, and as many again in a second row through the depth
)

// deep says whether there are two through the depth.
func (c count) deep() bool { return c == across || c == grid }

// long says whether there are two or more along the seam.
func (c count) long() bool { return c == along || c == grid }

// An arrangement is a set of spots with what is said of it.
type arrangement struct {
	spots     []spot
	in        geom.Interval // where s may be
	z         geom.Interval // where z may be
	nearMitre bool
	nearEdge  bool
}

// arrange lays fasteners out on a seam. The best distances that there is room
// for are taken, edges first.
func (w *work) arrange(c contact, n need, as count) (arrangement, *Problem) {
	bad := w.problem(TooThin, c)
	bad.Room = c.rise()
	for i, edge := range n.edge {
		e := edge.of(n.diameter)
		z := geom.Interval{From: e, To: c.rise() - e}
		bad.Need = 2 * e
		if as.deep() {
			bad.Need += n.pitchAcross.of(n.diameter)
		}
		if c.rise() < bad.Need-geom.Eps {
			continue
		}
		a, p := w.arrangeAlong(c, n, as)
		if p != nil {
			return a, p
		}
		a.z, a.nearEdge = z, i > 0
		a.deepen(as, n.pitchAcross.of(n.diameter), c.rise())
		return a, nil
	}
	return arrangement{}, bad
}

// arrangeAlong finds the places along the seam.
func (w *work) arrangeAlong(c contact, n need, as count) (arrangement, *Problem) {
	wood := c.span(n.h)
	if n.within != nil {
		wood.From, wood.To = max(wood.From, n.within.From), min(wood.To, n.within.To)
	}
	pitch := n.pitch.of(n.diameter)
	wanted := 0.0
	if as.long() {
		wanted = pitch
	}
	bad := w.problem(TooShort, c)
	bad.Room = max(wood.Len(), 0)
	for i, end := range n.ends {
		e := end.of(n.diameter)
		in := geom.Interval{From: wood.From + e, To: wood.To - e}
		bad.Need = 2*e + wanted
		if in.Len() < wanted-geom.Eps {
			continue
		}
		a := arrangement{in: in, nearMitre: i > 0}
		for _, s := range w.places(c, in, pitch, as) {
			a.spots = append(a.spots, spot{s: s})
		}
		return a, nil
	}
	return arrangement{}, bad
}

// places are the middle, or the quarter points pushed apart to their pitch and
// in from the ends; of long seams so many parts' middles that no two are
// farther apart than Rules.Every.
func (w *work) places(c contact, in geom.Interval, pitch float64, as count) []float64 {
	length := c.seam.Length
	if !as.long() {
		return []float64{clamp(length/2, in.From, in.To)}
	}
	n := max(2, int(math.Ceil(length/w.rules.Every-geom.Eps)))
	for ; n > 2; n-- {
		from, to := clamp(length/float64(2*n), in.From, in.To), clamp(length-length/float64(2*n), in.From, in.To)
		if to-from >= pitch*float64(n-1) {
			return evenly(from, to, n)
		}
	}
	from, to := clamp(length/4, in.From, in.To), clamp(3*length/4, in.From, in.To)
	if to-from < pitch {
		mid := clamp((from+to)/2, in.From+pitch/2, in.To-pitch/2)
		from, to = mid-pitch/2, mid+pitch/2
	}
	return []float64{from, to}
}

func evenly(from, to float64, n int) []float64 {
	var out []float64
	for i := range n {
		out = append(out, from+(to-from)*float64(i)/float64(n-1))
	}
	return out
}

// deepen gives the spots their depth: the middle, or for two across, and for two
// rows, the quarter points, pushed apart to their pitch.
func (a *arrangement) deepen(as count, pitch, rise float64) {
	if !as.deep() {
		for i := range a.spots {
			a.spots[i].z = rise / 2
		}
		return
	}
	half := clamp(rise/4, pitch/2, rise/2-a.z.From)
	var out []spot
	for _, p := range a.spots {
		out = append(out, spot{p.s, rise/2 - half}, spot{p.s, rise/2 + half})
	}
	a.spots = out
}

// moved gives the spots displaced, false when one leaves its room.
func (a arrangement) moved(ds, dz float64) (arrangement, bool) {
	out := a
	out.spots = nil
	for _, p := range a.spots {
		q := spot{p.s + ds, p.z + dz}
		if !inside(a.in, q.s) || !inside(a.z, q.z) {
			return a, false
		}
		out.spots = append(out.spots, q)
	}
	return out, true
}

func inside(i geom.Interval, x float64) bool { return x >= i.From-geom.Eps && x <= i.To+geom.Eps }

func clamp(x, least, most float64) float64 { return math.Max(least, math.Min(most, x)) }
