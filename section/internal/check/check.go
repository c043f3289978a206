// Package check goes over what section has found: whether sections keep to
// what is asked, and whether a refutation refutes. It imports nothing of
// section, counts with lists and not with bits, and asks the limits afresh.
package check

import (
	"errors"
	"fmt"
	"slices"
)

// A Seam joins two frames.
type Seam struct {
	A, B, Screws int
	Shop         bool
}

// A Problem is what sections must keep to; masses in kg.
type Problem struct {
	Frames          int
	Mass            []float64
	Seams           []Seam
	Together, Apart [][2]int
	Pass, Bear      func([]int) bool
	MassLimit       float64 // 0 is none
	Grain           float64 // by how much sums of masses may differ in rounding
}

// Sections looks over a plan: every frame once, limits kept, pairs honoured,
// site seams and screws counted.
func (p Problem) Sections(sections [][]int, siteSeams []int, screws int) error {
	home := make([]int, p.Frames)
	for i := range home {
		home[i] = -1
	}
	for s, frames := range sections {
		for _, f := range frames {
			if f < 0 || f >= p.Frames || home[f] >= 0 {
				return fmt.Errorf("frame %d is in two sections or is none", f)
			}
			home[f] = s
		}
		switch {
		case len(frames) == 0 || !slices.IsSorted(frames):
			return fmt.Errorf("section %d is empty or out of order", s)
		case p.tooMuch(frames):
			return fmt.Errorf("section %d is over a limit", s)
		case !p.connected(frames, frames):
			return fmt.Errorf("section %d is not in one piece", s)
		case p.Bear != nil && !p.Bear(frames):
			return fmt.Errorf("section %d does not bear being carried", s)
		}
	}
	if i := slices.Index(home, -1); i >= 0 {
		return fmt.Errorf("frame %d is in no section", i)
	}
	for _, q := range p.Together {
		if home[q[0]] != home[q[1]] {
			return fmt.Errorf("frames %d and %d were to be kept together", q[0], q[1])
		}
	}
	return p.counts(home, siteSeams, screws)
}

func (p Problem) counts(home, siteSeams []int, screws int) error {
	for i, s := range p.Seams {
		cut := home[s.A] != home[s.B]
		if cut != slices.Contains(siteSeams, i) {
			return fmt.Errorf("seam %d is wrongly counted", i)
		}
		if cut && s.Shop {
			return fmt.Errorf("seam %d can only be closed in the shop", i)
		}
		if cut {
			screws -= s.Screws
		}
	}
	if screws != 0 {
		return fmt.Errorf("the screws are miscounted by %d", screws)
	}
	return nil
}

// tooMuch says whether frames break a limit that all that hold them break too.
func (p Problem) tooMuch(frames []int) bool {
	for _, q := range p.Apart {
		if slices.Contains(frames, q[0]) && slices.Contains(frames, q[1]) {
			return true
		}
	}
	if p.MassLimit > 0 && p.mass(frames) > p.MassLimit+p.Grain {
		return true
	}
	return p.Pass != nil && !p.Pass(frames)
}

func (p Problem) mass(frames []int) float64 {
	var m float64
	for _, f := range frames {
		m += p.Mass[f]
	}
	return m
}

// connected says whether some frames are joined by seams among within.
func (p Problem) connected(some, within []int) bool {
	reached := p.reach(some[0], within)
	for _, f := range some {
		if !reached[f] {
			return false
		}
	}
	return true
}

func (p Problem) reach(from int, within []int) []bool {
	in, reached := make([]bool, p.Frames), make([]bool, p.Frames)
	for _, f := range within {
		in[f] = true
	}
	reached[from] = true
	for again := true; again; {
		again = false
		for _, s := range p.Seams {
			if in[s.A] && in[s.B] && reached[s.A] != reached[s.B] {
				reached[s.A], reached[s.B], again = true, true, true
			}
		}
	}
	return reached
}

