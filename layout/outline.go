package layout

import (
	"cmp"
	"math"
	"slices"

	"bowerwright/geom"
)

// A bank is one frame's side of a seam, as a stretch of the way round its
// outline with the wood on the left, in mm from the outline's first corner.
type bank struct {
	seam     int
	from, to float64
}

// A round is the way round a frame's outline, counter-clockwise.
type round struct {
	corners geom.Polygon
	starts  []float64 // how far each corner is along the way, and the whole way last
	banks   []bank    // in order of from
}

// outline walks round the frames: along one until a seam begins, across it, on
// along the other from where that seam ends, and so on back to the start. Every
// seam's two sides are crossed once, so the walks are the boundaries of what the
// seams hold together: counter-clockwise round a group, clockwise round a void
// that frames enclose. Voids smaller than a near miss are the gaps where several
// seams end, and are left out. Frames that overlap or sit in another's opening
// keep an outline each.
func (l *Layout) outline() (outer, voids []geom.Polygon) {
	rounds := l.rounds()
	crossed := make(map[[2]int]bool, 2*len(l.Seams)) // frame and bank
	for i := range l.Frames {
		if len(rounds[i].banks) == 0 {
			outer = append(outer, slices.Clone(rounds[i].corners))
		}
		for b := range rounds[i].banks {
			if crossed[[2]int{i, b}] {
				continue
			}
			walk := l.walk(rounds, i, b, crossed)
			switch area := walk.Area(); {
			case area > 0:
				outer = append(outer, walk)
			case area < -narrowest*narrowest:
				voids = append(voids, walk)
			}
		}
	}
	return outer, voids
}

// walk starts where bank b of frame i ends and follows the boundary back there.
func (l *Layout) walk(rounds []round, i, b int, crossed map[[2]int]bool) geom.Polygon {
	var walk geom.Polygon
	for !crossed[[2]int{i, b}] {
		crossed[[2]int{i, b}] = true
		r := rounds[i]
		next := (b + 1) % len(r.banks)
		for _, p := range r.between(b, next) {
			if len(walk) == 0 || walk[len(walk)-1].Dist(p) > sameSpot {
				walk = append(walk, p)
			}
		}
		seam := r.banks[next].seam
		i = l.Seams[seam].otherSide(i)
		b = slices.IndexFunc(rounds[i].banks, func(k bank) bool { return k.seam == seam })
	}
	if n := len(walk); n > 1 && walk[0].Dist(walk[n-1]) <= sameSpot {
		walk = walk[:n-1]
	}
	return walk
}

func (s Seam) otherSide(frame int) int {
	if s.Sides[0].Frame == frame {
		return s.Sides[1].Frame
	}
	return s.Sides[0].Frame
}

// rounds prepares the way round every frame, with the banks of its seams.
func (l *Layout) rounds() []round {
	rounds := make([]round, len(l.Frames))
	for i, f := range l.Frames {
		rounds[i] = newRound(f)
	}
	for n, s := range l.Seams {
		if s.Sides[0].Inner || s.Sides[1].Inner {
			continue
		}
		for _, side := range s.Sides {
			rounds[side.Frame].addBank(l.Frames[side.Frame], n, side)
		}
	}
	for i := range rounds {
		slices.SortFunc(rounds[i].banks, func(a, b bank) int { return cmp.Compare(a.from, b.from) })
	}
	return rounds
}

func newRound(f Frame) round {
	r := round{corners: slices.Clone(f.Outside), starts: make([]float64, 1, len(f.Outside)+1)}
	if f.Move.Mirror {
		slices.Reverse(r.corners)
	}
	for k, c := range r.corners {
		r.starts = append(r.starts, r.starts[k]+c.Dist(r.corners[(k+1)%len(r.corners)]))
	}
	return r
}

// addBank turns a place along a side into one along the way. Reversed for a
// mirrored frame, corner n comes first: the way's k-th side is side n-k, the
// last one side n, and each is walked from its end to its start.
func (r *round) addBank(f Frame, seam int, side SeamSide) {
	n := len(r.corners)
	if !f.Move.Mirror {
		at := r.starts[side.Side-1]
		r.banks = append(r.banks, bank{seam, at + side.From, at + side.To})
		return
	}
	k := (2*n - side.Side - 1) % n
	r.banks = append(r.banks, bank{seam, r.starts[k+1] - side.To, r.starts[k+1] - side.From})
}

// between lists the points along the way from the end of bank b to the start of
// the next. Where that one starts before b has ended, by what neighbours may
// bite into each other, nothing lies between.
func (r round) between(b, next int) geom.Polygon {
	whole := r.starts[len(r.starts)-1]
	from := r.banks[b].to
	length := r.banks[next].from - from
	if next <= b { // on past the first corner
		length += whole
	}
	points := geom.Polygon{r.point(from)}
	if length <= 0 {
		return points
	}
	n := len(r.corners)
	for k := range 2 * n {
		at := r.starts[k%n] + whole*float64(k/n)
		if at > from+sameSpot && at < from+length-sameSpot {
			points = append(points, r.corners[k%n])
		}
	}
	return append(points, r.point(math.Mod(from+length, whole)))
}

func (r round) point(at float64) geom.Point {
	k, exact := slices.BinarySearch(r.starts, at)
	if exact {
		return r.corners[k%len(r.corners)]
	}
	k = min(max(k-1, 0), len(r.corners)-1)
	a, b := r.corners[k], r.corners[(k+1)%len(r.corners)]
	return a.Lerp(b, (at-r.starts[k])/(r.starts[k+1]-r.starts[k]))
}
