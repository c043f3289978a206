package layout

import (
	"cmp"
	"math"
	"slices"

	"bowerwright/geom"
)

// sameSpot is the grid, in mm, on which two heights or places count as equal
// when things are put in order: far below any mark on a tape, far above the
// error of a few turns in floating point, so that the order does not hang on
// the last bit.
const sameSpot = 0.01

// readingOrder sorts indices top row first, each row left to right. The highest
// one left starts a row; it takes in all whose centre is at most band lower.
// Equals keep their order.
func readingOrder(centres []geom.Point, band float64) []int {
	grid := func(v float64) float64 { return math.Round(v / sameSpot) }
	order := make([]int, len(centres))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(
			cmp.Compare(grid(centres[b].Y), grid(centres[a].Y)),
			cmp.Compare(grid(centres[a].X), grid(centres[b].X)))
	})
	for start := 0; start < len(order); {
		low := centres[order[start]].Y - band - sameSpot
		end := start + 1
		for end < len(order) && centres[order[end]].Y >= low {
			end++
		}
		slices.SortStableFunc(order[start:end], func(a, b int) int {
			return cmp.Compare(grid(centres[a].X), grid(centres[b].X))
		})
		start = end
	}
	return order
}

// numberFrames numbers frames from 1 as a page is read from the front. A row
// holds the frames whose centres lie less than a quarter of the median frame's
// height below its highest centre. The columns of a honeycomb are half a height
// apart, or three quarters when it stands on its corners, so they make rows of
// their own.
func numberFrames(frames []Frame) {
	centres := make([]geom.Point, len(frames))
	heights := make([]float64, len(frames))
	for i, f := range frames {
		centres[i], heights[i] = f.Centre, f.Box.Height()
	}
	slices.Sort(heights)
	for n, i := range readingOrder(centres, heights[len(heights)/2]/4) {
		frames[i].Number = n + 1
	}
}

// seamRow is how much lower a seam's middle may be than the first of its row,
// in mm: about what the eye calls level on a drawing of a wall.
const seamRow = 25.4

// numberSeams sorts seams into reading order of their middles and numbers them.
func (l *Layout) numberSeams() {
	byFrames(l.Seams, l.Frames, func(s Seam) [2]int { return [2]int{s.Sides[0].Frame, s.Sides[1].Frame} })
	middles := make([]geom.Point, len(l.Seams))
	for i, s := range l.Seams {
		middles[i] = s.Middle()
	}
	sorted := make([]Seam, len(l.Seams))
	for n, i := range readingOrder(middles, seamRow) {
		sorted[n] = l.Seams[i]
		sorted[n].Number = n + 1
	}
	l.Seams = sorted
}

// byFrames sorts things between two frames by the frames' numbers.
func byFrames[T any](list []T, frames []Frame, of func(T) [2]int) {
	slices.SortStableFunc(list, func(a, b T) int {
		fa, fb := of(a), of(b)
		return cmp.Or(
			cmp.Compare(frames[fa[0]].Number, frames[fb[0]].Number),
			cmp.Compare(frames[fa[1]].Number, frames[fb[1]].Number))
	})
}
