package layout

import (
	"math"

	"bowerwright/geom"
)

// A board is the outline of one side's wood in the plane: a convex quadrilateral
// between two mitres, counter-clockwise.
type board struct {
	corners geom.Polygon
	box     geom.Box
}

func boardsOf(f Frame) []board {
	boards := make([]board, f.Sides())
	n := len(f.Outside)
	for k := range boards {
		next := (k + 1) % n
		c := geom.Polygon{f.Outside[k], f.Outside[next], f.Inside[next], f.Inside[k]}
		if f.Move.Mirror {
			c[1], c[3] = c[3], c[1]
		}
		boards[k] = board{c, c.Box()}
	}
	return boards
}

// overlapOf measures the wood that two frames have in the same place. It is an
// overlap when some two boards bite deeper than the tolerance.
func overlapOf(a, b []board, tolerance float64) (Overlap, bool) {
	var o Overlap
	largest := 0.0
	for i := range a {
		for j := range b {
			if !a[i].box.Within(b[j].box, 0) {
				continue
			}
			d := depth(a[i].corners, b[j].corners)
			if d <= 0 {
				continue
			}
			o.Depth = max(o.Depth, d)
			piece := clip(a[i].corners, b[j].corners)
			if len(piece) < 3 {
				continue
			}
			area := piece.Area()
			o.Area += area
			if area > largest {
				largest, o.At = area, piece.Centroid()
			}
		}
	}
	return o, o.Depth > tolerance
}

// depth is the least shift that takes two convex outlines apart, or 0 when they
// are apart. By the separating axis theorem it is enough to look along the
// outward normals of both (Ericson, Real-Time Collision Detection, 5.2.1; from
// memory).
func depth(a, b geom.Polygon) float64 {
	return max(0, min(reachInto(a, b), reachInto(b, a)))
}

// reachInto is the least, over the edges of a, of how far b lies behind the edge.
func reachInto(a, b geom.Polygon) float64 {
	least := math.Inf(1)
	for i, c := range a {
		edge := a.Side(i).Vec()
		if edge == (geom.Point{}) {
			continue
		}
		inward := edge.Unit().Perp()
		most := math.Inf(-1)
		for _, p := range b {
			most = max(most, p.Sub(c).Dot(inward))
		}
		least = min(least, most)
	}
	return least
}

// clip cuts outline a down to what lies inside the convex counter-clockwise
// outline b, edge by edge (Sutherland and Hodgman 1974).
func clip(a, b geom.Polygon) geom.Polygon {
	for i, c := range b {
		a = clipHalf(a, c, b.Side(i).Vec())
	}
	return a
}

// clipHalf keeps what lies on the left of a line.
func clipHalf(a geom.Polygon, on, along geom.Point) geom.Polygon {
	kept := make(geom.Polygon, 0, len(a)+1)
	for i, p := range a {
		q := a[(i+1)%len(a)]
		sp, sq := along.Cross(p.Sub(on)), along.Cross(q.Sub(on))
		if sp >= 0 {
			kept = append(kept, p)
		}
		if sp > 0 && sq < 0 || sp < 0 && sq > 0 {
			kept = append(kept, p.Lerp(q, sp/(sp-sq)))
		}
	}
	return kept
}

func (o Overlap) problem(frames []Frame) Problem {
	f := frames[o.Frames[0]]
	return Problem{Code: Overlapping, Frame: f.ID, Place: f.Place, Attach: -1,
		Name: frames[o.Frames[1]].ID, Depth: o.Depth, Area: o.Area, At: o.At}
}