// Refutation replays the tree by which so many sections were shown to be too
// few, and holds every end of it to one of the reasons that are reasons.
func (p Problem) Refutation(sections int, units [][]int, tree []int) error {
	if err := p.units(units); err != nil {
		return err
	}
	p.Pass, p.Bear = kept(p.Pass), kept(p.Bear)
	r := &replay{p: p, most: sections, units: units, tree: tree, placed: make([]bool, len(units))}
	if err := r.node(nil); err != nil {
		return err
	}
	if len(r.tree) != 0 {
		return errors.New("the tree goes on after its end")
	}
	return nil
}

// kept asks each question once: many ends of a tree rest on the same sections.
func kept(ask func([]int) bool) func([]int) bool {
	if ask == nil {
		return nil
	}
	answers := map[string]bool{}
	return func(frames []int) bool {
		key := make([]byte, len(frames))
		for i, f := range frames {
			key[i] = byte(f) // there are at most 64
		}
		a, known := answers[string(key)]
		if !known {
			a = ask(frames)
			answers[string(key)] = a
		}
		return a
	}
}

// units must hold every frame once, and may join only what cannot be parted.
func (p Problem) units(units [][]int) error {
	home := make([]int, p.Frames)
	for u, frames := range units {
		for _, f := range frames {
			home[f] += u + 1
		}
		if !p.bound(frames) {
			return fmt.Errorf("unit %d could be parted", u)
		}
	}
	seen := make([]int, p.Frames)
	for _, frames := range units {
		for _, f := range frames {
			seen[f]++
		}
	}
	for f, n := range seen {
		if n != 1 {
			return fmt.Errorf("frame %d is in %d units", f, n)
		}
	}
	return nil
}

func (p Problem) bound(frames []int) bool {
	q := Problem{Frames: p.Frames}
	for _, t := range p.Together {
		q.Seams = append(q.Seams, Seam{A: t[0], B: t[1]})
	}
	for _, s := range p.Seams {
		if s.Shop {
			q.Seams = append(q.Seams, s)
		}
	}
	return len(frames) > 0 && q.connected(frames, frames)
}

type replay struct {
	p      Problem
	most   int
	units  [][]int
	tree   []int
	placed []bool
}

func (r *replay) node(groups [][]int) error {
	if len(r.tree) == 0 {
		return errors.New("the tree breaks off")
	}
	u := r.tree[0]
	r.tree = r.tree[1:]
	if u == -1 {
		if !r.dead(groups) {
			return fmt.Errorf("nothing stands against %v", groups)
		}
		return nil
	}
	if u < 0 || u >= len(r.units) || r.placed[u] {
		return fmt.Errorf("unit %d cannot be placed", u)
	}
	r.placed[u] = true
	for i := range groups {
		next := slices.Clone(groups)
		next[i] = append(slices.Clone(groups[i]), r.units[u]...)
		slices.Sort(next[i])
		if err := r.node(next); err != nil {
			return err
		}
	}
	if len(groups) < r.most {
		if err := r.node(append(slices.Clone(groups), r.units[u])); err != nil {
			return err
		}
	}
	r.placed[u] = false
	return nil
}

// dead says whether no plan can come of these groups.
func (r *replay) dead(groups [][]int) bool {
	room := r.p.MassLimit * float64(r.most)
	for _, m := range r.p.Mass {
		room -= m
	}
	if r.p.MassLimit > 0 && room < -r.p.Grain*float64(r.most) {
		return true
	}
	return slices.ContainsFunc(groups, r.deadGroup)
}

func (r *replay) deadGroup(g []int) bool {
	if r.p.tooMuch(g) {
		return true
	}
	within := slices.Clone(g)
	var may [][]int
	for u, frames := range r.units {
		if r.placed[u] {
			continue
		}
		both := append(slices.Clone(g), frames...)
		slices.Sort(both)
		if !r.p.tooMuch(both) {
			may = append(may, frames)
			within = append(within, frames...)
		}
	}
	reached := r.p.reach(g[0], within)
	is := func(f int) bool { return reached[f] }
	for _, f := range g {
		if !reached[f] {
			return true
		}
	}
	if slices.ContainsFunc(may, func(frames []int) bool { return slices.ContainsFunc(frames, is) }) {
		return false
	}
	return r.p.Bear != nil && !r.p.Bear(g)
}
