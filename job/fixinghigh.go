package job

import (
	"fmt"
	"slices"
	"strings"

	"bowerwright/layout"
)

// overheadNotes name what hangs over heads by one seam alone: two fixings that
// do not depend on each other are then wanted (common practice, no source).
// Over heads is what lies above an arch, or no lower than the head's height at
// which openings are measured.
func (p *planner) overheadNotes() {
	if len(p.built.Seams) == 0 {
		return
	}
	var list, more []string
	for _, b := range bridges(p.built) {
		if !slices.ContainsFunc(b.beyond, p.overHeads) {
			continue
		}
		var labels []string
		for _, i := range b.beyond {
			labels = append(labels, p.labels[i])
		}
		if slices.Sort(labels); len(list) == mostBridges {
			more = append(more, fmt.Sprint(b.seam))
			continue
		}
		list = append(list, fmt.Sprintf("%s by seam %d", listed(labels, mostHung), b.seam))
	}
	if len(more) > 0 {
		list = append(list, "what hangs by each of these seams: "+strings.Join(more, ", "))
	}
	if len(list) > 0 {
		p.note("one-fixing-overhead", "fixing", "over heads, and held by one seam alone: "+strings.Join(list, "; "),
			"Give each a second fixing that does not depend on the first: a seam with another frame, or a retaining line tied to frames that stand.")
	}
}

// A tall chain of frames hangs by every seam in it: so many are told with what
// hangs by them, and so many of that, before the rest goes by the seams' numbers.
const mostBridges, mostHung = 5, 5

// overHeads says whether people pass or stand under a frame: over an arch that
// they go through, what is no lower than a shoulder is over the next one's head.
func (p *planner) overHeads(i int) bool {
	f := p.built.Frames[i]
	low, high := p.set.heights[shoulder], p.set.heights[len(p.set.heights)-1]
	if f.Box.Min.Y >= high {
		return true
	}
	return f.Box.Min.Y >= low && slices.ContainsFunc(p.built.Frames, func(arch layout.Frame) bool {
		return arch.Open && arch.ID != f.ID && arch.Box.Max.Y >= low && f.Box.Max.X > arch.Box.Min.X && f.Box.Min.X < arch.Box.Max.X
	})
}

// shoulder is the place, among the heights at which openings are measured, of
// that below which nobody goes through an arch.
const shoulder = 2

// A bridge is a seam that alone carries what is beyond it.
type bridge struct {
	seam   int   // number
	beyond []int // frames, by index
}

// bridges finds the seams without which frames would have nothing to stand on:
// a walk through the seams from the standing frames, in which a frame that has
// no second way back is carried by one seam (Tarjan's low links, a textbook
// method).
func bridges(l layout.Layout) []bridge {
	w := walk{l: l, order: make([]int, len(l.Frames)), low: make([]int, len(l.Frames)), next: make([][][2]int, len(l.Frames)+1)}
	for i, s := range l.Seams {
		a, b := s.Sides[0].Frame, s.Sides[1].Frame
		w.next[a] = append(w.next[a], [2]int{b, i})
		w.next[b] = append(w.next[b], [2]int{a, i})
	}
	w.floor = standing(l)
	for _, t := range l.Tips {
		w.floor[t.Frame] = true
	}
	for i := range l.Frames {
		if w.floor[i] && w.order[i] == 0 {
			w.from(i)
		}
	}
	slices.SortFunc(w.out, func(a, b bridge) int { return a.seam - b.seam })
	return w.out
}

type walk struct {
	l          layout.Layout
	floor      map[int]bool
	order, low []int
	next       [][][2]int
	n          int
	stack      []step
	trail      []int // frames in the order they were found
	out        []bridge
}

// A step is a frame on the way, the seam it was reached by, and how many of its
// seams were followed.
type step struct{ frame, seam, done int }

// from walks from one frame without recursion: a row of thousands is as deep.
func (w *walk) from(start int) {
	w.find(start, -1)
	for len(w.stack) > 0 {
		at := &w.stack[len(w.stack)-1]
		if at.done == len(w.next[at.frame]) {
			w.back()
			continue
		}
		to := w.next[at.frame][at.done]
		at.done++
		switch {
		case to[1] == at.seam:
		case w.order[to[0]] == 0:
			w.find(to[0], to[1])
		default:
			w.low[at.frame] = min(w.low[at.frame], w.order[to[0]])
		}
	}
}

func (w *walk) find(frame, seam int) {
	w.n++
	w.order[frame], w.low[frame] = w.n, w.n
	if w.floor[frame] {
		w.low[frame] = 0 // the floor is a second way
	}
	w.trail = append(w.trail, frame)
	w.stack = append(w.stack, step{frame: frame, seam: seam})
}

// back leaves a frame: what was found since then and has no way round its seam
// hangs by it.
func (w *walk) back() {
	at := w.stack[len(w.stack)-1]
	w.stack = w.stack[:len(w.stack)-1]
	if len(w.stack) == 0 {
		return
	}
	before := w.stack[len(w.stack)-1].frame
	w.low[before] = min(w.low[before], w.low[at.frame])
	if w.low[at.frame] == w.order[at.frame] {
		i := slices.Index(w.trail, at.frame)
		w.out = append(w.out, bridge{w.l.Seams[at.seam].Number, slices.Clone(w.trail[i:])})
	}
}
